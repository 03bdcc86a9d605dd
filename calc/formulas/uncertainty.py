"""Uncertainty of a measurement after JCGM 100 (GUM): standard parts, their sum, the coverage factor."""

import math
from collections.abc import Iterable
from statistics import NormalDist

FEW = 200  # degrees of freedom: up to here Student's t by the sums for whole numbers, above by expansion
HALVINGS = 60  # of a quarter turn: to the last digit that a float has


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
    return math.hypot(*parts)


def coverage_factor(confidence: float) -> float:
    """k of a normal distribution for a confidence between 0 and 1. Source: JCGM 100, annex G, table G.1.

    >>> round(coverage_factor(0.95), 3)
    1.96
    """
    return NormalDist().inv_cdf((1 + confidence) / 2)


def effective_freedom(parts: Iterable[tuple[float, float]]) -> float:
    """Degrees of freedom of a combined uncertainty (Welch and Satterthwaite): u^4/sum(ui^4/vi).

    `parts` are pairs of standard uncertainty and its degrees of freedom, infinite where it is well known; never
    less than the least of them. Infinite where nothing of limited freedom counts. Source: JCGM 100, G.4.1.

    >>> round(effective_freedom([(25, 18), (9.7, 25.6), (2.9, 50), (16.6, 2)]), 1)
    16.8
    """
    known = [(part, freedom) for part, freedom in parts if part]
    total = combined(part for part, _ in known)
    share = sum((part / total) ** 4 / freedom for part, freedom in known)
    return 1 / share if share else math.inf


def student_factor(confidence: float, freedom: float) -> float:
    """k of Student's t: within it lies a share `confidence`, 0.5 to 0.999, both sides counted.

    `freedom` is at least 1 and is cut off to a whole number, as JCGM 100 does in its example H.1; infinite: normal.
    Source: JCGM 100, G.3 and G.4.1; Abramowitz and Stegun 26.7.3, 26.7.4, and 26.7.5 above 200.

    >>> round(student_factor(0.99, 16.7), 2), round(student_factor(0.95, 5), 2)
    (2.92, 2.57)
    """
    if math.isinf(freedom):
        return coverage_factor(confidence)
    whole = math.floor(freedom * (1 + 1e-9))  # 3.9999999999 is 4
    if whole > FEW:
        return _expanded(coverage_factor(confidence), whole)
    low, high = 0.0, math.pi / 2
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        low, high = (middle, high) if _within(middle, whole) < confidence else (low, middle)
    return math.sqrt(whole) * math.tan(low)


def _within(angle: float, freedom: int) -> float:
    """The share of Student's t within sqrt(v) tan(angle), for whole v."""
    cosine = math.cos(angle)
    odd = freedom % 2
    term, total = (cosine if odd else 1.0), 0.0
    for n in range(2 + odd, freedom + 1, 2):
        total += term
        term *= cosine * cosine * (n - 1) / n
    total *= math.sin(angle)
    return 2 / math.pi * (angle + total) if odd else total


def _expanded(z: float, freedom: int) -> float:
    """Student's t from the normal quantile, by powers of 1/v."""
    powers = (
        (z**3 + z) / 4,
        (5 * z**5 + 16 * z**3 + 3 * z) / 96,
        (3 * z**7 + 19 * z**5 + 17 * z**3 - 15 * z) / 384,
        (79 * z**9 + 776 * z**7 + 1482 * z**5 - 1920 * z**3 - 945 * z) / 92160,
    )
    return z + sum(part / freedom**n for n, part in enumerate(powers, 1))
