"""A corner of a pocket in soft jaws, from above and to scale: jaws, relief, and the part pushed into the corner."""

from math import asin, atan2, degrees, radians, sin, sqrt

from calc.calculators.soft_given import Given
from calc.calculators.soft_sums import Relief, Sums
from calc.drawing import HEIGHT, WIDTH, Drawing, Point, polar
from calc.show import rough, show

LEAST, MOST = 7.0, 14.0  # of the largest radius across the picture
LEFT, BELOW = 0.4, 0.3  # shares of the picture left of the pocket's corner, and below it
LINE = 20.0  # picture units from one row of text to the next


def drawing(g: Given, s: Sums) -> str:
    """SVG: the origin is the pocket's theoretical corner, x along the jaws."""
    base = max(s.corner_radius, s.relief.radius if s.relief else 0.0)
    span = min(max(LEAST * base, 2.0 * (s.depth + g.gap)), MOST * base)
    said = f"relief of {show(2 * s.relief.radius, 'mm')}" if s.relief else "no relief"
    d = Drawing(f"A corner of the pocket from above: {said}", (0.5 - LEFT) * span,
                (0.5 - BELOW) * span * HEIGHT / WIDTH, span)  # fmt: skip
    part = _part(d, g)
    d.hatched(part, "stock-left")
    for flip in (False, True):
        _jaw(d, g, s, span, flip)
    d.shape(part, "cut-path")
    if s.relief:
        _relief(d, s.relief)
    _labels(d, g, s, span)
    return d.svg()


def _jaw(d: Drawing, g: Given, s: Sums, far: float, flip: bool) -> None:
    """The fixed jaw below; with `flip` the other one, mirrored about the pocket's middle."""
    long, wide, turn = g.pocket_length, g.pocket_width, -1 if flip else 1

    def at(x: float, y: float) -> Point:
        return (x, wide - y) if flip else (x, y)

    (cx, cy), radius, begin, end = _corner(s)
    into, out = polar((cx, cy), radius, begin), polar((cx, cy), radius, end)
    face = min(0.0, into[0])
    outline = [
        d.to(at(-far, s.depth)),
        d.on(at(face, s.depth)),
        d.on(at(*into)),
        d.round(at(cx, cy), radius, turn * begin, turn * end),
        d.on(at(long - out[0], out[1])),
        d.round(at(long - cx, cy), radius, turn * (180 - end), turn * (180 - begin)),
        d.on(at(long - face, s.depth)),
        d.on(at(long + far, s.depth)),
    ]
    d.hatched([*outline, d.on(at(long + far, -far)), d.on(at(-far, -far)), "Z"])
    d.shape(outline, "edge")


def _corner(s: Sums) -> tuple[Point, float, float, float]:
    """The arc in the pocket's corner: centre, radius, from the end wall (or the jaw's face) to the long wall."""
    if s.relief is None:
        a = radius = s.corner_radius
        begin, end = 180.0, 270.0
    else:
        a, radius = s.relief.aside, s.relief.radius
        begin, end = degrees(atan2(s.eaten - a, -a)), 360 + degrees(atan2(-a, s.eaten - a))
    if a + radius * sin(radians(begin)) > s.depth:
        begin = 180 - degrees(asin(max(-1.0, (s.depth - a) / radius)))
    return (a, a), radius, begin, end


def _part(d: Drawing, g: Given) -> list[str]:
    """The part against both walls."""
    p, long, wide = g.radius, g.length, g.width
    ends = ((p, p, 180), (long - p, p, 270), (long - p, wide - p, 0), (p, wide - p, 90))
    pieces = []
    for x, y, begin in ends:
        first = polar((x, y), p, begin)
        pieces.append(d.on(first) if pieces else d.to(first))
        if p > 0:
            pieces.append(d.round((x, y), p, begin, begin + 90))
    return [*pieces, "Z"]


def _relief(d: Drawing, relief: Relief) -> None:
    a, q = relief.aside, relief.radius
    d.circle((a, a), q, "cutter")
    for one, two in (((a - 1.15 * q, a), (a + 1.15 * q, a)), ((a, a - 1.15 * q), (a, a + 1.15 * q))):
        d.line(one, two, "centre")
    d.heading((0, 0), (a, a))


def _labels(d: Drawing, g: Given, s: Sums, span: float) -> None:
    row = _clear_row(d, (s.depth, s.depth + g.gap, g.pocket_width))
    if s.relief:
        middle = (s.relief.aside, s.relief.aside)
        d.leader(polar(middle, s.relief.radius, 225), "sw", 0, f"relief ⌀{show(2 * s.relief.radius, 'mm')}")
        d.leader(middle, "ne", row, f"offset {show(s.relief.offset, 'mm')}")
        d.leader((s.eaten, 0), "se", 0, f"wall from {show(s.eaten, 'mm')}")
    else:
        middle = (s.corner_radius, s.corner_radius)
        d.leader(polar(middle, s.corner_radius, 225), "sw", 0, f"pocket R {show(s.corner_radius, 'mm')}")
        d.leader(polar((g.radius, g.radius), g.radius, 225), "ne", row, f"part R {show(g.radius, 'mm')}")
    d.leader(_on_end_wall(s, (1 - BELOW) * span * HEIGHT / WIDTH), "nw", row, f"end wall {rough(s.end_wall, 'mm')}")


def _clear_row(d: Drawing, edges: tuple[float, ...]) -> int:
    """The first row of text at the top that no jaw's edge (mm across) runs through."""
    seen = [d.place((0, edge))[1] for edge in edges]
    for row in range(len(edges) + 1):
        foot = 18 + LINE * row
        if not any(foot - 16 < y < foot + 5 for y in seen):
            return row
    return 0


def _on_end_wall(s: Sums, high: float) -> Point:
    """A point of the end wall that is in the picture; round where the corner reaches so far."""
    top = min(s.depth, high)
    y = (min(s.eaten, top) + top) / 2
    round_by = s.corner_radius - y
    if s.relief or round_by <= 0:
        return 0.0, y
    return s.corner_radius - sqrt(s.corner_radius**2 - round_by**2), y
