"""Facing: a published time, torque against the mean of its own teeth, limits, and a fact of the trade."""

import math

import pytest

from calc.catalogue import named, work_out
from calc.formulas.forces import Cut, greatest_tangential_sum, tangential_sum
from calc.quantity import Refused
from calc.show import plain

FACE = dict(named("facing").example)


def test_the_mean_of_the_teeth_is_near_the_torque_by_power() -> None:
    """Second method: tangential forces averaged over a turn; power by the mean chip is 1 to 4 % off (Kienzle bends)."""
    found = work_out("facing", FACE).values
    engagement = math.degrees(math.acos(1 - 45 / 31.5))
    cut = Cut(800, 0.25, 0.08, 1.0, engagement, 90, 2, True)
    mean = sum(tangential_sum(cut, n / 20) for n in range(3600)) / 3600 * 31.5 / 1000
    assert found["cutting_torque"].value == pytest.approx(mean, rel=0.04)
    assert found["peak_torque"].value == pytest.approx(greatest_tangential_sum(cut) * 0.0315)


def test_two_inserts_work_like_a_fly_cutter() -> None:
    """Common practice, no source: a 63 mm cutter with two inserts faces. Under one tooth in the metal: it knocks."""
    found = work_out("facing", FACE)
    assert found.values["teeth_in_cut"].value < 1
    assert found.values["peak_torque"].value > 1.5 * found.values["cutting_torque"].value
    many = work_out("facing", {**FACE, "teeth": "8", "feed_per_tooth": "0.02 mm"}).values
    assert many["peak_torque"].value / many["cutting_torque"].value < 1.3


def test_a_fast_spindle_stalls_and_what_is_advised_mends_it() -> None:
    """1 N m at the spindle: stop; the depth advised is fine, or only knocks."""
    weak = {**FACE, "spindle_torque": "1 N*m"}
    found = work_out("facing", weak)
    assert found.verdict == "stop" and "stalls" in found.reason
    depth = next(one for one in found.advice if one.input)
    after = work_out("facing", {**weak, "axial_depth": plain(depth.value, depth.unit)})
    assert after.values["torque_use"].value <= 0.8 and "stalls" not in after.reason


def test_what_is_not_known_is_not_ok() -> None:
    """No material, no torque: watch. A step-over wider than the cutter is refused."""
    for key in ("material", "spindle_torque"):
        assert work_out("facing", {k: t for k, t in FACE.items() if k != key}).verdict == "watch"
    with pytest.raises(Refused, match="Step-over"):
        work_out("facing", {**FACE, "step_over": "70 mm"})
