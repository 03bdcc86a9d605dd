"""The table of speeds: by hand, against the chip's own sum, and at the machine's limits."""

import math
import re
from typing import Any

import pytest

from calc.answer import Answer
from calc.calculators.cutting_speed_table import CUTTING_SPEED_TABLE
from calc.catalogue import work_out
from calc.present import shown_value
from calc.quantity import Refused
from calc.show import plain

SHOP = {"cutters": "3 x 2, 6 x 3, 12 x 3", "cutting_speed": "200 m/min"}


def table(**changed: str) -> Answer:
    """The Answer for three cutters with some inputs changed."""
    return work_out("cutting-speed-table", SHOP | changed)


def rows(**changed: str) -> Any:
    """Its table."""
    return table(**changed).values["table"].value


def test_by_hand() -> None:
    """n = 1000 vc/(pi D); 0.8 % of 12 is 0.096 a tooth."""
    last = rows()[-1]
    assert last == pytest.approx([12, 3, 200000 / (12 * math.pi), 0.096 * 3 * 200000 / (12 * math.pi), 0.096, 200])


@pytest.mark.parametrize("share", ["5 %", "20 %", "50 %", "100 %"])
def test_the_chip_s_own_sum_agrees(share: str) -> None:
    """Each row's feed put into chip-load gives the chip that the table promised: 0.8 % of the diameter."""
    for diameter, teeth, speed, feed, _, rim in rows(radial_share=share):
        depth = diameter * float(share.split()[0]) / 100
        found = work_out("chip-load", {
            "cutter_diameter": f"{diameter} mm", "teeth": f"{teeth}", "spindle_speed": f"{speed!r} rpm",
            "feed_rate": f"{feed!r} mm/min", "radial_depth": f"{depth!r} mm", "axial_depth": "1 mm",
            "material": "aluminium_wrought"}).values  # fmt: skip
        assert found["chip_thickness_max"].value == pytest.approx(0.008 * diameter)
        assert found["cutting_speed"].value == pytest.approx(rim)


def test_the_machine_s_limits() -> None:
    """A speed clamped lowers rim and feed alike; a feed clamped lowers the chip; the reason tells of the speed."""
    free, held = rows(), rows(max_spindle_speed="8000 rpm")
    for before, after in zip(free, held, strict=True):
        assert after[2] == min(before[2], 8000) and after[4] == pytest.approx(before[4])
    assert table(max_spindle_speed="8000 rpm").values["slowed"].value == 2
    assert "⌀6 mm" in table(max_spindle_speed="8000 rpm").reason
    assert max(one[3] for one in rows(max_feed_rate="900 mm/min")) == 900


def test_a_large_cutter_is_held_to_the_thickest_chip() -> None:
    """0.8 % of 63 is half a millimetre: held to 0.15, or to what is given."""
    assert rows(cutters="63 x 2")[0][4] == pytest.approx(0.15)
    assert rows(cutters="63 x 2", chip_limit="0.3 mm")[0][4] == pytest.approx(0.3)


def test_rubbing_is_watched_on_both_sides() -> None:
    """A chip thinner than the edge's radius; the share advised mends it, where the feed is not the limit."""
    thin = table(chip_of_diameter="0.1 %")
    assert thin.verdict == "watch" and thin.values["thinnest_chip"].value == pytest.approx(0.003)
    (one,) = [one for one in thin.advice if one.input]
    assert table(chip_of_diameter=plain(one.value, "1")).verdict == "ok"
    slow = table(max_feed_rate="10 mm/min")
    assert slow.verdict == "watch" and all(one.input is None for one in slow.advice)


def test_the_chip_limit_is_advised_where_it_is_what_rubs() -> None:
    """63 mm held to 0.01 at an edge of 0.05: a larger share changes nothing, a thicker limit mends it."""
    dull = {"cutters": "63 x 2", "chip_limit": "0.01 mm", "edge_radius": "0.05 mm"}
    (one,) = table(**dull).advice
    assert one.input == "chip_limit" and table(**dull | {"chip_limit": plain(one.value, "mm")}).verdict == "ok"
    (both,) = table(**dull | {"cutters": "0.5 x 2"}).advice  # a share of 0.004 and a limit of 0.01
    assert both.input is None


@pytest.mark.parametrize(
    ("changed", "key"),
    [
        ({"radial_share": "0.1 %"}, "radial_share"),
        ({"chip_of_diameter": "6 %", "cutters": "2 x 2"}, "chip_of_diameter"),
        ({"chip_of_diameter": "6 %", "cutters": "2 x 2", "radial_share": "1 %"}, None),
    ],
)
def test_a_tooth_that_gets_too_much_is_watched(changed: dict[str, str], key: str | None) -> None:
    """Over 5 % of the diameter, on both sides; what is advised mends it."""
    greedy = table(**changed)
    assert greedy.verdict == "watch" and "of its diameter" in greedy.reason
    (one,) = greedy.advice
    assert one.input == key
    if key:
        assert table(**changed | {key: plain(one.value, one.unit)}).verdict == "ok"


def test_the_edge_of_too_much() -> None:
    """4 % as chip is 5 % a tooth where 2 √(x − x²) is 0.8, at x = 20 %."""
    edge = {"cutters": "2 x 2", "chip_of_diameter": "4 %"}
    assert table(**edge, radial_share="20 %").verdict == "ok"
    assert table(**edge, radial_share="19.9 %").verdict == "watch"


def test_a_feed_held_by_the_machine_is_told() -> None:
    """300 m/min asks 3 × 15,915 × 0.048 mm/min of a cutter of 6; at 500 a tooth gets 0.0105."""
    asked = {"cutters": "6 x 3, 10 x 3", "cutting_speed": "300 m/min"}
    reason = table(**asked, max_feed_rate="500 mm/min").reason
    assert "2 cutters: a tooth of ⌀6 mm gets 0.0105 mm in place of 0.048 mm" in reason
    assert "feeds too slowly" not in table(**asked).reason


def test_the_columns_stay_apart_on_the_command_line() -> None:
    """Heads and cells never run together."""
    text = shown_value({"value": rows(), "unit": "1"}, CUTTING_SPEED_TABLE.output("table"), "metric")
    assert [len(re.split(" {2,}", line.strip())) for line in text.split("\n")[1:]] == [6, 6, 6, 6]


def test_a_spindle_too_fast_is_watched() -> None:
    """12 mm at 20,000 rpm runs at 754 m/min, asked for 700."""
    fast = table(cutting_speed="700 m/min", min_spindle_speed="20000 rpm")
    assert fast.verdict == "watch" and fast.values["over_speed"].value == pytest.approx(753.98 / 700, abs=1e-4)
    assert table(cutting_speed="754 m/min", min_spindle_speed="20000 rpm").verdict == "ok"


def test_thinner_cuts_feed_faster() -> None:
    """Monotonic: the smaller the radial share, the faster the feed; from half on it stays."""
    feeds = [rows(radial_share=f"{share} %")[0][3] for share in (2, 10, 30, 50, 80)]
    assert feeds[:4] == sorted(feeds[:4], reverse=True) and feeds[3] == pytest.approx(feeds[4])


@pytest.mark.parametrize(
    ("changed", "part"),
    [
        ({"cutters": "6 x 99"}, "1 to 40 teeth"),
        ({"cutters": "10"}, "one tooth is 10 x 1"),
        ({"cutters": "6 x 3, 10"}, "each needs its teeth"),
        ({"cutters": ", ".join(f"{n} x 2" for n in range(1, 50))}, "at most 40"),
        ({"max_spindle_speed": "100 rpm", "min_spindle_speed": "200 rpm"}, "over the fastest"),
    ],
)
def test_what_makes_no_sense_is_refused(changed: dict[str, str], part: str) -> None:
    """In one plain line."""
    with pytest.raises(Refused, match=part):
        table(**changed)
