"""Milled threads: classes as typed, advice put back, and what weakens a bolt."""

import random
import re
from collections.abc import Iterator

import pytest

from calc.answer import VERDICTS, Answer
from calc.catalogue import work_out
from calc.quantity import Refused
from calc.show import plain
from tests.calc.test_thread_mill import BOLT, M10


@pytest.mark.parametrize(("inside", "outside"), [("6H", "6h"), ("6G", "6g")])
def test_a_class_is_read_with_its_case(inside: str, outside: str) -> None:
    """A large letter is a hole's, a small one a rod's: each is taken there and refused on the other side."""
    for base, good, bad in ((M10, inside, outside), (BOLT, outside, inside)):
        assert work_out("thread-mill", {**base, "thread_class": good}).inputs["thread_class"].value == good
        with pytest.raises(Refused) as refused:
            work_out("thread-mill", {**base, "thread_class": bad})
        assert refused.value.field == "thread_class"


MILL = ("does not go", "between cutter", "of path radius", "Before", "weakens")
INPUTS = ("cutter_diameter", "tip_flat", "cutter_form", "drill_diameter", "rod_diameter")

SIZE = r"([\d.]+ mm)"
WORDS = {"cutter_diameter": f"cutter of at most {SIZE}", "tip_flat": f"tips at (?:most|least) {SIZE}",
         "cutter_form": "is (corrected)", "drill_diameter": f"hole {SIZE}",
         "rod_diameter": f"rod to {SIZE}"}  # fmt: skip


def random_case(chance: random.Random) -> dict[str, str]:
    """A thread, a cutter somewhere about its size, and sometimes a tip, a hole or a rod."""
    thread, size, pitch = chance.choice(
        [("M10", 10, 1.5), ("M3", 3, 0.5), ("M20", 20, 2.5), ("1/4-20", 6.35, 1.27), ("M12x1", 12, 1.0)]
    )
    inside = chance.random() < 0.7
    typed = {"thread": thread, "side": "internal" if inside else "external"}
    typed["cutter_diameter"] = f"{size * chance.uniform(0.4, 1.1):.4f} mm"
    if chance.random() < 0.6:
        typed["tip_flat"] = f"{pitch * chance.uniform(0.0, 0.45):.4f} mm"
    if chance.random() < 0.4:
        key, middle = ("drill_diameter", size - pitch) if inside else ("rod_diameter", size)
        typed[key] = f"{middle + chance.uniform(-0.3, 0.3) * pitch:.4f} mm"
    return typed


def mends(typed: dict[str, str], found: Answer) -> Iterator[str]:
    """Puts each advice in; what it answers was told, and is not told again. Yields the input that each is for."""
    for one in found.advice:
        changed = {str(one.input): plain(one.value, one.unit) if isinstance(one.value, float) else str(one.value)}
        if one.input is None:  # two changes, told in the text alone
            told = {name: re.search(words, one.text) for name, words in WORDS.items()}
            changed = {name: place[1] for name, place in told.items() if place}
            assert len(changed) == 2
        again = work_out("thread-mill", {**typed, **changed})
        blank = ("The hole, ", "The rod, ")
        answered = [part for part in (*MILL, *blank) if part in found.reason]
        if not {"drill_diameter", "rod_diameter"} & set(changed):
            answered = [part for part in answered if part not in blank]
        elif any(part in found.reason for part in blank):
            answered = [part for part in answered if part in blank]
        assert answered and not any(part in again.reason for part in answered), (typed, one.text, again.reason)
        assert VERDICTS.index(again.verdict) <= VERDICTS.index(found.verdict), (typed, one.text)
        assert not one.text.startswith("Or")
        yield one.input or "two"


def test_every_advice_mends_what_it_is_for() -> None:
    """Hundreds of random cases: what an advice answers was told, and with it put in it is not told again."""
    chance, tried, without = random.Random(5), dict.fromkeys((*INPUTS, "two"), 0), 0
    for _ in range(900):
        typed = random_case(chance)
        try:
            found = work_out("thread-mill", typed)
        except Refused:
            continue
        for name in mends(typed, found):
            tried[name] += 1
        assert found.advice == () or found.verdict != "ok"
        without += found.verdict != "ok" and not found.advice
    assert min(tried.values()) > 3 and without == 0, (tried, without)


@pytest.mark.parametrize(
    ("typed", "part", "inputs"),
    [
        ({**M10, "tip_flat": "0.3"}, "with tips this wide", ["tip_flat"]),
        ({**M10, "cutter_diameter": "8.4"}, "on its helix", ["cutter_diameter", "tip_flat", "cutter_form"]),
        ({**M10, "cutter_diameter": "9"}, "on its helix", ["cutter_diameter"]),
        ({"thread": "1/4-20", "cutter_diameter": "4.73", "drill_diameter": "4.36"}, "does not go",
         ["cutter_diameter", "drill_diameter"]),
        ({"thread": "M6", "cutter_diameter": "5.99", "tip_flat": "0.354"}, "does not go", [None]),
        ({"thread": "M30x2", "side": "external", "cutter_diameter": "2.52", "rod_diameter": "30.2",
          "tip_flat": "0.717"}, "with tips this wide", ["tip_flat"]),
    ],
)  # fmt: skip
def test_advice_only_for_what_is_told(typed: dict[str, str], part: str, inputs: list[str | None]) -> None:
    """No word about what the reason does not name, and none that leaves the verdict."""
    found = work_out("thread-mill", typed)
    assert part in found.reason and [one.input for one in found.advice] == inputs, found
    assert len(list(mends(typed, found))) == len(inputs)


@pytest.mark.parametrize("thread", ["M10x1.5", "M3", "1/4-20", "1-8 UNC"])
def test_tips_too_sharp_for_a_bolt(thread: str) -> None:
    """A root under that of radius P/8 weakens the bolt; the tips advised are the narrowest that do not. Holes: none."""
    rod = {"thread": thread, "side": "external", "cutter_diameter": "7.5 mm"}
    assert work_out("thread-mill", rod).verdict == "ok"
    sharp = work_out("thread-mill", {**rod, "tip_flat": "0"})
    assert sharp.verdict == "watch" and "weakens the bolt" in sharp.reason
    (one,) = sharp.advice
    assert work_out("thread-mill", {**rod, "tip_flat": f"{one.value} mm"}).verdict == "ok"
    assert work_out("thread-mill", {**rod, "tip_flat": f"{one.value - 0.002} mm"}).verdict == "watch"
    smallest = sharp.values["minor_min"].value
    assert smallest is None or sharp.values["cut_diameter"].value < smallest
    assert "bolt" not in work_out("thread-mill", {"thread": "M10", "cutter_diameter": "7", "tip_flat": "0"}).reason


@pytest.mark.parametrize(
    ("written", "side", "thread", "its"),
    [
        ("M10 x 1.5 - 6H", "internal", "M10x1.5", "6H"),
        ("M10-6g", "external", "M10", "6g"),
        ("1/4-20 UNC-2B", "internal", "1/4-20 UNC", "2B"),
        ("#8-32 - 3A", "external", "#8-32", "3A"),
    ],
)
def test_a_class_written_behind_the_thread(written: str, side: str, thread: str, its: str) -> None:
    """As drawings have it; the same as in a box of its own. A class of the other side, or two of them, are refused."""
    base = {"side": side, "cutter_diameter": "3 mm"}
    said = work_out("thread-mill", {**base, "thread": written}).values
    assert said == work_out("thread-mill", {**base, "thread": thread, "thread_class": its}).values
    other = {"internal": "external", "external": "internal"}[side]
    for changed in ({"side": other}, {"thread_class": "6G"}):
        with pytest.raises(Refused) as refused:
            work_out("thread-mill", {**base, "thread": written, **changed})
        assert refused.value.field == "thread_class"


def test_a_coarse_or_fine_thread_that_there_is_not() -> None:
    """1/4-20 is coarse, 1/4-28 fine: the other way round, or with 24, it is told."""
    for thread, odd in (("1/4-20 UNC", 0), ("1/4-28UNF", 0), ("1/4-20UNF", 1), ("1/4-28 UNC", 1), ("1/4-24 UNF", 1),
                        ("#0-80 UNF", 0), ("1 3/4-5 UNC", 0), ("1/4-24 UNS", 0), ("2 1/4-4.5 UNC", 0)):  # fmt: skip
        told = work_out("thread-mill", {"thread": thread, "cutter_diameter": "1 mm" if "#" in thread else "5.9 mm"})
        assert sum("Look at the drawing" in one for one in told.cautions) == odd, thread
