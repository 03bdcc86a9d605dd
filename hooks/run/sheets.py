"""What `run.py import` prints: where each column goes, the first lessons, every odd cell, and what is done."""

import argparse
from collections.abc import Iterator
from datetime import datetime
from pathlib import Path
from typing import Any

from hooks.shop.importing import Plan, carry_out, make_plan, mapped
from hooks.shop.preview import told
from hooks.shop.rows import Choices
from hooks.shop.spreadsheet import read_file, read_sheet

WIDE = 28  # characters of a heading or an example that are shown


def take_in(args: argparse.Namespace, shop: Path) -> int:
    """Preview, and with `--yes` import; 1 where odd cells stop it. Raises NotASheet, NotMapped."""
    sheet = read_sheet(read_file(Path(args.file)))
    choices = Choices(
        columns=mapped(sheet, args.map),
        kind=args.kind,
        dates=args.dates,
        decimals=args.decimals,
        means=dict(args.means),
        without_odd=args.without_odd,
    )
    plan = make_plan(shop, sheet, choices, datetime.now().astimezone())
    for line in _preview(told(plan), plan):
        print(line)
    return _done(plan, shop, args.yes)


def _done(plan: Plan, shop: Path, yes: bool) -> int:
    if not plan.ready:
        print("Nothing is imported until that is put right.")
        return 1
    if not yes:
        print(f"Nothing is written yet. --yes imports {_count(len(plan.new), 'lesson')} into {shop}.")
        return 0
    try:
        added = carry_out(shop, plan)
    except OSError as error:
        print(f"Nothing is imported: the lessons could not be stored ({error.strerror}).")
        return 1
    print(f"{_count(len(added), 'lesson')} imported into {shop}.")
    return 0


def _preview(said: dict[str, Any], plan: Plan) -> Iterator[str]:
    yield f"{_count(said['rows'], 'row')}, parted by {said['parted']}, read as {said['letters']}"
    yield ""
    for one in said["columns"]:
        goes = (
            f"{one['label']} ({one['field']})" if one["field"] else f"nowhere, {_count(one['filled'], 'cell')} left out"
        )
        yield f"  {one['letter']:>2}  {_short(one['heading']):{WIDE}}  {_short(one['example']):{WIDE}}  -> {goes}"
    for one in said["first"]:
        yield f"\nRow {one['row']} as a lesson:"
        yield from (f"  {label}: {value}" for label, value in one["facts"])
    if said["read_as"]:
        yield "\nWords read as others:"
    yield from (f"  {one['field']}: {one['word']} -> {one['means']} ({one['count']})" for one in said["read_as"])
    yield ""
    yield from (f"Row {one['row']} is row {one['of']} again, word for word: taken once" for one in said["twice"])
    yield from (f"{one[0].upper()}{one[1:]}." for one in said["wrong"])
    yield from _odd(plan)
    yield f"{_count(said['new'], 'new lesson')}, {said['there']} there already"
    if said["changed"]:
        rows = ", ".join(map(str, said["changed"]))
        yield f"There already, and changed since or in other words: left as they are (rows {rows})"


def _goes(column: dict[str, Any]) -> str:
    if not column["field"]:
        return f"nowhere, {_count(column['filled'], 'cell')} left out"
    unit = f", bare numbers in {column['unit']}" if column["unit"] else ""
    return f"{column['label']} ({column['field']}){unit}"


def _odd(plan: Plan) -> Iterator[str]:
    if not plan.odd:
        return
    yield f"{_count(len(plan.odd), 'odd cell')}:"
    yield from (f"  {odd}" for odd in plan.odd)
    texts = [str(odd) for odd in plan.odd]
    yield "Put them right in the sheet. Or:"
    if any(odd.word for odd in plan.odd):
        word = next(odd.word for odd in plan.odd if odd.word)
        yield f'  --means "{word}=KEY" says what a word stands for, --means "{word}=" leaves it out'
    if any("in which order" in text for text in texts):
        yield "  --dates dmy (or mdy, ymd) says in which order dates are written"
    if any("in two ways" in text for text in texts):
        yield "  --decimals comma (or point) says how numbers are written"
    if any(not odd.stops for odd in plan.odd):
        left = sum(not odd.stops for odd in plan.odd)
        yield f"  --without-odd leaves out {_count(left, 'odd cell')} that a lesson can do without"
    yield ""


def _short(text: str) -> str:
    line = " ".join(text.split())
    return line if len(line) <= WIDE else line[: WIDE - 1] + "…"


def _count(number: int, what: str) -> str:
    return f"{number} {what}" if number == 1 else f"{number} {what}s"
