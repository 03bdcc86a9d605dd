"""What cannot be, or was silently held back, is told first."""

import math

import pytest

from calc.catalogue import work_out
from calc.formulas.threads import formed_share, thread_of
from calc.quantity import Impossible, Refused

CUT = {"cutter_diameter": "10 mm", "teeth": "3", "feed_per_tooth": "0.05 mm", "radial_depth": "0.5 mm",
       "material": "aluminium_hardened", "spindle_torque": "20 N*m", "spindle_power": "5 kW"}  # fmt: skip


@pytest.mark.parametrize(
    ("kind", "hole", "verdict"),
    [
        ("cut", "6.75 mm", "ok"), ("cut", "6.7 mm", "watch"), ("cut", "6.6 mm", "stop"), ("cut", "6 mm", "stop"),
        ("form", "7.375 mm", "ok"), ("form", "7.28 mm", "watch"), ("form", "7.25 mm", "stop"),
        ("form", "6.75 mm", "stop"), ("form", "7.6 mm", "watch"),
    ],
)  # fmt: skip
def test_a_hole_too_small_for_the_tap_stops(kind: str, hole: str, verdict: str) -> None:
    """M8: the basic minor diameter is D - 1.0825 P, 6.647 mm (ISO 724); a formed one takes D - P/2 (from memory)."""
    found = work_out("tap", {"thread": "M8", "thread_depth": "16 mm", "kind": kind, "drill_diameter": hole})
    assert found.verdict == verdict
    if verdict == "stop":
        (better,) = [one for one in found.advice if one.input == "drill_diameter"]
        mended = {"thread": "M8", "thread_depth": "16 mm", "kind": kind, "drill_diameter": f"{better.value} mm"}
        assert work_out("tap", mended).verdict == "ok"


@pytest.mark.parametrize("name", ["M3", "M8", "M20", "1/4-20 UNC", "1-8 UNC"])
def test_a_formed_thread_is_full_where_the_metal_fills_its_ridges(name: str) -> None:
    """The ridge in 20,000 rings, each as wide as the straight flank of 60 degrees leaves it; the usual hole fits."""
    thread = thread_of(name)
    assert thread
    outer, pitch, rings = thread.diameter / 2, thread.pitch, 20_000
    height = 5 / 8 * math.sqrt(3) / 2 * pitch
    step = height / rings
    ridge = 0.0
    for n in range(rings):
        below = (n + 0.5) * step  # the major diameter, where the groove of the tap is P/8 wide
        groove = pitch / 8 + 2 * below * math.tan(math.radians(30))
        ridge += (pitch - groove) * (outer - below) * step
    for hole in (thread.diameter - pitch / 2, thread.diameter - 0.6 * pitch):
        pushed = pitch * (outer**2 - (hole / 2) ** 2) / 2
        assert formed_share(thread, hole) == pytest.approx(pushed / ridge, rel=1e-6)
    assert 0.8 < formed_share(thread, thread.diameter - pitch / 2) < 0.9


def test_a_speed_that_the_machine_has_not_is_told_before_all_else() -> None:
    """20000 rpm on a machine of 8000: what is shown is for 8000, and says so first; never without a mark."""
    cut = {**CUT, "axial_depth": "2 mm"}
    held = work_out("chip-load", {**cut, "spindle_speed": "20000 rpm", "max_spindle_speed": "8000 rpm"})
    assert held.verdict == "watch" and held.reason.startswith("20000 rpm is over what the machine may turn")
    assert work_out("chip-load", {**cut, "spindle_speed": "8000 rpm", "max_spindle_speed": "8000 rpm"}).verdict == "ok"


def test_a_cutter_wider_than_the_pocket_is_refused_without_asking_for_more() -> None:
    """6 mm into 4 mm."""
    with pytest.raises(Refused, match="does not go into a pocket") as refused:
        work_out("corner-clearance", {"cutter_diameter": "6 mm", "pocket_width": "4 mm"})
    assert refused.value.field == "pocket_width"
    with pytest.raises(Impossible, match="does not go into a corner of radius 5 mm"):
        work_out("corner-clearance", {"cutter_diameter": "12 mm", "corner_radius": "5 mm"})
    with pytest.raises(Refused, match="Stock left on the wall"):
        work_out("corner-clearance", {"cutter_diameter": "10 mm", "corner_radius": "5 mm"})


@pytest.mark.parametrize(
    ("grip", "verdict"), [("2 mm", "watch"), ("3.5 mm", "watch"), ("3.6 mm", "ok"), ("12 mm", "ok")]
)
def test_a_grip_that_only_a_steady_cut_leaves_alone_is_to_be_watched(grip: str, verdict: str) -> None:
    """A fifth of the height above the jaws (common practice, no source), however much the friction holds."""
    held = {"peak_force": "200 N", "clamp_force": "20 kN", "force_height": "18 mm", "part_width": "60 mm"}
    found = work_out("clamping", {**held, "grip_height": grip})
    assert found.verdict == verdict
    if verdict == "watch":
        assert "dig-in" in found.reason
        (deeper,) = [one for one in found.advice if one.input == "grip_height"]
        assert work_out("clamping", {**held, "grip_height": f"{deeper.value} mm"}).verdict == "ok"


def test_a_cut_deeper_than_the_flutes_stops() -> None:
    """30 mm on 10 mm of flutes: the shank is in the metal; as deep as they are long is as deep as it goes."""
    cut = {**CUT, "spindle_speed": "4000 rpm"}
    deep = work_out("chip-load", {**cut, "axial_depth": "30 mm", "flute_length": "10 mm"})
    assert deep.verdict == "stop" and deep.reason.startswith("The cut of 30 mm is deeper than the flutes of 10 mm")
    (shallower,) = deep.advice
    assert (shallower.input, shallower.value) == ("axial_depth", 10)
    assert work_out("chip-load", {**cut, "axial_depth": "10 mm", "flute_length": "10 mm"}).verdict == "ok"
    assert work_out("chip-load", {**cut, "axial_depth": "30 mm"}).verdict != "stop"
