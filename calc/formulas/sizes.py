"""Cutter diameters from a shop's shelf, metric and inch (common practice, no source)."""

from calc.units import INCH_MM

METRIC = (
    0.5,
    0.8,
    1.0,
    1.5,
    2.0,
    2.5,
    3.0,
    4.0,
    5.0,
    6.0,
    7.0,
    8.0,
    9.0,
    10.0,
    12.0,
    14.0,
    16.0,
    18.0,
    20.0,
    25.0,
)
THIRTY_SECONDS = (1, 2, 3, 4, 5, 6, 8, 10, 12, 14, 16, 20, 24, 32)
FRACTIONS = (
    "1/32",
    "1/16",
    "3/32",
    "1/8",
    "5/32",
    "3/16",
    "1/4",
    "5/16",
    "3/8",
    "7/16",
    "1/2",
    "5/8",
    "3/4",
    "1",
)


def cutter_sizes() -> tuple[tuple[float, str], ...]:
    """Every size in mm with the way to type it, smallest first.

    >>> cutter_sizes()[:3]
    ((0.5, '0.5 mm'), (0.79375, '1/32 in'), (0.8, '0.8 mm'))
    """
    metric = ((size, f"{size:g} mm") for size in METRIC)
    inch = zip(THIRTY_SECONDS, FRACTIONS, strict=True)
    return tuple(sorted((*metric, *((float(n * INCH_MM / 32), f"{text} in") for n, text in inch))))
