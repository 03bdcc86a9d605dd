"""Takes in what a page without a server handed over as JSON files: lessons, jobs, edits of them and of the settings.

A file holds one object or a list of them:
{"twice_shy": 1, "kind": "lesson" or "job", "id", "fields"},
{"twice_shy": 1, "kind": "edit" (of a lesson) or "job-edit", "id", "base", "was", "changes"},
{"twice_shy": 1, "kind": "settings", "base", "was", "changes"}.
`was` holds the changed keys as the edit found them (files of old have none): where others changed other keys
meanwhile, both hold. Taking the same file twice changes nothing, nothing on disk is overwritten by what
differs, and one that cannot be taken hides no other.
"""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from hooks.shop import strict_json, write
from hooks.shop.ids import is_id
from hooks.shop.sheet import JOB, LESSON, Sheet

VERSION = 1
LONGEST = 20_000_000  # bytes; a file of a thousand lessons is far shorter
LONGEST_FIELD = 80  # characters told of a place that somebody else named
TAKEN, THERE, REFUSED = "taken", "here already", "not taken"
Handed = dict[str, Any]


@dataclass(frozen=True)
class Line:
    """What became of one thing handed over, or of a file that could not be read: TAKEN, THERE or REFUSED."""

    text: str
    became: str


class NotTaken(ValueError):
    """Why a file or one thing in it cannot be taken, in one line."""


def receive_files(root: Path, files: Iterable[Path]) -> list[Line]:
    """Take everything in `files` into the shop at `root`; one line for each, in the files' order.

    What is new goes first: a change may lie in an earlier file than what it changes.
    """
    pieces = [piece for path in files for piece in _pieces(path)]
    new_first = sorted(range(len(pieces)), key=lambda place: _is_change(pieces[place][1]))
    lines = {place: _received(root, *pieces[place]) for place in new_first}
    return [lines[place] for place in range(len(pieces))]


def counted(lines: Iterable[Line]) -> str:
    """How many became what, as in "2 taken, 1 here already"."""
    became = [line.became for line in lines]
    counts = ((became.count(one), one) for one in (TAKEN, THERE, REFUSED))
    return ", ".join(f"{count} {one}" for count, one in counts if count) or "nothing was in it"


def _pieces(path: Path) -> Iterator[tuple[str, Any]]:
    """Where each thing stands, and the thing; or the file, and why it cannot be read."""
    try:
        handed = _read(path)
    except NotTaken as reason:
        yield str(path), reason
        return
    for number, one in enumerate(handed, start=1):
        yield (f"{path}: number {number}" if len(handed) > 1 else str(path)), one


def _is_change(handed: Any) -> bool:
    return isinstance(handed, dict) and "changes" in handed


def _received(root: Path, where: str, handed: Any) -> Line:
    try:
        if isinstance(handed, NotTaken):
            raise handed
        name, saved = _take(root, handed)
    except NotTaken as reason:
        return _line(f"{where}: {reason}", REFUSED)
    became = TAKEN if saved.written else THERE
    return _line(f"{where}: {name}: {became} ({saved.path})", became)


def _read(path: Path) -> list[Any]:
    try:
        if path.stat().st_size > LONGEST:
            raise NotTaken("longer than any hand-over file")
        content = path.read_bytes()
    except OSError as error:
        raise NotTaken(f"cannot be read ({error.strerror})") from None
    try:
        found = strict_json.loads(content.removeprefix(b"\xef\xbb\xbf"))
    except ValueError as error:
        raise NotTaken(f"is not a hand-over file (not JSON as expected: {error})") from None
    return found if isinstance(found, list) else [found]


def _take(root: Path, handed: Any) -> tuple[str, write.Saved]:
    """Store one thing that was handed over; what it is called, and what was stored."""
    if not isinstance(handed, dict) or handed.get("twice_shy") != VERSION:
        raise NotTaken('nothing of ours (expected "twice_shy": 1)')
    kind = KINDS.get(str(handed.get("kind")))
    if kind is None:
        raise NotTaken(f'"kind" is none of {", ".join(KINDS)}')
    name = kind.name(handed)
    try:
        return name, kind.store(root, handed)
    except write.Conflict as conflict:
        raise NotTaken(f"{name}: {_both(conflict)}; nothing was changed") from None
    except write.NotFound:
        raise NotTaken(f"{name}: there is none here to change") from None
    except write.Invalid as invalid:
        raise NotTaken(f"{name}: {_first_problems(invalid)}") from None
    except OSError as error:
        raise NotTaken(f"{name}: cannot be stored ({error.strerror})") from None


@dataclass(frozen=True)
class _Kind:
    """One kind of thing handed over: how it is called in a line, and what stores it."""

    name: Callable[[Handed], str]
    store: Callable[[Path, Handed], write.Saved]


def _new(sheet: Sheet) -> _Kind:
    def store(root: Path, handed: Handed) -> write.Saved:
        fields = _group(handed, "fields")
        if fields.get("id", handed["id"]) != handed["id"]:
            raise NotTaken('"id" stands there twice, each time another')
        return write.save_new(root, handed["id"], fields, sheet)

    return _Kind(lambda handed: f"{sheet.name} {_id(handed, sheet)}", store)


def _edit(sheet: Sheet) -> _Kind:
    def store(root: Path, handed: Handed) -> write.Saved:
        base, changes, was = _change(handed)
        return write.save_edit(root, handed["id"], base, changes, sheet, was)

    return _Kind(lambda handed: f"changes to {sheet.name} {_id(handed, sheet)}", store)


def _take_settings(root: Path, handed: Handed) -> write.Saved:
    return write.save_settings(root, *_change(handed))


KINDS = {
    "lesson": _new(LESSON),
    "edit": _edit(LESSON),
    "job": _new(JOB),
    "job-edit": _edit(JOB),
    "settings": _Kind(lambda _handed: "changes to the shop's settings", _take_settings),
}


def _id(handed: Handed, sheet: Sheet) -> str:
    """The id, which a file is named by: nothing else may pass for one."""
    if not is_id(handed.get("id")):
        raise NotTaken(f'"id" is no {sheet.name}\'s id')
    return str(handed["id"])


def _change(handed: Handed) -> tuple[str, Handed, Handed]:
    """The base's hash, the changes, and the same keys as the edit found them; nothing known of those where not said."""
    if not isinstance(handed.get("base"), str):
        raise NotTaken('"base" is missing')
    return handed["base"], _group(handed, "changes"), _group({"was": {}, **handed}, "was")


def _group(handed: Handed, key: str) -> Handed:
    if not isinstance(handed.get(key), dict):
        raise NotTaken(f'"{key}" is missing, or is no group of answers')
    return handed[key]


def _both(conflict: write.Conflict) -> str:
    if not conflict.keys:
        return "another of that id is here"
    return f"changed here too, to something else: {', '.join(conflict.keys)}"


def _first_problems(invalid: write.Invalid) -> str:
    return "; ".join(_told(problem.field, problem.text) for problem in invalid.problems[:3])


def _told(field: str, text: str) -> str:
    short = field if len(field) <= LONGEST_FIELD else f"{field[:LONGEST_FIELD]}…"
    return f"{short}: {text}" if field else text


def _line(text: str, became: str) -> Line:
    """One line and no more, whatever stands in a file or in its name: a terminal would obey some characters."""
    return Line("".join(char if char.isprintable() else "?" for char in text), became)
