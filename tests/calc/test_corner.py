"""The corner calculator: limits, verdicts, ways out, and the drawing."""

import math
import re
from typing import Any

import pytest

from calc.catalogue import work_out
from calc.quantity import Refused
from calc.show import plain

PATH = re.compile(r'<path class="engaged" data-engagement="([\d.]+)" d="M([\d.-]+) ([\d.-]+) L([\d.-]+) ([\d.-]+) '
                  r'A([\d.]+) [\d.]+ 0 (\d) (\d) ([\d.-]+) ([\d.-]+) Z"')  # fmt: skip


def corner(**typed: str) -> Any:
    """The Answer for a corner."""
    return work_out("corner-clearance", typed)


def value(name: str, **typed: str) -> Any:
    """One value of it."""
    return corner(**typed).values[name].value


def test_a_six_millimetre_cutter_in_a_hardly_wider_pocket_digs_in() -> None:
    """Common practice, no source: three quarters of a millimetre wider, and it digs in at the corners.

    Never ok at an even feed, and all three ways out have numbers.
    """
    for width in ("6.7 mm", "6.75 mm", "6.8 mm"):
        found = corner(cutter_diameter="6 mm", pocket_width=width, radial_depth="0.35 mm", feed_rate="600 mm/min")
        assert found.verdict == "stop"
        assert [one.input for one in found.advice] == ["cutter_diameter", "pocket_width", "corner_feed_rate"]
        assert all(isinstance(one.value, float) for one in found.advice)


def test_the_sentence_to_remember() -> None:
    """A 6 mm cutter in a 6.8 mm slot: 3.2 mm off a straight wall, not 0.4 (own derivation, by hand: r(1 + 1/15))."""
    found = corner(cutter_diameter="6 mm", pocket_width="6.8 mm", radial_depth="0.4 mm")
    assert found.reason.startswith("In the corner this is like taking 3.2 mm off a straight wall, not 0.4 mm")
    assert found.values["like_straight_depth"].value == pytest.approx(3.2, rel=1e-12)


@pytest.mark.parametrize(
    "typed",
    [
        {"cutter_diameter": "6 mm", "pocket_width": "6.8 mm", "feed_rate": "600 mm/min"},
        {"cutter_diameter": "6 mm", "pocket_width": "6.8 mm"},
        {"cutter_diameter": "6 mm", "pocket_width": "7 mm", "radial_depth": "0.4 mm"},
        {"cutter_diameter": "3/8 in", "corner_radius": "5 mm", "radial_depth": "0.5 mm", "feed_rate": "900 mm/min"},
        {"cutter_diameter": "10 mm", "corner_radius": "5 mm", "radial_depth": "0.2 mm", "feed_rate": "1 m/min"},
        {"cutter_diameter": "10 mm", "corner_radius": "6 mm", "pocket_width": "40 mm", "radial_depth": "0.5 mm"},
    ],
)
def test_what_is_advised_mends_it(typed: dict[str, str]) -> None:
    """Each number, put into its box with the stock kept, leaves nothing to watch, or says beforehand that it does."""
    before = corner(**typed)
    assert before.verdict != "ok"
    assert before.advice
    for one in before.advice:
        if one.input:
            kept = {"radial_depth": before.inputs["radial_depth"].typed, **typed}
            after = corner(**{**kept, one.input: plain(one.value, one.unit)})
            assert after.values["removal_rate_rise"].value <= 4, one.text
            assert after.verdict == ("watch" if "still to watch" in one.text else "ok"), one.text


def test_a_large_corner_is_a_straight_wall() -> None:
    """R far beyond r: every rise tends to one, and the angle to that of the wall."""
    found = corner(cutter_diameter="6 mm", corner_radius="3 m", radial_depth="0.4 mm").values
    for name in ("removal_rate_rise", "chip_thickness_rise", "wall_travel_rise"):
        assert found[name].value == pytest.approx(1, abs=2e-3)
    assert found["corner_engagement"].value == pytest.approx(found["straight_engagement"].value, rel=2e-3)


def test_a_corner_as_large_as_the_cutter() -> None:
    """R = r: a quarter turn plus the angle on the wall; wall travel has no bound and says why."""
    found = corner(cutter_diameter="10 mm", corner_radius="5 mm", radial_depth="0.5 mm").values
    assert found["corner_engagement"].value == pytest.approx(90 + found["straight_engagement"].value)
    assert found["wall_travel_rise"].value is None and found["wall_travel_rise"].why


def test_a_cutter_that_does_not_fit() -> None:
    """Larger than the corner: stop, what exists has its value, the rest says why not."""
    found = corner(cutter_diameter="12 mm", corner_radius="5 mm", radial_depth="0.5 mm")
    assert found.verdict == "stop" and "does not fit" in found.reason
    assert found.values["radius_ratio"].value == pytest.approx(5 / 6)
    assert found.values["corner_engagement"].value is None and found.values["corner_engagement"].why


def test_a_slower_corner_feed_scales_all_three_rises() -> None:
    """An eighth of the feed: the metal of the straight, and the advised feeds are not divided again."""
    slot = {"cutter_diameter": "6 mm", "pocket_width": "6.8 mm", "feed_rate": "800 mm/min"}
    even, slow = corner(**slot).values, corner(**slot, corner_feed_rate="100 mm/min").values
    for name in ("removal_rate_rise", "chip_thickness_rise", "wall_travel_rise", "like_straight_depth"):
        assert slow[name].value == pytest.approx(even[name].value / 8)
    for name in ("feed_rate_for_removal", "feed_rate_for_chip"):
        assert slow[name].value == even[name].value


def test_reachable_feed() -> None:
    """A centre path of 0.4 mm at 1 m/s2: 20 mm/s, by v^2 = a rho."""
    feed = value("feed_rate_reachable", cutter_diameter="6 mm", pocket_width="6.8 mm", acceleration="1 m/s2")
    assert feed == pytest.approx(60 * math.sqrt(1000 * 0.4))


@pytest.mark.parametrize("share", [1.02, 1.1, 1.3, 2.0, 4.0])
def test_the_tighter_the_corner_the_more_metal(share: float) -> None:
    """Rises fall as the corner grows, and grow with a larger rougher."""
    typed = {"cutter_diameter": "10 mm", "radial_depth": "0.5 mm"}
    here = value("removal_rate_rise", corner_radius=f"{5 * share} mm", **typed)
    wider = value("removal_rate_rise", corner_radius=f"{5.2 * share} mm", **typed)
    rougher = value("removal_rate_rise", corner_radius=f"{5 * share} mm", roughing_cutter_diameter="60 mm", **typed)
    assert wider < here <= rougher


def test_inches_and_millimetres_agree() -> None:
    """The same corner in both."""
    metric = corner(cutter_diameter="6.35 mm", corner_radius="5.08 mm", radial_depth="0.254 mm").values
    inch = corner(cutter_diameter="1/4 in", corner_radius="0.2 in", radial_depth="0.01 in").values
    assert {name: one.value for name, one in metric.items()} == {name: one.value for name, one in inch.items()}


def test_half_the_width_is_a_round_end_whichever_way_it_is_given() -> None:
    """R = W/2: one turn of 180 degrees, steady throughout."""
    alone = corner(cutter_diameter="6 mm", pocket_width="6.5 mm").values
    both = corner(cutter_diameter="6 mm", pocket_width="6.5 mm", corner_radius="3.25 mm", radial_depth="0.25 mm").values
    assert alone["corner_engagement"].value == both["corner_engagement"].value


@pytest.mark.parametrize(
    ("typed", "field"),
    [
        ({"cutter_diameter": "6 mm"}, "corner_radius"),
        ({"cutter_diameter": "6 mm", "corner_radius": "4 mm"}, "radial_depth"),
        ({"cutter_diameter": "6 mm", "pocket_width": "6 mm"}, "radial_depth"),
        ({"cutter_diameter": "6 mm", "pocket_width": "8 mm", "corner_radius": "5 mm"}, "corner_radius"),
        ({"cutter_diameter": "6 mm", "corner_radius": "4 mm", "radial_depth": "5 mm"}, "radial_depth"),
        ({"cutter_diameter": "6 mm", "pocket_width": "9 mm", "corner_feed_rate": "9 mm/min"}, "feed_rate"),
        (
            {"cutter_diameter": "6 mm", "pocket_width": "9 mm", "roughing_cutter_diameter": "8 mm"},
            "roughing_cutter_diameter",
        ),
        ({"pocket_width": "9 mm"}, "cutter_diameter"),
        ({"cutter_diameter": "6 mm", "pocket_wdth": "9 mm"}, "pocket_wdth"),
    ],
)  # fmt: skip
def test_contradictions_are_refused_on_their_field(typed: dict[str, str], field: str) -> None:
    """One plain line on the box that must change."""
    with pytest.raises(Refused) as refused:
        corner(**typed)
    assert refused.value.field == field and "\n" not in refused.value.message


@pytest.mark.parametrize(
    "typed",
    [
        {"cutter_diameter": "6 mm", "pocket_width": "6.8 mm"},
        {"cutter_diameter": "6 mm", "corner_radius": "300 mm", "radial_depth": "0.1 mm"},
        {"cutter_diameter": "10 mm", "corner_radius": "5 mm", "radial_depth": "5 mm"},
        {"cutter_diameter": "10 mm", "corner_radius": "6 mm",
         "radial_depth": "0.5 mm", "roughing_cutter_diameter": "16 mm"},
        {"cutter_diameter": "10 mm", "corner_radius": "6 mm", "radial_depth": "0.5 mm", "corner_angle": "120"},
    ],
)  # fmt: skip
def test_the_drawn_arc_is_the_answer(typed: dict[str, str]) -> None:
    """The angle read back from the coordinates of the filled arcs is the engagement."""
    found = corner(**typed)
    arcs = PATH.findall(found.drawing)
    assert arcs
    drawn = sum(_angle(*map(float, arc[1:5]), *map(float, arc[8:10]), int(arc[6])) for arc in arcs)
    assert drawn == pytest.approx(found.values["corner_engagement"].value, abs=0.01)
    assert sum(float(arc[0]) for arc in arcs) == pytest.approx(found.values["corner_engagement"].value, abs=1e-5)


def _angle(x: float, y: float, x1: float, y1: float, x2: float, y2: float, large: int) -> float:
    """Degrees between two points of a circle about (x, y); `large` as SVG has it."""
    turn = abs(math.degrees(math.atan2(y1 - y, x1 - x) - math.atan2(y2 - y, x2 - x))) % 360
    turn = min(turn, 360 - turn)
    return 360 - turn if large else turn
