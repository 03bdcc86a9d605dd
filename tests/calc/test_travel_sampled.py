"""Rapids against boxes by a second method: sampled points, small steps, swept areas of a geometry library."""

import math
import random
from collections.abc import Iterator
from itertools import pairwise

import pytest
from shapely.geometry import LineString, Point, box

from calc.catalogue import work_out
from tests.calc.travel_cases import BASE, NAME, typed, value

SHANK, HOLDER = (5.0, 0.0, 40.0), (18.0, 40.0, 90.0)  # radius, low and high above the tip, of BASE
Place = tuple[float, ...]


def scenes(seed: int, count: int) -> Iterator[tuple[list[Place], list[Place]]]:
    """Random moves of two or three points, and boxes somewhere around."""
    chance = random.Random(seed)
    for _ in range(count):
        points = [tuple(chance.uniform(-80, 80) for _ in range(3)) for _ in range(chance.choice((2, 3)))]
        lows = [[chance.uniform(-60, 40) for _ in range(3)] for _ in range(2)]
        yield points, [(*low, *(one + chance.uniform(1, 40) for one in low)) for low in lows]


def to_box(at: Place, stands: Place) -> float:
    """Distance from one point to a box."""
    return math.dist(at, [min(max(one, low), high) for one, low, high in zip(at, stands[:3], stands[3:], strict=True)])


def around(tip: Place) -> Iterator[Place]:
    """Points in and on the tool and its holder."""
    for radius, low, high in (SHANK, HOLDER):
        for ring in (0.0, 0.4, 0.7, 1.0):
            for turn in range(12):
                x = tip[0] + ring * radius * math.cos(turn * math.pi / 6)
                y = tip[1] + ring * radius * math.sin(turn * math.pi / 6)
                yield from ((x, y, tip[2] + low + part * (high - low) / 4) for part in range(5))


def between(one: Place, two: Place, shares: Place) -> Place:
    """A place on the way, each axis at its own share."""
    return tuple(a + share * (b - a) for a, b, share in zip(one, two, shares, strict=True))


def exact(tip: Place, stands: Place) -> float:
    """Distance of tool and holder at one place from a box, the plan by a geometry library."""
    flat = box(stands[0], stands[1], stands[3], stands[4])
    across, found = Point(tip[:2]).distance(flat), []
    for radius, low, high in (SHANK, HOLDER):
        up = max(stands[2] - tip[2] - high, tip[2] + low - stands[5], 0.0)
        found.append(math.hypot(max(0.0, across - radius), up))
    return min(found)


@pytest.mark.parametrize("rapid", ["each_axis", "straight"])
def test_never_less_room_than_said(rapid: str) -> None:
    """Points of the tool at random places of the move: none is nearer to a box than said, and some nearly as near."""
    chance, tight = random.Random(3), 0
    for points, boxes in scenes(11, 20):
        said = value("clearance", BASE, move=typed(points), obstacles=typed(boxes), rapid=rapid)
        least = math.inf
        for one, two in pairwise(points):
            for _ in range(25):
                share = chance.random()
                apart = (chance.choice((0, 1, share)), chance.random(), chance.choice((0, 1, share)))
                tip = between(one, two, (share,) * 3 if rapid == "straight" else apart)
                least = min(least, *(to_box(at, stands) for at in around(tip) for stands in boxes))
        assert least >= said - 1e-6
        tight += least < said + 12
    assert tight > 15


def test_a_straight_rapid_by_small_steps() -> None:
    """Second method: 1,500 places on each line, distances in plan by a geometry library. Moves slope in all axes."""
    touched = free = 0
    for points, boxes in scenes(5, 40):
        found = work_out(NAME, {**BASE, "move": typed(points[:2]), "obstacles": typed(boxes[:1]), "rapid": "straight"})
        said, first = found.values["clearance"].value, found.values["first_contact"].value
        steps = [(n / 1500, between(points[0], points[1], (n / 1500,) * 3)) for n in range(1501)]
        rooms = [(share, exact(tip, boxes[0])) for share, tip in steps]
        least = min(room for _, room in rooms)
        assert said - 1e-6 <= least <= said + math.dist(points[0], points[1]) / 1500
        if first is None:
            free += 1
            continue
        touched += 1
        assert exact(tuple(first), boxes[0]) <= 1e-5
        share = math.dist(points[0], first) / math.dist(points[0], points[1])
        assert all(room > 0 for at, room in rooms if at < share - 1e-3)
        assert between(points[0], points[1], (share,) * 3) == pytest.approx(first, abs=1e-5)
    assert touched > 5 and free > 5


def test_first_contact_where_each_axis_keeps_its_own_pace() -> None:
    """The tool touches at the place said; no place that all axes come to earlier touches."""
    chance, touched = random.Random(8), 0
    for points, boxes in scenes(6, 60):
        one, two = points[:2]
        first = value("first_contact", BASE, move=typed((one, two)), obstacles=typed(boxes[:1]))
        if first is None:
            continue
        touched += 1
        assert exact(tuple(first), boxes[0]) <= 1e-5
        shares = [(at - a) / (b - a) for at, a, b in zip(first, one, two, strict=True)]
        assert all(-1e-6 <= share <= 1 + 1e-6 for share in shares)
        for _ in range(200):
            earlier = tuple(chance.random() * max(shares) * 0.999 for _ in range(3))
            assert max(shares) < 1e-6 or exact(between(one, two, earlier), boxes[0]) > 0
    assert touched > 10


def test_level_moves_against_swept_areas() -> None:
    """A level line swept by a disc, and a rectangle of all places: the library's distances, to its 1 in 10,000."""
    chance = random.Random(9)
    for _ in range(40):
        x1, y1, x2, y2 = (chance.uniform(-100, 100) for _ in range(4))
        left, front = chance.uniform(-150, 120), chance.uniform(-150, 120)
        stands = box(left, front, left + 40, front + 25)
        inputs = {"tool_diameter": "20", "tool_length": "40", "move": typed(((x1, y1, 0.0), (x2, y2, 0.0))),
                  "obstacles": typed(((left, front, -5.0, left + 40, front + 25, 5.0),))}  # fmt: skip
        line = LineString([(x1, y1), (x2, y2)]).buffer(10, quad_segs=512).distance(stands)
        area = box(*sorted((x1, x2))[:1], min(y1, y2), max(x1, x2), max(y1, y2)).buffer(10, quad_segs=512)
        assert value("clearance", inputs, rapid="straight") == pytest.approx(line, abs=1e-4)
        assert value("clearance", inputs) == pytest.approx(area.distance(stands), abs=1e-4)


def test_what_physics_demands() -> None:
    """A line never has less room than the box around it; thicker is never roomier; backwards is the same."""
    for points, boxes in scenes(13, 25):
        inputs = {**BASE, "move": typed(points), "obstacles": typed(boxes)}
        here = value("clearance", inputs)
        assert value("clearance", inputs, rapid="straight") >= here - 1e-6
        assert value("clearance", inputs, tool_diameter="30") <= here + 1e-6
        assert value("clearance", inputs, holder_length="") <= here + 1e-6
        assert value("clearance", inputs, move=typed(points[::-1])) == pytest.approx(here, abs=2e-6)
        moved = [tuple(one + 17.25 for one in row) for row in boxes]
        there = {**BASE, "move": typed([[one + 17.25 for one in row] for row in points]), "obstacles": typed(moved)}
        assert value("clearance", there) == pytest.approx(here, abs=2e-6)
        swapped = {"move": typed([(y, x, z) for x, y, z in points]),
                   "obstacles": typed([(b, a, c, e, d, f) for a, b, c, d, e, f in boxes])}  # fmt: skip
        assert value("clearance", inputs, **swapped) == pytest.approx(here, abs=2e-6)
