"""Heights, tool lengths and faces found: where the tip, the face and the metal are. All in mm."""

import math


def point_length(diameter: float, point_angle: float) -> float:
    """Length of a drill's point (mm): D/(2 tan(a/2)).

    Limits: a plain cone; a split or web-thinned point is a little shorter.

    >>> round(point_length(10, 118), 3), round(point_length(10, 135), 3), round(point_length(10, 140), 3)
    (3.004, 2.071, 1.82)
    """
    return diameter / (2 * math.tan(math.radians(point_angle) / 2))


def face_position(reading: float, direction: int, tip_radius: float, feeler: float = 0.0) -> float:
    """Where a touched face lies: the finder's axis, and its radius (and feeler) further the way it moved.

    `direction` is +1 where the finder moved to higher numbers, -1 to lower ones.

    >>> face_position(-25, 1, 5), face_position(25, -1, 5)
    (-20.0, 20.0)
    """
    return reading + direction * (tip_radius + feeler)
