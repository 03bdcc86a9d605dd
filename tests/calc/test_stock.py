"""The sawn blank: sums by hand, bars by brute force, verdicts and a fact of the trade."""

from decimal import Decimal
from typing import Any

import pytest

from calc.catalogue import work_out
from calc.formulas.stock import blanks_per_bar, cuts_in_bar, offcut
from calc.quantity import Refused
from calc.show import plain

PART = {"finished_length": "80 mm", "finished_width": "50 mm", "finished_height": "25 mm"}


def blank(**changed: str) -> Any:
    """The Answer for a blank with some inputs changed."""
    return work_out("stock-allowance", {**PART, **changed})


def test_a_millimetre_of_safety_is_assumed_for_each_sawn_face() -> None:
    """Common practice, no source: it is usual in a small shop, and it is what an empty box means."""
    assert blank().inputs["safety_allowance"].value == 1.0
    assert blank().values["blank_length"].value == pytest.approx(80 + 2 * 0.5 + 2 * 1.0)
    assert blank(sawn_faces="0,0,0").values["blank_length"].value == pytest.approx(81)


def test_by_hand() -> None:
    """80 x 50 x 25, saw 1 mm out in 100, both ends sawn: lean (51 + 26)/100, left 3 - 0.2 - 1.54 - 0.3."""
    found = blank(saw_out_of_square="1 mm/100 mm", saw_length_scatter="0.3 mm").values
    assert found["first_cut"].value == pytest.approx([0.87, 0.1, 0.1])
    assert found["least_cleanup"].value == pytest.approx(min(3 - 0.2 - 2 * 0.77 - 0.3, 1 - 0.2))


def test_it_will_not_clean_up() -> None:
    """A saw far out of square: stop, and each number advised mends it."""
    before = blank(saw_out_of_square="3 mm/100 mm")
    assert before.verdict == "stop" and before.values["least_cleanup"].value < 0
    assert {one.input for one in before.advice} >= {"safety_allowance", "saw_out_of_square"}
    for one in before.advice:
        after = blank(**{"saw_out_of_square": "3 mm/100 mm", one.input: plain(one.value, one.unit)})
        assert after.verdict == "ok", one.text


def test_verdicts_on_both_sides() -> None:
    """Watch under 0.2 mm, ok from there on."""
    assert blank(sawn_faces="0,0,0", machining_allowance="0.15 mm").verdict == "watch"
    assert blank(sawn_faces="0,0,0", machining_allowance="0.2 mm").verdict == "ok"


def test_more_lean_leaves_less() -> None:
    """Monotonic: the worse the saw, the less is left over; the larger the section, too."""
    left = [blank(saw_out_of_square=f"{x} mm/100 mm").values["least_cleanup"].value for x in (0.9, 1.2, 1.5)]
    assert left == sorted(left, reverse=True)
    wide = blank(saw_out_of_square="1.5 mm/100 mm", finished_width="90 mm").values["least_cleanup"].value
    assert wide < left[-1]


@pytest.mark.parametrize("stub", [0, 30])
@pytest.mark.parametrize("kerf", ["0", "0.1", "1.6", "2.5"])
def test_bars_by_brute_force(stub: int, kerf: str) -> None:
    """Saw off one blank after the other in exact tenths until nothing more comes."""
    for tenths in range(500, 3000, 37):
        bar, piece, cut = Decimal(tenths) / 10, Decimal("12.3"), Decimal(kerf)
        left, count = bar, 0
        while left - piece - (cut if stub else 0) >= stub:
            left, count = left - piece - cut, count + 1
        assert blanks_per_bar(bar, piece, cut, Decimal(stub)) == count, tenths


def test_the_last_piece_of_an_exact_bar_needs_no_cut() -> None:
    """Two of 50 and one cut of 1.5 are exactly 101.5; a hair more and the sliver must be sawn off."""
    two, kerf = Decimal(50), Decimal("1.5")
    assert cuts_in_bar(Decimal("101.5"), two, kerf, 2) == 1
    assert cuts_in_bar(Decimal("101.6"), two, kerf, 2) == 2
    assert offcut(Decimal("101.5"), two, kerf, 2) == 0


def test_a_job_of_several_bars() -> None:
    """36 blanks of 83 from bars of 3000 with 40 for the saw: 35 a bar, two bars, 36 cuts, and what is left."""
    found = blank(bar_length="3000 mm", stub="40 mm", quantity="36").values
    assert (found["blanks_per_bar"].value, found["bars_needed"].value, found["saw_cuts"].value) == (35, 2, 36)
    assert found["offcut"].value == pytest.approx(3000 - 35 * 84.5)
    assert found["material_used_share"].value == pytest.approx(36 * 80 * 50 * 25 / (2 * 3000 * 51 * 26))


def test_a_section_too_small_and_a_bar_too_short() -> None:
    """Both are stops that say so; a round bar must hold the blank's diagonal."""
    assert "too small" in blank(bar_length="1 m", bar_section="50 x 25").reason
    assert blank(bar_length="1 m", bar_section="26 x 51").verdict == "ok"
    assert blank(bar_length="1 m", bar_section="round 57").verdict == "stop"
    assert blank(bar_length="1 m", bar_section="round 58 mm").verdict == "ok"
    assert "gives no blank" in blank(bar_length="80 mm").reason


@pytest.mark.parametrize("faces", ["2,0", "2,0,3", "2,0,0.5", "two"])
def test_faces_that_make_no_sense_are_refused(faces: str) -> None:
    """Three numbers, each 0, 1 or 2."""
    with pytest.raises(Refused) as refused:
        blank(sawn_faces=faces)
    assert refused.value.field == "sawn_faces"


def test_inches_and_millimetres_agree() -> None:
    """The same blank in both."""
    metric = work_out(
        "stock-allowance", {"finished_length": "76.2 mm", "finished_width": "50.8 mm", "finished_height": "25.4 mm"}
    )
    inch = work_out("stock-allowance", {"finished_length": "3 in", "finished_width": "2 in", "finished_height": "1 in"})
    assert {k: v.value for k, v in metric.values.items()} == {k: v.value for k, v in inch.values.items()}


def test_a_section_too_small_is_a_stop_whether_or_not_the_bar_has_a_length() -> None:
    """The blank's width and height must lie in the section, either way round; the number of bars is said."""
    size = {"finished_width": "40 mm", "finished_height": "20 mm"}
    for length in ({}, {"bar_length": "1000 mm"}):
        assert blank(**size, **length, bar_section="40 x 15").verdict == "stop"
        assert blank(**size, **length, bar_section="30 x 50").verdict != "stop"
    many = blank(**size, bar_section="50 x 30", bar_length="1000 mm", quantity="30")
    # By hand: (1000 + 1.5)/(83 + 1.5) = 11.9, so 11 from a bar, and 30/11 = 2.7, so 3 bars.
    assert "3 bars are needed, 11 blanks from each" in many.reason
