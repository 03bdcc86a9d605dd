"""A foreign spreadsheet's cell as the value of a field, or why it cannot be one. Nothing is guessed."""

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from typing import Any

from calc.units import dimension_of, named_unit
from hooks.shop import near
from hooks.shop.dates import NoDay, read_when
from hooks.shop.declaration import MACHINES
from hooks.shop.fields import Field
from hooks.shop.flat import opened, split, vocabulary_of
from hooks.shop.headings import unit_of
from hooks.shop.nodes import NotStrict, from_json
from hooks.shop.problems import quoted
from hooks.shop.typed import Reading

DECIMALS = ("point", "comma")
YES = ("yes", "y", "true", "x", "1", "ja", "✓", "✔")
NO = ("no", "n", "false", "0", "nein")
BARE = re.compile(r"[+-]?\d[\d.,/ ]*", re.ASCII)
LASTED = re.compile(r"(\d+(?:[.,]\d+)?)\s*([a-z]+)\.?", re.ASCII | re.IGNORECASE)
TIMES = dimension_of("min").units
OTHER_TIMES = {"hr": "h", "hrs": "h", "hour": "h", "hours": "h", "mins": "min", "minute": "min", "minutes": "min"}
SURELY_DECIMAL = re.compile(r"^([+-]?0),(\d{3})(?![\d.,])", re.ASCII)  # no thousands begin with a nought
THOUSANDS = {"point": re.compile(r"[+-]?\d{1,3}(,\d{3})+(\.\d+)?", re.ASCII),
             "comma": re.compile(r"[+-]?\d{1,3}(\.\d{3})+(,\d+)", re.ASCII)}  # fmt: skip
OTHER_WAY = {"point": re.compile(r"[+-]?\d*,\d", re.ASCII), "comma": re.compile(r"[+-]?\d{1,3}\.\d{3}(?!\d)", re.ASCII)}


class OddCell(ValueError):
    """Why a cell cannot go where its column goes, in one line; `word` and `of` where a word is not known."""

    def __init__(self, text: str, word: str = "", of: str = "") -> None:
        super().__init__(text)
        self.word, self.of = word, of


@dataclass(frozen=True)
class Manner:
    """How a sheet's cells are to be read.

    `dates` is dmy, mdy, ymd or "" (not said), `decimals` point, comma or ""; `means` maps a word (folded)
    to the key it stands for, "" to leave it out; `machines` maps names and keys (folded) to keys.
    """

    dates: str = ""
    decimals: str = ""
    means: Mapping[str, str] = field(default_factory=dict)
    machines: Mapping[str, str] = field(default_factory=dict)
    now: datetime | None = None


def value_of(cell: str, wanted: Field, heading: str, manner: Manner) -> Any:
    """What the field takes: a text, list or map; None where the cell says nothing. Raises OddCell."""
    ours = opened(cell, wanted)
    value = ours if ours is not None else _converted(cell, wanted, heading, manner)
    if value is None or value == []:
        return value if ours is not None else None
    _check(value, wanted)
    return value


def _check(value: Any, wanted: Field) -> None:
    """Held against the declaration, as a lesson's file is."""
    reading = Reading("")
    try:
        reading.value(from_json(value), wanted)
    except NotStrict as broken:
        raise OddCell(broken.problem.text) from None
    if reading.problems:
        raise OddCell(reading.problems[0].told or reading.problems[0].text)


def _converted(cell: str, wanted: Field, heading: str, manner: Manner) -> Any:
    if wanted.type in ("number", "quantity"):
        return _number(cell, wanted, heading, manner)
    if wanted.type in ("datetime", "date"):
        return _day(cell, wanted, manner)
    if wanted.type == "yes_no":
        return _yes_no(cell)
    if wanted.type == "ref" and wanted.of == MACHINES:
        return _machine(cell, manner)
    vocabulary = vocabulary_of(wanted)
    if wanted.type == "list" and vocabulary:
        keys = (_key(word, vocabulary, manner) for word in split(cell, wanted))
        return [key for key in keys if key]
    if vocabulary:
        return _key(cell, vocabulary, manner)
    try:
        return split(cell, wanted)
    except ValueError:
        raise OddCell("expected a line such as: cutter_diameter = 6 mm") from None


def _key(word: str, vocabulary: str, manner: Manner) -> str | None:
    """A word's key; one that was said to mean nothing is left out."""
    if near.folded(word) in manner.means and not manner.means[near.folded(word)]:
        return None
    found = near.meant(manner.means.get(near.folded(word), word), vocabulary) or near.meant(word, vocabulary)
    if not found:
        raise OddCell(f"{quoted(word)} is no word for it{near.hint(word, vocabulary)}", word, vocabulary)
    return found


def _machine(cell: str, manner: Manner) -> str | None:
    said = manner.means.get(near.folded(cell), cell)
    if not said:
        return None
    found = manner.machines.get(near.folded(said))
    if found is None:
        raise OddCell(f"no machine {quoted(cell)} in shop.yaml: name it there, or say which it is", cell, MACHINES)
    return found


def _yes_no(cell: str) -> str:
    said = cell.casefold()
    if said not in YES + NO:
        raise OddCell(f"{quoted(cell)} is neither yes nor no")
    return "yes" if said in YES else "no"


def _day(cell: str, wanted: Field, manner: Manner) -> str:
    if _is_exact(cell, wanted):
        return cell
    try:
        when = read_when(cell, manner.dates)
        if wanted.type == "date":
            return when.date().isoformat()
        if manner.now and when.replace(tzinfo=None) > manner.now.replace(tzinfo=None) + timedelta(days=1):
            raise NoDay(f"{quoted(cell)} lies in the future")
        return (when if when.tzinfo else when.astimezone()).isoformat()
    except NoDay as none:
        raise OddCell(str(none)) from None


def _is_exact(cell: str, wanted: Field) -> bool:
    """Whether a lesson's file would take it as it is."""
    reading = Reading("")
    reading.value(from_json(cell), wanted)
    return not reading.problems


def _number(cell: str, wanted: Field, heading: str, manner: Manner) -> str:
    """The number as the calculators read it: in its own unit, else in the heading's, else in the field's."""
    text = SURELY_DECIMAL.sub(r"\1.\2", cell)
    text = _decimal(text, manner.decimals) if manner.decimals else text
    if wanted.key == "minutes":
        return _minutes(text, heading)
    unit = unit_of(heading) if BARE.fullmatch(text) else ""
    if unit and unit not in dimension_of(wanted.unit or "1").units:
        raise OddCell(f"the heading says {unit}, and {wanted.label.lower()} is not measured in it")
    return f"{text} {unit}" if unit else text


def _minutes(text: str, heading: str) -> str:
    """A length of time in minutes, by the unit beside it or in the heading."""
    found = LASTED.fullmatch(f"{text} {unit_of(heading)}".strip() if BARE.fullmatch(text) else text)
    unit = (OTHER_TIMES.get(found[2].lower()) or named_unit(found[2])) if found else None
    if not found or unit not in TIMES:
        return text
    return found[1] if unit == "min" else f"{float(found[1].replace(',', '.')) * float(TIMES[unit]):.6g}"


def _decimal(text: str, decimals: str) -> str:
    """The text with a decimal point and no marks of thousands, where it is said how numbers are written."""
    grouped = THOUSANDS[decimals].match(text)
    if grouped:
        other = "." if decimals == "comma" else ","
        return grouped[0].replace(other, "").replace(",", ".") + text[grouped.end() :]
    if OTHER_WAY[decimals].match(text):
        raise OddCell(f"{quoted(text)} is not written with a decimal {decimals}")
    return text.replace(",", ".", 1) if decimals == "comma" else text
