"""Bars to saw: against an integer-programming solver (SciPy's HiGHS), by hand, and exactly counted."""

import random
import time
from collections import Counter
from fractions import Fraction
from itertools import pairwise
from typing import Any

import numpy as np
import pytest
from scipy.optimize import Bounds, LinearConstraint, milp

from calc.catalogue import work_out
from calc.formulas.cutting import Task, best_fill, bound, cost, plan, used
from calc.quantity import Refused

CASES = 200


def sawn(**typed: str) -> Any:
    """The Answer for bars of 1000 mm, with some inputs changed."""
    return work_out("bar-cutting", {"bar_lengths": "1000 mm", "pieces": "97 x 10", "saw_kerf": "1.5 mm"} | typed)


def patterns(task: Task, room: int) -> list[list[int]]:
    """Every way to fill a bar, by plain recursion."""
    found: list[list[int]] = [[]]
    for length, count in zip(task.lengths, task.counts, strict=True):
        found = [
            [*one, n]
            for one in found
            for n in range(count + 1)
            if n * length + sum(a * b for a, b in zip(one, task.lengths, strict=False)) <= room
        ]
    return [one for one in found if any(one)]


def solved(task: Task) -> float:
    """The least cost by an integer program over all patterns (scipy.optimize.milp, HiGHS)."""
    columns, costs = [], []
    for room, price in zip(task.rooms, task.costs, strict=True):
        found = patterns(task, room)
        columns += found
        costs += [price] * len(found)
    enough = LinearConstraint(np.array(columns).T, lb=np.array(task.counts))
    reply = milp(np.array(costs), constraints=enough, integrality=np.ones(len(costs)), bounds=Bounds(0, np.inf))
    assert reply.success
    return float(reply.fun)


def random_task(chance: random.Random) -> Task:
    """A shop's list: up to five lengths from up to two kinds of bar."""
    bars = tuple(sorted(chance.sample([1000, 1500, 2000, 2500, 3000], chance.randint(1, 2))))
    kerf = chance.choice([0, 2, 3])
    pieces = sorted({chance.randint(120, 700) for _ in range(chance.randint(1, 5))}, reverse=True)
    counts = tuple(chance.randint(1, 9) for _ in pieces)
    return Task(tuple(one + kerf for one in pieces), counts, tuple(bar + kerf for bar in bars), bars)


def test_against_an_integer_program() -> None:
    """200 random lists: never under the solver's optimum, equal to it where proven, within one bar of the bound.

    Measured: all 200 are the optimum.
    """
    chance, proven, optimal = random.Random(11), 0, 0
    for _ in range(CASES):
        task = random_task(chance)
        limit = bound(task)
        found = cost(task, plan(task, limit))
        best = round(solved(task))
        assert limit.least <= best <= found <= limit.least + max(task.costs)
        proven += found == limit.least
        optimal += found == best
    assert proven > 0.8 * CASES and optimal >= 0.99 * CASES


def test_a_plan_cuts_exactly_what_was_wanted() -> None:
    """Every piece once, no bar overfull, in larger random lists than a solver is asked for here."""
    chance = random.Random(12)
    for _ in range(5):
        lengths = tuple(sorted({chance.randint(30, 900) for _ in range(14)}, reverse=True))
        counts = tuple(chance.randint(1, 20) for _ in lengths)
        task = Task(lengths, counts, (2500, 3000), (2500, 3000))
        limit = bound(task)
        cuts = plan(task, limit)
        assert tuple(map(sum, zip(*(one.pattern for one in cuts), strict=True))) == counts
        assert all(used(lengths, one.pattern) <= task.rooms[one.kind] for one in cuts)
        assert limit.least <= cost(task, cuts) <= limit.least + 3000
        assert sum(p * n for p, n in zip(limit.prices, counts, strict=True)) >= Fraction(sum(counts)) / 200


def test_the_fullest_bar_by_brute_force() -> None:
    """best_fill against every pattern there is."""
    chance = random.Random(13)
    for _ in range(100):
        lengths = tuple(chance.randint(5, 60) for _ in range(4))
        counts = tuple(chance.randint(0, 4) for _ in lengths)
        worth = tuple(chance.randint(0, 50) for _ in lengths)
        value, pattern, ceiling = best_fill(worth, lengths, counts, 100)
        every = patterns(Task(lengths, counts, (100,), (100,)), 100)
        assert value == ceiling == max([used(worth, tuple(one)) for one in every], default=0)
        assert used(worth, pattern) == value and used(lengths, pattern) <= 100


def test_counted_in_decimals() -> None:
    """Three of 0.1 in 0.3 and two of 50 with a cut of 1.6 in 101.6: exactly full bars, which binary floats deny."""
    assert sawn(bar_lengths="0.3 mm", pieces="0.1 x 3", saw_kerf="0").values["bars_needed"].value == 1
    assert sawn(bar_lengths="101.6 mm", pieces="50 x 2", saw_kerf="1.6 mm").values["bars_needed"].value == 1
    assert sawn(bar_lengths="4 in", pieces="50 mm x 2", saw_kerf="1.6 mm").values["bars_needed"].value == 1
    assert sawn(bar_lengths="101.599 mm", pieces="50 x 2", saw_kerf="1.6 mm").values["bars_needed"].value == 2


def test_the_stub_costs_a_piece() -> None:
    """Ten of 97 with 1.5 for each cut are 985: a bar of 1000 does, until the saw needs 60 to hold."""
    assert sawn(bars_at_hand="1").verdict == "ok"
    short = sawn(stub="60 mm", bars_at_hand="1")
    assert short.verdict == "stop" and short.values["bars_needed"].value == 2
    (more,) = [one for one in short.advice if one.input]
    assert sawn(stub="60 mm", bars_at_hand=str(more.value)).verdict == "ok"


def test_the_same_count_as_a_single_length_has_in_the_blank() -> None:
    """One length only: as many bars as stock-allowance counts by division, with and without a stub."""
    for stub in ("0 mm", "40 mm"):
        blank = work_out("stock-allowance", {
            "finished_length": "80 mm", "finished_width": "50 mm", "finished_height": "25 mm", "saw_kerf": "1.5 mm",
            "bar_length": "3000 mm", "stub": stub, "quantity": "100"}).values  # fmt: skip
        here = sawn(bar_lengths="3000", pieces=f"{blank['blank_length'].value} x 100", stub=stub).values
        assert here["bars_needed"].value == blank["bars_needed"].value


def test_nothing_to_spare_is_watched() -> None:
    """A bar filled to the last tenth: watch. With 2 mm over: ok. Of equal plans the roomier is taken."""
    assert sawn(pieces="997 x 1", saw_kerf="1 mm").verdict == "ok"  # 3 mm over, and the last needs no cut
    assert sawn(pieces="999.5 x 1").verdict == "watch"
    easy = sawn(bar_lengths="1000", pieces="500 x 2, 300 x 2", saw_kerf="0")
    assert easy.values["bars_needed"].value == 2 and easy.verdict == "ok"
    assert easy.values["least_spare"].value == pytest.approx(200)


def test_the_numbers_add_up() -> None:
    """Bars bought = pieces + cuts + what is left; the share says the same."""
    values = sawn(bar_lengths="2000, 3000", pieces="640 x 4, 415 x 5, 260 x 6", stub="60 mm").values
    pieces = [length for bar in values["plan"].value for length in bar]
    assert Counter(pieces) == {640.0: 4, 415.0: 5, 260.0: 6}
    left = sum(values["offcuts"].value)
    assert sum(pieces) + 1.5 * len(pieces) + left == pytest.approx(values["length_bought"].value)
    assert values["waste_share"].value == pytest.approx(1 - sum(pieces) / values["length_bought"].value)


def test_more_never_needs_less() -> None:
    """Monotonic: more pieces, a wider cut or a longer stub never take less bar."""
    for key, steps in (("saw_kerf", ("0", "1", "5", "20")), ("stub", ("0", "20", "90", "300"))):
        bought = [sawn(pieces="310 x 12, 120 x 16", **{key: step}).values["length_bought"].value for step in steps]
        assert all(a <= b for a, b in pairwise(bought)) and bought[0] < bought[-1]


def test_a_full_page_is_worked_out_while_one_waits() -> None:
    """20 lengths from 3 kinds of bar: under 2 s of processor time on a slow core (before: 4 to 8 s); twice that here,
    for a machine with other work."""
    chance = random.Random(9)
    lengths = sorted({round(chance.uniform(60, 1400)) for _ in range(20)})
    begun = time.process_time()
    found = sawn(bar_lengths="3000, 4000, 6000", pieces=", ".join(f"{n} x {chance.randint(1, 10)}" for n in lengths))
    assert time.process_time() - begun < 4
    assert found.values["least_possible"].value <= found.values["length_bought"].value


@pytest.mark.parametrize("seed", range(6))
def test_many_lengths_and_never_under_the_bound(seed: int) -> None:
    """12 to 17 lengths from three kinds of bar: the bound holds, for at its prices no bar is worth more than it
    costs."""
    chance = random.Random(seed)
    lengths = tuple(sorted({chance.randint(60, 2400) for _ in range(12 + seed)}, reverse=True))
    task = Task(lengths, tuple(chance.randint(1, 30) for _ in lengths), (2500, 3000, 4000), (2500, 3000, 4000))
    limit = bound(task)
    cuts = plan(task, limit)
    assert limit.least <= cost(task, cuts) <= limit.least + 4000
    prices = np.array([float(one) for one in limit.prices])
    for room, price in zip(task.rooms, task.costs, strict=True):
        fits = LinearConstraint(np.array([lengths]), ub=room)
        fullest = milp(-prices, constraints=fits, integrality=np.ones(len(lengths)), bounds=Bounds(0, task.counts))
        assert fullest.success and -fullest.fun <= price * (1 + 1e-6)
    assert float(prices @ np.array(task.counts)) > limit.least - 500.001


def test_counts_and_pieces_are_drawn_apart() -> None:
    """The count says bars; a hundred short pieces are one block with thin lines between, and its label."""
    drawn = sawn(bar_lengths="3000", pieces="850 x 6").drawing
    assert ">2 bars</text>" in drawn and "2 ×" not in drawn
    short = sawn(pieces="12 x 70").drawing
    assert short.count('class="dim"') == 69 and "70 × 12 mm" in short
    assert sawn(bar_lengths="20000", pieces="9 x 1900", saw_kerf="1 mm").drawing.count("<line") < 10


def test_bars_at_hand_are_of_any_length() -> None:
    """With several lengths of bar the reason says what was counted."""
    assert "any length" in sawn(bar_lengths="1000, 1200", pieces="900 x 3", bars_at_hand="2").reason
    assert "any length" not in sawn(pieces="900 x 3", bars_at_hand="2").reason


def test_a_piece_longer_than_every_bar_is_refused() -> None:
    """The line says what bar it would take."""
    with pytest.raises(Refused, match=r"970 mm needs a bar of 1031.5 mm"):
        sawn(pieces="970 x 1", stub="60 mm")
    with pytest.raises(Refused, match="nothing to saw"):
        sawn(pieces="97 x 0")
