"""Cutting mixed lengths from bars: a bound that no plan can beat, and a plan near it.

Whole numbers in (nanometres, say), so that nothing is rounded and every Python finds the same plan.
The bound is the linear relaxation over patterns with its columns made as they are needed (P. C. Gilmore and
R. E. Gomory, Operations Research 9, 1961); where its making stops early, Farley's scaling keeps it a bound.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import islice

# Where a search gives up: counts, not seconds, so that all machines agree.
STEPS, COLUMNS, VISITS, BRANCHES = 8_000, 300, 800, 40

Pattern = tuple[int, ...]  # how many of each length


@dataclass(frozen=True)
class Task:
    """Lengths wanted (each with its saw cut) and how many; the room in each kind of bar and what that bar costs.

    Longest length first; every length goes into some bar.
    """

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


def best_fill(worth: tuple[int, ...], lengths: tuple[int, ...], counts: Pattern, room: int) -> tuple[int, Pattern, int]:
    """The pattern worth most within `room`: its worth, the pattern, and what no pattern can exceed.

    Branch and bound, the densest length first. It gives up after STEPS tries; then the third number is larger.

    >>> best_fill((60, 100, 120), (10, 20, 30), (1, 1, 1), 50)
    (220, (0, 1, 1), 220)
    """
    order = sorted((n for n in range(len(lengths)) if worth[n] > 0 and counts[n] > 0 and lengths[n] <= room),
                   key=lambda n: (Fraction(-worth[n], lengths[n]), n))  # fmt: skip
    ceiling = (room * worth[order[0]] // lengths[order[0]]) if order else 0
    best, taken, tries = 0, [0] * len(lengths), 0
    found = tuple(taken)
    stack: list[tuple[int, int, int, tuple[int, ...]]] = [(0, room, 0, ())]
    while stack and tries < STEPS:
        tries += 1
        depth, left, value, took = stack.pop()
        if value > best:
            best = value
            found = _spread(order, took, len(lengths))
        if depth == len(order):
            continue
        n = order[depth]
        if value + left * worth[n] // lengths[n] <= best:
            continue
        most = min(counts[n], left // lengths[n])
        for count in range(most + 1):  # the last pushed, the most, is looked at first
            stack.append((depth + 1, left - count * lengths[n], value + count * worth[n], (*took, count)))
    return best, found, ceiling if stack else best


def _spread(order: list[int], took: tuple[int, ...], size: int) -> Pattern:
    pattern = [0] * size
    for n, count in zip(order, took, strict=False):
        pattern[n] = count
    return tuple(pattern)


def bound(task: Task) -> Bound:
    """What no plan can beat: the relaxation's cost, rounded up to a sum that bars can cost.

    Two of three pieces of 60 do not go into one bar of 100, so three bars it is:

    >>> bound(Task((60,), (3,), (100,), (100,))).least
    300
    """
    size = range(len(task.lengths))
    columns = [_first(task, n) for n in size]
    inverse = [[Fraction(int(i == n), columns[n].pattern[n]) for i in size] for n in size]
    amounts = [task.counts[n] * inverse[n][n] for n in size]
    for turn in range(COLUMNS):
        costs = [task.costs[one.kind] if one else 0 for one in columns]
        prices = [sum((costs[r] * inverse[r][i] for r in size), Fraction(0)) for i in size]
        column, over = _better(task, prices)
        if column is None or turn == COLUMNS - 1:
            break
        entering = list(column.pattern) if isinstance(column, Cut) else [-int(i == column) for i in size]
        columns = _swap(columns, inverse, amounts, entering, column if isinstance(column, Cut) else None)
    worth = sum((max(p, 0) * d for p, d in zip(prices, task.counts, strict=True)), Fraction(0)) / over
    cuts = tuple((one, x) for one, x in zip(columns, amounts, strict=True) if one and x > 0)
    return Bound(_payable(task, worth), tuple(max(p, Fraction(0)) / over for p in prices), cuts)


def _first(task: Task, n: int) -> Cut:
    """Bars full of one length, of the kind that is cheapest for it."""

    def many(kind: int) -> int:
        return min(task.counts[n], task.rooms[kind] // task.lengths[n])

    kinds = [kind for kind in range(len(task.rooms)) if many(kind)]
    kind = min(kinds, key=lambda kind: (Fraction(task.costs[kind], many(kind)), kind))
    return Cut(kind, tuple(many(kind) if i == n else 0 for i in range(len(task.lengths))))


def _better(task: Task, prices: list[Fraction]) -> tuple[Cut | int | None, Fraction]:
    """A column that lowers the cost (a bar's, or the index of a length made too often), and by what share prices are
    too high at most."""
    for i, price in enumerate(prices):
        if price < 0:
            return i, Fraction(1)
    scale = math.lcm(*(price.denominator for price in prices))
    worth = tuple(int(price * scale) for price in prices)
    column, gain, over = None, Fraction(0), Fraction(1)
    for kind, room in enumerate(task.rooms):
        value, pattern, ceiling = best_fill(worth, task.lengths, task.counts, room)
        cost = task.costs[kind] * scale
        over = max(over, Fraction(ceiling, cost))
        if value - cost > gain:
            column, gain = Cut(kind, pattern), Fraction(value - cost)
    return column, over


def _swap(columns: list[Cut | None], inverse: list[list[Fraction]], amounts: list[Fraction], entering: list[int],
          column: Cut | None) -> list[Cut | None]:  # fmt: skip
    """One step of the simplex method, exact: the entering column takes the place of the first to run out."""
    size = range(len(columns))
    change = [sum((row[i] * entering[i] for i in size), Fraction(0)) for row in inverse]
    out = min((r for r in size if change[r] > 0), key=lambda r: (amounts[r] / change[r], r))
    pivot = change[out]
    inverse[out] = [x / pivot for x in inverse[out]]
    amounts[out] /= pivot
    for r in size:
        if r != out and change[r]:
            inverse[r] = [x - change[r] * y for x, y in zip(inverse[r], inverse[out], strict=True)]
            amounts[r] -= change[r] * amounts[out]
    return [column if r == out else one for r, one in enumerate(columns)]


def _payable(task: Task, worth: Fraction) -> int:
    step = math.gcd(*task.costs)
    return -(-math.ceil(worth) // step) * step


def cost(task: Task, cuts: tuple[Cut, ...]) -> int:
    """What the bars of a plan cost together."""
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
