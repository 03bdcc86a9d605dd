"""Days and times as people write them in a spreadsheet. What can be read in two ways is not guessed.

A year of four digits first is year, month, day (ISO 8601); points between, as in 5.3.2024, are day, month,
year (the usual way where points are used); months may be named in English. The rest needs to be told:
`order` is dmy, mdy or ymd.
"""

import re
from datetime import UTC, date, datetime, timedelta, timezone

ORDERS = ("dmy", "mdy", "ymd")
MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
FULL = ("january", "february", "march", "april", "may", "june", "july", "august", "september", "october",
        "november", "december")  # fmt: skip
EARLIEST = 1970
NUMBERS = re.compile(r"(\d{1,2}|\d{4})([./-])(\d{1,2})\2(\d{4}|\d{1,2})(?!\d)(.*)", re.ASCII | re.DOTALL)
DAY_FIRST = re.compile(r"(\d{1,2})(?:st|nd|rd|th|\.)?[ /-]*([a-z]+)\.?,?[ /-]+(\d{4}|\d{2})(?!\d)(.*)", re.ASCII | re.S)
MONTH_FIRST = re.compile(r"([a-z]+)\.?[ /-]+(\d{1,2})(?:st|nd|rd|th)?,?[ /-]+(\d{4}|\d{2})(?!\d)(.*)", re.ASCII | re.S)
WEEKDAY = re.compile(r"(?:mon|tue|wed|thu|fri|sat|sun)[a-z]*\.?,?\s+", re.ASCII)
TIME = re.compile(
    r"[ t,]+(?:at )?(\d{1,2})[:.h](\d{2})(?:[:.](\d{2})(?:[.,]\d+)?)?\s*([ap])?\.?(?:m\.?)?\s*(z|[+-]\d{2}:?\d{2})?",
    re.ASCII,
)


class NoDay(ValueError):
    """Why a text is no day, in one line."""


def read_when(text: str, order: str = "") -> datetime:
    """The day and time in a text; midnight where no time is written, without a zone where none is. Raises NoDay."""
    said = WEEKDAY.sub("", " ".join(text.lower().split()), count=1)
    day, rest = _day(said, text, order)
    if day.year < EARLIEST:
        raise NoDay(f'"{text}" is before {EARLIEST}')
    return _at(day, rest, text)


def _day(said: str, text: str, order: str) -> tuple[date, str]:
    if found := NUMBERS.fullmatch(said):
        first, mark, middle, last, rest = found.groups()
        return _numbered((first, middle, last), mark, order, text), rest
    if found := DAY_FIRST.fullmatch(said):
        number, name, year, rest = found.groups()
    elif found := MONTH_FIRST.fullmatch(said):
        name, number, year, rest = found.groups()
    else:
        raise NoDay(f'"{text}" is no day such as 2024-03-05')
    return _made(year, _month(name, text), number, text), rest


def _numbered(parts: tuple[str, str, str], mark: str, order: str, text: str) -> date:
    days = {}
    for one in _orders(parts, mark, order):
        of = dict(zip(one, parts, strict=True))
        try:
            days[one] = _made(of["y"], of["m"], of["d"], text)
        except NoDay:
            continue
    if not days:
        raise NoDay(f'"{text}" is no day that exists' + (f" as {order}" if order else ""))
    if len(set(days.values())) > 1:
        ways = " or ".join(f"{day.day} {FULL[day.month - 1].title()} {day.year}" for day in days.values())
        raise NoDay(f'"{text}" can be read as {ways}: say in which order dates are, {" or ".join(days)}')
    return next(iter(days.values()))


def _orders(parts: tuple[str, str, str], mark: str, order: str) -> tuple[str, ...]:
    """The orders in which three numbers may stand."""
    first, _, last = parts
    possible = ("ymd",) if len(first) == 4 else ("dmy", "mdy") if len(last) == 4 else ORDERS
    if order in possible:
        return (order,)
    return ("dmy",) if mark == "." and len(first) < 4 else possible


def _made(year: str, month: str, day: str, text: str) -> date:
    number = int(year) if len(year) == 4 else _century(int(year))
    try:
        return date(number, int(month), int(day))
    except ValueError:
        raise NoDay(f'"{text}" is no day that exists') from None


def _century(year: int) -> int:
    """Two digits of a year: 70 to 99 are of the last century."""
    return 1900 + year if year >= EARLIEST % 100 else 2000 + year


def _month(name: str, text: str) -> str:
    if name in FULL or name[:3] in MONTHS and len(name) <= 4:
        return str(MONTHS.index(name[:3]) + 1)
    raise NoDay(f'"{text}" names no month')


def _at(day: date, rest: str, text: str) -> datetime:
    when = datetime(day.year, day.month, day.day)
    if not rest.strip():
        return when
    found = TIME.fullmatch(rest)
    if not found:
        raise NoDay(f'"{text}" has something after the day that is no time')
    hour, minute, second, half, zone = found.groups()
    if half and not 1 <= int(hour) <= 12:
        raise NoDay(f'"{text}" is no time that exists')
    try:
        whole = int(hour) % 12 + 12 * (half == "p") if half else int(hour)
        return when.replace(hour=whole, minute=int(minute), second=int(second or 0), tzinfo=_zone(zone))
    except ValueError:
        raise NoDay(f'"{text}" is no time that exists') from None


def _zone(written: str | None) -> timezone | None:
    if not written:
        return None
    if written == "z":
        return UTC
    minutes = int(written[1:3]) * 60 + int(written[-2:])
    return timezone(timedelta(minutes=-minutes if written[0] == "-" else minutes))
