"""Heights, grip, tool length and faces: by hand, against a geometry library, by brute force, and the usual slips."""

import math
import random
from typing import Any

import pytest
from shapely import affinity
from shapely.geometry import Polygon, box

from calc.catalogue import work_out
from calc.formulas.holding import holding_moment
from calc.formulas.setting import point_length
from calc.formulas.uncertainty import combined, coverage_factor, rectangular
from calc.quantity import Refused
from calc.show import plain

STACK = {"part_height": "25 mm", "parallel_height": "30 mm", "grip_height": "8 mm", "lowest_cut": "16 mm"}
TOUCH = {"reading": "-212.4 mm", "touched": "setting_block", "reference_height": "50 mm"}
EDGE = {"approach": "+X", "reading": "-182.4 mm", "finder_diameter": "10 mm"}
GRIP = {"peak_force": "900 N", "clamp_force": "12000 N", "grip_height": "3 mm", "force_height": "27 mm",
        "part_width": "60 mm"}  # fmt: skip


def values(name: str, base: dict[str, str], **changed: str) -> Any:
    """The values of an answer with some inputs changed."""
    return work_out(name, {**base, **changed}).values


def test_heights_against_a_geometry_library() -> None:
    """Cutter and jaw as polygons: their distance is the room said, an overlap its depth; own geometry, shapely 2."""
    chance = random.Random(4)
    for _ in range(200):
        part, seat, grip, cut = (round(chance.uniform(*ends), 2) for ends in ((10, 60), (5, 40), (2, 9), (0, 10)))
        found = values("heights", {}, part_height=f"{part}", parallel_height=f"{seat}", grip_height=f"{grip}",
                       lowest_cut=f"{cut}")["jaw_clearance"].value  # fmt: skip
        jaw = box(-40, 0, -20, seat + grip)
        cutter = box(-35, seat + part - cut, -25, seat + part + 50)
        if found >= 0:
            assert cutter.distance(jaw) == pytest.approx(found, abs=1e-9)
        else:
            assert cutter.intersection(jaw).area == pytest.approx(10 * -found)


def test_a_drill_over_a_parallel_is_seen() -> None:
    """7 mm from the jaw with 8.5 mm: the drill begins 2.75 mm from it, a parallel of 4 mm is in its way."""
    over = work_out("heights", {**STACK, "hole_breakthrough": "4 mm", "hole_from_jaw": "7 mm",
                                "drill_diameter": "8.5 mm", "parallel_thickness": "4 mm"})  # fmt: skip
    assert over.verdict == "stop" and "parallel" in over.reason
    drill, parallel = box(7 - 4.25, 0, 7 + 4.25, 40), box(0, 0, 4, 30)
    assert over.values["parallel_clearance"].value == pytest.approx(-drill.intersection(parallel).area / 30)
    for one in over.advice:
        if one.input:
            assert "runs" not in work_out("heights", {**STACK, "hole_breakthrough": "4 mm", "hole_from_jaw": "7 mm",
                "drill_diameter": "8.5 mm", one.input: plain(one.value, one.unit)}).reason  # fmt: skip


@pytest.mark.parametrize(
    ("changed", "verdict", "part"),
    [
        ({}, "ok", "above the jaws"),
        ({"lowest_cut": "16.5 mm"}, "watch", "Only"),
        ({"lowest_cut": "18 mm"}, "stop", "into the jaws"),
        ({"stick_out": "12 mm"}, "stop", "holder"),
        ({"flute_length": "10 mm"}, "stop", "shank"),
        ({"hole_breakthrough": "31 mm"}, "stop", "bed"),
    ],
)
def test_heights_say_what_hits(changed: dict[str, str], verdict: str, part: str) -> None:
    """Each collision is named."""
    found = work_out("heights", {**STACK, **changed})
    assert (found.verdict, part in found.reason) == (verdict, True), found.reason


def test_jaws_by_grip_or_by_their_height() -> None:
    """Both ways give one answer; both given must agree; none is refused."""
    one = values("heights", STACK)["jaw_clearance"].value
    without = {key: text for key, text in STACK.items() if key != "grip_height"}
    assert values("heights", without, jaw_height="38 mm")["jaw_clearance"].value == pytest.approx(one)
    with pytest.raises(Refused, match="agree"):
        work_out("heights", {**STACK, "jaw_height": "45 mm"})
    with pytest.raises(Refused, match="grip_height"):
        work_out("heights", without)


def test_slip_and_tip_by_hand() -> None:
    """2 x 0.12 x 12000 = 2880 N; (11100)(3 + 0.12 x 60) = 113220 N mm against 900 x 27 x 2.5."""
    found = values("clamping", GRIP)
    assert found["slip_limit"].value == pytest.approx(2880)
    assert found["margin"].value == pytest.approx(2880 / 2250)
    assert found["tip_margin"].value == pytest.approx(113220 / 60750)


def test_tipping_is_the_least_that_statics_allows() -> None:
    """Second method: the largest moment that any admissible contact forces can give, searched over a grid.

    The free jaw presses with F - P somewhere on the grip (0 to g above its foot) and rubs with up to mu times that.
    """
    clamp, push, grip, width, friction = 8000.0, 700.0, 6.0, 40.0, 0.15
    places = [grip * n / 400 for n in range(401)]
    shares = [friction * n / 50 for n in range(-50, 51)]
    best = max((clamp - push) * ((grip - at) + share * width) for at in places for share in shares)
    assert holding_moment(clamp, push, grip, width, friction) == pytest.approx(best)


def test_grip_limits() -> None:
    """No height, no tipping; a push over the vice's force holds nothing; more friction, grip or force holds more."""
    assert values("clamping", GRIP, force_height="0")["tip_margin"].value is None
    assert values("clamping", GRIP, peak_force="13000 N")["tip_margin"].value == 0
    for key, steps in {"clamp_force": (6000, 9000, 15000), "jaw_friction": (0.05, 0.1, 0.3)}.items():
        margins = [values("clamping", GRIP, **{key: str(one)})["margin"].value for one in steps]
        assert margins == sorted(margins)


def test_the_force_said_is_enough_and_no_less() -> None:
    """Round trip: with the force needed the smaller margin is one."""
    for height in ("5 mm", "27 mm", "80 mm"):
        needed = values("clamping", GRIP, force_height=height)["needed_clamp_force"].value
        again = values("clamping", GRIP, force_height=height, clamp_force=f"{needed!r} N")
        assert min(again["margin"].value, again["tip_margin"].value) == pytest.approx(1)


def test_a_screw_by_the_work_of_a_turn() -> None:
    """60 N m through a turn is 2 pi 60 J; a fifth of that over 5 mm."""
    by_handle = {key: text for key, text in GRIP.items() if key != "clamp_force"} | {"handle_torque": "60 N*m"}
    assert values("clamping", by_handle)["clamp_force"].value == pytest.approx(0.2 * 2 * math.pi * 60 / 0.005)


@pytest.mark.parametrize(
    ("entered", "part"),
    [
        ("-212.4 mm", "was not taken off"),
        ("-312.4 mm", "twice"),
        ("262.4 mm", "sign of the other convention"),
        ("-250 mm", "Touch again"),
    ],
)
def test_the_usual_slips_of_a_tool_length(entered: str, part: str) -> None:
    """The right offset is -262.4; each slip is named and the tip told to be high or deep by as much."""
    found = work_out("tool-length", {**TOUCH, "entered_offset": entered})
    assert found.verdict == "stop" and part in found.reason
    out = float(entered.split()[0]) + 262.4
    assert found.values["offset_error"].value == pytest.approx(out)
    assert ("too deep" in found.reason) == (out < 0)
    assert found.values["tip_above_work_zero"].value == pytest.approx(50 + out)


def test_a_right_tool_length_says_nothing() -> None:
    """Also in inches, and with a work Z."""
    assert work_out("tool-length", {**TOUCH, "entered_offset": "-262.4 mm"}).verdict == "ok"
    inch = values("tool-length", {}, reading="-8 in", reference_height="2 in", touched="setting_block")
    assert inch["length_offset"].value == pytest.approx(-254)
    both = values("tool-length", TOUCH, work_offset_z="-300 mm", convention="length_from_gauge_line")
    assert both["length_offset"].value == pytest.approx(37.6)


def test_the_work_z_counted_twice() -> None:
    """The offset was taken without it."""
    found = work_out("tool-length", {**TOUCH, "work_offset_z": "-120 mm", "entered_offset": "-262.4 mm"})
    assert "counted twice" in found.reason


def test_two_tools_and_a_ruler() -> None:
    """One touched on the block, one on the part: the rulers tell by the height of the block."""
    wrong = work_out("tool-length", {**TOUCH, "second_reading": "-252.4 mm", "ruler_length": "60 mm",
                                     "second_ruler_length": "70 mm"})  # fmt: skip
    assert wrong.values["difference_between_tools"].value == pytest.approx(-40)
    assert wrong.verdict == "stop" and "height of what was touched" in wrong.reason
    right = work_out("tool-length", {**TOUCH, "second_reading": "-202.4 mm", "ruler_length": "60 mm",
                                     "second_ruler_length": "70 mm"})  # fmt: skip
    assert right.verdict == "ok"


def test_what_was_touched_must_be_known() -> None:
    """A block without its height is refused; the part itself is work zero."""
    with pytest.raises(Refused, match="reference_height"):
        work_out("tool-length", {"reading": "-200 mm"})
    assert values("tool-length", {"reading": "-200 mm", "touched": "part"})["length_offset"].value == -200


@pytest.mark.parametrize(
    ("approach", "reading", "face"), [("+X", "-25", -20.0), ("-X", "25", 20.0), ("+Y", "0", 5.0), ("-Y", "0", -5.0)]
)
def test_faces_by_hand(approach: str, reading: str, face: float) -> None:
    """Touched moving +: reading + r; moving -: reading - r."""
    found = values("edge-find", EDGE, approach=approach, reading=reading)
    assert found["face_position"].value == pytest.approx(face)
    assert found["this_face_should_read"].value == pytest.approx(float(reading) - face)


@pytest.mark.parametrize("way", [1, -1])
def test_faces_against_a_geometry_library(way: int) -> None:
    """A disc moved up to a block touches it where the sum says."""
    tip = Polygon([(5 * math.cos(a / 500 * math.pi), 5 * math.sin(a / 500 * math.pi)) for a in range(1000)])
    reading = -37.3
    face = values("edge-find", EDGE, approach="+X" if way > 0 else "-X", reading=str(reading))["face_position"].value
    block = box(*sorted((face, face + way * 40))[:1], -50, sorted((face, face + way * 40))[1], 50)
    assert affinity.translate(tip, reading).distance(block) == pytest.approx(0, abs=1e-9)
    assert affinity.translate(tip, reading - way).distance(block) == pytest.approx(1, abs=1e-9)


@pytest.mark.parametrize(
    ("entered", "part"),
    [("-182.4", "was forgotten"), ("-187.4", "wrong sign"), ("-172.4", "twice"), ("-190", "Touch again")],
)
def test_the_usual_slips_of_an_edge(entered: str, part: str) -> None:
    """The face is at -177.4."""
    found = work_out("edge-find", {**EDGE, "entered_zero": entered})
    assert found.verdict == "stop" and part in found.reason


@pytest.mark.parametrize(
    ("one", "two", "inside"), [("-25", "25", False), ("25", "-25", True)], ids=["outside", "inside"]
)
def test_width_and_middle(one: str, two: str, inside: bool) -> None:
    """Outside the tip is taken off once, inside it is added once; the middle knows no tip."""
    found = values("edge-find", EDGE, reading=one, second_reading=two)
    assert found["width_found"].value == pytest.approx(60 if inside else 40)
    assert found["centre"].value == 0
    other = values("edge-find", EDGE, reading=one, second_reading=two, finder_diameter="4 mm")
    assert other["centre"].value == 0 and other["width_found"].value == pytest.approx(54 if inside else 46)


@pytest.mark.parametrize(
    ("known", "extra", "part"),
    [("50", {}, "taken off already"), ("60", {}, "sides are mixed up"), ("30", {}, "whole finder is missing"),
     ("34", {"body_diameter": "16 mm"}, "body"), ("37", {}, "would fit a tip of 13 mm")],
)  # fmt: skip
def test_a_known_width_tells_the_slip(known: str, extra: dict[str, str], part: str) -> None:
    """40 mm is found."""
    found = work_out("edge-find", {**EDGE, "reading": "-25", "second_reading": "25", "known_width": known, **extra})
    assert found.verdict == "stop" and part in found.reason, found.reason


def test_a_sawn_face_is_good_to_centre_roughly() -> None:
    """Common practice, no source: half a millimetre of saw marks; JCGM 100 4.3.7 and 5.1.2 for how it adds up."""
    found = work_out("edge-find", {**EDGE, "surface_defect": "0.8 mm"})
    assert found.verdict == "watch" and "roughly" in found.reason
    parts = [0.005, rectangular(0.8), rectangular(0.01), rectangular(0.001)]
    assert found.values["expanded_uncertainty"].value == pytest.approx(coverage_factor(0.95) * combined(parts))


def test_run_out_by_kind_of_finder() -> None:
    """A fixed stylus keeps the whole swing, turned round between touches none; a plain pin touches early."""
    two = {**EDGE, "second_reading": "0", "run_out": "0.1 mm"}
    by = {
        key: values("edge-find", two, **extra)["expanded_uncertainty"].value
        for key, extra in {
            "fixed": {"finder_kind": "fixed_stylus"},
            "turned": {"finder_kind": "fixed_stylus", "turned_between": "yes"},
            "kicking": {"finder_kind": "kicking"},
        }.items()
    }
    assert by["turned"] < by["kicking"] < by["fixed"]
    assert by["fixed"] > 1.9 * rectangular(0.1)
    pin = values("edge-find", EDGE, finder_kind="plain_pin", run_out="0.1 mm")["face_position"].value
    assert pin == pytest.approx(-177.4 + 0.05)


def test_uncertainty_by_trials() -> None:
    """Second method, JCGM 101: 40,000 drawn trials of scatter, face and lost motion cover 95 % within what is said."""
    chance = random.Random(1)
    said = values("edge-find", EDGE, surface_defect="0.1 mm", run_out="0", lost_motion="0.02 mm")
    limit = said["expanded_uncertainty"].value
    drawn = [chance.gauss(0, 0.005) + chance.uniform(-0.05, 0.05) + chance.uniform(-0.01, 0.01) for _ in range(40000)]
    share = sum(abs(one) <= limit for one in drawn) / len(drawn)
    assert 0.95 <= share <= 1.0  # a rectangular part has no tails: k of a normal distribution covers a little more


@pytest.mark.parametrize(("angle", "factor"), [(118, 0.3004), (135, 0.2071), (140, 0.1820)])
def test_drill_points_as_printed(angle: float, factor: float) -> None:
    """Factors as printed by drill makers, rounded to four digits."""
    assert point_length(1, angle) == pytest.approx(factor, abs=5e-5)


def test_what_lies_under_a_drill() -> None:
    """15 mm plate, 8.5 mm drill, 1 mm through: 3.55 mm below, and 3 mm free."""
    base = {"drill_diameter": "8.5 mm", "full_depth": "15 mm", "breakthrough": "1 mm"}
    found = work_out("drill-point", {**base, "free_under": "3 mm"})
    assert found.verdict == "stop"
    assert found.values["spare_under"].value == pytest.approx(3 - 1 - 8.5 / 2 / math.tan(math.radians(59)))
    for one in found.advice:
        if one.input:
            again = {**base, "free_under": "3 mm", one.input: plain(one.value, one.unit)}
            assert work_out("drill-point", again).verdict == "ok"
    assert work_out("drill-point", base).verdict == "watch"
    assert work_out("drill-point", {**base, "breakthrough": "0"}).verdict == "ok"
