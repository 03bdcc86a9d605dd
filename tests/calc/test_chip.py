"""The chip calculator: forces by a second method, limits, verdicts and facts of the trade."""

import math
from typing import Any

import pytest

from calc.catalogue import work_out
from calc.formulas.forces import DULL, RADIAL_SHARE, Cut, greatest_forces
from calc.formulas.milling import mean_chip_thickness
from calc.quantity import Refused
from calc.show import plain

SLOT = {
    "cutter_diameter": "10 mm", "teeth": "3", "spindle_speed": "6000 rpm", "feed_per_tooth": "0.05 mm",
    "radial_depth": "2 mm", "axial_depth": "5 mm", "material": "aluminium_hardened",
}  # fmt: skip


def chip(**changed: str | None) -> Any:
    """The Answer for a side cut with some inputs changed (None takes one away)."""
    typed = {key: text for key, text in {**SLOT, **changed}.items() if text is not None}
    return work_out("chip-load", typed)


def test_a_beginner_on_a_fast_spindle_uses_a_third() -> None:
    """Common practice, no source: a 6 mm cutter in aluminium is often fed at a third of what it could take."""
    found = work_out("chip-load", {
        "cutter_diameter": "6 mm", "teeth": "3", "spindle_speed": "18000 rpm", "feed_rate": "1080 mm/min",
        "radial_depth": "3 mm", "axial_depth": "3 mm", "material": "aluminium_hardened",
        "feed_per_tooth_limit": "0.06 mm", "spindle_power": "1.5 kW", "spindle_torque": "0.8 N*m",
    })  # fmt: skip
    assert found.values["feed_reserve"].value == pytest.approx(3, rel=0.01)
    assert found.reason.startswith("The maker's feed per tooth runs out first, at 3 times this feed")
    assert found.advice[0].input == "feed_rate" and found.advice[0].value > 1080


def test_no_reserve_without_the_makers_feed() -> None:
    """Power alone would break small cutters, so there is none, and it says why."""
    found = chip(spindle_power="5 kW", spindle_torque="20 N*m").values["feed_reserve"]
    assert found.value is None and "maker" in found.why


@pytest.mark.parametrize("ae", [0.1, 1.0, 5.0, 9.0, 10.0])
def test_mean_chip_by_quadrature(ae: float) -> None:
    """The closed mean equals the mean of fz sin(phi) over the arc, summed in 100,000 strips."""
    phi = math.degrees(math.acos(1 - 2 * ae / 10))
    strips = 100_000
    summed = sum(0.05 * math.sin(math.radians(phi * (n + 0.5) / strips)) for n in range(strips)) / strips
    assert mean_chip_thickness(0.05, ae, 10, phi) == pytest.approx(summed, rel=1e-8)


@pytest.mark.parametrize("ae", [0.5, 3.0, 8.0])
def test_power_from_the_forces_of_single_teeth(ae: float) -> None:
    """With a constant specific force (mc = 0) the work of every tooth over a turn is the power of the sum."""
    answer = chip(radial_depth=f"{ae} mm", material=None, specific_force_1_1="1000 N/mm2", chip_exponent="0")
    phi = answer.values["engagement"].value
    strips = 20_000
    force = sum(1000 * 0.05 * math.sin(math.radians(phi * (n + 0.5) / strips)) * 5 for n in range(strips)) / strips
    speed = math.pi * 10 * 6000 / 60_000  # m/s
    assert answer.values["cutting_power"].value == pytest.approx(3 * force * phi / 360 * speed / 1000, rel=1e-6)
    assert answer.values["tangential_force"].value == pytest.approx(force, rel=1e-6)


@pytest.mark.parametrize("climb", [True, False])
@pytest.mark.parametrize("engagement", [30.0, 100.0, 180.0])
@pytest.mark.parametrize("teeth", [1, 2, 4])
def test_peak_force_by_brute_force(climb: bool, engagement: float, teeth: int) -> None:
    """The vector sum written anew with complex numbers, at 36,000 places of a turn."""
    peak = wall = 0.0
    for place in range(36_000):
        total = 0j
        for tooth in range(teeth):
            angle = (place / 100 + 360 * tooth / teeth) % 360
            if angle <= engagement:
                size = 800 * (0.05 * math.sin(math.radians(angle))) ** 0.75 * 5 if angle else 0.0
                outwards = complex(math.sin(math.radians(angle)), -math.cos(math.radians(angle)))
                total += size * (1 if climb else -1) * outwards * 1j - RADIAL_SHARE * size * outwards
        peak, wall = max(peak, abs(total)), max(wall, abs(total.imag))
    found = greatest_forces(Cut(800, 0.25, 0.05, 5, engagement, 90, teeth, climb))
    assert found[0] == pytest.approx(DULL * peak, rel=1e-4)
    assert found[1] == pytest.approx(wall, rel=1e-4)


def test_the_chip_is_never_thicker_than_the_feed() -> None:
    """At and beyond half the cutter the greatest chip is the feed per tooth."""
    for ae in ("5 mm", "7 mm", "10 mm"):
        assert chip(radial_depth=ae).values["chip_thickness_max"].value == pytest.approx(0.05)


def test_a_speed_over_the_limit_is_held_and_everything_worked_out_anew() -> None:
    """A feed per tooth gives a new feed rate; a feed rate stays; both are told."""
    held = chip(max_spindle_speed="3000 rpm")
    assert held.values["spindle_speed"].value == 3000
    assert held.values["feed_rate"].value == pytest.approx(0.05 * 3 * 3000)
    fixed = chip(max_spindle_speed="3000 rpm", feed_per_tooth=None, feed_rate="900 mm/min")
    assert fixed.values["feed_rate"].value == 900
    assert fixed.values["feed_per_tooth"].value == pytest.approx(0.1)
    assert "over what the machine may turn" in held.reason
    assert chip(max_feed_rate="450 mm/min").values["feed_per_tooth"].value == pytest.approx(0.025)


def test_verdicts() -> None:
    """stop over a limit, watch near one, on rubbing and where no torque is known, else ok."""
    strong = {"spindle_power": "5 kW", "spindle_torque": "20 N*m"}
    assert chip(**strong).verdict == "ok"
    assert chip(spindle_power="5 kW").verdict == "watch"
    assert chip(spindle_power="0.1 kW", spindle_torque="20 N*m").verdict == "stop"
    assert chip(feed_per_tooth="0.002 mm", **strong).verdict == "watch"
    assert chip(feed_per_tooth_limit="0.04 mm", **strong).verdict == "stop"
    assert chip(feed_per_tooth_limit="0.06 mm", **strong).verdict == "watch"
    assert chip(feed_per_tooth_limit="0.1 mm", **strong).verdict == "ok"


def test_what_is_advised_mends_it() -> None:
    """Each number, put into its box, is no longer too much nor too little."""
    for changed in (
        {"spindle_power": "0.2 kW", "spindle_torque": "20 N*m"},
        {"spindle_power": "5 kW", "spindle_torque": "0.3 N*m", "feed_per_tooth": None, "feed_rate": "900 mm/min"},
        {"feed_per_tooth_limit": "0.04 mm", "spindle_power": "5 kW", "spindle_torque": "20 N*m"},
        {"feed_per_tooth": "0.003 mm", "spindle_power": "5 kW", "spindle_torque": "20 N*m"},
    ):
        before = chip(**changed)
        assert before.verdict in ("watch", "stop") and before.advice
        for one in before.advice:
            assert chip(**{**changed, one.input: plain(one.value, one.unit)}).verdict == "ok", one.text


def test_materials_without_a_published_value_give_no_force() -> None:
    """Acetal: chip and feed, force and power empty with why; a value of one's own fills them."""
    found = chip(material="acetal").values
    assert found["peak_force"].value is None and "kc1.1" in found["peak_force"].why
    assert found["chip_thickness_max"].value > 0
    own = chip(material="acetal", specific_force_1_1="120 N/mm2", chip_exponent="0.2").values
    assert own["peak_force"].value > 0


def test_titanium_shows_both_editions() -> None:
    """The two published editions differ by 41 %: the larger is used, the range reaches below the smaller."""
    found = chip(material="titanium_6al4v")
    force = found.values["cutting_power"]
    assert force.low < 0.7 * force.value and any("2017" in one and "2022" in one for one in found.cautions)


def test_pairs_given_twice_must_agree() -> None:
    """Within 0.1 %, else refused on the second."""
    assert chip(cutting_speed="188.5 m/min").values["spindle_speed"].value == 6000
    with pytest.raises(Refused, match="do not agree"):
        chip(cutting_speed="190 m/min")
    with pytest.raises(Refused, match="do not agree"):
        chip(feed_rate="1000 mm/min")


@pytest.mark.parametrize(
    ("changed", "field"),
    [
        ({"spindle_speed": None}, "spindle_speed"), ({"feed_per_tooth": None}, "feed_per_tooth"),
        ({"material": None}, "material"), ({"material": None, "specific_force_1_1": "900 N/mm2"}, "chip_exponent"),
        ({"radial_depth": "11 mm"}, "radial_depth"), ({"teeth": "2.5"}, "teeth"), ({"teeth": "0"}, "teeth"),
        ({"material": "aluminum"}, "material"),
    ],
)  # fmt: skip
def test_what_is_missing_or_wrong_is_named(changed: dict[str, str | None], field: str) -> None:
    """One line on its field; of an either/or pair both names are in it."""
    with pytest.raises(Refused) as refused:
        chip(**changed)
    assert refused.value.field == field


def test_inches_and_millimetres_agree() -> None:
    """The same cut in both, values alike to rounding."""
    metric = chip(cutter_diameter="12.7 mm", radial_depth="2.54 mm", axial_depth="5.08 mm", feed_per_tooth="0.0508 mm")
    inch = chip(cutter_diameter="1/2 in", radial_depth="0.1 in", axial_depth="0.2 in", feed_per_tooth="0.002 in")
    for name, one in metric.values.items():
        assert one.value == (
            inch.values[name].value if isinstance(one.value, str | None) else pytest.approx(inch.values[name].value)
        )


@pytest.mark.parametrize("name", ["axial_depth", "radial_depth", "feed_per_tooth"])
def test_more_of_anything_asks_more_of_the_spindle(name: str) -> None:
    """Power, torque and peak force rise with depth, width and feed."""
    low, high = (
        chip().values,
        chip(**{name: {"axial_depth": "6 mm", "radial_depth": "2.4 mm", "feed_per_tooth": "0.06 mm"}[name]}).values,
    )
    for value in ("cutting_power", "cutting_torque", "peak_force", "removal_rate"):
        assert high[value].value > low[value].value
