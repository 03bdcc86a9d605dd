"""From nodes to values: every text is typed by its field's declaration, and every fault becomes a problem."""

import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from datetime import date, datetime
from typing import Any

from calc.quantity import Refused, plainly
from calc.typed import read as read_quantity
from hooks.shop.fields import Field
from hooks.shop.nodes import Group, Items, Node, Text
from hooks.shop.problems import Problem, nearest, quoted
from hooks.shop.vocabulary import VOCABULARIES

CONTROL = re.compile("[\x00-\x08\x0b-\x1f\x7f-\x84\x86-\x9f\ud800-\udfff]")
WHAT = {Text: "a text", Items: "a list", Group: "a group of keys"}


@dataclass
class Reading:
    """The values of one file being read, and the problems met on the way."""

    path: str
    problems: list[Problem] = field(default_factory=list)

    def wrong(self, node: Node, text: str, told: str = "") -> None:
        """Note a problem at a node, and how a form tells it where that is another way."""
        self.problems.append(Problem(self.path, node.line, node.column, text, node.field, told))

    def _unlike(self, node: Text, wanted: Field, expected: str, hint: str = "", told: str = "") -> None:
        found = f"found {quoted(node.value)}{hint}"
        said = f"{_called(wanted)}: {told or f'expected {expected}'}, {found}."
        self.wrong(node, f'"{wanted.key}" (expected {expected}, {found})', said)

    def group(self, node: Node, fields: Iterable[Field]) -> dict[str, Any]:
        """The typed values of a group's keys; unknown and missing keys are problems."""
        declared = {one.key: one for one in fields}
        if not isinstance(node, Group):
            self.wrong(node, _expected(Group, node))
            return {}
        for key in node.entries.keys() - declared.keys():
            self.wrong(node.keys[key], f"unknown key {quoted(key)}{nearest(key, declared)}")
        for one in declared.values():
            if one.required and one.key not in node.entries:
                missing = Text(node.line, node.column, field=_under(node.field, one.key))
                self.wrong(missing, f'"{one.key}" is missing ({_called(one)})', f"{_called(one)} is missing.")
        values = {key: self.value(inner, declared[key]) for key, inner in node.entries.items() if key in declared}
        return {key: value for key, value in values.items() if value is not None}

    def value(self, node: Node, wanted: Field) -> Any:
        """The typed value of a node; None with a problem noted where it has none."""
        if wanted.type == "list":
            return self._list(node, wanted)
        if wanted.type == "group":
            return self.group(node, wanted.parts)
        if wanted.type == "map":
            return self._map(node)
        if not isinstance(node, Text):
            return self.wrong(node, _expected(Text, node))
        if not node.value.strip():
            text = f'"{wanted.key}" is empty; take the key away or say it'
            return self.wrong(node, text, f"{_called(wanted)} is empty.")
        if CONTROL.search(node.value):
            told = f"{_called(wanted)} holds a control character."
            return self.wrong(node, f'"{wanted.key}" holds a control character', told)
        return SCALARS[wanted.type](self, node, wanted)

    def _list(self, node: Node, wanted: Field) -> tuple[Any, ...] | None:
        if not isinstance(node, Items):
            return self.wrong(node, _expected(Items, node))
        assert wanted.item is not None
        values = (self.value(one, wanted.item) for one in node.items)
        return tuple(value for value in values if value is not None)

    def _map(self, node: Node) -> dict[str, str] | None:
        if not isinstance(node, Group):
            return self.wrong(node, _expected(Group, node))
        for key, inner in node.entries.items():
            if not isinstance(inner, Text):
                self.wrong(inner, _expected(Text, inner))
            elif CONTROL.search(key + inner.value):
                self.wrong(inner, "holds a control character")
        return {key: one.value for key, one in node.entries.items() if isinstance(one, Text)}

    def _text(self, node: Text, wanted: Field) -> str | None:
        if wanted.longest and len(node.value) > wanted.longest:
            text = f"too long (expected at most {wanted.longest} characters, found {len(node.value)})"
            return self.wrong(node, text, f"{_called(wanted)}: {text}.")
        return node.value

    def _one_of(self, node: Text, wanted: Field) -> str | None:
        keys = [word.key for word in VOCABULARIES[wanted.of].words]
        if node.value in keys:
            return node.value
        expected = "one of " + ", ".join(keys if len(keys) <= 8 else [*keys[:7], "..."])
        return self._unlike(node, wanted, expected, nearest(node.value, keys), "expected one of its words")

    def _yes_no(self, node: Text, wanted: Field) -> bool | None:
        if node.value not in ("yes", "no"):
            return self._unlike(node, wanted, '"yes" or "no"')
        return node.value == "yes"

    def _datetime(self, node: Text, wanted: Field) -> datetime | None:
        try:
            found = datetime.fromisoformat(node.value)
        except ValueError:
            found = None
        if found is None or found.tzinfo is None:
            return self._unlike(node, wanted, 'a time with its offset such as "2026-03-11T15:02:12+00:00"')
        return found

    def _date(self, node: Text, wanted: Field) -> date | None:
        try:
            return date.fromisoformat(node.value)
        except ValueError:
            return self._unlike(node, wanted, 'a day such as "2026-03-20"')

    def _quantity(self, node: Text, wanted: Field) -> Any:
        assert wanted.quantity is not None
        try:
            return read_quantity(node.value, wanted.quantity)
        except Refused as refusal:
            return self.wrong(node, refusal.message, plainly(refusal.message, [wanted.quantity]))


def plain(value: Node) -> Any:
    """A tree as texts, lists and mappings, as typed."""
    if isinstance(value, Items):
        return [plain(one) for one in value.items]
    if isinstance(value, Group):
        return {key: plain(one) for key, one in value.entries.items()}
    assert isinstance(value, Text)
    return value.value


def at(node: Node, where: Iterable[str]) -> Node:
    """The node below `node` on a dotted path, or the nearest there is."""
    for key in where:
        entries: Mapping[str, Node] = node.entries if isinstance(node, Group) else {}
        if isinstance(node, Items) and key.isdigit() and int(key) < len(node.items):
            entries = {key: node.items[int(key)]}
        if key not in entries:
            return node
        node = entries[key]
    return node


def _called(wanted: Field) -> str:
    """What a form calls a field."""
    return wanted.label.rstrip("?")


def _expected(wanted: type, node: Node) -> str:
    return f"expected {WHAT[wanted]}, found {WHAT[type(node)]}"


def _under(where: str, key: str) -> str:
    return f"{where}.{key}" if where else key


SCALARS: Mapping[str, Callable[[Reading, Text, Field], Any]] = {
    "text": Reading._text,
    "ref": Reading._text,
    "one_of": Reading._one_of,
    "yes_no": Reading._yes_no,
    "datetime": Reading._datetime,
    "date": Reading._date,
    "number": Reading._quantity,
    "quantity": Reading._quantity,
}
