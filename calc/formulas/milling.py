"""Speeds, feeds and chips in milling. Lengths in mm, feeds in mm/min, speeds in m/min and rpm, angles in degrees."""

import math


def spindle_speed(cutting_speed: float, diameter: float) -> float:
    """Turns a minute for a speed at the rim: n = 1000 vc/(pi D).

    Source: definition; ISO 3002-1 and -3 name the quantities.

    >>> round(spindle_speed(100, 10), 1)
    3183.1
    """
    return 1000 * cutting_speed / (math.pi * diameter)


def cutting_speed(spindle_speed: float, diameter: float) -> float:
    """Speed at the rim (m/min): vc = pi D n/1000.

    >>> round(cutting_speed(350, 125), 4)
    137.4447
    """
    return math.pi * diameter * spindle_speed / 1000


def feed_rate(feed_per_tooth: float, teeth: int, spindle_speed: float) -> float:
    """Feed of the cutter's centre (mm/min): vf = fz z n.

    >>> feed_rate(0.1, 10, 500)
    500.0
    """
    return feed_per_tooth * teeth * spindle_speed


def mean_chip_thickness(
    feed_per_tooth: float,
    radial_depth: float,
    diameter: float,
    engagement: float,
    entering_angle: float = 90.0,
) -> float:
    """Mean chip thickness (mm) over the arc in metal: hm = 2 fz ae sin(kr)/(D phi), phi in radians.

    It is the mean of fz sin(kr) sin(phi) over the arc, exact for side milling with circular tooth paths.
    The common hm = fz sqrt(ae/D) is an approximation for small ae/D: 1.7 % high at 0.1, 57 % at 1.

    >>> round(mean_chip_thickness(0.1, 10, 10, 180), 6)  # a full slot: 2 fz/pi
    0.063662
    """
    sine = math.sin(math.radians(entering_angle))
    return 2 * feed_per_tooth * radial_depth * sine / (diameter * math.radians(engagement))


def removal_rate(axial_depth: float, radial_depth: float, feed_rate: float) -> float:
    """Metal removed (cm3/min): Q = ap ae vf/1000.

    >>> removal_rate(4, 40, 500)
    80.0
    """
    return axial_depth * radial_depth * feed_rate / 1000
