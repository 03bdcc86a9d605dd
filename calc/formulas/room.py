"""Room between an upright tool and a box, and travel left on an axis. Lengths in mm."""

import math


def between(low: float, high: float, other_low: float, other_high: float) -> float:
    """Room between two stretches of one axis, 0 where they overlap: max(0, c - b, a - d) of [a, b] and [c, d].

    Limits: each stretch from its lower to its higher end.
    Source: definition.

    >>> between(0, 10, 14, 20), between(14, 20, 0, 10), between(0, 10, 5, 6)
    (4, 4, 0)
    """
    return max(0, other_low - high, low - other_high)


def room_beside(across_x: float, across_y: float, radius: float, upright: float) -> float:
    """Distance from an upright cylinder to a box, from the room between them axis by axis.

    sqrt(max(0, sqrt(x^2 + y^2) - r)^2 + z^2): x and y from the cylinder's axis to the box, z between their
    ends. Both bodies are a flat shape times a height, so the way across and the way up are found one by one.

    Limits: the box lies square to the axes, the cylinder stands upright. 0: they touch or overlap.
    Source: own derivation (Pythagoras).

    >>> room_beside(6, 8, 7, 4), room_beside(3, 4, 6, 2)
    (5.0, 2.0)
    """
    return math.hypot(max(0.0, math.hypot(across_x, across_y) - radius), upright)


def travel_left(lowest: float, highest: float, low: float, high: float) -> float:
    """Travel left at the nearer end: min(lowest - low, high - highest); below 0 it runs past the end by so much.

    Limits: all four on the machine's own scale.
    Source: definition.

    >>> travel_left(-300, -20, -400, 0), travel_left(-300, 12, -400, 0)
    (20, -12)
    """
    return min(lowest - low, high - highest)
