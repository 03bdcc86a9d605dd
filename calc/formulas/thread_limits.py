"""Limits of size of metric (ISO 965-1, grade 6) and unified (ASME B1.1, classes 2 and 3) threads. mm, or in where said.

Formulas from memory; where tables are known to differ the table stands: read in tap makers' tables and a
reproduction of ASME B1.13M, or from memory, as noted beside it.
"""

import math
from dataclasses import dataclass

HALF_PROFILE = math.sqrt(3) / 2  # H over P
R40 = (100, 106, 112, 118, 125, 132, 140, 150, 160, 170, 180, 190, 200, 212, 224, 236, 250, 265, 280, 300, 315, 335,
       355, 375, 400, 425, 450, 475, 500, 530, 560, 600, 630, 670, 710, 750, 800, 850, 900, 950, 1000)  # fmt: skip
RANGES = (0.99, 1.4, 2.8, 5.6, 11.2, 22.4, 45.0, 90.0, 180.0, 355.0)  # mm, ISO 965-1
# Deviation of positions g and G, um by pitch: 0.35 to 1.25 read, the rest from memory. Elsewhere 15 + 11 P.
DEVIATIONS = {0.2: 17, 0.25: 18, 0.3: 18, 0.35: 19, 0.4: 19, 0.45: 20, 0.5: 20, 0.6: 21, 0.7: 22, 0.75: 22, 0.8: 24,
              1.0: 26, 1.25: 28, 1.5: 32, 1.75: 34, 2.0: 38, 2.5: 42, 3.0: 48, 3.5: 53, 4.0: 60, 4.5: 63, 5.0: 71,
              5.5: 75, 6.0: 80, 8.0: 100}  # fmt: skip
# Where the table differs from the rounded formula, um. Pitch diameter by (upper end of the range, pitch).
BOLT_PITCH = {(5.6, 0.25): 56, (5.6, 0.5): 75, (90.0, 5.0): 250}  # the second read, the others from memory
NUT_PITCH = {(2.8, 0.45): 95, (5.6, 0.5): 100, (5.6, 0.75): 118, (11.2, 1.5): 180,  # read
             (22.4, 1.25): 180, (22.4, 1.5): 190, (45.0, 4.5): 315}  # from memory  # fmt: skip
BOLT_MAJOR = {4.0: 475}  # from memory
NUT_MINOR = {0.25: 71, 0.5: 140, 1.0: 236, 2.5: 450}  # from memory


@dataclass(frozen=True)
class Limits:
    """Largest and smallest diameters of a thread (mm); None where the standard sets no limit."""

    major_max: float | None
    major_min: float
    pitch_max: float
    pitch_min: float
    minor_max: float
    minor_min: float | None

    @property
    def pitch_middle(self) -> float:
        """The middle of the pitch diameter's tolerance."""
        return (self.pitch_max + self.pitch_min) / 2


def basic_pitch_diameter(diameter: float, pitch: float) -> float:
    """Basic pitch diameter: d - 3/4 H. ISO 68-1, ASME B1.1.

    >>> round(basic_pitch_diameter(10, 1.5), 3)
    9.026
    """
    return diameter - 0.75 * HALF_PROFILE * pitch


def basic_minor_diameter(diameter: float, pitch: float) -> float:
    """Basic minor diameter: d - 5/4 H. ISO 68-1, ASME B1.1.

    >>> round(basic_minor_diameter(10, 1.5), 3)
    8.376
    """
    return diameter - 1.25 * HALF_PROFILE * pitch


def rounded_r40(value: float) -> float:
    """The preferred number of the series R40 nearest to `value` (positive). ISO 3.

    >>> rounded_r40(110.7), rounded_r40(56.4), rounded_r40(1050.0)
    (112.0, 56.0, 1060.0)
    """
    scale = 10.0 ** (math.floor(math.log10(value)) - 2)
    return min(R40, key=lambda one: abs(one - value / scale)) * scale


def deviation_g(pitch: float) -> float:
    """How far positions g and G lie from the basic size: (15 + 11 P) um, or the table. mm. ISO 965-1.

    >>> deviation_g(1.0)
    0.026
    """
    return DEVIATIONS.get(pitch, round(15 + 11 * pitch)) / 1000


def pitch_tolerance(diameter: float, pitch: float, internal: bool) -> float:
    """Tolerance of the pitch diameter, grade 6: 90 P^0.4 d^0.1 um, 1.32 of it inside, to R40. mm. ISO 965-1.

    d is the geometric mean of the range that the diameter lies in: 0.99 to 355 mm.

    >>> pitch_tolerance(6, 1.0, True), pitch_tolerance(6, 1.0, False)
    (0.15, 0.112)
    """
    high = next(end for end in RANGES[1:] if diameter <= end)
    low = RANGES[RANGES.index(high) - 1]
    whole = 90 * pitch**0.4 * math.sqrt(low * high) ** 0.1 * (1.32 if internal else 1.0)
    return (NUT_PITCH if internal else BOLT_PITCH).get((high, pitch), rounded_r40(whole)) / 1000


def major_tolerance(pitch: float) -> float:
    """Tolerance of an external thread's major diameter, grade 6: 180 P^(2/3) - 3.15 P^(-1/2) um, to R40. ISO 965-1.

    >>> major_tolerance(0.5)
    0.106
    """
    return BOLT_MAJOR.get(pitch, rounded_r40(180 * pitch ** (2 / 3) - 3.15 / math.sqrt(pitch))) / 1000


def minor_tolerance(pitch: float) -> float:
    """Tolerance of an internal thread's minor diameter, grade 6, to R40. mm. ISO 965-1.

    433 P - 190 P^1.22 um up to P = 0.8 mm, 230 P^0.7 above.

    >>> minor_tolerance(1.5)
    0.3
    """
    whole = 433 * pitch - 190 * pitch**1.22 if pitch <= 0.8 else 230 * pitch**0.7
    return NUT_MINOR.get(pitch, rounded_r40(whole)) / 1000


def iso_limits(diameter: float, pitch: float, position: str) -> Limits:
    """Limits of a metric thread of grade 6; `position` is H, G (internal), h or g (external). mm. ISO 965-1.

    The least minor diameter outside is that of a root of radius P/8, the sharpest allowed: d2 - 0.616 P.

    >>> found = iso_limits(6, 1.0, "H")
    >>> round(found.pitch_max, 3), round(found.minor_max, 3)
    (5.5, 5.153)
    """
    moved = deviation_g(pitch) if position in "gG" else 0.0
    middle, minor = basic_pitch_diameter(diameter, pitch), basic_minor_diameter(diameter, pitch)
    if position in "HG":
        high = middle + moved + pitch_tolerance(diameter, pitch, True)
        low = minor + moved
        return Limits(None, diameter + moved, high, middle + moved, low + minor_tolerance(pitch), low)
    top, middle = diameter - moved, middle - moved
    least = middle - pitch_tolerance(diameter, pitch, False)
    root = least - (HALF_PROFILE - 0.25) * pitch
    return Limits(top, top - major_tolerance(pitch), middle, least, minor - moved, root)


def half_up(value: float, places: int) -> float:
    """Rounded as on paper: a half goes up.

    >>> half_up(0.7775, 3)
    0.778
    """
    return math.floor(value * 10**places + 0.5 + 1e-6) / 10**places


def unified_pitch_tolerance(diameter: float, pitch: float, engagement: float) -> float:
    """Tolerance of the pitch diameter, class 2A: 0.0015 (D^(1/3) + LE^(1/2)) + 0.015 P^(2/3). in. ASME B1.1.

    LE, the length of engagement, is D for UNC and UNF and 9 P for all others.

    >>> round(unified_pitch_tolerance(0.25, 1 / 20, 0.25), 4)
    0.0037
    """
    return 0.0015 * (diameter ** (1 / 3) + math.sqrt(engagement)) + 0.015 * pitch ** (2 / 3)


def unified_minor_tolerance(diameter: float, pitch: float, fine: bool) -> float:
    """Tolerance of an internal thread's minor diameter; `fine` is class 3B, else 2B. in. ASME B1.1, 80 to 4 a turn.

    0.05 P^(2/3) + 0.03 P/D - 0.002, not over 0.394 P, not under 0.25 P - 0.4 P^2 (3B: 0.23 P - 1.5 P^2 from 13
    threads to the inch, 0.12 P below); class 2B from 1/4 in: 0.25 P - 0.4 P^2.

    >>> round(unified_minor_tolerance(0.25, 1 / 20, False), 4), round(unified_minor_tolerance(0.25, 1 / 20, True), 4)
    (0.0115, 0.0108)
    """
    coarse = 0.25 * pitch - 0.4 * pitch**2
    if not fine and diameter >= 0.25 - 1e-9:
        return coarse
    least = (0.12 * pitch if pitch > 1 / 12.5 else 0.23 * pitch - 1.5 * pitch**2) if fine else coarse
    return max(least, min(0.394 * pitch, 0.05 * pitch ** (2 / 3) + 0.03 * pitch / diameter - 0.002))


def unified_limits(diameter: float, pitch: float, engagement: float, thread_class: str) -> Limits:
    """Limits of a unified thread of class 2A, 2B, 3A or 3B: in in, mm out. ASME B1.1.

    Rounded on the way as the tables are: sizes, allowance and tolerances to four places, an internal minor
    diameter from No. 6 on to three (class 3B: its largest to four).

    >>> found = unified_limits(0.25, 1 / 20, 0.25, "2A")
    >>> round(found.pitch_max / 25.4, 4), round(found.pitch_min / 25.4, 4)
    (0.2164, 0.2127)
    """
    base = half_up(unified_pitch_tolerance(diameter, pitch, engagement), 6)
    size, middle = half_up(diameter, 4), half_up(basic_pitch_diameter(diameter, pitch), 4)
    minor = half_up(basic_minor_diameter(diameter, pitch), 4)
    second = thread_class.startswith("2")
    if thread_class.endswith("B"):
        top = middle + half_up((1.3 if second else 0.975) * base, 4)
        largest = minor + half_up(unified_minor_tolerance(diameter, pitch, not second), 4)
        short = diameter >= 0.138 - 1e-9
        largest = half_up(largest, 3 if short and second else 4)
        return _in_mm(Limits(None, size, top, middle, largest, half_up(minor, 3 if short else 4)))
    moved = half_up(0.3 * base, 4) if second else 0.0
    least = middle - moved - half_up((1.0 if second else 0.75) * base, 4)
    lowest = size - moved - half_up(0.06 * pitch ** (2 / 3), 4)
    return _in_mm(Limits(size - moved, lowest, middle - moved, least, minor - moved, None))


def _in_mm(found: Limits) -> Limits:
    sizes = (found.major_max, found.major_min, found.pitch_max, found.pitch_min, found.minor_max, found.minor_min)
    return Limits(*(None if one is None else one * 25.4 for one in sizes))
