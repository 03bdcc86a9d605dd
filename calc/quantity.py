"""A quantity as data, and reading what people type: "6", "6 mm", '1/4"', "1 1/4 in", "0,5", "80 %"."""

import difflib
import math
import re
import unicodedata
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from calc.show import show
from calc.units import INCH_SIDE, dimension_of, factor, named_unit

LONGEST = 200  # characters; nobody types a longer number
SLACK = 1e-9  # thresholds compare with this relative slack, so that 2.0000000000000004 is 2

NUMBER = re.compile(
    r"(?P<sign>[+-]?)\s*(?:"
    r"(?P<whole>\d+)[ -]+(?P<top>\d+)\s*/\s*(?P<bottom>\d+)"
    r"|(?P<top2>\d+)\s*/\s*(?P<bottom2>\d+)"
    r"|(?P<decimal>(?:\d+(?:[.,]\d*)?|[.,]\d+)(?:[eE][+-]?\d{1,2})?)"
    r")(?P<rest>.*)",
    re.ASCII | re.DOTALL,
)
THOUSANDS = re.compile(r"\d+,\d{3}(?!\d)|\d+[.,]\d+[.,]", re.ASCII)
ODD_CHARACTERS = str.maketrans({"−": "-", "–": "-", "″": '"', "”": '"', "“": '"', "⁄": "/", "\u00a0": " "})


class Refused(ValueError):
    """An input that cannot be used: which field, and one plain line that says why."""

    def __init__(self, field: str, message: str) -> None:
        super().__init__(message)
        self.field = field
        self.message = message


class OutOfRange(Refused):
    """A number beyond the hard limits of its quantity; `low` and `high` in its unit, None where open."""

    def __init__(self, name: str, value: float, low: float | None, high: float | None, unit: str, text: str) -> None:
        super().__init__(name, text)
        self.name, self.value, self.low, self.high, self.unit = name, value, low, high, unit


@dataclass(frozen=True)
class Quantity:
    """The declaration of one input or output.

    `low` and `high` are inclusive hard limits in `unit`, `above` an exclusive lower one. `kind` is
    number, whole, choice, text, list, point, points, pieces or yes_no. `first` inputs are shown
    before the fold; a `kept` one keeps the value assumed for it when another number is tried.
    """

    name: str
    label: str
    unit: str = "1"
    help: str = ""
    low: float | None = None
    high: float | None = None
    above: float | None = None
    default: str | None = None
    required: bool = False
    choices: tuple[str, ...] = ()
    kind: str = "number"
    first: bool = False
    kept: bool = False


@dataclass(frozen=True)
class Reading:
    """What was typed, and its value in the declared unit (a tuple of them for a list)."""

    value: Any
    unit: str
    typed: str


def read(text: str, quantity: Quantity) -> Reading:
    """The reading of `text` as `quantity`. Raises Refused, or OutOfRange beyond the hard limits."""
    typed = text.strip()
    if not typed:
        raise missing(quantity)
    if len(typed) > LONGEST:
        raise Refused(quantity.name, f"{quantity.label}: that is too long to be read ({len(typed)} characters)")
    return Reading(_READERS[quantity.kind](typed, quantity), quantity.unit, typed)


def missing(quantity: Quantity) -> Refused:
    """The refusal of an input that is needed and was not given."""
    return Refused(quantity.name, f"{quantity.label} ({quantity.name}) is needed: {takes(quantity)}")


def takes(quantity: Quantity) -> str:
    """What a quantity takes, in words."""
    if quantity.kind in ("choice", "yes_no"):
        return "one of " + ", ".join(_choices(quantity))
    if quantity.kind == "text":
        return "a text"
    what = {"whole": "a whole number", "list": "numbers with commas between"}.get(quantity.kind)
    if what and quantity.unit == "1":
        return what
    return f"{what or dimension_of(quantity.unit).name}{_in_units(quantity)}"


def nearest(word: str, words: Sequence[str]) -> str:
    """`; did you mean X?` for the word nearest to `word`, or nothing."""
    found = difflib.get_close_matches(word, words, n=1, cutoff=0.6)
    return f"; did you mean {found[0]}?" if found else ""


def at_most(value: float, limit: float) -> bool:
    """value <= limit, with the relative slack of all thresholds."""
    return value <= limit + SLACK * max(abs(limit), abs(value))


def at_least(value: float, limit: float) -> bool:
    """value >= limit, with the relative slack of all thresholds."""
    return at_most(limit, value)


def _in_units(quantity: Quantity) -> str:
    other = INCH_SIDE.get(quantity.unit)
    if quantity.unit == "1":
        return ""
    return f" in {quantity.unit}" + (f" or {other}" if other else "")


def _number(typed: str, quantity: Quantity) -> float:
    text = unicodedata.normalize("NFKC", typed.translate(ODD_CHARACTERS)).translate(ODD_CHARACTERS)
    text = re.sub(r"(?<=\d)(?=[¼½¾⅛⅜⅝⅞])", " ", typed) if re.search(r"\d[¼½¾⅛⅜⅝⅞]", typed) else text
    text = unicodedata.normalize("NFKC", text).translate(ODD_CHARACTERS).strip()
    if THOUSANDS.match(text.lstrip("+- ")):
        raise Refused(quantity.name, f'{quantity.label}: "{_quoted(typed)}" can be read in two ways; write 1500 or 1.5')
    found = NUMBER.fullmatch(text)
    if not found:
        raise Refused(quantity.name, f'{quantity.label}: "{_quoted(typed)}" is not {takes(quantity)}')
    return _within(_exact(found, typed, quantity), quantity)


def _exact(found: re.Match[str], typed: str, quantity: Quantity) -> float:
    rest = found["rest"].strip()
    unit = _unit(rest, quantity)
    fraction = found["top"] or found["top2"]
    if fraction and not rest and quantity.unit in INCH_SIDE:
        raise Refused(
            quantity.name,
            f'{quantity.label}: "{_quoted(typed)}" of what? Write it with its unit, '
            f"{_quoted(typed)} in, or as a decimal",
        )
    try:
        size = _fraction(found) * factor(unit, quantity.unit)
        return float(-size if found["sign"] == "-" else size)
    except ZeroDivisionError:
        raise Refused(quantity.name, f'{quantity.label}: "{_quoted(typed)}" divides by zero') from None
    except OverflowError:
        raise Refused(quantity.name, f"{quantity.label}: that number is too large") from None


def _fraction(found: re.Match[str]) -> Fraction:
    if found["top"]:
        return int(found["whole"]) + Fraction(int(found["top"]), int(found["bottom"]))
    if found["top2"]:
        return Fraction(int(found["top2"]), int(found["bottom2"]))
    return Fraction(found["decimal"].replace(",", "."))


def _unit(written: str, quantity: Quantity) -> str:
    if not written:
        return quantity.unit
    unit = named_unit(written)
    if unit is None:
        raise Refused(quantity.name, f'{quantity.label}: "{_quoted(written)}" is not a unit; it is {takes(quantity)}')
    if unit not in dimension_of(quantity.unit).units:
        raise Refused(quantity.name, f"{quantity.label} is {takes(quantity)}, and {unit} is {dimension_of(unit).name}")
    return unit


def _within(value: float, quantity: Quantity) -> float:
    q = quantity
    beyond = (
        (q.low is not None and not at_least(value, q.low))
        or (q.high is not None and not at_most(value, q.high))
        or (q.above is not None and value <= q.above)
    )
    if beyond:
        text = f"{q.label} ({q.name}) must be {_limits(q)}; {show(value, q.unit)} was given"
        raise OutOfRange(q.name, value, q.low if q.above is None else q.above, q.high, q.unit, text)
    return value


def _limits(quantity: Quantity) -> str:
    parts = []
    if quantity.above is not None:
        parts.append(f"over {show(quantity.above, quantity.unit)}")
    if quantity.low is not None:
        parts.append(f"at least {show(quantity.low, quantity.unit)}")
    if quantity.high is not None:
        parts.append(f"at most {show(quantity.high, quantity.unit)}")
    return " and ".join(parts)


def _whole(typed: str, quantity: Quantity) -> int:
    value = _number(typed, quantity)
    if not math.isclose(value, round(value), rel_tol=SLACK, abs_tol=SLACK):
        raise Refused(quantity.name, f'{quantity.label}: "{_quoted(typed)}" is not a whole number')
    return round(value)


def _list(typed: str, quantity: Quantity) -> tuple[float, ...]:
    parts = typed.split(";") if ";" in typed else typed.split(",")
    return tuple(_number(part.strip() or "?", quantity) for part in parts)


def _choice(typed: str, quantity: Quantity) -> str:
    choices = _choices(quantity)
    folded = {choice.lower(): choice for choice in choices}
    found = folded.get(typed.lower()) or folded.get(re.sub(r"[ -]+", "_", typed.lower()))
    if found is None:
        hint = nearest(typed.lower(), choices)
        raise Refused(quantity.name, f'{quantity.label}: "{_quoted(typed)}" is not {takes(quantity)}{hint}')
    return found


def _choices(quantity: Quantity) -> tuple[str, ...]:
    return quantity.choices or ("yes", "no")


def _text(typed: str, _quantity: Quantity) -> str:
    return " ".join(typed.split())


def _quoted(typed: str) -> str:
    """Typed text as it may stand in one plain line."""
    plain = "".join(char if char.isprintable() else "?" for char in typed)
    return plain if len(plain) <= 40 else plain[:39] + "…"


_READERS = {
    "number": _number,
    "whole": _whole,
    "list": _list,
    "choice": _choice,
    "yes_no": _choice,
    "text": _text,
}
