"""Ridges left by a round edge. Lengths in mm."""

import math

PARABOLIC = 9 * math.sqrt(3) / 4  # height over Ra of a row of parabolas


def ridge(pitch: float, radius: float) -> float:
    """Height of the ridges that circles leave `pitch` apart: r - sqrt(r^2 - p^2/4), p at most 2 r.

    For small p it is p^2/(8 r). Written so that small pitches keep their digits.

    >>> round(ridge(0.2, 0.8) * 1000, 3)
    6.275
    """
    quarter = pitch * pitch / 4
    return quarter / (radius + math.sqrt(max(0.0, radius * radius - quarter)))


def feed_for(height: float, radius: float) -> float:
    """The pitch that leaves ridges of a height, the inverse: 2 sqrt(h (2 r - h)).

    >>> round(feed_for(ridge(0.2, 0.8), 0.8), 12)
    0.2
    """
    return 2 * math.sqrt(height * (2 * radius - height))
