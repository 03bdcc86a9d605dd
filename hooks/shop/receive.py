"""Takes in the lessons that a page without a server handed over as JSON files.

A file holds one object or a list of them: {"twice_shy": 1, "kind": "lesson", "id", "fields"} or
{"twice_shy": 1, "kind": "edit", "id", "base", "changes"}. Taking the same file twice changes nothing,
nothing on disk is overwritten by a lesson that differs, and one that cannot be taken hides no other.
"""

import json
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from hooks.shop import write
from hooks.shop.ids import is_id, lesson_path

VERSION = 1
LONGEST = 20_000_000  # bytes; a file of a thousand lessons is far shorter


@dataclass(frozen=True)
class Line:
    """What became of one lesson, or of a file that could not be read."""

    text: str
    taken: bool


class NotTaken(ValueError):
    """Why a file or one lesson in it cannot be taken, in one line."""


def receive_files(root: Path, files: Iterable[Path]) -> list[Line]:
    """Take every lesson in `files` into the shop at `root`; one line for each."""
    return [line for path in files for line in _receive_file(root, path)]


def _receive_file(root: Path, path: Path) -> Iterator[Line]:
    try:
        handed = _read(path)
    except NotTaken as reason:
        yield Line(f"{path}: {reason}", taken=False)
        return
    for number, one in enumerate(handed, start=1):
        try:
            yield Line(f"{path}: {_take(root, one)}", taken=True)
        except NotTaken as reason:
            yield Line(f"{path}: number {number}: {reason}", taken=False)


def _read(path: Path) -> list[Any]:
    try:
        if path.stat().st_size > LONGEST:
            raise NotTaken("longer than any hand-over file")
        found = json.loads(path.read_bytes().decode("utf-8-sig"))
    except OSError as error:
        raise NotTaken(f"cannot be read ({error.strerror})") from None
    except (ValueError, RecursionError) as error:
        if isinstance(error, NotTaken):
            raise
        raise NotTaken("is not a hand-over file (not JSON)") from None
    return found if isinstance(found, list) else [found]


def _take(root: Path, handed: Any) -> str:
    """Store one hand-over object; what happened, as a line."""
    if not isinstance(handed, dict) or handed.get("twice_shy") != VERSION:
        raise NotTaken('not a lesson of ours (expected "twice_shy": 1)')
    store = {"lesson": _take_lesson, "edit": _take_edit}.get(str(handed.get("kind")))
    if store is None:
        raise NotTaken('"kind" is neither "lesson" nor "edit"')
    id_ = handed.get("id")
    if not is_id(id_):
        raise NotTaken('"id" is no lesson\'s id')
    try:
        return store(root, id_, handed)
    except write.Conflict:
        raise NotTaken(f"{id_}: the lesson on disk is another; nothing was changed") from None
    except write.NotFound:
        raise NotTaken(f"{id_}: there is no such lesson to edit") from None
    except write.Invalid as invalid:
        raise NotTaken(f"{id_}: {_first_problems(invalid)}") from None


def _take_lesson(root: Path, id_: str, handed: dict[str, Any]) -> str:
    saved = write.save_new(root, id_, _group(handed, "fields"))
    return f"{saved.id}: {'taken' if saved.created else 'was here already'} ({saved.path})"


def _take_edit(root: Path, id_: str, handed: dict[str, Any]) -> str:
    changes, base = _group(handed, "changes"), _text(handed.get("base"), "base")
    try:
        saved = write.save_edit(root, id_, base, changes)
    except write.Conflict:
        if not _edited_already(root, id_, changes):
            raise
        return f"{id_}: the edit was here already ({lesson_path(id_)})"
    return f"{saved.id}: edit taken ({saved.path})"


def _edited_already(root: Path, id_: str, changes: dict[str, Any]) -> bool:
    """Whether the lesson on disk says what the edit would make it say."""
    text = (root / lesson_path(id_)).read_bytes()
    return write.edited(text, changes) == text


def _group(handed: dict[str, Any], key: str) -> dict[str, Any]:
    if not isinstance(handed.get(key), dict):
        raise NotTaken(f'"{key}" is missing')
    return handed[key]


def _text(value: Any, key: str) -> str:
    if not isinstance(value, str):
        raise NotTaken(f'"{key}" is missing')
    return value


def _first_problems(invalid: write.Invalid) -> str:
    return "; ".join(f"{problem.field}: {problem.text}" for problem in invalid.problems[:3])
