"""Reads a spreadsheet saved as CSV: its letters, what parts its cells, and where each cell is.

Comma, semicolon or tab; UTF-8 with or without mark, UTF-16 with it, else cp1252 or Latin-1; quotes and
doubled quotes as in RFC 4180. Rows are counted and columns lettered as a spreadsheet shows them.
"""

import codecs
import csv
import io
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import islice
from pathlib import Path

LARGEST = 3_000_000  # bytes
MOST_ROWS, MOST_COLUMNS = 5_000, 200
MOST_LINES = 100_000  # blank rows among them
SAMPLE = 200  # rows by which it is found what parts the cells
NOTHING = "nothing is in it"
PARTED = {",": "commas", ";": "semicolons", "\t": "tabs"}
MARKS = ((codecs.BOM_UTF8, "utf-8-sig"), (codecs.BOM_UTF16_LE, "utf-16"), (codecs.BOM_UTF16_BE, "utf-16"))
WORKBOOKS = (b"PK\x03\x04", b"\xd0\xcf\x11\xe0")
HINT = "sep="  # a first line by which some programs say what parts the cells; they do not show it


class NotASheet(ValueError):
    """Why a file cannot be read as a spreadsheet, in one line."""


@dataclass(frozen=True)
class Column:
    """One column: its place from 0, its letter, its heading ("" where it has none)."""

    at: int
    letter: str
    heading: str

    def __str__(self) -> str:
        return f'column {self.letter} "{self.heading}"' if self.heading else f"column {self.letter}"


@dataclass(frozen=True)
class Row:
    """One row below the headings: its number and its cells, trimmed; there may be fewer than headings, or more."""

    number: int
    cells: tuple[str, ...]

    def cell(self, at: int) -> str:
        """The cell in a column, "" where the row ends before it."""
        return self.cells[at] if at < len(self.cells) else ""


@dataclass(frozen=True)
class Sheet:
    """What was read; `letters` and `parted` say how."""

    columns: tuple[Column, ...]
    rows: tuple[Row, ...]
    letters: str
    parted: str
    heading_row: int


def read_file(path: Path) -> bytes:
    """A spreadsheet's bytes. Raises NotASheet."""
    try:
        if path.stat().st_size > LARGEST:
            raise NotASheet(f"{path} is too large: at most {LARGEST // 1_000_000} MB")
        return path.read_bytes()
    except OSError as error:
        raise NotASheet(f"{path} cannot be read ({error.strerror})") from None


def read_sheet(data: bytes) -> Sheet:
    """The sheet in a file's bytes. Raises NotASheet."""
    text, letters = _decoded(data)
    table, mark = _table(text)
    (heading_row, headings), *below = table
    columns = tuple(Column(at, letter(at), " ".join(heading.split())) for at, heading in enumerate(headings))
    rows = tuple(Row(number, tuple(cells)) for number, cells in below)
    return Sheet(columns, rows, letters, PARTED[mark], heading_row)


def letter(at: int) -> str:
    """A column's letters from its place: A, B, ... Z, AA."""
    before, last = divmod(at, 26)
    return (letter(before - 1) if before else "") + chr(ord("A") + last)


def _decoded(data: bytes) -> tuple[str, str]:
    if len(data) > LARGEST:
        raise NotASheet(f"too large: at most {LARGEST // 1_000_000} MB")
    if data.startswith(WORKBOOKS):
        raise NotASheet("a workbook, not CSV: open it and save the sheet as CSV")
    marked = [name for mark, name in MARKS if data.startswith(mark)]
    for name in marked or ("utf-8", "cp1252", "latin-1"):
        try:
            return data.decode(name), name.removesuffix("-sig").upper()
        except UnicodeDecodeError:
            continue
    raise NotASheet("its letters cannot be read: save it as CSV in UTF-8")


def _table(text: str) -> tuple[list[tuple[int, list[str]]], str]:
    """Numbered rows of trimmed cells, and the mark between cells that makes the most rows alike."""
    first, _, rest = text.partition("\n")
    said = first.strip().lower().removeprefix(HINT).strip('"') if first.strip('" ').lower().startswith(HINT) else ""
    text, marks = (rest, [first.strip().strip('"')[len(HINT) :] or "\t"]) if said else (text, list(PARTED))
    tables: dict[str, list[tuple[int, list[str]]]] = {}
    faults: dict[str, NotASheet] = {}
    for mark in (mark for mark in marks if mark in PARTED):
        try:
            tables[mark] = list(islice(_rows(text, mark), SAMPLE))
        except NotASheet as broken:
            faults[mark] = broken
    best = max(tables, key=lambda mark: (*_alike(tables[mark]), first.count(mark)), default="")
    likely = max(faults, key=first.count, default="")
    if likely and (not best or (first.count(likely) and not _alike(tables[best])[0])):
        raise faults[likely]
    if not best:
        raise NotASheet("what parts its cells is not a comma, semicolon or tab")
    if not all(tables.values()):  # marks alone
        raise NotASheet(NOTHING)
    return list(_rows(text, best)), best


def _rows(text: str, mark: str) -> Iterator[tuple[int, list[str]]]:
    """The rows that hold anything, with their numbers.

    A row that a quote is left open in would swallow the rest of the file: that is told, not taken.
    """
    number = filled = 0
    try:
        for number, cells in enumerate(csv.reader(io.StringIO(text, newline=""), delimiter=mark, strict=True), 1):
            trimmed = [_trimmed(cell) for cell in cells]
            if any(trimmed):
                filled += 1
                yield number, trimmed
            if filled > MOST_ROWS + 1 or len(cells) > MOST_COLUMNS or number > MOST_LINES:
                raise NotASheet(f"too much for one go: at most {MOST_ROWS} rows and {MOST_COLUMNS} columns")
    except csv.Error as error:
        what = "a quote that is not closed" if "unexpected end" in str(error) else "a quote inside a quoted cell"
        what = "a cell that is too long" if "field larger" in str(error) else what
        raise NotASheet(f"row {number + 1} holds {what}") from None


def _trimmed(cell: str) -> str:
    return cell.replace("\r\n", "\n").replace("\r", "\n").strip()


def _alike(table: list[tuple[int, list[str]]]) -> tuple[int, int]:
    """How many rows are as wide as the first, and how wide that is; one column alone tells nothing."""
    wide = len(table[0][1]) if table else 0
    return (sum(len(cells) == wide for _, cells in table), wide) if wide > 1 else (0, wide)
