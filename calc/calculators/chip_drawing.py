"""The cut to scale, seen along the cutter's axis: wall, stock ahead, what is in metal, and one chip enlarged."""

import math

from calc.calculators.chip_given import Given
from calc.calculators.chip_sums import Sums
from calc.drawing import Drawing, polar
from calc.show import show

SPAN = 3.6  # cutter radii across the picture
CHIP = 0.22  # of the radius: how thick the thickest chip is drawn
PIECES = 24


def drawing(g: Given, s: Sums) -> str:
    """SVG of the cut; the cutter moves to the right along the finished wall below it."""
    r = g.diameter / 2
    title = f"Cutter of {show(g.diameter, 'mm')}, {show(g.engagement, 'deg')} of it in metal"
    d = Drawing(title, 0.15 * r, 0.0, SPAN * r)
    far = 4 * r
    top = g.ae - r
    d.hatched([d.to((-far, -r)), d.on((far, -r)), d.on((far, -far)), d.on((-far, -far)), "Z"])
    ahead = math.sqrt(max(0.0, r * r - top * top))
    stock = [d.to((0.0, -r)), d.round((0, 0), r, -90, math.degrees(math.atan2(top, ahead)))]
    d.hatched([*stock, d.on((far, top)), d.on((far, -r)), "Z"], "stock-left")
    d.shape([d.to((-far, -r)), d.on((far, -r))], "edge")
    d.line((ahead, top), (far, top), "edge")
    d.circle((0, 0), r, "cutter")
    d.engaged((0, 0), r, -90, -90 + g.engagement)
    _chip(d, g, r)
    d.line((-1.15 * r, 0), (1.15 * r, 0), "centre")
    d.line((0, -1.15 * r), (0, 1.15 * r), "centre")
    d.leader(polar((0, 0), r, 135), "nw", 0, f"cutter ⌀{show(g.diameter, 'mm')}, {g.teeth} teeth")
    d.leader(polar((0, 0), 0.6 * r, -90 + g.engagement / 2), "sw", 1, f"in metal {show(g.engagement, 'deg')}")
    thick = -90 + min(g.engagement, 90)
    d.leader(polar((0, 0), r * (1 + CHIP / 2), thick), "ne", 1, f"thickest chip {show(s.thickest, 'mm')}")
    d.leader((1.7 * r, (top - r) / 2), "se", 0, f"width {show(g.ae, 'mm')}")
    return d.svg()


def _chip(d: Drawing, g: Given, r: float) -> None:
    """The chip of one tooth outside the rim: its thickness follows the sine, enlarged to be seen."""
    outer = []
    for piece in range(PIECES + 1):
        angle = g.engagement * piece / PIECES
        outer.append(polar((0, 0), r * (1 + CHIP * math.sin(math.radians(angle))), angle - 90))
    path = [d.to(outer[0]), *(d.on(point) for point in outer[1:])]
    path += [d.on(polar((0, 0), r, g.engagement - 90)), d.round((0, 0), r, g.engagement - 90, -90), "Z"]
    d.shape(path, "chip-shape")
