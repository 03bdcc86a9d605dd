"""Stores lessons, jobs and settings: safe on disk before it returns, never half, never over another's words."""

import hashlib
import json
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from hooks.shop.durable import create, create_all, locked, replace
from hooks.shop.fields import Field
from hooks.shop.meet import met
from hooks.shop.nodes import NotStrict, from_json, parse
from hooks.shop.problems import Problem, nearest, quoted
from hooks.shop.read import SETTINGS, settings_of
from hooks.shop.settings import SHOP_FIELDS
from hooks.shop.sheet import LESSON, Sheet, read_sheet
from hooks.shop.typed import Reading, plain

ESCAPED = re.compile("[\x7f-\x9f\u2028\u2029\ufeff\ufffe\uffff]")


@dataclass(frozen=True)
class Saved:
    """What was stored; `path` is relative to the shop. `written` is False where it was there already."""

    id: str
    path: str
    hash: str
    written: bool


class Conflict(ValueError):
    """What is on disk is another; `hash` is that of the bytes there now, `keys` are what an edit clashes in."""

    def __init__(self, hash: str, keys: tuple[str, ...] = ()) -> None:
        super().__init__("what is on disk is another by now")
        self.hash = hash
        self.keys = keys


class Invalid(ValueError):
    """It breaks the declaration; nothing was stored."""

    def __init__(self, problems: tuple[Problem, ...]) -> None:
        super().__init__("; ".join(problem.text for problem in problems))
        self.problems = problems


class NotFound(ValueError):
    """There is no such thing to edit."""


def save_new(root: Path, id_: str, fields: Mapping[str, Any], sheet: Sheet = LESSON) -> Saved:
    """Store a new sheet of texts, lists and mappings. Raises Invalid, or Conflict with other content."""
    path, content = sheet.path(id_), content_of(id_, fields, sheet)
    with locked(root):
        if create(root / path, content):
            return Saved(id_, path, _hash(content), written=True)
        stored = (root / path).read_bytes()
    if not same(stored, content, path, sheet):
        raise Conflict(_hash(stored))
    return Saved(id_, path, _hash(stored), written=False)


def save_all(root: Path, contents: Mapping[str, bytes]) -> list[str]:
    """Store many new lessons, each as `content_of` gave it, all or none; the ids that were not there before.

    Raises OSError where they cannot all be stored. A lesson that is there already is left as it is.
    """
    with locked(root):
        new = [id_ for id_ in contents if not (root / LESSON.path(id_)).exists()]
        create_all({root / LESSON.path(id_): contents[id_] for id_ in new})
    return new


def content_of(id_: str, fields: Mapping[str, Any], sheet: Sheet = LESSON) -> bytes:
    """The file of a new sheet of texts, lists and mappings. Raises Invalid."""
    return _valid(sheet_text(_checked({**fields, "id": id_}, sheet), sheet), sheet.path(id_), sheet)


def save_edit(
    root: Path,
    id_: str,
    base_hash: str,
    changes: Mapping[str, Any],
    sheet: Sheet = LESSON,
    was: Mapping[str, Any] | None = None,
) -> Saved:
    """Change some keys of the sheet whose bytes have `base_hash`; None takes a key away.

    Raises NotFound, Conflict where the bytes are others by now, Invalid. With `was`, the changed keys as the
    edit found them, others may have changed other keys meanwhile, and it is a Conflict only where both changed one.
    """
    path = sheet.path(id_)
    place = _Place(id_, path, sheet.fields, lambda content: read_sheet(content, path, sheet)[2])
    return _save_edit(root, place, base_hash, changes, was)


def save_settings(
    root: Path, base_hash: str, changes: Mapping[str, Any], was: Mapping[str, Any] | None = None
) -> Saved:
    """Change some keys of shop.yaml, as `save_edit` does those of a sheet."""
    place = _Place("shop", SETTINGS, SHOP_FIELDS, lambda content: tuple(settings_of(content)[2]))
    return _save_edit(root, place, base_hash, changes, was)


@dataclass(frozen=True)
class _Place:
    """A file that can be edited: its path relative to the shop, its fields, and what is wrong with its bytes."""

    id: str
    path: str
    fields: tuple[Field, ...]
    problems: Callable[[bytes], tuple[Problem, ...]]


def _save_edit(
    root: Path, place: _Place, base_hash: str, asked: Mapping[str, Any], was: Mapping[str, Any] | None
) -> Saved:
    changes = _changes(asked, place.fields)
    with locked(root):
        try:
            stored = (root / place.path).read_bytes()
        except FileNotFoundError:
            raise NotFound(place.id) from None
        if _hash(stored) != base_hash:
            if was is None:
                raise Conflict(_hash(stored))
            changes, clashing = met(_changes(was, place.fields), _there(stored), changes, place.fields)
            if clashing:
                raise Conflict(_hash(stored), tuple(clashing))
        content = edited(stored, changes)
        problems = place.problems(content)
        if problems:
            raise Invalid(problems)
        if content != stored:
            replace(root / place.path, content)
    return Saved(place.id, place.path, _hash(content), written=content != stored)


def _changes(given: Mapping[str, Any], fields: tuple[Field, ...]) -> dict[str, Any]:
    """Keys of the declaration with texts, lists and mappings, or None. Raises Invalid."""
    declared = [one.key for one in fields]
    for key in given:
        if key not in declared:
            raise Invalid((Problem("", 1, 1, f"unknown key {quoted(key)}{nearest(key, declared)}", key),))
    try:
        return {key: None if value is None else plain(from_json(value, key)) for key, value in given.items()}
    except NotStrict as broken:
        raise Invalid((broken.problem,)) from None


def _there(stored: bytes) -> dict[str, Any]:
    """What a file says. Raises Invalid where it cannot be read."""
    try:
        return plain(parse(stored, ""))
    except NotStrict as broken:
        raise Invalid((broken.problem,)) from None


def sheet_text(fields: Mapping[str, Any], sheet: Sheet = LESSON) -> bytes:
    """The file of a new lesson (or another sheet), keys in the declaration's order."""
    order = {one.key: place for place, one in enumerate(sheet.fields)}
    keys = sorted(fields, key=lambda key: order.get(key, len(order)))
    return "\n".join([sheet.first_line, *(_entry(key, fields[key], "\n") for key in keys), ""]).encode("utf-8")


def edited(text: bytes, changes: Mapping[str, Any]) -> bytes:
    """The file with some top-level keys changed, added or (None) taken away; every other byte stays.

    Raises Invalid where the file itself cannot be read.
    """
    import yaml  # the pure loader: its marks count characters, whatever PyYAML was built with

    try:
        tree = parse(text, "", yaml.SafeLoader)
    except NotStrict as broken:
        raise Invalid((broken.problem,)) from None
    mark = b"\xef\xbb\xbf" if text.startswith(b"\xef\xbb\xbf") else b""
    written = text.decode("utf-8-sig")
    line_end = "\r\n" if "\r\n" in written else "\n"
    there = {key: (tree.keys[key].start, tree.entries[key].end, plain(tree.entries[key])) for key in tree.entries}
    for key in sorted(changes.keys() & there.keys(), key=lambda key: -there[key][0]):
        start, end, value = there[key]
        end -= len(written[start:end]) - len(written[start:end].rstrip())
        if changes[key] is None:
            written = written[:start] + written[_line_end(written, end) :]
        elif plain(from_json(changes[key])) != value:
            written = written[:start] + _entry(key, changes[key], line_end) + written[end:]
    new = [_entry(key, changes[key], line_end) for key in changes if key not in there and changes[key] is not None]
    if new and not written.endswith(("\n", "\r")):
        written += line_end
    return mark + (written + "".join(line + line_end for line in new)).encode("utf-8")


def _line_end(text: str, start: int) -> int:
    """Past the end of the line that `start` is in."""
    found = re.compile(r"\r\n|\n|\r").search(text, start)
    return found.end() if found else len(text)


def _entry(key: str, value: Any, line_end: str) -> str:
    """One top-level key: texts and groups on its line, a list of sentences on lines of its own."""
    if isinstance(value, list) and any(isinstance(one, dict) or " " in str(one) for one in value):
        return line_end.join([f"{key}:", *(f"  - {_flow(one)}" for one in value)])
    return f"{key}: {_flow(value)}"


def _flow(value: Any) -> str:
    if isinstance(value, bool):
        return '"yes"' if value else '"no"'
    if isinstance(value, Mapping):
        return "{" + ", ".join(f"{_key(key)}: {_flow(one)}" for key, one in value.items()) + "}"
    if isinstance(value, (list, tuple)):
        return "[" + ", ".join(map(_flow, value)) + "]"
    return _quoted(str(value))


def _key(key: str) -> str:
    return key if re.fullmatch(r"[A-Za-z_][A-Za-z0-9_]*", key) else _quoted(key)


def _quoted(text: str) -> str:
    """Double-quoted YAML: JSON's escapes are YAML's, and what may not stand raw in a file is escaped."""
    return ESCAPED.sub(lambda found: f"\\u{ord(found[0]):04x}", json.dumps(text, ensure_ascii=False))


def _checked(fields: Mapping[str, Any], sheet: Sheet) -> dict[str, Any]:
    """The fields as texts, lists and mappings; every problem is found before anything is written."""
    reading = Reading("")
    try:
        tree = from_json(dict(fields))
    except NotStrict as broken:
        raise Invalid((broken.problem,)) from None
    reading.group(tree, sheet.fields)
    if reading.problems:
        raise Invalid(tuple(reading.problems))
    return plain(tree)


def _valid(content: bytes, path: str, sheet: Sheet) -> bytes:
    """The content, if it reads back without a problem. Raises Invalid."""
    values, _, problems = read_sheet(content, path, sheet)
    if values is None:
        raise Invalid(problems)
    return content


def same(stored: bytes, content: bytes, path: str, sheet: Sheet = LESSON) -> bool:
    """Whether two files of one sheet say the same, however they are written."""
    one, other = (read_sheet(text, path, sheet)[1] for text in (stored, content))
    named = {"id": Path(path).stem}  # a file may leave it to its name
    return one is not None and other is not None and plain(one) | named == plain(other) | named


def _hash(content: bytes) -> str:
    return hashlib.sha256(content).hexdigest()
