"""Ways into the metal: V cutters, ramps and helices. Lengths in mm, angles in degrees."""

import math


def v_width(tip_flat: float, depth: float, included_angle: float) -> float:
    """Width of a V groove at the surface (mm): t + 2 d tan(a/2).

    >>> round(v_width(0.1, 0.3, 90), 9)
    0.7
    """
    return tip_flat + 2 * depth * math.tan(math.radians(included_angle) / 2)


def v_depth(tip_flat: float, width: float, included_angle: float) -> float:
    """Depth for a width, the inverse (mm): (w - t)/(2 tan(a/2)); negative where the tip is wider than that.

    >>> round(v_depth(0.1, 0.7, 90), 9)
    0.3
    """
    return (width - tip_flat) / (2 * math.tan(math.radians(included_angle) / 2))


def helix_angle(pitch: float, path_diameter: float) -> float:
    """Slope of a helix on its own path (degrees): atan(P/(pi d)). For a cutter's centre, d = hole - cutter.

    >>> round(helix_angle(1, 10), 4)
    1.8232
    """
    return math.degrees(math.atan(pitch / (math.pi * path_diameter)))


def ramp_length(depth: float, angle: float) -> float:
    """Level way needed to ramp down (mm): ap/tan(a).

    >>> round(ramp_length(2, 45), 9)
    2.0
    """
    return depth / math.tan(math.radians(angle))


def rim_feed(centre_feed: float, hole: float, cutter: float) -> float:
    """Feed at the wall of a hole when the centre moves with `centre_feed`: vf Dm/(Dm - Dc).

    Source: Sandvik Coromant, threading application guide, p. 117 (its inverse: centre from rim).

    >>> rim_feed(300, 20, 10)
    600.0
    """
    return centre_feed * hole / (hole - cutter)
