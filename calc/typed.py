"""Reading what people type: "6", "6 mm", '1/4"', "1 1/4 in", "0,5", "80 %", lists, points and pieces."""

import math
import re
import unicodedata
from collections.abc import Sequence
from fractions import Fraction
from itertools import pairwise

from calc.quantity import (
    SLACK,
    OutOfRange,
    Quantity,
    Reading,
    Refused,
    at_least,
    at_most,
    choices_of,
    missing,
    nearest,
    takes,
)
from calc.show import show
from calc.units import INCH_SIDE, converted, dimension_of, named_unit

LONGEST, LONGEST_LIST = 200, 2000  # characters; nobody types a longer number

NUMBER = re.compile(
    r"(?P<sign>[+-]?)\s*(?:"
    r"(?P<whole>\d+)[ -]+(?P<top>\d+)\s*/\s*(?P<bottom>\d+)"
    r"|(?P<top2>\d+)\s*/\s*(?P<bottom2>\d+)"
    r"|(?P<decimal>(?:\d+(?:[.,]\d*)?|[.,]\d+)(?:[eE][+-]?\d{1,3})?)"
    r")(?P<rest>.*)",
    re.ASCII | re.DOTALL,
)
# What stands before a unit: digits, what parts numbers, and an exponent after a digit or a decimal sign.
NUMBERS = re.compile(r"^(?:[-+\d.,/; ]|(?<=[\d.,])[eE][-+]?\d{1,3})*", re.ASCII)
DIGITS_AGAIN = tuple("0123456789.,:/")  # 6..5, 7:24, 1/2/3: what follows a number is no unit
THOUSANDS = re.compile(r"\d+,\d{3}(?!\d)|\d+[.,]\d+[.,]", re.ASCII)
PIECE = re.compile(r"(?P<length>.+?)\s*[xX×*]\s*(?P<count>\d{1,6})\s*(?P<unit>[^\d]*)")
PLAIN = re.compile(r"[-+]?[\d.]*\d", re.ASCII)  # what a decimal comma, or one between thousands, may follow
CLEAR = {"list": "82.5, 140, or 82,5; 140", "pieces": "82.5x12, 140x5, or 82,5x12; 140x5"}
ODD_CHARACTERS = str.maketrans({"−": "-", "–": "-", "″": '"', "”": '"', "“": '"', "⁄": "/", "\u00a0": " "})


def read(text: str, quantity: Quantity) -> Reading:
    """The reading of `text` as `quantity`. Raises Refused, or OutOfRange beyond the hard limits."""
    typed = text.strip()
    if not typed:
        raise missing(quantity)
    if len(typed) > (LONGEST_LIST if quantity.kind in ("points", "boxes", "pieces") else LONGEST):
        raise Refused(quantity.name, f"{quantity.label}: that is too long to be read ({len(typed)} characters)")
    return Reading(_READERS[quantity.kind](typed, quantity), quantity.unit, typed)


def unit_in(text: str) -> str:
    """What is written behind the numbers of a text; "" where there is nothing.

    >>> [unit_in(text) for text in ("1e9 N", "1½ in", "1, 2e-3 mm", "−20 °C", "6")]
    ['N', 'in', 'mm', '°C', '']
    """
    return NUMBERS.sub("", _spelled_out(text), count=1)


def _spelled_out(typed: str) -> str:
    """In plain characters: 1½ is 1 1/2."""
    text = re.sub(r"(?<=\d)(?=[¼½¾⅛⅜⅝⅞])", " ", typed.translate(ODD_CHARACTERS))
    return unicodedata.normalize("NFKC", text).translate(ODD_CHARACTERS).strip()


def _number(typed: str, quantity: Quantity) -> float:
    text = _spelled_out(typed)
    if THOUSANDS.match(text.lstrip("+- ")):
        text = f'{quantity.label}: "{_quoted(typed)}" can be read in two ways; write it with a point, or without'
        raise Refused(quantity.name, f"{text} the comma")
    found = NUMBER.fullmatch(text)
    if not found or found["rest"].strip()[:1] in DIGITS_AGAIN:
        raise Refused(quantity.name, f'{quantity.label}: "{_quoted(typed)}" is not {takes(quantity)}')
    return _within(_exact(found, typed, quantity), quantity, bare=not found["rest"].strip())


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
        size = _fraction(found)
        return float(converted(-size if found["sign"] == "-" else size, unit, quantity.unit))
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


def _within(value: float, quantity: Quantity, bare: bool) -> float:
    """Raises OutOfRange beyond the hard limits; a `bare` number that would be right as a percentage is told so."""
    q = quantity
    beyond = (
        (q.low is not None and not at_least(value, q.low))
        or (q.high is not None and not at_most(value, q.high))
        or (q.above is not None and value <= q.above)
    )
    if beyond:
        text = f"{q.label} ({q.name}) must be {_limits(q)}; {show(value, q.unit)} was given"
        if bare and q.unit == "1" and q.high is not None and q.high <= 1 and q.high < value <= 100 * q.high:
            text += f'; for {show(value, "1")} % write "{show(value, "1")} %"'
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
    return _numbers(_parted(typed, quantity), quantity)


def _parted(typed: str, quantity: Quantity) -> list[str]:
    """A semicolon parts where there is one, so that elements may hold decimal commas; else the comma.

    Where any count may be given, a comma that could be a decimal one is refused.
    """
    if ";" in typed:
        return [part.strip() for part in typed.rstrip("; ").split(";")]
    parts = typed.split(",")
    for one, two in pairwise(parts) if quantity.any_count or quantity.kind == "pieces" else ():
        if PLAIN.fullmatch(one.lstrip()) and two[:1].isdigit():
            text = f'"{_quoted(one.strip())},{_quoted(two.strip())}" can be read in two ways'
            raise Refused(quantity.name, f"{quantity.label}: {text}; write {CLEAR[quantity.kind]}")
    return [part.strip() for part in parts]


def _numbers(parts: Sequence[str], quantity: Quantity) -> tuple[float, ...]:
    """One number a part; a unit after the last holds for all that have none."""
    unit = unit_in(parts[-1])
    return tuple(_number(_with(part or "?", unit), quantity) for part in parts)


def _with(part: str, unit: str) -> str:
    return f"{part} {unit}" if unit and not unit_in(part) else part


def _rows(typed: str, quantity: Quantity, size: int) -> tuple[tuple[float, ...], ...]:
    """Rows of `size` numbers: commas within, semicolons between; a unit at the very end holds for all."""
    unit = unit_in(typed).rstrip("; ")
    rows = [[part.strip() for part in row.split(",")] for row in typed.split(";") if row.strip()]
    for row in rows:
        if len(row) != size:
            raise Refused(
                quantity.name,
                f"{quantity.label}: {_quoted(', '.join(row))} has {len(row)} of {size} numbers; commas part the "
                "numbers, semicolons the rows",
            )
    return tuple(tuple(_number(_with(part or "?", unit), quantity) for part in row) for row in rows)


def _point(typed: str, quantity: Quantity) -> tuple[float, ...]:
    if typed.count(";") == 2:
        return _numbers(_parted(typed, quantity), quantity)
    (row, *more) = _rows(typed, quantity, 3) or ((),)
    if more or not row:
        raise Refused(quantity.name, f"{quantity.label} takes one point: x, y, z")
    return row


def _points(typed: str, quantity: Quantity) -> tuple[tuple[float, ...], ...]:
    return _rows(typed, quantity, 3)


def _boxes(typed: str, quantity: Quantity) -> tuple[tuple[float, ...], ...]:
    return _rows(typed, quantity, 6)


def _pieces(typed: str, quantity: Quantity) -> tuple[tuple[float, int], ...]:
    """(length, count) each; a length alone is one piece. A unit at the very end holds for all."""
    parts = _parted(typed, quantity)
    found = [PIECE.fullmatch(part) for part in parts]
    lengths = [one["length"] if one else part for one, part in zip(found, parts, strict=True)]
    unit = found[-1]["unit"] if found[-1] else unit_in(lengths[-1])
    return tuple(
        (_number(_with(length or "?", unit), quantity), int(one["count"]) if one else 1)
        for length, one in zip(lengths, found, strict=True)
    )


def _choice(typed: str, quantity: Quantity) -> str:
    """As written, else with small letters and without gaps where that fits one choice alone: 6H and 6h are two."""
    choices = choices_of(quantity)
    found = [typed] if typed in choices else [choice for choice in choices if _bare(choice) == _bare(typed)]
    if len(found) != 1:
        hint = nearest(typed.lower(), choices)
        raise Refused(quantity.name, f'{quantity.label}: "{_quoted(typed)}" is not {takes(quantity)}{hint}')
    return found[0]


def _bare(text: str) -> str:
    """A word without what stands between its letters; a sign before it stays."""
    return re.sub(r"(?<=\w)[ _-]+(?=\w)|_", "", text.lower())


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
    "point": _point,
    "points": _points,
    "boxes": _boxes,
    "pieces": _pieces,
    "choice": _choice,
    "yes_no": _choice,
    "text": _text,
}
