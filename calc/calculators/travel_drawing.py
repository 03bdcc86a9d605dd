"""The move from above and, below it, from the side, to scale; the tool where it touches or has least room."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from calc.calculators.travel_sums import AXES, SAME, Box, Place, Sums
from calc.drawing import WIDTH, Drawing, Point, corners
from calc.show import show

EDGE, GAP, ROOM = 30.0, 30.0, 316.0  # picture units: above and below, between the views, both views at most
LOWEST = 220.0  # picture units
TITLE = "The move from above, and below it from the side"


@dataclass(frozen=True)
class View:
    """What is seen: `along` is drawn to the right; a window from `low` to `high` in (right, away, up)."""

    along: int
    low: Place
    high: Place
    lift: float

    def turned(self, place: Place) -> Place:
        """A place as (right, away, up), never mirrored."""
        x, y, z = place
        return (x, y, z) if self.along == 0 else (y, -x, z)

    def above(self, place: Place) -> Point:
        """Where a turned place lies in the view from above."""
        return place[0], place[1] + self.lift

    def beside(self, place: Place) -> Point:
        """Where a turned place lies in the view from the side."""
        return place[0], place[2]


def drawing(v: Mapping[str, Any], s: Sums) -> str:
    """SVG of the move."""
    view, scale = _view(v, s)
    deep, tall = view.high[1] - view.low[1], view.high[2] - view.low[2]
    height = max(LOWEST, scale * (deep + tall) + 2 * EDGE + GAP)
    middle = (view.low[0] + view.high[0]) / 2, view.low[2] + (height / 2 - EDGE) / scale
    d = Drawing(TITLE, *middle, WIDTH / scale, height)
    for box in s.boxes:
        _box(d, view, box, s)
    _path(d, v, view, s)
    tip = view.turned(s.nearest.place if s.nearest else s.legs[-1].end)
    _tool(d, view, s, tip)
    side = "w" if tip[0] >= middle[0] else "e"  # opposite to the tool, so that no line runs through its text
    d.leader(view.above(tip), f"n{side}", 0, _told(s))
    d.leader(view.beside(tip), f"s{side}", 0, _travel(s) or f"tip at Z {show(tip[2], 'mm')}")
    between = (middle[0], view.high[2] + GAP / 2 / scale)
    d.write(between, "above: from the top · below: from the side", beside=(0, 5))
    return d.svg()


def _view(v: Mapping[str, Any], s: Sums) -> tuple[View, float]:
    ends = [end for leg in s.legs for end in (leg.start, leg.end)]
    spans = [max(end[axis] for end in ends) - min(end[axis] for end in ends) for axis in (0, 1)]
    bare = View(int(spans[1] > spans[0]), (0, 0, 0), (0, 0, 0), 0)
    turned = [bare.turned(end) for end in ends]
    radius = max(body.radius for body in s.bodies)
    room = 0.35 * max(spans) + 2 * radius
    above = v["tool_length"] + (1.5 * radius if len(s.bodies) > 1 else 0.0)
    low, high = [0.0] * 3, [0.0] * 3
    for axis, (less, more) in enumerate(((radius, radius), (radius, radius), (0.0, above))):
        low[axis] = min(one[axis] for one in turned) - less
        high[axis] = max(one[axis] for one in turned) + more
        for one, two in (_ends(bare, box) for box in s.boxes):
            low[axis] = min(low[axis], max(one[axis], low[axis] - room))
            high[axis] = max(high[axis], min(two[axis], high[axis] + room))
    wide, both = high[0] - low[0], high[1] - low[1] + high[2] - low[2]
    scale = min((WIDTH - 16) / wide, ROOM / both)
    lift = high[2] + GAP / scale - low[1]
    return View(bare.along, (low[0], low[1], low[2]), (high[0], high[1], high[2]), lift), scale


def _ends(view: View, box: Box) -> tuple[Place, Place]:
    """The lower and the higher corner of a box, turned."""
    one, two = view.turned(box.low), view.turned(box.high)
    return (min(one[0], two[0]), min(one[1], two[1]), one[2]), (max(one[0], two[0]), max(one[1], two[1]), two[2])


def _box(d: Drawing, view: View, box: Box, s: Sums) -> None:
    """A box as far as it lies in the window; the one that is touched, or nearest, darker."""
    kind = "hatch" if s.nearest and s.nearest.box is box else "stock-left"
    one, two = _ends(view, box)
    x1, y1, z1 = (max(end, edge) for end, edge in zip(one, view.low, strict=True))
    x2, y2, z2 = (min(end, edge) for end, edge in zip(two, view.high, strict=True))
    if x1 <= x2 and y1 <= y2:
        d.block(corners(x1, y1 + view.lift, x2, y2 + view.lift), kind)
    if x1 <= x2 and z1 <= z2:
        d.block(corners(x1, z1, x2, z2), kind)


def _path(d: Drawing, v: Mapping[str, Any], view: View, s: Sums) -> None:
    """Each rapid as an arrow; around it the box in which it can run."""
    for leg in s.legs:
        one, two = view.turned(leg.start), view.turned(leg.end)
        for seen in (view.above, view.beside):
            (x1, y1), (x2, y2) = seen(one), seen(two)
            if v["rapid"] == "each_axis" and x1 != x2 and y1 != y2:
                d.outline(corners(x1, y1, x2, y2), "cut-path")
            if (x1, y1) != (x2, y2):
                d.heading((x1, y1), (x2, y2))


def _tool(d: Drawing, view: View, s: Sums, tip: Place) -> None:
    x, _, z = tip
    for body in s.bodies:
        top = min(z + body.high, view.high[2])
        d.circle(view.above(tip), body.radius, "cutter")
        d.outline(corners(x - body.radius, z + body.low, x + body.radius, max(top, z + body.low)), "cutter")


def _told(s: Sums) -> str:
    near = s.nearest
    if near is None:
        return "no obstacles given"
    if near.touches:
        return f"{near.body.name} touches {near.box.name}"
    return f"{show(near.gap, 'mm')}, {near.body.name} to {near.box.name}"


def _travel(s: Sums) -> str:
    past = [(left, axis) for axis, left in zip(AXES, s.travel, strict=True) if left is not None and left < -SAME]
    return f"{min(past)[1]} runs {show(-min(past)[0], 'mm')} past its travel" if past else ""
