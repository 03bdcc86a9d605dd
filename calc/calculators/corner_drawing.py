"""The corner to scale, seen along the cutter's axis: finished walls, stock left, cutter, what is in metal."""

from math import cos, radians

from calc.calculators.corner_given import Given
from calc.calculators.corner_sums import Sums
from calc.drawing import Drawing, Point, polar
from calc.formulas.corner import Place
from calc.show import show

SPAN = 4.4  # cutter radii across the picture
FAR = 40.0  # cutter radii: walls run out of the picture


def drawing(g: Given, s: Sums) -> str:
    """SVG of the worst place; where the cutter does not fit, of the cutter over the corner."""
    place = s.place or _sitting(g)
    r, offset = g.cutter_radius, (place.x, place.y)
    said = f"{show(s.corner, 'deg')} of the cutter in metal" if s.corner is not None else "it does not fit"
    title = f"Cutter of {show(2 * r, 'mm')} in a corner of radius {show(g.corner_radius, 'mm')}: {said}"
    d = Drawing(title, place.x + 0.25 * r, place.y, SPAN * r)
    _material(d, g, place)
    d.circle(offset, r, "cutter")
    for begin, end in place.arcs:
        d.engaged(offset, r, begin, end)
    _centre_lines(d, offset, r)
    _heading(d, place, r)
    _dimensions(d, g, s, place)
    return d.svg()


def _sitting(g: Given) -> Place:
    """Where a cutter too large for the corner comes to rest: against both walls."""
    return Place(0.0, -(g.corner_radius - g.cutter_radius), 0.0, ())


def _outline(d: Drawing, g: Given, radius: float, inner: float, far: float) -> list[str]:
    """Along the first wall, round an arc of `radius` that touches both lines `inner` off O, and away."""
    back = (inner - radius) / cos(radians(g.turn / 2)) if g.turn < 180 else 0.0
    centre = polar((0, 0), back, g.turn / 2 - 90)
    begin, end = polar(centre, radius, -90), polar(centre, radius, g.turn - 90)
    away = polar(end, far, g.turn)
    return [
        d.to((begin[0] - far, begin[1])),
        d.on(begin),
        d.round(centre, radius, -90, g.turn - 90),
        d.on(away),
    ]


def _material(d: Drawing, g: Given, place: Place) -> None:
    far = FAR * g.cutter_radius + g.corner_radius
    finished = _outline(d, g, g.corner_radius, g.corner_radius, far)
    inner = g.corner_radius - g.stock
    fillet = max(g.rougher or 0.0, inner) if g.turn < 180 else inner
    roughed = _outline(d, g, max(fillet, 1e-9), inner, far)
    d.hatched([*roughed, *_round_about(d, g, far)], "stock-left")
    d.swept(_way_so_far(d, g, place, far), g.cutter_radius)
    d.hatched([*finished, *_round_about(d, g, far)], "hatch")
    d.shape(roughed, "cut-path")
    d.shape(finished, "edge")


def _way_so_far(d: Drawing, g: Given, place: Place, far: float) -> list[str]:
    """The path of the cutter's centre up to its place."""
    offset = g.corner_radius - g.cutter_radius
    way = [d.to((-far, -offset)), d.on((min(0.0, place.x), -offset))]
    if place.heading > 0 and offset > 0:
        way.append(d.round((0, 0), offset, -90, place.heading - 90))
    return [*way, d.on((place.x, place.y))]


def _round_about(d: Drawing, g: Given, far: float) -> list[str]:
    """Close an outline through the material outside it."""
    away = polar(polar((0, 0), far, g.turn - 90), far, g.turn)
    corner = polar((0, 0), 2 * far, g.turn / 2 - 90)
    return [d.on(away), d.on(corner), d.on((-far, -far)), "Z"]


def _centre_lines(d: Drawing, centre: Point, r: float) -> None:
    x, y = centre
    d.line((x - 1.15 * r, y), (x + 1.15 * r, y), "centre")
    d.line((x, y - 1.15 * r), (x, y + 1.15 * r), "centre")


def _heading(d: Drawing, place: Place, r: float) -> None:
    """Which way it goes."""
    begin = polar((place.x, place.y), 0.12 * r, place.heading)
    d.heading(begin, polar((place.x, place.y), 0.62 * r, place.heading))


def _dimensions(d: Drawing, g: Given, s: Sums, place: Place) -> None:
    centre, r = (place.x, place.y), g.cutter_radius
    d.leader(polar(centre, r, 135), "nw", 0, f"cutter ⌀{show(2 * r, 'mm')}")
    if s.corner is not None and place.arcs:
        begin, end = place.arcs[-1]
        d.leader(polar(centre, 0.75 * r, (begin + end) / 2), "ne", 0, f"in metal {show(s.corner, 'deg')}")
    wall = g.turn - 90 if g.turn <= 90 else place.heading - 45
    d.leader(
        polar((0, 0), g.corner_radius, min(wall, place.heading - 30)),
        "se",
        0,
        f"corner R {show(g.corner_radius, 'mm')}",
    )
    stock = polar(centre, 1.6 * r, 180 + place.heading)
    d.leader((stock[0], -(g.corner_radius - g.stock / 2)), "sw", 0, f"stock {show(g.stock, 'mm')}")
