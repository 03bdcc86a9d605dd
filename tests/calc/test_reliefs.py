"""Corner reliefs: against areas, by trying every size and place, at their limits, and a finishing pass swept."""

import math
import random

import pytest
from shapely.geometry import LineString, box

from calc.formulas.reliefs import relief_bite, relief_offset, smallest_relief, wall_eaten
from tests.calc.shapes import disc, rounded


def metal_in_the_way(r: float, p: float, q: float, offset: float) -> float:
    """Second method: area of the part, pushed into the corner, that neither pocket nor relief has made room for."""
    far = 6 * max(r, q)
    pocket = rounded(box(0, 0, far, far), r)
    a = offset / math.sqrt(2)
    part = rounded(box(0, 0, far, far), p).intersection(box(0, 0, far / 2, far / 2))
    return part.difference(pocket.union(disc(a, a, q))).area


def cases(count: int) -> list[tuple[float, float, float]]:
    """(cutter radius, part radius, relief radius), the relief at least as large as the smallest."""
    chance = random.Random(7)
    found = []
    for _ in range(count):
        r = chance.uniform(0.5, 10)
        p = r * chance.choice((0.0, chance.uniform(0, 0.95)))
        found.append((r, p, smallest_relief(r, p, 0) * chance.choice((1.0, chance.uniform(1, 2)))))
    return found


def free(r: float, p: float, q: float, a: float) -> bool:
    """By points alone: whether each point of the part's rim and inside lies in the pocket or in the relief."""
    turns = [math.pi * (1.25 + n / 240) for n in range(0, 61, 5)]  # the part's corner; then its wall, and a grid
    points = [(p + p * math.cos(t), p + p * math.sin(t)) for t in turns]
    points += [(r - (r - p) * (n / 60) ** 3, 0.0) for n in range(0, 61, 3)]
    grid = [r * (n + 0.5) / 8 for n in range(8)]
    points += [(x, y) for x in grid for y in grid if max(x, y) >= p or math.hypot(x - p, y - p) <= p]
    return all(math.hypot(x - r, y - r) <= r + 1e-9 or math.hypot(x - a, y - a) <= q + 1e-9 for x, y in points)


@pytest.mark.parametrize(("r", "p", "q"), [*cases(25), (3, 0, 3), (3, 2.9, 3), (5, 1, 5)])
def test_a_relief_clears_and_no_shallower_one_does(r: float, p: float, q: float) -> None:
    """Areas: nothing of the part is in metal. By points: 3 % of the relief further in, something is."""
    offset = relief_offset(r, q, p, 0)
    assert metal_in_the_way(r, p, q, offset) < 1e-5 * max(r, q) ** 2  # what polygons leave of circles
    assert free(r, p, q, offset / math.sqrt(2))
    assert not free(r, p, q, (offset + 0.03 * q) / math.sqrt(2))


@pytest.mark.parametrize("share", [0.0, 0.35, 0.9])
def test_the_smallest_relief_by_trying_every_one(share: float) -> None:
    """Brute force: ever larger radii, and for each every place on the bisector; the first that frees every point."""
    sizes = (0.65 + 0.005 * n for n in range(120))
    first = next(q for q in sizes if any(free(1, share, q, 0.4 + 0.002 * n) for n in range(300)))
    assert first == pytest.approx(smallest_relief(1, share, 0), abs=0.008)


@pytest.mark.parametrize(("p", "room"), [(0.0, 0.1), (0.0, 0.5), (0.3, 0.3), (0.5, 0.1)])
def test_the_smallest_relief_with_room_for_a_burr(p: float, room: float) -> None:
    """Brute force again, the rim beyond the part's crown by the room."""
    crown = (math.sqrt(2) - 1) * p
    sizes = (0.65 + 0.005 * n for n in range(120))
    places = [0.1 + 0.002 * n for n in range(450)]
    first = next(q for q in sizes if any(math.sqrt(2) * a - q <= crown - room and free(1, p, q, a) for a in places))
    assert first == pytest.approx(smallest_relief(1, p, room), abs=0.008)


def test_limits_of_the_formulas() -> None:
    """q = r/sqrt(2) eats just what the fillet takes; for a part rounded like the cutter, it is the fillet itself."""
    assert smallest_relief(4, 0, 0) == pytest.approx(4 / math.sqrt(2))
    assert wall_eaten(4 / math.sqrt(2), relief_offset(4, 4 / math.sqrt(2), 0, 0)) == pytest.approx(4)
    assert smallest_relief(4, 3, 0) == smallest_relief(4, 0, 0)
    assert relief_offset(4, 4, 4, 0) == pytest.approx(4 * math.sqrt(2))
    assert relief_bite(4, relief_offset(4, 4, 4, 0)) == pytest.approx(0, abs=1e-12)
    sizes = [smallest_relief(4, 1, room) for room in (0, 0.3, 0.6, 1, 2)]
    assert sizes == sorted(sizes) and sizes[0] < sizes[-1]
    deeper = [relief_bite(4, relief_offset(4, 4, 1, room)) for room in (0, 0.2, 0.5, 1)]
    assert deeper == sorted(deeper)


def engaged(r: float, q: float, a: float, stock: float, along: float) -> float:
    """Degrees of the leading rim in what a finishing pass along y = 0 finds, its middle at (along, r), going to -x."""
    left = box(0, 0, 6 * r, 6 * r).difference(box(stock, stock, 7 * r, 7 * r)).difference(disc(a, a, q))
    turns = [math.pi / 2 + math.pi * n / 2000 for n in range(2001)]
    rim = LineString([(along + r * math.cos(t), r + r * math.sin(t)) for t in turns])
    return math.degrees(rim.intersection(left).length / r)


@pytest.mark.parametrize("p", [0.0, 0.3, 0.8])
@pytest.mark.parametrize("stock", [0.02, 0.1, 0.3, 0.5])
def test_reliefs_first_leave_the_corner_empty(p: float, stock: float) -> None:
    """Swept: with the smallest relief, and with the cutter's own, no place in the corner is worse than the wall."""
    straight = math.degrees(math.acos(1 - stock))
    for q in (smallest_relief(1, p, 0), 1.0):
        a = relief_offset(1, q, p, 0) / math.sqrt(2)
        worst = max(engaged(1, q, a, stock, 1 + 0.02 * n) for n in range(60))
        assert worst <= straight + 0.5
    assert engaged(1, 1e-6, 0, stock, 1) > 2.4 * straight  # without a relief it is: the check can fail
