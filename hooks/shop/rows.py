"""Rows of a foreign spreadsheet as lessons: each cell into its field, each row with its id.

A row's id is made from its time and its sentence, so that the same row is the same lesson whenever and
wherever it is taken in, however the columns are ordered, and whatever else is written into it later.
"""

import hashlib
import json
from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from hooks.shop import write
from hooks.shop.cells import Manner, OddCell, value_of
from hooks.shop.declaration import MACHINES
from hooks.shop.flat import NOTHING, gathered, leaf, vocabulary_of
from hooks.shop.ids import SECOND, is_id, lesson_path
from hooks.shop.near import folded
from hooks.shop.problems import quoted
from hooks.shop.spreadsheet import Column, Row, Sheet, letter
from hooks.shop.vocabulary import VOCABULARIES

LETTERS = "0123456789abcdefghjkmnpqrstvwxyz"  # Crockford's base 32, as in ids.py
NEEDED = ("kind", "said")
KINDS = [word.key for word in VOCABULARIES["kind"].words]


@dataclass(frozen=True)
class Choices:
    """What the person says about the sheet. `columns` maps a column's place to a field; None: as suggested."""

    columns: Mapping[int, str] | None = None
    kind: str = ""
    dates: str = ""
    decimals: str = ""
    means: Mapping[str, str] = field(default_factory=dict)
    without_odd: bool = False


@dataclass(frozen=True)
class Odd:
    """A cell that cannot be taken. `stops`: nor can its row without it. `word` is not known in `of`."""

    row: int
    column: Column
    text: str
    stops: bool
    word: str = ""
    of: str = ""

    def __str__(self) -> str:
        return f"row {self.row}, {self.column}: {self.text}"


@dataclass(frozen=True)
class Event:
    """A row as a lesson; `there` is "" for a new one, "same" or "other" (in its words) where it is there already."""

    row: int
    id: str
    fields: Mapping[str, Any]
    content: bytes
    there: str


@dataclass
class Rows:
    """Reads rows into values by path, and notes what is odd on the way."""

    sheet: Sheet
    columns: Mapping[int, str]
    choices: Choices
    manner: Manner
    odd: list[Odd] = field(default_factory=list)
    twice: list[tuple[int, int]] = field(default_factory=list)
    read_as: Counter[tuple[str, str, str]] = field(default_factory=Counter)
    _stopped: set[int] = field(default_factory=set)

    def read(self) -> list[tuple[Row, dict[str, Any]]]:
        """The rows that can be lessons, each with its values."""
        seen: dict[tuple[str, ...], int] = {}
        found = []
        for row in self.sheet.rows:
            same = seen.setdefault(row.cells, row.number)
            if same != row.number:
                self.twice.append((row.number, same))
            else:
                values = self._values(row)
                if all(key in values for key in NEEDED) and row.number not in self._stopped:
                    found.append((row, values))
        return found

    def at(self, path: str) -> Column:
        """The column that goes to a path, else the first."""
        found = (self.sheet.columns[at] for at, one in self.columns.items() if one == path)
        return next(found, self.sheet.columns[0])

    def _values(self, row: Row) -> dict[str, Any]:
        values: dict[str, Any] = {}
        before = len(self.odd)
        for at, path in self.columns.items():
            value = self._value(row, self.sheet.columns[at], path)
            if value is not None:
                values[path] = value
        faulty = {self.columns[odd.column.at] for odd in self.odd[before:]}
        if self.choices.kind in KINDS and "kind" not in {*values, *faulty}:
            values["kind"] = self.choices.kind
        for path in NEEDED if "id" in values else (*NEEDED, "when"):
            if path in self.columns.values() and path not in {*values, *faulty}:
                self.note(row, self.at(path), "nothing is said here", stops=path in NEEDED)
        for place, cell in enumerate(row.cells[len(self.sheet.columns) :], len(self.sheet.columns)):
            if cell:
                self.note(row, Column(place, letter(place), ""), f"{quoted(cell)} has no heading above it", stops=True)
        return values

    def _value(self, row: Row, column: Column, path: str) -> Any:
        cell, wanted = row.cell(column.at), leaf(path)
        if wanted is None or cell in NOTHING:
            return None
        try:
            value = value_of(cell, wanted, column.heading, self.manner)
        except OddCell as odd:
            self.note(row, column, str(odd), path in (*NEEDED, "when", "id"), odd.word, odd.of)
            return None
        picked = isinstance(value, str) and (vocabulary_of(wanted) or wanted.of == MACHINES)
        if picked and folded(value) != folded(cell):
            self.read_as[path, cell, value] += 1
        return value

    def note(self, row: Row, column: Column, text: str, stops: bool, word: str = "", of: str = "") -> None:
        """Note a cell as odd."""
        self.odd.append(Odd(row.number, column, text, stops, word, of))
        if stops:
            self._stopped.add(row.number)


class Events:
    """Gives rows their ids, and looks which are there already."""

    def __init__(self, root: Path, rows: Rows, now: datetime) -> None:
        self._root, self._rows, self._now = root, rows, now
        self._there = {path.stem for path in root.glob("lessons/*/*.yaml") if is_id(path.stem)}
        self._by_end = {id_[-5:]: id_ for id_ in sorted(self._there)}
        self._count: Counter[tuple[str, str]] = Counter()

    def made(self, rows: list[tuple[Row, dict[str, Any]]]) -> list[Event]:
        """The rows as lessons."""
        named = [(row, values, self._id(row, values)) for row, values in rows]
        ids = Counter(id_ for _, _, id_ in named)
        found = []
        for row, values, id_ in named:
            if not id_ or ids[id_] > 1:
                text = f"the id {quoted(id_)} stands twice" if id_ else f"{quoted(values['id'])} is no lesson's id"
                self._rows.note(row, self._rows.at("id"), text, stops=True)
                continue
            event = self._event(row, self._without_strangers(row, values, id_, ids.keys()), id_)
            found += [event] if event else []
        return found

    def _id(self, row: Row, values: Mapping[str, Any]) -> str:
        """The id in the row, else one of its time and sentence; "" where the one in the row is none."""
        if "id" in values:
            return values["id"] if is_id(values["id"]) else ""
        second, said = _second(values.get("when", "")), " ".join(values["said"].split())
        number = self._count[second, said]
        self._count[second, said] += 1
        end = _letters(json.dumps([second, said, number]))
        if second:
            return f"{second}-{end}"
        return self._by_end.get(end, f"{self._now.astimezone(UTC).strftime(SECOND)}-{end}")

    def _without_strangers(self, row: Row, values: dict[str, Any], id_: str, ids: Iterable[str]) -> dict[str, Any]:
        """The values, naming no lesson that is neither in the shop nor in the sheet."""
        known = (self._there | set(ids)) - {id_}
        strange = [one for one in values.get("repeat_of", ()) if one not in known]
        for one in strange:
            text = f"there is no other lesson {quoted(one)}"
            self._rows.note(row, self._rows.at("repeat_of"), text, stops=False)
        return {key: value for key, value in values.items() if key != "repeat_of" or not strange}

    def _event(self, row: Row, values: dict[str, Any], id_: str) -> Event | None:
        fields = gathered(values)
        try:
            content = write.content_of(id_, fields)
        except write.Invalid as invalid:
            problem = invalid.problems[0]
            self._rows.note(row, self._rows.at(problem.field), problem.told or problem.text, stops=True)
            return None
        event = Event(row.number, id_, fields, content, "")
        if id_ not in self._there:
            return event
        path = lesson_path(id_)
        try:
            stored = (self._root / path).read_bytes()
        except OSError:
            return replace(event, there="other")
        return replace(event, there="same" if write.same(stored, content, path) else "other")


def _second(when: str) -> str:
    """The second of an id: as the sheet says it where it names no zone, so that it is the same on every machine."""
    if not when:
        return ""
    return datetime.fromisoformat(when).strftime(SECOND).rjust(15, "0")


def _letters(text: str) -> str:
    """Five letters that follow from a text."""
    number = int.from_bytes(hashlib.sha256(text.encode("utf-8")).digest()[:4], "big")
    return "".join(LETTERS[number >> shift & 31] for shift in range(0, 25, 5))
