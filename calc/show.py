"""Numbers as a machinist reads them: enough digits for the unit, no more, the unit beside them."""

import math
import re

from calc.units import converted, shown_unit

# Digits after the point that mean something in a small shop; small numbers get three that count.
DECIMALS = {
    "mm": 3, "in": 4, "um": 1, "thou": 1, "deg": 1, "rpm": 0, "mm/min": 0, "in/min": 1, "m/min": 0,
    "ft/min": 0, "N": 0, "lbf": 0, "kW": 2, "hp": 2, "N*m": 2, "lbf*ft": 2, "N/mm2": 0, "ksi": 0, "cm3/min": 1,
    "in3/min": 2, "m/s2": 2, "in/s2": 0, "1": 2, "%": 0, "mm/100 mm": 3, "thou/in": 2,
    "min": 1, "Hz": 0, "degC": 1, "degF": 1, "K": 0, "um/(m K)": 1, "uin/(in F)": 1, "N/um": 1, "lbf/in": 0,
    "cm3": 1, "in3": 2, "1/mm": 1, "1/in": 0, "kg": 2, "lb": 2, "T": 2,
}  # fmt: skip
COUNTING = 3
SPELLED = {"1": "", "deg": "°", "%": " %", "N*m": " N m", "lbf*ft": " lbf ft", "N/mm2": " N/mm²"}
SPELLED |= {"cm3/min": " cm³/min", "in3/min": " in³/min", "m/s2": " m/s²", "in/s2": " in/s²", "um": " µm"}
SPELLED |= {"degC": " °C", "degF": " °F", "um/(m K)": " µm/(m K)", "uin/(in F)": " µin/(in °F)", "N/um": " N/µm"}
SPELLED |= {"cm3": " cm³", "in3": " in³", "1/mm": " per mm", "1/in": " per in"}
IN_TEXT = re.compile(r"(?<![\w.])(-?\d+(?:\.\d+)?) (mm/min|m/min|cm³/min|cm³|N m|mm|kW|kg|N|µm|°C)(?![\w/²])")
AS_UNIT = {"N m": "N*m", "cm³/min": "cm3/min", "cm³": "cm3", "µm": "um", "°C": "degC"}


def number(value: float, unit: str) -> str:
    """The digits alone, in plain decimals."""
    value = float(f"{value:.12g}")  # halves round alike in every Python, whatever its last digits
    if value == 0:
        return "0"
    wanted = COUNTING - 1 - math.floor(math.log10(abs(value)))
    decimals = max(DECIMALS.get(unit, 3), min(wanted, 12)) if abs(value) < 1 else DECIMALS.get(unit, 3)
    text = f"{value:.{decimals}f}"
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def mm(value: float) -> str:
    """The digits of a length, for the numbers of a working."""
    return number(value, "mm")


def hundredths(value: float) -> str:
    """A length of a setting, to the hundredth even where that is a nought: "50.00 mm"."""
    return f"{value:.2f} mm"


def with_unit(digits: str, unit: str) -> str:
    """Digits and unit as they are shown together."""
    return digits + SPELLED.get(unit, f" {unit}")


def show(value: float, unit: str, system: str = "metric") -> str:
    """`value` (in `unit`) as text, in the unit the person reads ("metric" or "inch")."""
    seen = shown_unit(unit, system)
    return with_unit(number(converted(value, unit, seen), seen), seen)


def rough(value: float, unit: str) -> str:
    """Two digits that count: for sentences to be remembered."""
    value = float(f"{value:.12g}")
    if value == 0:
        return with_unit("0", unit)
    decimals = max(0, 1 - math.floor(math.log10(abs(value))))
    text = f"{value:.{min(decimals, 12)}f}"
    return with_unit(text.rstrip("0").rstrip(".") if "." in text else text, unit)


def plain(value: float, unit: str) -> str:
    """As it may be typed into a box again, nothing lost that matters: "5 mm"."""
    digits = f"{value:.10g}" if 1e-4 <= abs(value) < 1e10 or value == 0 else f"{value:.12f}".rstrip("0")
    return digits if unit == "1" else f"{digits} {unit}"


def in_system(text: str, system: str, least: int = 2, exact: bool = False) -> str:
    """A sentence, or a drawing, with its metric numbers turned into what the person reads.

    As many digits count as in the number that stood there, and at least `least`. With `exact`, for numbers
    to be typed in, there are as many decimals as the unit has anywhere.
    """
    return IN_TEXT.sub(lambda found: _turned(found, least, exact), text) if system == "inch" else text


def _turned(found: re.Match[str], least: int, exact: bool) -> str:
    unit = AS_UNIT.get(found[2], found[2])
    seen = shown_unit(unit, "inch")
    value = converted(float(found[1]), unit, seen)
    if value == 0:
        return with_unit("0", seen)
    counting = max(least, len(found[1].lstrip("-0.").replace(".", "")))
    decimals = counting - 1 - math.floor(math.log10(abs(value)))
    if exact:
        return with_unit(_bare(value, max(decimals, DECIMALS.get(seen, 3))), seen)
    if "." in found[1]:
        half = 0.5 * 10.0 ** -len(found[1].partition(".")[2])
        half = abs(converted(float(found[1]) + half, unit, seen) - value)
        decimals = _fewest(value, half, decimals)
    return with_unit(f"{round(value, decimals):.{max(decimals, 0)}f}", seen)


def _fewest(value: float, half: float, decimals: int) -> int:
    """Decimals of the shortest number that rounds to what stood there: 0.25 mm is 0.01 in, which somebody typed."""
    shorter = (
        n for n in range(max(0, decimals - 3), decimals) if abs(round(value, n) - value) < half and round(value, n)
    )
    return next(shorter, decimals)


def _bare(value: float, decimals: int) -> str:
    text = f"{value:.{decimals}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text
