"""Drawings to scale as SVG text: mm in, a picture readable on a phone out. Looks come from classes alone.

Line weights and kinds follow ISO 128: edge (wide), dim (narrow), centre (chain), hatch (narrow, slanted).
"""

import math
from collections.abc import Iterable
from html import escape

WIDTH, HEIGHT = 360.0, 300.0
FARTHEST = 1e5  # picture units; beyond that nothing is seen, and renderers lose count
ARROW = 7.0
HATCH_STEP = 9.0

Point = tuple[float, float]


class Drawing:
    """A growing picture. The point (`x`, `y`) in mm is its middle; `span` mm fill its width. y points up."""

    def __init__(self, title: str, x: float, y: float, span: float, height: float = HEIGHT) -> None:
        self._title, self._x, self._y = title, x, y
        self._scale, self._height = WIDTH / span, height
        self._parts: list[str] = []

    def place(self, point: Point) -> Point:
        """Where a point in mm lies in the picture (units of the view box, y down)."""
        x = WIDTH / 2 + (point[0] - self._x) * self._scale
        y = self._height / 2 - (point[1] - self._y) * self._scale
        return _held(x), _held(y)

    def size(self, length: float) -> float:
        """A length in mm as long as it is in the picture."""
        return length * self._scale

    def line(self, one: Point, two: Point, kind: str) -> None:
        """A straight line between two points."""
        (x1, y1), (x2, y2) = self.place(one), self.place(two)
        self._parts.append(f'<line class="{kind}" x1="{_d(x1)}" y1="{_d(y1)}" x2="{_d(x2)}" y2="{_d(y2)}"/>')

    def circle(self, centre: Point, radius: float, kind: str) -> None:
        """A full circle."""
        x, y = self.place(centre)
        self._parts.append(f'<circle class="{kind}" cx="{_d(x)}" cy="{_d(y)}" r="{_d(self.size(radius))}"/>')

    def shape(self, pieces: Iterable[str], kind: str, extra: str = "") -> None:
        """A path made of the pieces that `to`, `on` and `round` give."""
        self._parts.append(f'<path class="{kind}"{extra} d="{" ".join(pieces)}"/>')

    def to(self, point: Point) -> str:
        """A piece of path: begin at a point."""
        return "M{} {}".format(*map(_d, self.place(point)))

    def on(self, point: Point) -> str:
        """A piece of path: straight on to a point."""
        return "L{} {}".format(*map(_d, self.place(point)))

    def round(self, centre: Point, radius: float, begin: float, end: float) -> str:
        """A piece of path: along an arc about `centre` from where the path is, degrees anticlockwise."""
        point = polar(centre, radius, end)
        size, (x, y) = _d(self.size(radius)), self.place(point)
        large, clockwise = int(abs(end - begin) > 180), int(end < begin)
        return f"A{size} {size} 0 {large} {clockwise} {_d(x)} {_d(y)}"

    def engaged(self, centre: Point, radius: float, begin: float, end: float) -> None:
        """The filled piece of the cutter that is in metal; its angle can be read back."""
        pieces = [self.to(centre), self.on(polar(centre, radius, begin))]
        pieces += [self.round(centre, radius, begin, end), "Z"]
        self.shape(pieces, "engaged", f' data-engagement="{end - begin:.6f}"')

    def hatched(self, pieces: list[str], kind: str = "hatch") -> None:
        """Cut material: the shape, filled, and slanted lines across it."""
        mark = f"h{sum(map(ord, ''.join(pieces) + kind)) % 99991}x{len(self._parts)}"
        step = HATCH_STEP if kind == "hatch" else HATCH_STEP / 2
        self._parts.append(
            f'<defs><pattern id="{mark}" width="{_d(step)}" height="{_d(step)}" '
            'patternUnits="userSpaceOnUse" patternTransform="rotate(45)">'
            f'<line class="{kind}-line" x1="0" y1="0" x2="0" y2="{_d(step)}"/></pattern></defs>'
        )
        self.shape(pieces, f"{kind}-ground")
        self.shape(pieces, kind, f' fill="url(#{mark})"')

    def outline(self, points: Iterable[Point], kind: str) -> None:
        """A closed shape through points."""
        self.shape(self._closed(points), kind)

    def block(self, points: Iterable[Point], kind: str = "hatch") -> None:
        """Cut material: a closed hatched shape through points, with its edge."""
        pieces = self._closed(points)
        self.hatched(pieces, kind)
        self.shape(pieces, "edge")

    def _closed(self, points: Iterable[Point]) -> list[str]:
        first, *others = points
        return [self.to(first), *(self.on(one) for one in others), "Z"]

    def swept(self, pieces: Iterable[str], radius: float) -> None:
        """What a round cutter has cleared along a path."""
        self.shape(pieces, "swept", f' stroke-width="{_d(self.size(2 * radius))}"')

    def measure(self, one: Point, two: Point, text: str, beside: Point = (0, -6)) -> None:
        """A dimension: a narrow line with arrow heads and its text, `beside` its middle in picture units."""
        self.line(one, two, "dim")
        a, b = self.place(one), self.place(two)
        if math.dist(a, b) > 3 * ARROW:
            self._arrow(a, b)
            self._arrow(b, a)
        self._write(((a[0] + b[0]) / 2 + beside[0], (a[1] + b[1]) / 2 + beside[1]), text, "middle")

    def heading(self, one: Point, two: Point) -> None:
        """An arrow from one point to another: which way something moves."""
        self.line(one, two, "dim")
        self._arrow(self.place(two), self.place(one))

    def leader(self, point: Point, corner: str, row: int, text: str) -> None:
        """A text in a corner of the picture ("nw", "ne", "sw", "se"; rows inwards) and a line to a point."""
        left = corner.endswith("w")
        x = 8.0 if left else WIDTH - 8
        y = 18.0 + 20 * row if corner.startswith("n") else self._height - 10 - 20 * row
        end, reach = self.place(point), 7.4 * len(text) + 4
        begin = x + reach if left else x - reach
        self._parts.append(f'<line class="dim" x1="{_d(begin)}" y1="{_d(y - 4)}" x2="{_d(end[0])}" y2="{_d(end[1])}"/>')
        self._write((x, y), text, "start" if left else "end")

    def write(self, point: Point, text: str, anchor: str = "middle", beside: Point = (0, 0)) -> None:
        """A text at a point in mm, moved `beside` it in picture units."""
        x, y = self.place(point)
        self._write((x + beside[0], y + beside[1]), text, anchor)

    def svg(self) -> str:
        """The picture as one element, with its title for those who do not see it."""
        inside, title = "".join(self._parts), escape(self._title)
        return (
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {_d(WIDTH)} {_d(self._height)}" '
            f'role="img" aria-label="{title}"><title>{title}</title>{inside}</svg>'
        )

    def _write(self, at: Point, text: str, anchor: str) -> None:
        self._parts.append(
            f'<text class="text" x="{_d(at[0])}" y="{_d(at[1])}" text-anchor="{anchor}">{escape(text)}</text>'
        )

    def _arrow(self, tip: Point, tail: Point) -> None:
        along = math.atan2(tail[1] - tip[1], tail[0] - tip[0])
        sides = [
            (tip[0] + ARROW * math.cos(along + turn), tip[1] + ARROW * math.sin(along + turn)) for turn in (-0.26, 0.26)
        ]
        points = " ".join(f"{_d(x)},{_d(y)}" for x, y in (sides[0], tip, sides[1]))
        self._parts.append(f'<polyline class="arrow" points="{points}"/>')


def corners(left: float, low: float, right: float, high: float) -> tuple[Point, ...]:
    """The four corners of an upright rectangle, for `block` and `outline`."""
    return (left, low), (right, low), (right, high), (left, high)


def polar(centre: Point, radius: float, angle: float) -> Point:
    """The point at `angle` degrees, anticlockwise from +x, on a circle."""
    turn = math.radians(angle)
    return centre[0] + radius * math.cos(turn), centre[1] + radius * math.sin(turn)


def _held(value: float) -> float:
    return max(-FARTHEST, min(FARTHEST, value))


def _d(value: float) -> str:
    """Digits for a coordinate: the same text in every Python, and no "-0"."""
    text = f"{round(value, 6):.3f}".rstrip("0").rstrip(".")  # first away from the noise of the last digits
    return "0" if text == "-0" else text
