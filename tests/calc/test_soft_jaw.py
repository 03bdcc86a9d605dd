"""Soft jaws: walls measured on polygons, clearance and pockets by trial, both sides of each verdict, each advice."""

import math
from typing import Any

import pytest
from shapely.geometry import LineString, box
from shapely.ops import unary_union

from calc.answer import VERDICTS
from calc.calculators.soft_given import given
from calc.calculators.soft_sums import findings, sums
from calc.catalogue import named, readings, work_out
from calc.quantity import Refused
from calc.show import plain
from tests.calc.random_inputs import random_inputs
from tests.calc.shapes import disc, rounded

JAWS = {"part_length": "60 mm", "part_width": "40 mm", "cutter_diameter": "6 mm", "jaw_gap": "6 mm"}


def values(base: dict[str, str] = JAWS, **changed: str) -> dict[str, Any]:
    """The values of an answer, some inputs changed."""
    found = work_out("soft-jaw", {**base, **changed}).values
    return {name: one.value for name, one in found.items()}


@pytest.mark.parametrize("p", ["0", "0.5", "2"])
@pytest.mark.parametrize("relief", ["", "5.6", "9"])
def test_walls_measured_in_the_whole_pocket(p: str, relief: str) -> None:
    """Shapely: pocket, four reliefs, jaws on their spacer. Walls left, bite and jaw behind are measured on them."""
    found = values(part_corner_radius=p, relief_diameter=relief, jaw_thickness="30", clearance_across="0.1")
    long, wide, q, a = 60.05, 40.1, found["relief_diameter"] / 2, found["relief_from_walls"]
    holes = [disc(x, y, q) for x in (a, long - a) for y in (a, wide - a)]
    face = (wide - 6) / 2
    block = box(-50, face - 30, 110, face)
    jaw = block.difference(unary_union([rounded(box(0, 0, long, wide), 3), *holes]))
    edge = jaw.boundary
    near = 0.002  # a polygon's arc leaves its tangent wall by less than this over a hair's breadth

    def flat(wall: LineString) -> float:
        return edge.intersection(wall.buffer(1e-6)).length

    assert flat(LineString([(0, 0), (long, 0)])) == pytest.approx(found["long_wall_left"], abs=0.03 + near)
    assert flat(LineString([(0, 0), (0, face)])) == pytest.approx(found["end_wall_left"], abs=0.03 + near)
    lowest = min(hole.bounds[1] for hole in holes)
    assert lowest - (face - 30) == pytest.approx(found["thinnest_jaw"], abs=1e-6)
    part = rounded(box(0, 0, 60, 40), float(p))
    assert part.intersection(jaw).area < 1e-4  # pushed against end wall and fixed jaw it touches, and no more


def test_what_clearance_does_to_a_corner() -> None:
    """Along the jaws, by trial: the part lies on the long wall and is shifted until a fillet is free of it.

    Across, none of it is left: the vice closes on the part, so the pocket is as wide as that.
    """
    for p in (0.0, 1.0, 2.5):
        for clearance in (0.05, 0.8, 1.0, 3.0, 6.0, 6.1):
            found = values(part_corner_radius=f"{p}", fit_clearance=f"{clearance}", reliefs="none")
            held = rounded(box(0, 0, 60 + clearance, 40), 3)  # the vice has closed on it
            part = rounded(box(clearance / 2, 0, 60 + clearance / 2, 40), p)
            seats = part.difference(held).area < 1e-4
            assert seats == (found["relief_needed"] == "no") == (found["seat_margin"] >= 0), (p, clearance)
    wide = [values(part_corner_radius="1", clearance_across=across)["relief_needed"] for across in ("0", "1", "5")]
    assert wide == ["yes"] * 3


def test_the_vice_takes_up_what_is_across() -> None:
    """By moving jaws: the fixed one stays, the other closes until the part is held."""
    found = values(clearance_across="0.4")
    fixed_wall, other_wall = 0.0, 40.4
    closed_by = other_wall - 40 - fixed_wall
    assert found["gap_held"] == pytest.approx(6 - closed_by)
    assert found["pocket_width"] == pytest.approx(other_wall)
    assert found["pocket_length"] == pytest.approx(60.05)
    step = next(
        one for one in work_out("soft-jaw", {**JAWS, "clearance_across": "0.4"}).working if "middle" in one.text
    )
    assert step.result == "0.2 mm" and (40.4 / 2 - 40 / 2) == pytest.approx(0.2)


def test_the_corner_is_the_corners_own_sum() -> None:
    """One number, one function: the same as asked of that calculator."""
    here = values(part_corner_radius="4", radial_depth="0.3")
    asked = {"cutter_diameter": "6", "corner_radius": "4", "pocket_width": "40.05", "radial_depth": "0.3"}
    there = work_out("corner-clearance", asked)
    for name in ("corner_engagement", "removal_rate_rise"):
        assert here[name] == there.values[name].value
    assert values()["corner_engagement"] == pytest.approx(90 + math.degrees(math.acos(1 - 0.2 / 3)))


@pytest.mark.parametrize("jaw", [60, 71.9, 73, 100, 150, 200, 333.3])
@pytest.mark.parametrize("wall", [0, 3, 5])
def test_pockets_side_by_side_by_placing_them(jaw: float, wall: float) -> None:
    """Placed one after the other, reliefs and all, with the wall wanted on both sides of each."""
    found = values(jaw_length=f"{jaw}", wall_wanted=f"{wall}")
    one, placed, at = 60.05 + 2 * (3 - 3 / math.sqrt(2)), 0, float(wall)
    while at + one + wall <= jaw + 1e-9:
        placed, at = placed + 1, at + one + wall
    assert found["parts_side_by_side"] == placed


@pytest.mark.parametrize(
    ("changed", "verdict", "part"),
    [
        ({}, "ok", "Plunge ⌀6 mm"),
        ({"part_corner_radius": "5 mm"}, "ok", "no reliefs"),
        ({"part_corner_radius": "3 mm"}, "stop", "times the metal"),
        ({"reliefs": "none"}, "stop", "does not seat"),
        ({"relief_diameter": "4.2 mm"}, "stop", "leaves metal"),
        ({"relief_diameter": "4.3 mm"}, "ok", "Plunge"),
        ({"fit_clearance": "0"}, "watch", "pressed in"),
        ({"fit_clearance": "0.2 mm"}, "ok", "Plunge"),
        ({"fit_clearance": "0.3 mm"}, "watch", "anywhere"),
        ({"jaw_gap": "27.4 mm"}, "ok", "Plunge"),
        ({"jaw_gap": "27.8 mm"}, "watch", "end wall"),
        ({"jaw_gap": "32 mm"}, "stop", "end walls"),
        ({"part_length": "17 mm"}, "ok", "Plunge"),
        ({"part_length": "16.8 mm"}, "watch", "long wall"),
        ({"part_length": "8 mm"}, "stop", "long walls"),
        ({"clearance_across": "5 mm"}, "ok", "Plunge"),
        ({"clearance_across": "5.1 mm"}, "watch", "between the jaws"),
        ({"clearance_across": "6 mm"}, "stop", "meet"),
        ({"jaw_thickness": "23 mm"}, "ok", "Plunge"),
        ({"jaw_thickness": "22.8 mm"}, "watch", "behind"),
        ({"jaw_thickness": "17 mm"}, "stop", "behind"),
        ({"jaw_height": "10 mm", "step_depth": "5 mm"}, "ok", "Plunge"),
        ({"jaw_height": "10 mm", "step_depth": "5.5 mm"}, "watch", "under"),
        ({"jaw_height": "10 mm", "step_depth": "11 mm"}, "stop", "under"),
        ({"part_height": "6 mm", "step_depth": "5 mm"}, "ok", "Plunge"),
        ({"part_height": "5.5 mm", "step_depth": "5 mm"}, "watch", "stands only"),
        ({"part_height": "5 mm", "step_depth": "5 mm"}, "watch", "no higher"),
        ({"jaw_length": "140 mm", "parts_wanted": "2"}, "ok", "Plunge"),
        ({"jaw_length": "138 mm", "parts_wanted": "2"}, "stop", "1 of 2"),
        ({"jaw_length": "60 mm"}, "stop", "None of 1"),
    ],
)
def test_both_sides_of_each_verdict(changed: dict[str, str], verdict: str, part: str) -> None:
    """Just enough and just not, one thing at a time."""
    found = work_out("soft-jaw", {**JAWS, **changed})
    assert (found.verdict, part in found.reason) == (verdict, True), found.reason
    assert bool(found.advice) == (verdict != "ok")


def told(typed: dict[str, str], verdict: str = "") -> set[str]:
    """What is found wrong, by name: all of it, or what has that verdict."""
    g = given(readings(named("soft-jaw"), typed))
    return {what for what, word, _ in findings(g, sums(g)) if word == verdict or not verdict}


def test_each_advice_mends_what_it_is_for() -> None:
    """Put back in as a tap does, in many random pockets: never worse, and what it was for is gone."""
    tried = 0
    for typed in random_inputs("soft-jaw", 3, 400):
        try:
            before = work_out("soft-jaw", typed)
        except Refused:
            continue
        for one in (way for way in before.advice if way.input):
            kept = {name: before.inputs[name].typed for name in ("clearance_across", "radial_depth")}
            value = one.value if isinstance(one.value, str) else plain(one.value, one.unit)
            then = {**typed, **kept, str(one.input): value}
            after = work_out("soft-jaw", then)
            assert VERDICTS.index(after.verdict) <= VERDICTS.index(before.verdict), (typed, one)
            gone = told(typed) - told(then)
            assert told(then) < told(typed) and gone & told(typed, before.verdict), (typed, one)
            tried += 1
    assert tried > 60


@pytest.mark.parametrize(
    ("changed", "inputs"),
    [
        ({"reliefs": "none"}, {"reliefs"}),
        ({"reliefs": "none", "part_corner_radius": "2.2 mm"}, {"reliefs", "cutter_diameter"}),
        ({"relief_diameter": "4 mm"}, {"relief_diameter"}),
        ({"jaw_gap": "32 mm"}, {"jaw_gap", "cutter_diameter"}),
        ({"part_length": "12 mm"}, {"cutter_diameter"}),
        ({"clearance_across": "6 mm"}, {"clearance_across", "jaw_gap"}),
        ({"jaw_thickness": "20 mm"}, {"jaw_thickness", "jaw_gap"}),
        ({"jaw_height": "8 mm", "step_depth": "5 mm"}, {"jaw_height", "step_depth"}),
        ({"jaw_length": "100 mm", "parts_wanted": "2"}, {"jaw_length", "parts_wanted"}),
        ({"fit_clearance": "0"}, {"fit_clearance"}),
        ({"part_height": "5 mm", "step_depth": "5 mm"}, {"step_depth"}),
        ({"part_corner_radius": "3 mm"}, {"cutter_diameter"}),
    ],
)
def test_one_fault_is_mended_whole(changed: dict[str, str], inputs: set[str]) -> None:
    """Where there is one fault, what is advised leaves none; and these are the ways out that are told."""
    typed = {**JAWS, **changed}
    advised = [one for one in work_out("soft-jaw", typed).advice if one.input]
    assert inputs <= {one.input for one in advised}
    for one in advised:
        value = one.value if isinstance(one.value, str) else plain(one.value, one.unit)
        after = work_out("soft-jaw", {**typed, str(one.input): value})
        assert after.verdict == "ok", (one, after.reason)


@pytest.mark.parametrize(
    ("changed", "field"),
    [
        ({"part_corner_radius": "20.5 mm"}, "part_corner_radius"),
        ({"cutter_diameter": "41 mm"}, "cutter_diameter"),
        ({"jaw_gap": "40.05 mm"}, "jaw_gap"),
        ({"radial_depth": "1.6 mm"}, "radial_depth"),
        ({"corner_room": "1.6 mm"}, "corner_room"),
    ],
)
def test_what_cannot_be_is_refused_on_its_field(changed: dict[str, str], field: str) -> None:
    """One plain line."""
    with pytest.raises(Refused) as told:
        work_out("soft-jaw", {**JAWS, **changed})
    assert told.value.field == field and "\n" not in told.value.message


def test_order_and_extremes() -> None:
    """A larger cutter eats more; a rounder part less; a huge part with a hair's cutter keeps its walls."""
    eaten = [values(cutter_diameter=size)["wall_eaten"] for size in ("2", "4", "6", "10")]
    assert eaten == sorted(eaten) and eaten[0] == pytest.approx(math.sqrt(2))
    rounder = [values(part_corner_radius=radius)["wall_eaten"] for radius in ("0", "1", "2")]
    assert rounder == sorted(rounder, reverse=True)
    huge = values(part_length="1000", part_width="1000", cutter_diameter="0.1")
    assert huge["long_wall_left"] == pytest.approx(1000.05 - 0.1 * math.sqrt(2))
    end = values(part_length="40", part_width="6", part_corner_radius="3", jaw_gap="2")
    assert end["relief_needed"] == "no" and end["corner_engagement"] > 90


def test_order_of_work_and_several_parts_are_cautioned() -> None:
    """Reliefs first where the corner would be bad; of several parts only the widest is held."""
    told = " ".join(work_out("soft-jaw", {**JAWS, "parts_wanted": "2"}).cautions)
    assert "before the finishing pass" in told and "widest" in told
    gentle = " ".join(work_out("soft-jaw", {**JAWS, "part_corner_radius": "5"}).cautions)
    assert "finishing pass" not in gentle and "widest" not in gentle
    assert work_out("soft-jaw", dict(named("soft-jaw").example)).verdict == "ok"


def test_a_part_high_over_a_shallow_pocket_is_cautioned() -> None:
    """79 mm out of a step of 1 mm: no fault of the pocket, but the vice's own sum is pointed to. 15 of 5 is let be."""
    high = {**JAWS, "step_depth": "1", "part_height": "80", "jaw_height": "40", "jaw_thickness": "30"}
    (warned,) = (one for one in work_out("soft-jaw", high).cautions if "tips the part out" in one)
    assert "79 mm stand out of a pocket 1 mm deep" in warned and named("clamping").title in warned
    for height, count in (("20", 0), ("20.1", 1)):
        cautions = work_out("soft-jaw", {**JAWS, "step_depth": "5", "part_height": height}).cautions
        assert sum("tips the part out" in one for one in cautions) == count


def test_a_shorter_pocket_is_not_advised_where_it_takes_no_cutter() -> None:
    """Clearance across left empty follows that along: the pocket would be narrower than cutter or spacer."""
    tight = {"part_length": "42.9", "part_width": "19.2", "part_corner_radius": "3", "cutter_diameter": "20",
             "jaw_gap": "19.21", "jaw_thickness": "26.45", "jaw_length": "100", "fit_clearance": "1",
             "corner_room": "0.2"}  # fmt: skip
    assert "fit_clearance" not in {one.input for one in work_out("soft-jaw", tight).advice}
    with pytest.raises(Refused):
        work_out("soft-jaw", {**tight, "fit_clearance": "0.05"})
    only = {**tight, "part_corner_radius": "9.6", "jaw_gap": "19.3", "cutter_diameter": "6"}  # nor the spacer
    found = work_out("soft-jaw", only)
    assert "anywhere" in found.reason and "fit_clearance" not in {one.input for one in found.advice}
    across = work_out("soft-jaw", {**only, "clearance_across": "0.9"})
    assert "fit_clearance" in {one.input for one in across.advice}
