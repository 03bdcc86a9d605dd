"""How much of a milling cutter is in the metal, and what follows for the chip. Angles in degrees."""

import math


def straight_engagement(cutter_radius: float, radial_depth: float) -> float:
    """Angle of engagement along a straight wall, in degrees.

    cos(phi) = 1 - ae/r.

    Limits: 0 <= ae <= 2 r; one wall. A tooth's path is taken as a circle (feed per tooth far below r).
    Source: geometry of a circle cutting a strip; ISO 3002-3 names the quantity (working engagement).

    >>> round(straight_engagement(5, 0.5), 2)
    25.84
    >>> straight_engagement(5, 10)
    180.0
    """
    return _angle(1 - radial_depth / cutter_radius)


def depth_of(cutter_radius: float, engagement: float) -> float:
    """The depth off a straight wall (mm) that engages a cutter by this angle (degrees).

    ae = r (1 - cos(phi)), the inverse of `straight_engagement`.

    >>> round(depth_of(3, 93.8226), 3)
    3.2
    """
    return cutter_radius * (1 - math.cos(math.radians(engagement)))


def chip_share(engagement: float) -> float:
    """Greatest chip thickness as a share of the feed per tooth: sin(phi), 1 from 90 degrees on.

    Limits: side milling with a straight tooth and an entering angle of 90 degrees.

    >>> round(chip_share(30), 12), chip_share(120)
    (0.5, 1.0)
    """
    return math.sin(math.radians(min(engagement, 90.0)))


def _angle(cosine: float) -> float:
    """Arc cosine in degrees of a number that rounding, or a cutter wholly in metal, may have put outside."""
    return math.degrees(math.acos(max(-1.0, min(1.0, cosine))))
