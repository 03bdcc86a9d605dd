"""Bending, squeal, ridges, V cutters, ramps, taps, time, warmth, units: by hand, by a second method, against others."""

import math
from typing import Any

import pint
import pytest

from calc.catalogue import work_out
from calc.formulas.bending import best_speed, stepped_deflection
from calc.formulas.entry import ramp_length, v_depth, v_width
from calc.formulas.heat import heating, size_at_reference
from calc.formulas.ridges import PARABOLIC, feed_for, ridge
from calc.formulas.threads import thread_of
from calc.quantity import Refused
from calc.show import plain

BENT = {"cutter_diameter": "6 mm", "stick_out": "36 mm", "wall_force": "60 N"}
NOTE = {"teeth": "3", "spindle_speed": "7400 rpm", "heard_frequency": "1300 Hz"}
TAPPED = {"thread": "M6", "thread_depth": "12 mm", "drilled_depth": "14 mm"}
HELIX = {"cutter_diameter": "10 mm", "hole_diameter": "16 mm", "depth": "12 mm", "max_ramp_angle": "3",
         "pitch": "1.5 mm"}  # fmt: skip


def values(name: str, base: dict[str, str], **changed: str) -> Any:
    """The values of an answer with some inputs changed."""
    return work_out(name, {**base, **changed}).values


@pytest.mark.parametrize(("length", "flutes", "core", "shank"), [(40, 40, 8, 10), (60, 25, 4.8, 6), (30, 5, 2, 6)])
def test_bending_against_a_beam_cut_into_slices(length: float, flutes: float, core: float, shank: float) -> None:
    """Second method: M/(EI) integrated twice over 20,000 slices, from the holder to the tip."""
    modulus, force, slices = 600000.0, 100.0, 20000
    step = length / slices
    slope = bent = 0.0
    for n in range(slices):
        x = (n + 0.5) * step
        diameter = core if length - x < flutes else shank
        curve = force * (length - x) / (modulus * math.pi * diameter**4 / 64)
        bent += slope * step + curve * step * step / 2
        slope += curve * step
    assert stepped_deflection(force, length, flutes, core, shank, modulus) == pytest.approx(bent, rel=1e-3)


def test_the_longest_stick_out_is_one() -> None:
    """Round trip: at that length the wall is out by the limit."""
    for flutes in ({}, {"flute_length": "15 mm"}):
        limit = {**BENT, **flutes, "wall_error_limit": "0.02 mm"}
        longest = values("stick-out", limit)["longest_stick_out"].value
        again = values("stick-out", limit, stick_out=f"{longest} mm")["wall_error"].value
        assert again == pytest.approx(0.02, rel=1e-4)


def test_bending_goes_with_the_cube_and_the_fourth_power() -> None:
    """Twice as long eight times, twice as thick a sixteenth; steel bends 600/210 times carbide."""
    one = values("stick-out", BENT)["deflection"].value
    assert values("stick-out", BENT, stick_out="72 mm")["deflection"].value == pytest.approx(8 * one)
    assert values("stick-out", BENT, cutter_diameter="12 mm")["deflection"].value == pytest.approx(one / 16)
    assert values("stick-out", BENT, tool_material="hss")["deflection"].value == pytest.approx(one * 600 / 210)
    assert values("stick-out", BENT, holder_stiffness="10 N/um")["wall_error"].value == pytest.approx(one + 0.006)


def test_what_is_advised_against_bending_holds() -> None:
    """Each number offered ends at no fault, or no more than long."""
    base = {**BENT, "wall_error_limit": "0.02 mm"}
    for one in work_out("stick-out", base).advice:
        if one.input:
            again = work_out("stick-out", {**base, one.input: plain(one.value, one.unit)})
            assert "bends" not in again.reason or again.verdict == "ok", one.text


def test_a_nervous_three_flute_cutter() -> None:
    """Common practice, no source: 12 mm, three teeth, nervous above about 7,000 rpm. Tooth passing there is 350 Hz."""
    found = values("chatter-speed", NOTE, spindle_speed="7000 rpm", heard_frequency="1110 Hz")
    assert found["tooth_passing"].value == pytest.approx(350)
    assert found["kind"].value == "chatter"
    for speed in found["best_speeds"].value:
        waves = 1110 / (3 * speed / 60)
        assert waves == pytest.approx(round(waves), abs=1e-3) and speed <= 8000


@pytest.mark.parametrize(
    ("speed", "heard", "kind"),
    [("8000 rpm", "1200 Hz", "forced"), ("7400 rpm", "1300 Hz", "chatter"), ("900 rpm", "800 Hz", "unclear"),
     ("7400 rpm", "1342 Hz", "unclear"), ("6000 rpm", "100 Hz", "forced")],
)  # fmt: skip
def test_what_a_note_is(speed: str, heard: str, kind: str) -> None:
    """1,200 Hz at 8,000 rpm is the ninth multiple of the turning exactly; too close together it says so."""
    found = work_out("chatter-speed", {**NOTE, "spindle_speed": speed, "heard_frequency": heard})
    assert found.values["kind"].value == kind
    assert (found.values["best_speeds"].value is None) == (kind == "forced")


def test_waves_fit_at_the_best_speeds() -> None:
    """By trial: the phase between two teeth's waves is nothing at those speeds and half a turn between them."""
    for waves in range(1, 6):
        speed = best_speed(1300, 3, waves)
        assert math.cos(2 * math.pi * 1300 * 60 / (3 * speed)) == pytest.approx(1)


@pytest.mark.parametrize("radius", [0.4, 0.8, 5.0])
def test_ridges_by_intersecting_circles(radius: float) -> None:
    """Second method: where two circles a pitch apart meet; small pitches follow p²/8r, all lose nothing."""
    for share in (1e-6, 0.01, 0.3, 1.0, 2.0):
        pitch = share * radius
        meet = radius - math.sqrt(max(0.0, radius**2 - (pitch / 2) ** 2))
        assert ridge(pitch, radius) == pytest.approx(meet, abs=1e-12)
        assert feed_for(ridge(pitch, radius), radius) == pytest.approx(pitch)
    assert ridge(1e-5, radius) == pytest.approx(1e-10 / (8 * radius), rel=1e-9)


def test_ra_of_parabolas_by_adding_up() -> None:
    """Second method: mean distance from the mean line of a parabola, 100,000 places."""
    count = 100000
    heights = [((n + 0.5) / count * 2 - 1) ** 2 for n in range(count)]
    middle = sum(heights) / count
    ra = sum(abs(one - middle) for one in heights) / count
    assert 1 / ra == pytest.approx(PARABOLIC, rel=1e-4)


def test_run_out_makes_one_tooth_do_it_all() -> None:
    """Four teeth: sixteen times as high."""
    found = values("surface-finish", {"feed_per_tooth": "0.05 mm", "teeth": "4", "cutter_diameter": "20 mm"})
    assert found["peak_to_valley_run_out"].value == pytest.approx(16 * found["peak_to_valley"].value, rel=1e-3)


@pytest.mark.parametrize("kind", ["flat", "ball", "fly", "wall"])
def test_a_wanted_finish_is_reached(kind: str) -> None:
    """Round trip: with the feed or step-over said, the ridges are as high as wanted; what is advised holds."""
    base = {"tool_kind": kind, "feed_per_tooth": "0.3 mm", "teeth": "3", "cutter_diameter": "10 mm",
            "nose_radius": "0.8 mm", "step_over": "1 mm", "wanted_peak_to_valley": "2 um"}  # fmt: skip
    wanted = work_out("surface-finish", base)
    name = "step_over" if kind == "ball" else "feed_per_tooth"
    feed = wanted.values["feed_or_step_over_wanted"].value
    assert values("surface-finish", base, **{name: f"{feed!r} mm"})["peak_to_valley"].value == pytest.approx(2)
    for one in wanted.advice:
        if one.input:
            assert work_out("surface-finish", {**base, one.input: plain(one.value, one.unit)}).verdict == "ok"


def test_v_grooves_both_ways() -> None:
    """Width and depth undo each other; 60 degrees: an equilateral triangle; 90: twice the depth."""
    for angle in (10, 60, 90, 150):
        assert v_depth(0.1, v_width(0.1, 0.7, angle), angle) == pytest.approx(0.7)
    assert v_width(0, math.sqrt(3) / 2, 60) == pytest.approx(1)
    found = work_out("v-cutter", {"included_angle": "90", "depth": "0.3 mm", "surface_error": "0.1 mm"})
    assert found.values["width_error"].value == pytest.approx(0.2) and found.verdict == "watch"
    assert work_out("v-cutter", {"included_angle": "90", "depth": "0.1", "surface_error": "0.1"}).verdict == "stop"
    with pytest.raises(Refused, match="tip alone"):
        work_out("v-cutter", {"included_angle": "90", "width": "0.05 mm", "tip_flat": "0.1 mm"})


def test_a_chamfer_of_three_tenths() -> None:
    """Common practice, no source: a 0.3 mm chamfer with a 90 degree cutter is 0.3 deep and 0.6 over both sides."""
    assert values("v-cutter", {"included_angle": "90", "depth": "0.3", "tip_flat": "0"})["width"].value == (
        pytest.approx(0.6)
    )


def test_a_helix_unrolled() -> None:
    """Second method: the helix walked in 10,000 straight steps has that level way and that slope."""
    found = values("ramp-entry", HELIX)
    turns, steps, r = 12 / 1.5, 10000, 3.0
    points = [(r * math.cos(2 * math.pi * turns * n / steps), r * math.sin(2 * math.pi * turns * n / steps))
              for n in range(steps + 1)]  # fmt: skip
    level = sum(math.dist(a, b) for a, b in zip(points, points[1:], strict=False))
    assert found["ramp_length"].value == pytest.approx(level, rel=1e-4)
    assert math.tan(math.radians(found["ramp_angle"].value)) == pytest.approx(12 / level, rel=1e-4)


def test_posts_and_steep_ways() -> None:
    """Wider than two cutters a post is left; what is advised holds; no room to go round is refused."""
    assert work_out("ramp-entry", {**HELIX, "hole_diameter": "20 mm", "pitch": "0.5 mm"}).values["core_left"].value == 0
    post = work_out("ramp-entry", {**HELIX, "hole_diameter": "26 mm", "pitch": "0.5 mm"})
    assert post.verdict == "stop" and post.values["core_left"].value == pytest.approx(6)
    for one in work_out("ramp-entry", HELIX).advice:
        assert work_out("ramp-entry", {**HELIX, str(one.input): plain(one.value, one.unit)}).verdict == "ok"
    with pytest.raises(Refused, match="wider than the cutter"):
        work_out("ramp-entry", {**HELIX, "hole_diameter": "10 mm"})
    assert ramp_length(5, 45) == pytest.approx(5)


@pytest.mark.parametrize(
    ("text", "diameter", "pitch"),
    [("M6", 6, 1), ("m10x1,25", 10, 1.25), ("M 8 x 1", 8, 1), ("1/4-20 UNC", 6.35, 1.27),
     ("1/4-36 UNS", 6.35, 25.4 / 36),
     ("#8-32", 4.1656, 25.4 / 32), ("1 1/8-7", 28.575, 25.4 / 7), ("M99", None, None), ("M6x7", None, None),
     ("1/0-20", None, None), ("banana", None, None)],
)  # fmt: skip
def test_threads_as_people_write_them(text: str, diameter: float | None, pitch: float | None) -> None:
    """ASME B1.1 numbered sizes are 0.060 in + 0.013 in each."""
    found = thread_of(text)
    if diameter is None:
        assert found is None
    else:
        assert found and (found.diameter, found.pitch) == (pytest.approx(diameter), pytest.approx(pitch))


def test_the_tap_finds_the_bottom() -> None:
    """12 mm of M6 with a lead of three in 14 mm: 1 mm short; each advice mends it; a through hole has no bottom."""
    found = work_out("tap", TAPPED)
    assert found.verdict == "stop" and found.values["spare_depth"].value == pytest.approx(-1)
    for one in found.advice:
        if one.input:
            assert work_out("tap", {**TAPPED, one.input: plain(one.value, one.unit)}).verdict == "ok", one.text
    assert work_out("tap", {**TAPPED, "hole": "through"}).values["spare_depth"].value is None


@pytest.mark.parametrize(("thread", "drill", "share"), [("1/4-20", "0.201 in", 0.905), ("M6", "5 mm", 0.924)])
def test_per_cent_of_thread_has_two_bases(thread: str, drill: str, share: float) -> None:
    """A No. 7 drill in 1/4-20 is 75.4 % by an inch chart and 90.5 % of 5/8 H: both are right, five sixths apart."""
    found = values("tap", TAPPED, thread=thread, drill_diameter=drill)["thread_share"].value
    assert found == pytest.approx(share, abs=5e-4)
    if thread == "1/4-20":
        assert found * 5 / 6 == pytest.approx(0.754, abs=5e-4)


def test_a_tap_feeds_a_pitch_a_turn() -> None:
    """Exactly, in both systems."""
    assert values("tap", TAPPED, spindle_speed="600 rpm")["feed_rate"].value == 600
    inch = values("tap", TAPPED, thread="1/4-20", spindle_speed="400 rpm", drilled_depth="1 in")["feed_rate"].value
    assert inch == pytest.approx(20 * 25.4)


def test_air_in_a_program() -> None:
    """85 cm3 at 12 a minute is 7.083 of 19 minutes; a rate that cannot be is refused; both ways agree."""
    base = {"removed_volume": "85 cm3", "removal_rate": "12 cm3/min"}
    found = values("cycle-time", base, measured_time="19 min")
    assert found["air_share"].value == pytest.approx(1 - 85 / 12 / 19)
    assert found["saved_if_halved"].value == pytest.approx((19 - 85 / 12) / 2)
    way = values("cycle-time", base, program_length="19000 mm", feed_rate="1000 mm/min")
    assert way["air_share"].value == pytest.approx(found["air_share"].value)
    with pytest.raises(Refused, match="is wrong"):
        work_out("cycle-time", {**base, "measured_time": "5 min"})


def test_warmth_part_and_scale() -> None:
    """Steel 11.5e-6 as in JCGM 100 H.1: 500 mm grow 28.75 um in 5 K. Equal part and scale, equally warm: no error."""
    found = values("thermal-growth", {"length": "500 mm", "temperature": "25 degC", "part_material": "steel"})
    assert found["reading_error"].value == pytest.approx(28.75, rel=1e-4)
    both = values("thermal-growth", {"length": "500 mm", "temperature": "31 degC", "part_material": "steel",
                                     "scale_material": "steel"})  # fmt: skip
    assert both["reading_error"].value == pytest.approx(0, abs=1e-9)
    assert values("thermal-growth", {"length": "500 mm", "temperature": "68 °F", "part_material": "steel"})[
        "reading_error"
    ].value == pytest.approx(0, abs=1e-9)


def test_size_at_reference_by_small_steps() -> None:
    """Second method: a part cooled in 20,000 steps by a L dT each; second order is under a micrometre here."""
    size = 300.0
    for _ in range(20000):
        size -= size * 23.6e-6 * (18 / 20000)
    assert size_at_reference(300.0, 23.6, 38) == pytest.approx(size, abs=1e-3)
    assert heating(35, 11.5, 25) * 11.5e-6 * 25 * 1000 == pytest.approx(35)


@pytest.mark.parametrize(
    ("typed", "into", "theirs"),
    [("300 ft/min", "m/min", (300, "foot/minute", "meter/minute")), ("5 hp", "kW", (5, "horsepower", "kilowatt")),
     ("10 ksi", "N/mm2", (10, "kip/inch**2", "newton/millimeter**2")), ("20 °C", "degF", (20, "degC", "degF")),
     ("2.5 kg", "lb", (2.5, "kilogram", "pound")), ("1e9 N", "lbf", (1e9, "newton", "force_pound")),
     ("1.5e-3m", "in", (0.0015, "meter", "inch")), ("−1½ in", "mm", (-1.5, "inch", "millimeter")),
     ("45 lbf ft", "N*m", (45, "force_pound*foot", "newton*meter"))],
)  # fmt: skip
def test_units_against_a_units_library(typed: str, into: str, theirs: tuple[float, str, str]) -> None:
    """Pint."""
    value, one, other = theirs
    expected = pint.UnitRegistry().Quantity(value, one).to(other).magnitude
    assert values("convert", {}, value=typed, target=into)["result_number"].value == pytest.approx(expected)


@pytest.mark.parametrize(
    ("typed", "into", "part"),
    [("60 HRC", "", "Hardness"), ("200", "HV", "Hardness"), ("6 mm", "kg", "mass"), ("7", "", "no unit"),
     ("6 parsec", "", "not a unit"), ("6 mm", "parsec", "not a unit")],
)  # fmt: skip
def test_what_is_no_conversion_is_refused(typed: str, into: str, part: str) -> None:
    """Hardness with its reason, other kinds of measure, no unit at all."""
    with pytest.raises(Refused, match=part):
        work_out("convert", {"value": typed, "target": into})
