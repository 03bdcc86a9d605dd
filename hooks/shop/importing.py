"""A foreign spreadsheet as new lessons: first a plan that writes nothing, then all of it or none.

Every cell that cannot go where its column goes is told; a lesson that is there already is left as it is.
"""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from hooks.shop import near, write
from hooks.shop.cells import Manner
from hooks.shop.flat import leaf
from hooks.shop.headings import suggested
from hooks.shop.problems import nearest, quoted
from hooks.shop.read import read_settings
from hooks.shop.rows import KINDS, Choices, Event, Events, Odd, Rows
from hooks.shop.spreadsheet import Column, Sheet
from hooks.shop.vocabulary import VOCABULARIES


@dataclass(frozen=True)
class Plan:
    """What an import would do.

    `wrong` stops it as a whole; `twice` are rows that say what an earlier one says, word for word; `read_as`
    counts (field, word, key) of words read as another; `machines` are the shop's, key to name.
    """

    sheet: Sheet
    columns: Mapping[int, str]
    events: tuple[Event, ...]
    odd: tuple[Odd, ...]
    twice: tuple[tuple[int, int], ...]
    wrong: tuple[str, ...]
    read_as: Mapping[tuple[str, str, str], int]
    machines: Mapping[str, str]
    without_odd: bool

    @property
    def new(self) -> tuple[Event, ...]:
        """The lessons that would be written."""
        return tuple(event for event in self.events if not event.there)

    @property
    def ready(self) -> bool:
        """Whether it may be carried out."""
        return not self.wrong and not any(odd.stops or not self.without_odd for odd in self.odd)


class NotMapped(ValueError):
    """A column or a field that was named and is not there."""


def mapped(sheet: Sheet, pairs: Iterable[tuple[str, str]]) -> dict[int, str]:
    """The suggestions with (column, field) pairs put over them; no field leaves a column out. Raises NotMapped."""
    said = {_named(sheet, name).at: path for name, path in pairs}
    rest = {at: path for at, path in suggested(sheet.columns).items() if at not in said and path not in said.values()}
    for path in said.values():
        if path and leaf(path) is None:
            raise NotMapped(f"there is no field {quoted(path)}")
    return {at: path for at, path in sorted({**rest, **said}.items()) if path}


def make_plan(root: Path, sheet: Sheet, choices: Choices, now: datetime) -> Plan:
    """What importing the sheet into the shop at `root` would do. Nothing is written."""
    columns = dict(suggested(sheet.columns) if choices.columns is None else choices.columns)
    machines = read_settings(root)[0].get("machines", ())
    named = [(one[part], one["key"]) for one in machines if "key" in one for part in ("name", "key") if part in one]
    names = {near.folded(name): key for name, key in named}
    means = {near.folded(word): key.strip() for word, key in choices.means.items()}
    reader = Rows(sheet, columns, choices, Manner(choices.dates, choices.decimals, means, names, now))
    rows = reader.read()
    events = Events(root, reader, now).made(rows)
    return Plan(
        sheet=sheet,
        columns=columns,
        events=tuple(events),
        odd=tuple(sorted(reader.odd, key=lambda odd: (odd.row, odd.column.at))),
        twice=tuple(reader.twice),
        wrong=tuple(_wrong(columns, choices, names)),
        read_as=reader.read_as,
        machines={one["key"]: one.get("name", one["key"]) for one in machines if "key" in one},
        without_odd=choices.without_odd,
    )


def carry_out(root: Path, plan: Plan) -> list[str]:
    """Write every new lesson of a plan that is ready, or none; their ids. Raises OSError, ValueError."""
    if not plan.ready:
        raise ValueError("odd cells are left: nothing is imported")
    return write.save_all(root, {event.id: event.content for event in plan.new})


def _named(sheet: Sheet, name: str) -> Column:
    """The column of that heading, else of that letter."""
    said = " ".join(name.split()).casefold()
    for found in ([one for one in sheet.columns if one.heading.casefold() == said],
                  [one for one in sheet.columns if one.letter.casefold() == said]):  # fmt: skip
        if len(found) > 1:
            letters = " and ".join(one.letter for one in found)
            raise NotMapped(f"{quoted(name)} stands above columns {letters}: name it by its letter")
        if found:
            return found[0]
    raise NotMapped(f"there is no column {quoted(name)}{nearest(name, [one.heading for one in sheet.columns])}")


def _wrong(columns: Mapping[int, str], choices: Choices, machines: Mapping[str, str]) -> Iterator[str]:
    """What is wrong with the import as a whole."""
    for path, count in Counter(columns.values()).items():
        if leaf(path) is None:
            yield f"there is no field {quoted(path)}"
        if count > 1:
            yield f"{count} columns go to {path}: one of them must go elsewhere"
    if choices.kind and choices.kind not in KINDS:
        yield f"{quoted(choices.kind)} is no kind of mishap (expected one of {', '.join(KINDS)})"
    if "said" not in columns.values():
        yield "no column says what happened: it must go to said"
    if "kind" not in columns.values() and not choices.kind:
        yield f"no column says what kind of mishap it was: one must go to kind, or name one ({', '.join(KINDS)})"
    known = {word.key for one in VOCABULARIES.values() for word in one.words} | set(machines.values()) | {""}
    for word, key in choices.means.items():
        if key.strip() not in known:
            yield f"{quoted(word)} cannot mean {quoted(key)}: no list has such a word"
