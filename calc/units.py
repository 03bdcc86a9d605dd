"""Units of measure: exact factors by dimension, the ways people write them, and the inch side of each.

Exact definitions: the inch of 25.4 mm and the pound of 0.45359237 kg (international yard and pound
agreement, 1959), standard gravity 9.80665 m/s2 (CGPM, 1901); the mechanical horsepower is 550 ft lbf/s.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from typing import TypeVar

ONE = Fraction(1)
Number = TypeVar("Number", Fraction, float)
INCH_MM = Fraction("25.4")
POUND_KG = Fraction("0.45359237")
GRAVITY = Fraction("9.80665")
POUND_FORCE_N = POUND_KG * GRAVITY
FOOT_MM = 12 * INCH_MM
HORSEPOWER_KW = 550 * FOOT_MM / 1000 * POUND_FORCE_N / 1000
METRIC_HORSEPOWER_KW = 75 * GRAVITY / 1000
PI = Fraction("3.14159265358979323846264338327950288")


@dataclass(frozen=True)
class Dimension:
    """One kind of measure: its name as said in messages, and its units in multiples of the first."""

    name: str
    units: Mapping[str, Fraction]


DIMENSIONS = (
    Dimension("a plain number or a share", {"1": ONE, "%": Fraction(1, 100)}),
    Dimension(
        "a length",
        {
            "mm": ONE,
            "um": Fraction(1, 1000),
            "cm": Fraction(10),
            "m": Fraction(1000),
            "in": INCH_MM,
            "thou": INCH_MM / 1000,
            "ft": FOOT_MM,
            "uin": INCH_MM / 1000000,
        },
    ),
    Dimension(
        "a speed or feed",
        {
            "mm/min": ONE,
            "mm/s": Fraction(60),
            "m/min": Fraction(1000),
            "m/s": Fraction(60000),
            "in/min": INCH_MM,
            "ft/min": FOOT_MM,
        },
    ),
    Dimension("a spindle speed", {"rpm": ONE, "1/s": Fraction(60)}),
    Dimension("a frequency", {"Hz": ONE, "kHz": Fraction(1000)}),
    Dimension("a force", {"N": ONE, "kN": Fraction(1000), "lbf": POUND_FORCE_N}),
    Dimension("a power", {"kW": ONE, "W": Fraction(1, 1000), "hp": HORSEPOWER_KW, "metric hp": METRIC_HORSEPOWER_KW}),
    Dimension(
        "a torque",
        {
            "N*m": ONE,
            "N*mm": Fraction(1, 1000),
            "lbf*ft": POUND_FORCE_N * FOOT_MM / 1000,
            "lbf*in": POUND_FORCE_N * INCH_MM / 1000,
            "ozf*in": POUND_FORCE_N * INCH_MM / 16000,
        },
    ),
    Dimension(
        "a pressure or specific force",
        {
            "N/mm2": ONE,
            "GPa": Fraction(1000),
            "bar": Fraction(1, 10),
            "Pa": Fraction(1, 1000000),
            "kPa": Fraction(1, 1000),
            "psi": POUND_FORCE_N / INCH_MM**2,
            "ksi": 1000 * POUND_FORCE_N / INCH_MM**2,
        },
    ),
    Dimension("an angle", {"deg": ONE, "rad": 180 / PI, "arcmin": Fraction(1, 60), "arcsec": Fraction(1, 3600)}),
    Dimension("a time", {"min": ONE, "s": Fraction(1, 60), "h": Fraction(60)}),
    Dimension("an acceleration", {"m/s2": ONE, "mm/s2": Fraction(1, 1000), "in/s2": INCH_MM / 1000}),
    Dimension("a removal rate", {"cm3/min": ONE, "mm3/min": Fraction(1, 1000), "in3/min": INCH_MM**3 / 1000}),
    Dimension("a mass", {"kg": ONE, "g": Fraction(1, 1000), "t": Fraction(1000), "lb": POUND_KG, "oz": POUND_KG / 16}),
    Dimension("a temperature", {"degC": ONE, "K": ONE, "degF": Fraction(5, 9)}),
    Dimension("an expansion", {"um/(m K)": ONE, "1/K": Fraction(1000000), "uin/(in F)": Fraction(9, 5)}),
    Dimension("a stiffness", {"N/um": ONE, "N/mm": Fraction(1, 1000), "lbf/in": POUND_FORCE_N / INCH_MM / 1000}),
    Dimension("a volume", {"cm3": ONE, "mm3": Fraction(1, 1000), "l": Fraction(1000), "in3": INCH_MM**3 / 1000}),
    Dimension("a number for each length", {"1/mm": ONE, "1/in": 1 / INCH_MM}),
    Dimension("a magnetic flux density", {"T": ONE, "mT": Fraction(1, 1000)}),
    Dimension(
        "a slope",
        {"mm/100 mm": ONE, "mm/m": Fraction(1, 10), "in/in": Fraction(100), "thou/in": Fraction(1, 10)},
    ),
)

# Where a temperature scale begins, in kelvin.
ZERO_AT = {"degC": Fraction("273.15"), "degF": Fraction("273.15") - 32 * Fraction(5, 9)}

# Other ways to write a unit, as people type them.
WRITTEN = {
    '"': "in", "''": "in", "inch": "in", "inches": "in", "ins": "in", "mil": "thou", "mils": "thou",
    "'": "ft", "foot": "ft", "feet": "ft", "µm": "um", "micron": "um", "microns": "um",
    "rev/min": "rpm", "1/min": "rpm", "r/min": "rpm", "u/min": "rpm", "min-1": "rpm",
    "ipm": "in/min", "inch/min": "in/min", "sfm": "ft/min", "fpm": "ft/min",
    "nm": "N*m", "n m": "N*m", "n·m": "N*m", "nmm": "N*mm", "n mm": "N*mm", "n·mm": "N*mm",
    "ft*lbf": "lbf*ft", "ft lbf": "lbf*ft", "lbf ft": "lbf*ft", "lb ft": "lbf*ft", "ft lb": "lbf*ft",
    "ft-lb": "lbf*ft",
    "in*lbf": "lbf*in", "in lbf": "lbf*in", "lbf in": "lbf*in", "in lb": "lbf*in", "lb in": "lbf*in",
    "in-lb": "lbf*in",
    "mpa": "N/mm2", "n/mm²": "N/mm2", "n/mm^2": "N/mm2", "lbf/in2": "psi",
    "°c": "degC", "c": "degC", "celsius": "degC", "°f": "degF", "f": "degF", "fahrenheit": "degF", "kelvin": "K",
    "oz in": "ozf*in", "ozf in": "ozf*in", "ps": "metric hp", "microinch": "uin", "µin": "uin", "tonne": "t",
    "cm³": "cm3", "cc": "cm3", "mm³": "mm3", "in³": "in3", "ml": "cm3", "litre": "l", "tesla": "T",
    "n/µm": "N/um", "ppm/k": "um/(m K)", "µm/(m k)": "um/(m K)", "µm/m/k": "um/(m K)",
    "um/m/k": "um/(m K)", "1e-6/k": "um/(m K)", "ppm/f": "uin/(in F)",
    "°": "deg", "degree": "deg", "degrees": "deg", "m/s²": "m/s2", "m/s^2": "m/s2",
    "mm/s²": "mm/s2", "mm/s^2": "mm/s2", "in/s²": "in/s2",
    "cm³/min": "cm3/min", "cc/min": "cm3/min", "mm³/min": "mm3/min", "in³/min": "in3/min",
    "sec": "s", "mins": "min", "hr": "h", "lbs": "lb", "percent": "%",
    "mm/100mm": "mm/100 mm", "mm per 100 mm": "mm/100 mm", "in per in": "in/in", "thou per in": "thou/in",
}  # fmt: skip

# What a person who works in inches reads; a unit that is not here is the same for both.
INCH_SIDE = {
    "mm": "in", "mm/min": "in/min", "m/min": "ft/min", "N": "lbf", "kW": "hp", "N*m": "lbf*ft",
    "N/mm2": "ksi", "cm3/min": "in3/min", "kg": "lb", "mm/100 mm": "thou/in", "m/s2": "in/s2", "cm3": "in3",
    "degC": "degF", "um": "thou", "um/(m K)": "uin/(in F)", "1/mm": "1/in", "N/um": "lbf/in",
}  # fmt: skip


def dimension_of(unit: str) -> Dimension:
    """The dimension that `unit` (its own way of writing) belongs to. Raises KeyError."""
    return _DIMENSION_OF.get(unit) or _no_unit(unit)


def named_unit(text: str) -> str | None:
    """The unit that somebody wrote, in its own way of writing; None where there is no such unit."""
    text = " ".join(text.split())
    if text in _UNITS:
        return text
    folded = text.lower().replace("\u03bc", "\u00b5")  # the sign of micro, which normalising turns Greek
    return WRITTEN.get(folded) or _UNITS_FOLDED.get(folded)


@cache
def factor(unit: str, into: str) -> Fraction:
    """Exact multiplier from `unit` into `into`. Raises KeyError where they measure different things."""
    dimension = dimension_of(into)
    return dimension.units[unit] / dimension.units[into]


def converted(value: Number, unit: str, into: str) -> Number:
    """`value` in another unit of its kind; temperatures as points on their scales. Raises KeyError.

    >>> converted(Fraction(212), "degF", "degC")
    Fraction(100, 1)
    """
    by = factor(unit, into)
    begin, end = ZERO_AT.get(unit, Fraction(0)), ZERO_AT.get(into, Fraction(0))
    if begin == end:
        return value * by if isinstance(value, Fraction) else value * float(by)
    moved = (begin - end) / dimension_of(into).units[into]
    return value * by + moved if isinstance(value, Fraction) else value * float(by) + float(moved)


def shown_unit(unit: str, system: str) -> str:
    """The unit a person sees: `unit` itself in "metric", its inch side in "inch"."""
    return INCH_SIDE.get(unit, unit) if system == "inch" else unit


def _no_unit(unit: str) -> Dimension:
    raise KeyError(f"{unit} is not a unit of this table")


_DIMENSION_OF = {unit: one for one in DIMENSIONS for unit in one.units}
_UNITS = frozenset(_DIMENSION_OF)
_UNITS_FOLDED = {unit.lower(): unit for unit in _UNITS}
