"""Uncertainty of a measurement after JCGM 100 (GUM): standard parts, their sum, the coverage factor."""

import math
from collections.abc import Iterable
from statistics import NormalDist


def rectangular(full_width: float) -> float:
    """Standard uncertainty of something that lies anywhere in a band: w/(2 sqrt(3)). Source: JCGM 100, 4.3.7.

    >>> round(rectangular(2.0), 6)
    0.57735
    """
    return full_width / (2 * math.sqrt(3))


def combined(parts: Iterable[float]) -> float:
    """Root of the sum of squares of independent parts. Source: JCGM 100, 5.1.2.

    >>> combined([3.0, 4.0])
    5.0
    """
    return math.sqrt(sum(part * part for part in parts))


def coverage_factor(confidence: float) -> float:
    """k of a normal distribution for a confidence between 0 and 1. Source: JCGM 100, annex G, table G.1.

    >>> round(coverage_factor(0.95), 3)
    1.96
    """
    return NormalDist().inv_cdf((1 + confidence) / 2)
