"""Force, power and torque in milling by Kienzle's law. N, N/mm2, kW, N m; lengths in mm, angles in degrees."""

import math
from collections.abc import Iterator
from dataclasses import dataclass

RADIAL_SHARE = 0.4  # radial force over tangential: judgement
DULL = 1.3  # a worn edge needs more: judgement
PLACES = 720  # tooth positions tried over one tooth pitch


def specific_force(kc11: float, mc: float, chip_thickness: float) -> float:
    """Force for each mm2 of chip: kc = kc1.1 h^-mc.

    Limits: fitted for h of about 0.05 to 1 mm; under 0.03 mm the edge's rounding makes it higher.
    Source: O. Kienzle, Die Bestimmung von Kraeften und Leistungen an spanenden Werkzeugen, VDI-Z 94 (1952).

    >>> round(specific_force(700, 0.25, 1.0), 9)
    700.0
    """
    return kc11 * chip_thickness**-mc


def cutting_power(axial_depth: float, radial_depth: float, feed_rate: float, specific_force: float) -> float:
    """Power at the cutter (kW): Pc = ap ae vf kc/60e6.

    >>> round(cutting_power(2, 80, 280, 1800), 4)
    1.344
    """
    return axial_depth * radial_depth * feed_rate * specific_force / 60e6


def torque(power: float, spindle_speed: float) -> float:
    """Torque at the spindle (N m) for a power in kW: M = 30000 P/(pi n).

    >>> round(torque(1, 1000), 3)
    9.549
    """
    return 30000 * power / (math.pi * spindle_speed)


@dataclass(frozen=True)
class Cut:
    """One side cut: kc1.1 (N/mm2), mc, feed per tooth, axial depth (mm), engagement, entering angle (deg)."""

    kc11: float
    mc: float
    feed_per_tooth: float
    axial_depth: float
    engagement: float
    entering_angle: float
    teeth: int
    climb: bool


def force_on_cutter(cut: Cut, first_tooth: float) -> tuple[float, float]:
    """The force on the cutter (N): (along the feed, away from the finished wall), one tooth at `first_tooth`.

    Angles are counted from the finished wall towards the front. Each tooth in metal gives
    Ft = kc1.1 h^(1-mc) ap/sin(kr) with h = fz sin(kr) sin(phi), and Fr = 0.4 Ft sin(kr) towards the axis.
    Straight teeth. In climb milling the wall is met last, so the cutter is pushed away from it.
    """
    along = away = 0.0
    for tooth in range(cut.teeth):
        angle = (first_tooth + tooth * 360 / cut.teeth) % 360
        if angle > cut.engagement * (1 + 1e-12):
            continue
        sine, cosine = math.sin(math.radians(angle)), math.cos(math.radians(angle))
        lead = math.sin(math.radians(cut.entering_angle))
        thickness = max(0.0, cut.feed_per_tooth * lead * sine)
        tangential = cut.kc11 * thickness ** (1 - cut.mc) * cut.axial_depth / lead
        radial = RADIAL_SHARE * tangential * lead
        turn = 1 if cut.climb else -1
        along += turn * tangential * cosine - radial * sine
        away += turn * tangential * sine + radial * cosine
    return along, away


def greatest_forces(cut: Cut) -> tuple[float, float]:
    """(peak force holding must stand, largest force normal to the finished wall), both in N.

    The peak is 1.3 times the largest vector sum over a turn; 1.3 is for a dull edge, a judgement. The
    wall force is the largest part of the same sum normal to the wall, without that factor.
    """
    forces = [force_on_cutter(cut, first) for first in _places(cut)]
    return DULL * max(math.hypot(*one) for one in forces), max(abs(away) for _, away in forces)


def _places(cut: Cut) -> Iterator[float]:
    """Tooth positions over one pitch, and the one in which a tooth is just at the end of the arc."""
    pitch = 360 / cut.teeth
    yield cut.engagement % pitch
    yield from (pitch * place / PLACES for place in range(PLACES))


def tangential_sum(cut: Cut, first_tooth: float) -> float:
    """Tangential forces of all teeth in metal added up (N), one tooth at `first_tooth` degrees: what turns the cutter.

    >>> cut = Cut(700, 0.25, 0.1, 2, 180, 90, 1, True)
    >>> round(tangential_sum(cut, 90))  # 700 x 0.1^0.75 x 2
    249
    """
    lead = math.sin(math.radians(cut.entering_angle))
    angles = ((first_tooth + tooth * 360 / cut.teeth) % 360 for tooth in range(cut.teeth))
    inside = (angle for angle in angles if angle <= cut.engagement * (1 + 1e-12))
    thick = (max(0.0, cut.feed_per_tooth * lead * math.sin(math.radians(angle))) for angle in inside)
    return sum(cut.kc11 * one ** (1 - cut.mc) * cut.axial_depth / lead for one in thick)


def greatest_tangential_sum(cut: Cut) -> float:
    """The largest of `tangential_sum` over a turn (N)."""
    return max(tangential_sum(cut, first) for first in _places(cut))
