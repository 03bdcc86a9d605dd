"""Force between two equal round magnets on one axis, magnetised along it. Lengths in mm, remanence in T, force in N."""

import math
from functools import cache

MU0 = 4e-7 * math.pi  # N/A2; CODATA differs in the tenth digit
SLICES = 600


def pull(remanence: float, diameter: float, thickness: float, gap: float) -> float:
    """Pull of two equal magnets, or of one on thick iron at half the gap (its mirror image), in N.

    Each end is a charged disc: F = Br^2 pi R^2/mu0 (I(g) - 2 I(g + L) + I(g + 2 L)), with I from `_overlap`.
    Limits: even magnetisation, coaxial, no tilt. Given to nine digits. Source: own derivation from charged
    discs and Neumann's product of Bessel functions; the bound Br^2 A/(2 mu0) for endless magnets comes out.

    >>> round(pull(1.30, 6, 3, 0), 2), round(pull(1.30, 6, 3, 1), 3)
    (11.96, 5.234)
    """
    radius = diameter / 2
    places = (gap / radius, (gap + thickness) / radius, (gap + 2 * thickness) / radius)
    near, middle, far = map(_overlap, places)
    whole = remanence**2 * math.pi * (radius / 1000) ** 2 / MU0
    return float(f"{whole * (near - 2 * middle + far):.9g}")


def bound(remanence: float, diameter: float) -> float:
    """Pull of endlessly long magnets in contact: Br^2 A/(2 mu0), which no real one reaches (N).

    >>> round(bound(1.30, 6), 3)
    19.013
    """
    return remanence**2 * math.pi * (diameter / 2000) ** 2 / (2 * MU0)


def _overlap(apart: float) -> float:
    """Integral of J1(x)^2 exp(-p x)/x over x > 0, p the distance over the radius: a half at contact.

    = -(1/pi) times the integral over 0..pi of cos t ln(p + sqrt(p^2 + 4 sin^2(t/2))); t = pi u^3 takes the edge off.
    """
    total = 0.0
    for chord, weight in _slices():
        total += weight * math.log(apart + math.hypot(apart, chord))
    return -total / SLICES / math.pi


@cache
def _slices() -> tuple[tuple[float, float], ...]:
    """Chord 2 sin(t/2) and weight of each slice: the same for every distance."""
    middles = [(n + 0.5) / SLICES for n in range(SLICES)]
    turns = [(u, math.pi * u**3) for u in middles]
    return tuple((2 * math.sin(t / 2), 3 * math.pi * u * u * math.cos(t)) for u, t in turns)
