"""A lesson as one row of cells: a column for each answer, named by its dotted path, and back again.

`cutter.cutter_diameter` is an answer in a group, `changes.1.what` one of the first change. A list stands in
one cell, a line for each; a map likewise, as `name = value`. What would not come back as it was, or what a
spreadsheet would run as a formula, stands as JSON instead: in quotes of its own, or as a list or object.
A cell that begins with a quote, `[` or `{` is no formula, and import takes the quotes off again, so the
text stays as true as the guard is safe. (A leading apostrophe, the usual guard, would stay in the text.)
"""

import json
import re
from collections.abc import Iterator, Mapping
from typing import Any

from hooks.shop.declaration import FIELDS
from hooks.shop.fields import Field
from hooks.shop.vocabulary import VOCABULARIES

MOST = 999  # groups of one list: changes.1 to changes.999
NOTHING = ("", "-", "–", "—", "n/a", "N/A")  # cells in which nothing is said
FORMULA = re.compile(r"[=+\-@\t\r]")
PLAIN_NUMBER = re.compile(r"[+-]?\d+([.,]\d+)?", re.ASCII)
NAME = re.compile(r"[A-Za-z_]\w*", re.ASCII)


def leaf(path: str) -> Field | None:
    """The field that a column of this name holds; None where there is none."""
    known: tuple[Field, ...] = FIELDS
    *groups, last = path.split(".")
    for key in groups:
        if key.isascii() and key.isdigit() and not key.startswith("0") and int(key) <= MOST:
            continue
        found = next((one for one in known if one.key == key), None)
        if found is None:
            return None
        known = _parts(found)
    found = next((one for one in known if one.key == last), None)
    whole = found is not None and not _parts(found) and _numbered(groups)
    return found if whole else None


def paths() -> Iterator[tuple[str, Field]]:
    """Every column there can be, in the declaration's order; of a list of groups the first."""
    for one in FIELDS:
        first = f"{one.key}.1" if one.type == "list" else one.key
        parts = _parts(one)
        yield from ((f"{first}.{part.key}", part) for part in parts)
        if not parts:
            yield one.key, one


def flatten(fields: Mapping[str, Any]) -> dict[str, str]:
    """A lesson's fields as typed, as cells by path. Groups in which nothing is said are left out."""
    cells: dict[str, str] = {}
    for one in FIELDS:
        if one.key not in fields:
            continue
        value, parts = fields[one.key], {part.key: part for part in _parts(one)}
        if not parts:
            cells[one.key] = _cell(value, one)
            continue
        groups = (
            {f"{one.key}.{n}": group for n, group in enumerate(value, 1)} if one.type == "list" else {one.key: value}
        )
        cells |= {f"{name}.{key}": _cell(group[key], parts[key]) for name, group in groups.items() for key in group}
    return cells


def gathered(values: Mapping[str, Any]) -> dict[str, Any]:
    """Values by path as a lesson's fields; lists of groups in the order of their numbers, gaps closed."""
    fields: dict[str, Any] = {}
    for path, value in values.items():
        *groups, last = path.split(".")
        into = fields
        for key in groups:
            into = into.setdefault(key, {})
        into[last] = value
    for one in FIELDS:
        if one.type == "list" and isinstance(fields.get(one.key), dict):
            numbered = fields[one.key]
            fields[one.key] = [numbered[key] for key in sorted(numbered, key=int)]
    return fields


def opened(cell: str, wanted: Field) -> Any:
    """What a cell in JSON stands for; None where it is a cell like any other."""
    begins, kind = {"list": ("[", list), "map": ("{", dict)}.get(wanted.type, ('"', str))
    if not cell.startswith(begins):
        return None
    try:
        found = json.loads(cell)
    except (ValueError, RecursionError):
        return None
    inside = found.values() if isinstance(found, dict) else found
    return found if isinstance(found, kind) and all(isinstance(one, str) for one in inside) else None


def split(cell: str, wanted: Field) -> Any:
    """A cell's lines as the list or map that its field holds; another field's cell as it is.

    Raises ValueError where a line of a map has no `=`.
    """
    if wanted.type == "list" and wanted.item:
        marks = r"[\n;,]" if wanted.item.type in ("one_of", "ref") else r"\n"
        return [part.strip() for part in re.split(marks, cell) if part.strip()]
    if wanted.type == "map":
        pairs = [line.split("=", 1) for line in cell.split("\n") if line.strip()]
        return {name.strip(): value.strip() for name, value in pairs}
    return cell


def _parts(field: Field) -> tuple[Field, ...]:
    inside = field.item if field.type == "list" and field.item else field
    return inside.parts


def _numbered(groups: list[str]) -> bool:
    """Whether a number stands where, and only where, a list of groups is meant."""
    lists = {one.key for one in FIELDS if one.type == "list" and _parts(one)}
    return [n for n, key in enumerate(groups) if key.isdigit()] == ([1] if groups and groups[0] in lists else [])


def _cell(value: Any, wanted: Field) -> str:
    """The cell that `opened` or `split` makes this value of again."""
    if isinstance(value, str):
        return value if _safe(value) and not value.startswith('"') else _json(value)
    plain = "\n".join(f"{key} = {one}" for key, one in value.items()) if wanted.type == "map" else "\n".join(value)
    words = list(value.values()) if wanted.type == "map" else list(value)
    names = all(NAME.fullmatch(key) for key in value) if wanted.type == "map" else not plain.startswith("[")
    comes_back = names and words and all(_safe(word) for word in words) and split(plain, wanted) == value
    return plain if comes_back and _safe(plain) else _json(value)


def _safe(text: str) -> bool:
    """Whether a text may stand in a cell as it is: it comes back whole, and no spreadsheet runs it."""
    whole = text.strip() == text and text not in NOTHING and "\r" not in text
    return whole and (not FORMULA.match(text) or PLAIN_NUMBER.fullmatch(text) is not None)


def _json(value: Any) -> str:
    return json.dumps(value, ensure_ascii=False)


def vocabulary_of(wanted: Field) -> str:
    """The vocabulary that a cell's words are picked from, "" where it is not picked."""
    inside = wanted.item if wanted.type == "list" and wanted.item else wanted
    return inside.of if inside.type == "one_of" and inside.of in VOCABULARIES else ""
