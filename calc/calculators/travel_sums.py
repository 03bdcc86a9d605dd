"""Where a moving tool comes nearest to a box, and what is left of the travel."""

import math
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

from calc.formulas.room import between, room_beside, travel_left

AXES = "XYZ"
FAR, LONGEST = 5000.0, 1000.0  # mm: how far a coordinate and how long a tool can be
SAME = 1e-6  # mm: less room is contact; of two places as near as this, the first on the way counts
STILL = 1e-9  # mm: where room stays the same, the way is followed back to where that begins
HALVINGS, THIRDS = 60, 100

Place = tuple[float, float, float]


@dataclass(frozen=True)
class Body:
    """An upright cylinder of the tool; `low` and `high` are heights above the tip, `high` may be endless."""

    name: str
    radius: float
    low: float
    high: float


@dataclass(frozen=True)
class Box:
    """What stands in the way, square to the axes, in work coordinates."""

    name: str
    low: Place
    high: Place


@dataclass(frozen=True)
class Leg:
    """One rapid of the tip; `point` counts, from 1, the typed point it sets out from."""

    start: Place
    end: Place
    point: int


@dataclass(frozen=True)
class Nearest:
    """The first contact, or else where there is least room: `gap`, with the tip at `place`."""

    gap: float
    share: float
    leg: Leg
    place: Place
    body: Body
    box: Box

    @property
    def touches(self) -> bool:
        """Whether it is a contact."""
        return self.gap <= SAME


@dataclass(frozen=True)
class Sums:
    """What was found. `nearest` is None without obstacles; travel holds None for an axis not given."""

    legs: tuple[Leg, ...]
    bodies: tuple[Body, ...]
    boxes: tuple[Box, ...]
    nearest: Nearest | None
    reached: tuple[tuple[float, float] | None, ...]
    travel: tuple[float | None, ...]

    @property
    def least_travel(self) -> float | None:
        """The smallest travel left on any axis that was given."""
        return min((one for one in self.travel if one is not None), default=None)


def sums(v: Mapping[str, Any], boxes: tuple[Box, ...]) -> Sums:
    """All that is worked out for one move."""
    way, bodies = legs(v["move"], v.get("safe_height")), _bodies(v)
    reached = tuple(_reached_on(axis, way, v) for axis in range(3))
    limits = [v.get(f"travel_{axis.lower()}") for axis in AXES]
    return Sums(
        legs=way,
        bodies=bodies,
        boxes=boxes,
        nearest=nearest(way, bodies, boxes, v["rapid"] == "straight"),
        reached=reached,
        travel=tuple(
            None if limit is None or ends is None else travel_left(*ends, *limit)
            for ends, limit in zip(reached, limits, strict=True)
        ),
    )


def nose_above_tip(v: Mapping[str, Any]) -> float:
    """What is added to Z for the machine's own Z: the whole tool, where work zero was taken with the bare nose."""
    return v["tool_length"] + v["holder_length"] if v["zero_taken_with"] == "spindle_nose" else 0.0


def _reached_on(axis: int, way: Iterable[Leg], v: Mapping[str, Any]) -> tuple[float, float] | None:
    """The lowest and highest position of one axis on the machine's own scale."""
    if v.get("work_zero") is None or v.get(f"travel_{AXES[axis].lower()}") is None:
        return None
    zero = v["work_zero"][axis] + (nose_above_tip(v) if axis == 2 else 0.0)
    places = [zero + end[axis] for leg in way for end in (leg.start, leg.end)]
    return min(places), max(places)


def _bodies(v: Mapping[str, Any]) -> tuple[Body, ...]:
    face = v["tool_length"]
    tool = Body("tool", v["tool_diameter"] / 2, 0.0, face)
    if v.get("holder_diameter") is None:
        return (tool,)
    return tool, Body("holder", v["holder_diameter"] / 2, face, face + v.get("holder_length", math.inf))


def legs(points: Sequence[Place], safe: float | None) -> tuple[Leg, ...]:
    """The rapids from point to point; with a safe height first to it, from below or above, then across."""
    if len(points) == 1:
        return (Leg(points[0], points[0], 1),)
    found: list[Leg] = []
    for number, (start, end) in enumerate(pairwise(points), 1):
        if safe is None or start[:2] == end[:2]:
            found.append(Leg(start, end, number))
            continue
        over, there = (start[0], start[1], safe), (end[0], end[1], safe)
        found += [Leg(one, two, number) for one, two in ((start, over), (over, there), (there, end)) if one != two]
    return tuple(found)


def nearest(way: Iterable[Leg], bodies: Iterable[Body], boxes: Iterable[Box], straight: bool) -> Nearest | None:
    """The first contact on the way, or else the first place with least room."""
    best: Nearest | None = None
    for leg in way:
        for body in bodies:
            for box in boxes:
                one = _nearest_on(leg, body, box, straight, best)
                best = one if one and _before(one, best) else best
        if best and best.touches:
            return best
    return best


def _before(one: Nearest, other: Nearest | None) -> bool:
    if other is None or one.gap < other.gap - SAME:
        return True
    return one.leg is other.leg and one.gap <= other.gap + SAME and one.share < other.share - SAME


def _nearest_on(leg: Leg, body: Body, box: Box, straight: bool, best: Nearest | None) -> Nearest | None:
    """None where the best so far is nearer than anything on this leg can be."""
    whole = _room(_tips(leg, 1.0, False), body, box)  # the whole box holds the straight line too
    if best and whole > best.gap + SAME:
        return None
    line = straight and sum(one != two for one, two in zip(leg.start, leg.end, strict=True)) > 1

    def room(share: float) -> float:
        return _room(_tips(leg, share, line), body, box)

    share = _least(room) if line else 1.0
    gap = room(share)
    share = _first(room, share, gap + STILL)
    place = _nearest_tip(leg, _tips(leg, share, line), body, box)
    return Nearest(0.0 if gap <= SAME else gap, share, leg, place, body, box)


def _tips(leg: Leg, share: float, line: bool) -> tuple[Place, Place]:
    """Where the tip can be: on a line the point at that share of the way, else the whole box up to there."""
    there = _along(leg, share)
    if line:
        return there, there
    (x1, y1, z1), (x2, y2, z2) = leg.start, there
    return (min(x1, x2), min(y1, y2), min(z1, z2)), (max(x1, x2), max(y1, y2), max(z1, z2))


def _along(leg: Leg, share: float) -> Place:
    if share == 1:
        return leg.end  # exactly
    (x1, y1, z1), (x2, y2, z2) = leg.start, leg.end
    return x1 + share * (x2 - x1), y1 + share * (y2 - y1), z1 + share * (z2 - z1)


def _room(tips: tuple[Place, Place], body: Body, box: Box) -> float:
    (x1, y1, z1), (x2, y2, z2) = tips
    (left, front, under), (right, back, top) = box.low, box.high
    across_x, across_y = between(x1, x2, left, right), between(y1, y2, front, back)
    return room_beside(across_x, across_y, body.radius, between(z1 + body.low, z2 + body.high, under, top))


def _least(room: Callable[[float], float]) -> float:
    """The share of a straight way with least room.

    Distances between convex bodies are a convex function of the way, so thirds can be thrown away.
    """
    low, high = 0.0, 1.0
    for _ in range(THIRDS):
        third = (high - low) / 3
        if room(low + third) <= room(high - third):
            high -= third
        else:
            low += third
    return min((0.0, (low + high) / 2, 1.0), key=room)


def _first(room: Callable[[float], float], share: float, limit: float) -> float:
    """The first share of the way up to `share`, where room falls steadily, with no more room than `limit`."""
    if room(0.0) <= limit:
        return 0.0
    low, high = 0.0, share
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        low, high = (low, middle) if room(middle) <= limit else (middle, high)
    return high


def _nearest_tip(leg: Leg, tips: tuple[Place, Place], body: Body, box: Box) -> Place:
    """Of the places the tip can be at, the one with least room that the leg comes to first."""
    lows = (box.low[0], box.low[1], box.low[2] - body.high)
    highs = (box.high[0], box.high[1], box.high[2] - body.low)
    beside = (min(max(one, low), high) for one, low, high in zip(leg.start, lows, highs, strict=True))
    x, y, z = (min(max(one, low), high) for one, low, high in zip(beside, *tips, strict=True))
    return x, y, z
