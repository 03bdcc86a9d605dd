"""Cutting mixed lengths from bars: a bound that no plan can beat, and a plan near it.

Whole numbers in (nanometres, say), so that nothing is rounded and every Python finds the same plan.
The bound is the linear relaxation over patterns with its columns made as they are needed (P. C. Gilmore and
R. E. Gomory, Operations Research 9, 1961); where its making stops early, Farley's scaling keeps it a bound.
"""

import math
import operator
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import accumulate, islice

# Where a search gives up: counts, not seconds, so that all machines agree.
STEPS, GLANCE, COLUMNS, VISITS, BRANCHES = 1_000, 60, 300, 800, 40
GRID = 10**9  # prices are rounded down to so many parts of the step between two bars' costs

Pattern = tuple[int, ...]  # how many of each length


@dataclass(frozen=True)
class Task:
    """Lengths wanted (with saw cut, longest first), how many; room and cost of each kind of bar. Each fits into one."""

    lengths: tuple[int, ...]
    counts: tuple[int, ...]
    rooms: tuple[int, ...]
    costs: tuple[int, ...]


@dataclass(frozen=True)
class Cut:
    """One bar of the plan: its kind (index into `rooms`) and its pattern."""

    kind: int
    pattern: Pattern


@dataclass(frozen=True)
class Bound:
    """No plan costs less than `least`; `prices` are what each length costs at least; `cuts` the fractional plan."""

    least: int
    prices: tuple[Fraction, ...]
    cuts: tuple[tuple[Cut, Fraction], ...]


def used(lengths: tuple[int, ...], pattern: Pattern) -> int:
    """Room taken by a pattern.

    >>> used((50, 30), (1, 2))
    110
    """
    return sum(length * count for length, count in zip(lengths, pattern, strict=True))


def best_fill(worth: tuple[int, ...], lengths: tuple[int, ...], counts: Pattern, room: int,
              steps: int = STEPS) -> tuple[int, Pattern, int]:  # fmt: skip
    """The pattern worth most within `room`: its worth, the pattern, and what no pattern can exceed.

    Branch and bound, the densest length first: as many of each as go in, then one less of the last, and so on.
    It gives up after `steps` tries; then the third number is larger.

    >>> best_fill((60, 100, 120), (10, 20, 30), (1, 1, 1), 50)
    (220, (0, 1, 1), 220)
    """
    order = _densest(worth, lengths, counts, room)
    shortest = list(accumulate((lengths[n] for n in reversed(order)), min))[::-1]
    ceiling = _ceiling(worth, lengths, counts, room, order)
    size, begin, left, value, best = len(order), 0, room, 0, 0
    taken, found = [0] * len(lengths), [0] * len(lengths)
    for _ in range(steps):
        for at in range(begin, size):
            if left < shortest[at]:
                break
            n = order[at]
            taken[n] = min(counts[n], left // lengths[n])
            left, value = left - taken[n] * lengths[n], value + taken[n] * worth[n]
        if value > best:
            best, found = value, taken.copy()
        begin = size
        while begin == size and best < ceiling:  # back to the last that may be left out with a gain
            at = size - 1
            while at >= 0 and not taken[order[at]]:
                at -= 1
            if at < 0:
                return best, tuple(found), best
            n = order[at]
            taken[n], left, value = taken[n] - 1, left + lengths[n], value - worth[n]
            if at + 1 < size and value + left * worth[order[at + 1]] // lengths[order[at + 1]] > best:
                begin = at + 1
            else:  # still less of it is worth less still
                left, value, taken[n] = left + taken[n] * lengths[n], value - taken[n] * worth[n], 0
        if best >= ceiling:
            break
    return best, tuple(found), ceiling


def _densest(worth: tuple[int, ...], lengths: tuple[int, ...], counts: Pattern, room: int) -> list[int]:
    fit = [n for n in range(len(lengths)) if worth[n] > 0 and counts[n] > 0 and lengths[n] <= room]
    return sorted(fit, key=lambda n: (Fraction(-worth[n], lengths[n]), n))


def _ceiling(worth: tuple[int, ...], lengths: tuple[int, ...], counts: Pattern, room: int, order: list[int]) -> int:
    """What a bar would be worth if the last piece could be cut short (G. B. Dantzig, Operations Research 5, 1957)."""
    value = 0
    for n in order:
        count = min(counts[n], room // lengths[n])
        value, room = value + count * worth[n], room - count * lengths[n]
        if count < counts[n]:
            return value + room * worth[n] // lengths[n]
    return value


def bound(task: Task) -> Bound:
    """What no plan can beat: the relaxation's cost, rounded up to a sum that bars can cost.

    Two of three pieces of 60 do not go into one bar of 100, so three bars it is:

    >>> bound(Task((60,), (3,), (100,), (100,))).least
    300
    """
    size, step = range(len(task.lengths)), math.gcd(*task.costs)
    columns: list[Cut | None] = [_first(task, n) for n in size]
    full = [one.pattern[n] for n, one in enumerate(columns) if one]
    whole = math.prod(full)  # the inverse of the columns is `inverse` over `whole`, all in whole numbers
    inverse = [[whole // full[n] * (i == n) for i in size] for n in size]
    for turn in range(COLUMNS):
        costs = [task.costs[one.kind] if one else 0 for one in columns]
        prices = [sum(costs[r] * inverse[r][i] for r in size) for i in size]
        worth = tuple(max(price, 0) * GRID // (whole * step) for price in prices)
        column, over = _better(task, prices, worth, step)
        least = sum(w * d for w, d in zip(worth, task.counts, strict=True)) * Fraction(step, GRID) / over
        now = Fraction(sum(map(operator.mul, prices, task.counts)), whole)
        if column is None or turn == COLUMNS - 1 or _payable(task, least) >= _payable(task, now):
            break
        columns, whole = _swap(task, columns, inverse, whole, column)
    amounts = [Fraction(sum(map(operator.mul, row, task.counts)), whole) for row in inverse]
    cuts = tuple((one, x) for one, x in zip(columns, amounts, strict=True) if one and x > 0)
    return Bound(_payable(task, least), tuple(w * Fraction(step, GRID) / over for w in worth), cuts)


def _first(task: Task, n: int) -> Cut:
    """Bars full of one length, of the kind that is cheapest for it."""

    def many(kind: int) -> int:
        return min(task.counts[n], task.rooms[kind] // task.lengths[n])

    kinds = [kind for kind in range(len(task.rooms)) if many(kind)]
    kind = min(kinds, key=lambda kind: (Fraction(task.costs[kind], many(kind)), kind))
    return Cut(kind, tuple(many(kind) if i == n else 0 for i in range(len(task.lengths))))


def _better(task: Task, prices: list[int], worth: tuple[int, ...], step: int) -> tuple[Cut | int | None, Fraction]:
    """A column that lowers the cost (a bar's, or the index of a length made too often), and by what share the `worth`
    of the lengths is too high at most."""
    surplus = next((i for i, price in enumerate(prices) if price < 0), None)
    for steps in (GLANCE, STEPS):  # the whole search only where a glance finds nothing
        column, gain, over = None, 0, Fraction(1)
        for kind, room in enumerate(task.rooms):
            value, pattern, ceiling = best_fill(worth, task.lengths, task.counts, room, steps)
            cost = task.costs[kind] // step * GRID
            over = max(over, Fraction(ceiling, cost))
            if value - cost > gain:
                column, gain = Cut(kind, pattern), value - cost
        if column or surplus is not None:
            break
    return column if surplus is None else surplus, over


def _swap(task: Task, columns: list[Cut | None], inverse: list[list[int]], whole: int,
          column: Cut | int) -> tuple[list[Cut | None], int]:  # fmt: skip
    """One step of the simplex method, exact: the entering column takes the place of the first to run out."""
    size = range(len(columns))
    entering = list(column.pattern) if isinstance(column, Cut) else [-int(i == column) for i in size]
    change = [sum(map(operator.mul, row, entering)) for row in inverse]
    amounts = [sum(map(operator.mul, row, task.counts)) for row in inverse]
    out = min((r for r in size if change[r] > 0), key=lambda r: (Fraction(amounts[r], change[r]), r))
    pivot, row = change[out], inverse[out]
    for r in size:
        if r != out:  # the division leaves no rest: J. Edmonds, J. Res. NBS 71B, 1967
            inverse[r] = [(x * pivot - change[r] * y) // whole for x, y in zip(inverse[r], row, strict=True)]
    return [(column if isinstance(column, Cut) else None) if r == out else one for r, one in enumerate(columns)], pivot


def _payable(task: Task, worth: Fraction) -> int:
    step = math.gcd(*task.costs)
    return -(-math.ceil(worth) // step) * step


def cost(task: Task, cuts: tuple[Cut, ...]) -> int:
    """The bars of a plan together."""
    return sum(task.costs[one.kind] for one in cuts)


def plan(task: Task, limit: Bound) -> tuple[Cut, ...]:
    """A plan that cuts exactly the pieces wanted: the cheapest found, and the search ends at the bound.

    >>> one = Task((60, 40), (1, 1), (100,), (100,))
    >>> plan(one, bound(one))
    (Cut(kind=0, pattern=(1, 1)),)
    """
    best = min((_greedy(task, task.counts, forced) for forced in (True, False)), key=lambda cuts: cost(task, cuts))
    kept, left = _rounded(task, limit)
    for begun, rest in ((kept, left), ((), task.counts)):
        if cost(task, best) <= limit.least:
            break
        best = _searched(task, limit, begun, rest, best)
    return best


def _greedy(task: Task, counts: Pattern, forced: bool) -> tuple[Cut, ...]:
    """Bar by bar as full as can be; `forced`: each takes the longest piece left first."""
    cuts: list[Cut] = []
    while any(counts):
        first = next(n for n, count in enumerate(counts) if count)
        fills = [(kind, _full(task, counts, kind, first if forced else None)) for kind in range(len(task.rooms))]
        kind, pattern = min(
            ((kind, pattern) for kind, pattern in fills if any(pattern)),
            key=lambda one: (Fraction(task.costs[one[0]], used(task.lengths, one[1])), one[0]),
        )
        while all(map(operator.ge, counts, pattern)):  # as long as it goes, no other bar is fuller
            cuts.append(Cut(kind, pattern))
            counts = _less(counts, pattern)
    return tuple(cuts)


def _full(task: Task, counts: Pattern, kind: int, first: int | None) -> Pattern:
    room, taken = task.rooms[kind], 0
    if first is not None:
        if task.lengths[first] > room:
            return (0,) * len(counts)
        room, taken = room - task.lengths[first], 1
        counts = tuple(count - (n == first) for n, count in enumerate(counts))
    _, pattern, _ = best_fill(task.lengths, task.lengths, counts, room)
    return tuple(count + taken * (n == first) for n, count in enumerate(pattern))


def _less(counts: Pattern, pattern: Pattern) -> Pattern:
    return tuple(a - b for a, b in zip(counts, pattern, strict=True))


def _rounded(task: Task, limit: Bound) -> tuple[tuple[Cut, ...], Pattern]:
    """The whole bars of the fractional plan, and what they leave to be cut."""
    cuts: list[Cut] = []
    left = task.counts
    for one, amount in limit.cuts:
        for _ in range(math.floor(amount)):
            pattern = tuple(map(min, one.pattern, left))
            if any(pattern):
                cuts.append(Cut(one.kind, pattern))
                left = _less(left, pattern)
    return tuple(cuts), left


def _searched(
    task: Task, limit: Bound, begun: tuple[Cut, ...], rest: Pattern, best: tuple[Cut, ...]
) -> tuple[Cut, ...]:
    """The cheapest plan found that begins with `begun`, else `best`; depth first, VISITS nodes at most."""
    goal, least, seen, visits = limit.least, cost(task, best), {}, 0
    stack = [(begun, rest, cost(task, begun))]
    while stack and visits < VISITS and least > goal:
        visits += 1
        cuts, left, spent = stack.pop()
        if not any(left):
            best, least = (cuts, spent) if spent < least else (best, least)
            continue
        ahead = sum((p * n for p, n in zip(limit.prices, left, strict=True)), Fraction(0))
        if spent + _payable(task, ahead) >= least or seen.get(left, spent + 1) <= spent:
            continue
        seen[left] = spent
        fills = [
            Cut(kind, one) for kind in range(len(task.rooms)) for one in islice(_fills(task, left, kind), BRANCHES)
        ]
        fills.sort(key=lambda cut: Fraction(used(task.lengths, cut.pattern), task.costs[cut.kind]))
        stack += [((*cuts, cut), _less(left, cut.pattern), spent + task.costs[cut.kind]) for cut in fills]
    return best


def _fills(task: Task, counts: Pattern, kind: int) -> Iterator[Pattern]:
    """Every pattern of a bar that holds the longest piece left and has no room for one more."""
    first = next(n for n, count in enumerate(counts) if count)
    whole = [length * count for length, count in zip(task.lengths, counts, strict=True)]
    later = [sum(whole[n:]) for n in range(len(counts) + 1)]
    room = task.rooms[kind]
    # what was taken, what room is left, and the shortest piece that was left out: the room must end up under it
    stack: list[tuple[tuple[int, ...], int, int]] = [((), room, room + 1)]
    while stack:
        took, left, shortest = stack.pop()
        n = len(took)
        if left - later[n] >= shortest:
            continue  # even with all that follows there would be room for that piece
        if n == len(counts):
            yield took
            continue
        length = task.lengths[n]
        for count in range(int(n == first), min(counts[n], left // length) + 1):
            out = min(shortest, length) if count < counts[n] else shortest
            stack.append(((*took, count), left - count * length, out))
