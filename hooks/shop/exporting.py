"""All lessons of a shop as one table, and as one JSON; what is exported can be taken in again.

CSV after RFC 4180: CRLF, commas, quotes doubled, a first line of headings. UTF-8 with its mark, since without
it spreadsheets read the letters wrong, and what is saved from there would be wrong for good. How cells are
made, and why none of them is run as a formula: hooks/shop/flat.py.
"""

import csv
import io
import re
from collections.abc import Iterable, Sequence
from typing import Any

from hooks.shop.declaration import FIELDS
from hooks.shop.flat import flatten, paths
from hooks.shop.lesson import Lesson

MARK = "\ufeff"
ALWAYS = ("id", "when", "kind", "said")
NUMBERED = re.compile(r"(\w+)\.(\d+)\.(\w+)")


def to_csv(lessons: Iterable[Lesson]) -> bytes:
    """The table, oldest lesson first, with a column for each field that any lesson has."""
    rows = [{**flatten(one.typed), "id": one.id} for one in oldest_first(lessons)]
    columns = _columns(rows)
    text = io.StringIO(newline="")
    table = csv.writer(text, lineterminator="\r\n")
    table.writerow(columns)
    table.writerows([row.get(column, "") for column in columns] for row in rows)
    return (MARK + text.getvalue()).encode("utf-8")


def to_handed(lessons: Iterable[Lesson]) -> list[dict[str, Any]]:
    """All lessons as typed, in the form of a hand-over: `run.py receive` takes it."""
    return [
        {"twice_shy": 1, "kind": "lesson", "id": one.id, "fields": {**one.typed, "id": one.id}}
        for one in oldest_first(lessons)
    ]


def oldest_first(lessons: Iterable[Lesson]) -> list[Lesson]:
    """In the order in which they happened."""
    return sorted(lessons, key=lambda one: (one.when, one.id))


def _columns(rows: Sequence[dict[str, str]]) -> list[str]:
    """The columns needed, in the declaration's order, the groups of a list one after the other."""
    keys = {one.key: place for place, one in enumerate(FIELDS)}
    parts = {path: place for place, (path, _) in enumerate(paths())}

    def place(path: str) -> tuple[int, int, int]:
        found = NUMBERED.fullmatch(path)
        if not found:
            return keys[path.split(".")[0]], 0, parts[path]
        key, number, part = found.groups()
        return keys[key], int(number), parts[f"{key}.1.{part}"]

    return sorted({path for row in rows for path in row} | set(ALWAYS), key=place)
