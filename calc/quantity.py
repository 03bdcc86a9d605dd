"""A quantity as data, a reading of one, and the refusal of what cannot be used."""

import difflib
import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from calc.units import INCH_SIDE, dimension_of

AGREE = 1e-3  # an either/or pair given twice must agree within 0.1 %
SLACK = 1e-9  # thresholds compare with this relative slack, so that 2.0000000000000004 is 2
SHAPES = {
    "whole": "a whole number",
    "list": "numbers with commas between",
    "point": "x, y, z",
    "points": "points x, y, z with semicolons between",
    "boxes": "two corners x1, y1, z1, x2, y2, z2 each, with semicolons between",
    "pieces": "pieces as length x count, with commas between",
}


class Refused(ValueError):
    """An input that cannot be used: which field, and one plain line that says why."""

    def __init__(self, field: str, message: str) -> None:
        super().__init__(message)
        self.field = field
        self.message = message


class Impossible(Refused):
    """What the inputs say cannot be: it would be a stop, if it could be worked out."""


class Disagree(Refused):
    """Two inputs say the same thing differently; `other` is the second's name."""

    def __init__(self, field: str, other: str) -> None:
        super().__init__(field, f"{field} and {other} do not agree; give one of them")
        self.other = other


class OutOfRange(Refused):
    """A number beyond the hard limits of its quantity; `low` and `high` in its unit, None where open."""

    def __init__(self, name: str, value: float, low: float | None, high: float | None, unit: str, text: str) -> None:
        super().__init__(name, text)
        self.name, self.value, self.low, self.high, self.unit = name, value, low, high, unit


@dataclass(frozen=True)
class Quantity:
    """The declaration of one input or output.

    `low` and `high` are inclusive hard limits in `unit`, `above` an exclusive lower one. `kind` is
    number, whole, choice, text, list, point (x,y,z), points, boxes (two corners each), pieces
    (length x count) or yes_no. A list of `any_count` holds as many numbers as there are. `first`
    inputs are shown before the fold; a `kept` one keeps the value assumed for it when another number
    is tried. An output with `columns` is a table, a row a list.
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
    any_count: bool = False
    columns: tuple["Quantity", ...] = ()


@dataclass(frozen=True)
class Reading:
    """What was typed, and its value in the declared unit (a tuple of them for a list)."""

    value: Any
    unit: str
    typed: str


def missing(quantity: Quantity) -> Refused:
    """The refusal of an input that is needed and was not given."""
    return Refused(quantity.name, f"{quantity.label} ({quantity.name}) is needed: {takes(quantity)}")


def plainly(message: str, quantities: Iterable[Quantity]) -> str:
    """A refusal as a page says it: labels in the place of names, which are for terminals and files.

    >>> speed = Quantity("spindle_speed", "Spindle speed", "rpm")
    >>> plainly("Spindle speed (spindle_speed) is needed", [speed])
    'Spindle speed is needed'
    >>> plainly("Give either spindle_speed or feed", [speed])
    'Give either spindle speed or feed'
    """
    for one in quantities:
        message = message.replace(f" ({one.name})", "")
        if "_" in one.name:  # a name of one word reads as the word it is
            label = one.label if one.label[1:2].isupper() else one.label[:1].lower() + one.label[1:]
            message = re.sub(rf"\b{re.escape(one.name)}\b", label, message)
        for choice in one.choices:
            message = message.replace(choice, choice.replace("_", " "))
    return message[:1].upper() + message[1:]


def takes(quantity: Quantity) -> str:
    """What a quantity takes, in words."""
    if quantity.kind in ("choice", "yes_no"):
        return "one of " + ", ".join(choices_of(quantity))
    if quantity.kind == "text":
        return "a text"
    what = SHAPES.get(quantity.kind)
    if what and quantity.unit == "1":
        return what
    return f"{what or dimension_of(quantity.unit).name}{_in_units(quantity)}"


def values(readings: Mapping[str, Reading]) -> dict[str, Any]:
    """The values alone, by name; what was not given is not there."""
    return {name: reading.value for name, reading in readings.items()}


def settled(given: Mapping[str, float | None]) -> tuple[str, float]:
    """The name and value of a quantity that can be given in more than one way.

    `given` holds the value that each input leads to, None where it was not given. Raises Refused where
    none was given, or where two differ by more than 0.1 %.
    """
    known = {name: value for name, value in given.items() if value is not None}
    if not known:
        raise Refused(next(iter(given)), "Give either " + " or ".join(given))
    name = next(iter(known))
    for other, value in known.items():
        if abs(value - known[name]) > AGREE * max(abs(value), abs(known[name])):
            raise Disagree(other, name)
    return name, known[name]


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


def choices_of(quantity: Quantity) -> tuple[str, ...]:
    """What may be chosen."""
    return quantity.choices or ("yes", "no")
