"""A cutter driven round a corner as polygons (Shapely): what is in metal is measured, no formula is used.

Written from the picture alone: the pocket as roughed, the cutter as a circle, its path as the finished
wall offset inwards by the cutter's radius. At each step the metal the disc covers is taken away; how
much goes over a step gives the depth of cut, and the leading rim outside the cleared region the engagement.
"""

import math

from shapely.geometry import LineString, Point, Polygon
from shapely.geometry.base import BaseGeometry

QUARTER = 256  # segments of a quarter circle
ARC = 8192  # segments of the turn of the path
FAR = 8.0  # cutter radii
COARSE, TINY, LOOK = 0.02, 0.002, 0.0002  # cutter radii
FINER = 20


def wedge(turn: float, reach: float) -> Polygon:
    """The inside of two walls that meet at the origin, `turn` degrees apart in direction.

    The first wall is the line y = 0 coming from the left (the inside above it); the second leaves the
    origin in the direction of the turn, the inside to its left.
    """
    away = (reach * math.cos(math.radians(turn)), reach * math.sin(math.radians(turn)))
    corners = [(-reach, 0.0), (0.0, 0.0), away]
    middle = math.radians((turn + 180) / 2)
    far = 4 * reach
    return Polygon([*corners, (far * math.cos(middle), far * math.sin(middle))])


def rounded(shape: BaseGeometry, radius: float) -> BaseGeometry:
    """The shape with its inside corner rounded to `radius`: what a cutter of that radius can reach."""
    return shape.buffer(-radius, quad_segs=QUARTER).buffer(radius, quad_segs=QUARTER)


def roughed(turn: float, finished: float, stock: float, rougher: float, reach: float) -> BaseGeometry:
    """The pocket before finishing: walls `stock` inside the finished ones, the corner left by the rougher."""
    inside = wedge(turn, reach).buffer(-stock, join_style="mitre")
    return rounded(inside, max(rougher, finished - stock))


def path(turn: float, finished: float, cutter: float, reach: float) -> LineString:
    """The way of the cutter's centre: the finished outline, offset inwards by the cutter's radius."""
    centre = (-finished * math.tan(math.radians(turn / 2)), finished)
    offset = finished - cutter
    arc = [
        (
            centre[0] + offset * math.cos(math.radians(-90 + turn * n / ARC)),
            centre[1] + offset * math.sin(math.radians(-90 + turn * n / ARC)),
        )
        for n in range(ARC + 1)
    ]
    ahead = (math.cos(math.radians(turn)), math.sin(math.radians(turn)))
    end = (arc[-1][0] + reach * ahead[0], arc[-1][1] + reach * ahead[1])
    return LineString([(arc[0][0] - reach, arc[0][1]), *arc, end])


def peaks(turn: float, finished: float, cutter: float, stock: float, rougher: float) -> tuple[float, float]:
    """(greatest engagement in degrees, greatest depth of cut in mm) met on the way round.

    The way is tried in coarse steps, then in fine ones about the worst place.
    """
    reach = FAR * max(finished, cutter, rougher)
    line = path(turn, finished, cutter, reach / 2)
    cleared = roughed(turn, finished, stock, rougher, 3 * reach)
    begin, end = reach / 2 - 2.5 * cutter, reach / 2 + math.radians(turn) * (finished - cutter) + 1.2 * cutter
    coarse = COARSE * cutter
    tried = [(engaged(line, cleared, cutter, begin + coarse * n), n) for n in range(int((end - begin) / coarse))]
    about = begin + coarse * max(tried)[1]
    fine = [about + coarse * n / FINER for n in range(-FINER, FINER + 1)]
    worst = max(engaged(line, cleared, cutter, along) for along in fine)
    return worst, max(depth(line, cleared, cutter, along) for along in fine)


def engaged(line: LineString, cleared: BaseGeometry, cutter: float, along: float) -> float:
    """Degrees of the leading rim outside what was cleared before."""
    behind, ahead = (line.interpolate(along + side * cutter) for side in (-LOOK, LOOK))
    heading = math.atan2(ahead.y - behind.y, ahead.x - behind.x)
    front = leading_rim(line.interpolate(along), heading, cutter)
    return math.degrees(front.difference(cleared).length / cutter)


def depth(line: LineString, cleared: BaseGeometry, cutter: float, along: float) -> float:
    """Area newly swept over a small step, over the step: the depth of cut (mm)."""
    step = TINY * cutter
    before, disc = (line.interpolate(s).buffer(cutter, quad_segs=QUARTER) for s in (along - step / 2, along + step / 2))
    return disc.difference(cleared).difference(before).area / step


def leading_rim(here: Point, heading: float, cutter: float) -> LineString:
    """The half of the rim that faces where the cutter is heading (radians): no other can be in metal."""
    angles = (heading + math.pi * (n / (4 * QUARTER) - 0.5) for n in range(4 * QUARTER + 1))
    return LineString([(here.x + cutter * math.cos(a), here.y + cutter * math.sin(a)) for a in angles])
