"""The table of speeds: by hand, against the chip's own sum, and at the machine's limits."""

import math
from typing import Any

import pytest

from calc.answer import Answer
from calc.catalogue import work_out
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
        ({"cutters": ", ".join(f"{n} x 2" for n in range(1, 50))}, "at most 40"),
        ({"max_spindle_speed": "100 rpm", "min_spindle_speed": "200 rpm"}, "over the fastest"),
    ],
)
def test_what_makes_no_sense_is_refused(changed: dict[str, str], part: str) -> None:
    """In one plain line."""
    with pytest.raises(Refused, match=part):
        table(**changed)
