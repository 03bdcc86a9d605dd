"""Round holes and rounded rectangles as polygons (Shapely)."""

from shapely.geometry import Point, Polygon
from shapely.geometry.base import BaseGeometry

FINE = 720  # segments of a quarter circle


def disc(x: float, y: float, radius: float) -> BaseGeometry:
    """A round hole, a hair too small rather than too large (its polygon lies inside)."""
    return Point(x, y).buffer(radius, quad_segs=FINE)


def rounded(shape: Polygon, radius: float) -> BaseGeometry:
    """A rectangle with its corners rounded: what a cutter of that radius leaves, or a part with that radius."""
    if radius == 0:
        return shape
    return shape.buffer(-radius, join_style="mitre").buffer(radius, quad_segs=FINE)
