"""Strict YAML: text to a tree of texts, lists and groups, each with its place; nothing is typed here.

Anchors, aliases, tags, directives, duplicate keys and second documents are problems, and depth, nodes
and size are bounded before anything is built. `from_json` makes the same tree from JSON.
"""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

import yaml

from hooks.shop.problems import Problem, quoted

LARGEST = 100_000  # bytes
DEEPEST = 8
MOST_NODES = 2_000
FASTEST = getattr(yaml, "CSafeLoader", yaml.SafeLoader)  # the C one where PyYAML was built with it
NOT_PRINTABLE = re.compile(r"[^\t\n\r\x20-\x7e\x85\xa0-\ud7ff\ue000-\ufefe\uff00-\ufffd\U00010000-\U0010ffff]")


@dataclass(frozen=True)
class Node:
    """A place in a file: line and column count from 1, `start` and `end` are characters from 0."""

    line: int = 1
    column: int = 1
    start: int = 0
    end: int = 0
    field: str = ""


@dataclass(frozen=True)
class Text(Node):
    """A scalar, whatever it looks like."""

    value: str = ""


@dataclass(frozen=True)
class Items(Node):
    """A list."""

    items: tuple[Node, ...] = ()


@dataclass(frozen=True)
class Group(Node):
    """Keys and values, in the order written; `keys` holds the places of the keys."""

    entries: Mapping[str, Node] = field(default_factory=dict)
    keys: Mapping[str, Text] = field(default_factory=dict)
    flow: bool = False


class NotStrict(ValueError):
    """The file breaks a rule of form; carries the problem."""

    def __init__(self, problem: Problem) -> None:
        super().__init__(str(problem))
        self.problem = problem


def parse(text: bytes, path: str, loader: Any = FASTEST) -> Group:
    """The tree of a file that holds one group. Raises NotStrict with the first break of the rules."""
    tree = _Tree(decode(text, path), path, loader)
    return tree.read()


def decode(text: bytes, path: str) -> str:
    """The file's text without a byte-order mark. Raises NotStrict."""
    if len(text) > LARGEST:
        raise _broken(path, 1, 1, f"the file is too large (expected at most {LARGEST} bytes, found {len(text)})")
    try:
        plain = text.decode("utf-8")
    except UnicodeDecodeError as error:
        before = text[: error.start].decode("utf-8", "replace")
        line, column = _place(before)
        raise _broken(path, line, column, "not UTF-8 text; save the file as UTF-8") from None
    plain = plain.removeprefix("\ufeff")
    odd = NOT_PRINTABLE.search(plain)
    if odd:
        line, column = _place(plain[: odd.start()])
        raise _broken(path, line, column, f"a character that may not stand in a file (U+{ord(odd[0]):04X})")
    return plain


def from_json(value: Any, where: str = "", depth: int = 0) -> Node:
    """The same tree from JSON texts, lists and objects; true and false become yes and no."""
    if depth > DEEPEST:
        raise NotStrict(Problem("", 1, 1, f"nested too deep (expected at most {DEEPEST} levels)", where))
    if isinstance(value, bool):
        return Text(field=where, value="yes" if value else "no")
    if isinstance(value, str):
        return Text(field=where, value=value)
    if isinstance(value, list):
        return Items(
            field=where, items=tuple(from_json(one, _under(where, n), depth + 1) for n, one in enumerate(value))
        )
    if isinstance(value, dict):
        entries = {str(key): from_json(one, _under(where, key), depth + 1) for key, one in value.items()}
        return Group(field=where, entries=entries, keys={key: Text(field=_under(where, key)) for key in entries})
    raise NotStrict(Problem("", 1, 1, "expected a text, a list or a group", where))


def _under(where: str, key: object) -> str:
    return f"{where}.{key}" if where else str(key)


def _place(before: str) -> tuple[int, int]:
    lines = re.split(r"\r\n|[\n\r\x85\u2028\u2029]", before)
    return len(lines), len(lines[-1]) + 1


def _broken(path: str, line: int, column: int, text: str, where: str = "") -> NotStrict:
    return NotStrict(Problem(path, line, column, text, where))


class _Tree:
    """Reads the events of one file into nodes, holding the rules on the way."""

    def __init__(self, text: str, path: str, loader: Any) -> None:
        self._path, self._count = path, 0
        self._events: Iterator[Any] = yaml.parse(text, Loader=loader)

    def read(self) -> Group:
        """The one group of the file."""
        try:
            return self._document()
        except yaml.MarkedYAMLError as error:
            mark = error.problem_mark or error.context_mark
            line, column = (mark.line + 1, mark.column + 1) if mark else (1, 1)
            begun = error.context_mark.line + 1 if error.context_mark else line
            since = f" (it began in line {begun})" if begun < line else ""
            raise _broken(self._path, line, column, f"not YAML that can be read: {error.problem}{since}") from None
        except yaml.YAMLError as error:
            raise _broken(self._path, 1, 1, f"not YAML that can be read: {error}") from None

    def _document(self) -> Group:
        next(self._events)  # the stream's start
        start = next(self._events)
        if isinstance(start, yaml.StreamEndEvent):
            raise _broken(self._path, 1, 1, "the file is empty (expected keys at the start of lines)")
        if start.version or start.tags:
            raise self._at(start, "directives are not used here; take the line away")
        event = next(self._events)
        if not isinstance(event, yaml.MappingStartEvent) or event.flow_style:
            raise self._at(event, "expected keys at the start of lines, each with a colon")
        found = self._node(event, 1, "")
        next(self._events)
        after = next(self._events)
        if not isinstance(after, yaml.StreamEndEvent):
            raise self._at(after, "a second document begins here (expected one a file)")
        assert isinstance(found, Group)
        return found

    def _node(self, event: Any, depth: int, where: str) -> Node:
        self._count += 1
        if isinstance(event, yaml.AliasEvent) or getattr(event, "anchor", None):
            raise self._at(event, "anchors and aliases (& and *) are not used here; write the text out", where)
        if getattr(event, "tag", None):
            raise self._at(event, f"tags are not used here (found {event.tag}); put the text in quotes", where)
        if depth > DEEPEST:
            raise self._at(event, f"nested too deep (expected at most {DEEPEST} levels)", where)
        if self._count > MOST_NODES:
            raise self._at(event, f"too many entries (expected at most {MOST_NODES})", where)
        if isinstance(event, yaml.ScalarEvent):
            return Text(*_marks(event), where, event.value)
        if isinstance(event, yaml.SequenceStartEvent):
            return self._items(event, depth, where)
        return self._group(event, depth, where)

    def _items(self, start: Any, depth: int, where: str) -> Items:
        items: list[Node] = []
        while not isinstance(event := next(self._events), yaml.SequenceEndEvent):
            items.append(self._node(event, depth + 1, _under(where, len(items))))
        line, column, begin, _ = _marks(start)
        return Items(line, column, begin, _end(start, event, items), where, tuple(items))

    def _group(self, start: Any, depth: int, where: str) -> Group:
        entries: dict[str, Node] = {}
        keys: dict[str, Text] = {}
        while not isinstance(event := next(self._events), yaml.MappingEndEvent):
            if not isinstance(event, yaml.ScalarEvent):
                raise self._at(event, "a key must be plain text", where)
            key = self._node(event, depth + 1, _under(where, event.value))
            if event.value in entries:
                raise self._at(event, f"the key {quoted(event.value)} stands twice", key.field)
            keys[event.value] = key  # type: ignore[assignment]
            entries[event.value] = self._node(next(self._events), depth + 1, key.field)
        line, column, begin, _ = _marks(start)
        end = _end(start, event, list(entries.values()))
        return Group(line, column, begin, end, where, entries, keys, bool(start.flow_style))

    def _at(self, event: Any, text: str, where: str = "") -> NotStrict:
        line, column, _, _ = _marks(event)
        return _broken(self._path, line, column, text, where)


def _marks(event: Any) -> tuple[int, int, int, int]:
    start, end = event.start_mark, event.end_mark
    return start.line + 1, start.column + 1, start.index, end.index


def _end(start: Any, event: Any, inside: list[Node]) -> int:
    """Where a collection ends: its bracket, or its last entry where it has none."""
    if start.flow_style or not inside:
        return int(event.end_mark.index)
    return inside[-1].end
