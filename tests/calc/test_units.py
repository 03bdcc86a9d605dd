"""Unit factors against a general units library (Pint) and against published constants."""

import pint
import pytest

from calc.units import DIMENSIONS, INCH_SIDE, converted, factor, named_unit, shown_unit

REGISTRY = pint.UnitRegistry()
# Our way of writing -> Pint's. Where both mean the same, the text is the same.
PINT = {
    "1": "dimensionless", "%": "percent", "um": "micrometer", "thou": "thou",
    "mm/min": "mm/minute", "mm/s": "mm/second", "m/min": "m/minute", "m/s": "m/second",
    "in/min": "inch/minute", "ft/min": "foot/minute", "rpm": "revolution/minute", "1/s": "revolution/second",
    "lbf": "force_pound", "hp": "horsepower", "N*mm": "newton*millimeter", "N*m": "newton*meter",
    "lbf*ft": "force_pound*foot", "lbf*in": "force_pound*inch", "N/mm2": "newton/millimeter**2", "ksi": "kip/inch**2",
    "psi": "psi", "deg": "degree", "rad": "radian", "min": "minute",
    "s": "second", "h": "hour", "m/s2": "meter/second**2", "mm/s2": "millimeter/second**2",
    "in/s2": "inch/second**2", "cm3/min": "cm**3/minute", "mm3/min": "mm**3/minute", "in3/min": "inch**3/minute",
    "mm/100 mm": "millimeter/decimeter", "mm/m": "millimeter/meter", "in/in": "inch/inch", "thou/in": "thou/inch",
    "in": "inch", "ft": "foot", "uin": "microinch", "um/(m K)": "micrometer/meter/kelvin", "1/K": "1/kelvin",
    "uin/(in F)": "microinch/inch/delta_degF", "ozf*in": "force_ounce*inch", "metric hp": "metric_horsepower",
    "N/um": "newton/micrometer", "N/mm": "newton/millimeter", "lbf/in": "force_pound/inch", "cm3": "cm**3",
    "mm3": "mm**3", "in3": "inch**3", "l": "liter", "1/in": "1/inch", "t": "metric_ton", "oz": "ounce", "K": "kelvin",
    "arcmin": "arcminute", "arcsec": "arcsecond",
}  # fmt: skip
PAIRS = [(one, other) for d in DIMENSIONS for one in d.units for other in d.units if one != other]
# NIST SP 811, appendix B, and the CODATA constants of general libraries.
PUBLISHED = (
    ("in", "mm", 25.4),
    ("lbf", "N", 4.4482216152605),
    ("hp", "W", 745.6998715822702),
    ("lbf*ft", "N*m", 1.3558179483314003),
    ("lbf*in", "N*m", 0.1129848290276167),
    ("in3/min", "cm3/min", 16.387064),
    ("ft/min", "m/min", 0.3048),
)


@pytest.mark.parametrize(("one", "other"), PAIRS)
def test_against_a_units_library(one: str, other: str) -> None:
    """Every pair of units of one dimension, to rounding."""
    theirs = REGISTRY.Quantity(1, PINT.get(one, one)).to(PINT.get(other, other)).magnitude
    assert converted(1.0, one, other) == pytest.approx(theirs, rel=1e-12)


@pytest.mark.parametrize(("one", "other", "value"), PUBLISHED)
def test_against_published_constants(one: str, other: str, value: float) -> None:
    """NIST SP 811, as printed."""
    assert float(factor(one, other)) == pytest.approx(value, rel=1e-12)


def test_units_of_different_kinds_do_not_convert() -> None:
    """Millimetres are not kilograms."""
    with pytest.raises(KeyError):
        factor("kg", "mm")


@pytest.mark.parametrize(
    ("written", "unit"),
    [('"', "in"), ("inches", "in"), ("IPM", "in/min"), ("Nm", "N*m"), ("N m", "N*m"), ("MPa", "N/mm2"), ("°", "deg")],
)
def test_other_ways_to_write_a_unit(written: str, unit: str) -> None:
    """As people type them."""
    assert named_unit(written) == unit


def test_every_inch_side_measures_the_same_kind() -> None:
    """What an inch reader sees converts."""
    assert all(factor(unit, other) for unit, other in INCH_SIDE.items())
    assert shown_unit("mm", "inch") == "in" and shown_unit("deg", "inch") == "deg"
