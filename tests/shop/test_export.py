"""All lessons given out and taken in again: the same lessons. The table is held against RFC 4180."""

import csv
import io
import json
import random
import re
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest

from hooks.shop.exporting import MARK, to_csv, to_handed
from hooks.shop.flat import flatten, gathered, leaf, paths
from hooks.shop.importing import carry_out, make_plan
from hooks.shop.read import Shop, read_lesson, read_shop
from hooks.shop.receive import TAKEN, receive_files
from hooks.shop.rows import Choices
from hooks.shop.spreadsheet import read_sheet
from hooks.shop.write import save_new, sheet_text
from tests.pages.random_lessons import random_lesson

ROOT = Path(__file__).parents[2]
DEMO = ROOT / "content" / "demo"
NOW = datetime(2026, 11, 30, tzinfo=UTC)
RANDOM = 200
ID = "20260101-000000-aaaaa"
# What is hard to put into a cell: formulas, quotes, what import reads as nothing, line ends, spaces at the ends.
HARD = (
    "=1+2", "+cmd|' /C calc'!A0", "-2+3", "@SUM(A1)", '"quoted"', '"', "-", "n/a", " ahead", "behind ", "two\nlines",
    "a,b;c\td", "-0.02", "-0,02", "[a](b)", '["x"]', "{}", "x = y", "'=1", "ünïcode 🔧", "\ttab", "\u00a0=1",
)  # fmt: skip


def empty_shop(folder: Path, settings: bytes = b'name: "x"\nmachines: []\n') -> Path:
    """A shop with no lesson."""
    (folder / "lessons").mkdir(parents=True)
    (folder / "shop.yaml").write_bytes(settings)
    return folder


@pytest.fixture(scope="module")
def demo() -> Shop:
    """The demo, read once."""
    return read_shop(DEMO)


def taken_in(data: bytes, shop: Path) -> dict[str, dict[str, Any]]:
    """What an exported table gives in an empty shop, as typed, by id."""
    plan = make_plan(shop, read_sheet(data), Choices(), NOW)
    assert plan.ready, [str(odd) for odd in plan.odd[:5]]
    carry_out(shop, plan)
    return typed(shop)


def typed(shop: Path | Shop) -> dict[str, dict[str, Any]]:
    """Every lesson as typed, by id."""
    read = shop if isinstance(shop, Shop) else read_shop(shop)
    return {one.id: {**one.typed, "id": one.id} for one in read.lessons}


def test_the_demo_comes_back_as_it_was(tmp_path: Path, demo: Shop) -> None:
    """Every lesson with its id and every answer, checks and repeats among them; no problem is new."""
    shop = empty_shop(tmp_path, (DEMO / "shop.yaml").read_bytes())
    assert taken_in(to_csv(demo.lessons), shop) == typed(demo)
    assert read_shop(shop).problems == demo.problems


def test_lessons_nobody_would_write_come_back_too(tmp_path: Path) -> None:
    """Two hundred with any fields left out, among them texts that are hard to put into a cell."""
    chance, shop = random.Random(20261126), empty_shop(tmp_path / "one")
    for n in range(RANDOM):
        fields = {key: _whole(value) for key, value in random_lesson(chance).items()}
        said, material, *why, first, second = (chance.choice(HARD) for _ in range(6))
        fields |= {"said": said, "material": material, "why": why, "changes": [{"what": first}, {"what": second}]}
        save_new(shop, f"20260101-{n // 60:02}{n % 60:02}00-aaaaa", fields)
    there = typed(shop)
    assert len(there) == RANDOM
    assert taken_in(to_csv(read_shop(shop).lessons), empty_shop(tmp_path / "two")) == there


def _whole(value: Any) -> Any:
    """Without groups in which nothing is said: a table cannot hold those."""
    return [one for one in value if one != {}] if isinstance(value, list) else value


@pytest.mark.parametrize("text", HARD)
def test_no_cell_is_a_formula_and_each_comes_back(text: str) -> None:
    """A cell that a spreadsheet would run stands in quotes of its own; a plain number does not need them."""
    lesson, problems = read_lesson(sheet_text({"kind": "crash", "said": text, "why": [text, "x"]}), f"{ID}.yaml")
    assert lesson and not problems
    sheet = read_sheet(to_csv([lesson]))
    cells = {column.heading: sheet.rows[0].cell(column.at) for column in sheet.columns}
    number = re.compile(r"-\d+[.,]\d+(\nx)?")
    for cell in (cells["said"], cells["why"]):
        assert cell[0] not in "=+@\t\r" and (cell[0] != "-" or number.fullmatch(cell))


def test_the_table_is_after_rfc_4180(demo: Shop) -> None:
    """CRLF ends every record, all have as many fields, quotes are doubled and stand around what needs them."""
    data = to_csv(demo.lessons)
    text = data.decode("utf-8")
    assert text.startswith(MARK) and text.endswith("\r\n")
    field = r'(?:"(?:[^"]|"")*"|[^",\r\n]*)'
    records = re.findall(rf"{field}(?:,{field})*\r\n", text.removeprefix(MARK))
    assert "".join(records) == text.removeprefix(MARK)
    rows = list(csv.reader(io.StringIO(text.removeprefix(MARK), newline=""), strict=True))
    assert len(records) == len(rows) == len(demo.lessons) + 1
    assert {len(row) for row in rows} == {len(rows[0])} and all(leaf(name) for name in rows[0])


def test_the_same_lessons_give_the_same_bytes(demo: Shop) -> None:
    """Whatever order they are read in."""
    lessons = demo.lessons
    assert to_csv(lessons) == to_csv(tuple(reversed(lessons)))
    assert to_csv(()) == f"{MARK}id,when,kind,said\r\n".encode()


def test_the_json_is_taken_by_receive(tmp_path: Path, demo: Shop) -> None:
    """It is a hand-over of every lesson, and gives the same lessons again."""
    file = tmp_path / "all.json"
    file.write_text(json.dumps(to_handed(demo.lessons)), encoding="utf-8")
    shop = empty_shop(tmp_path / "shop", (DEMO / "shop.yaml").read_bytes())
    assert all(line.became == TAKEN for line in receive_files(shop, [file]))
    assert typed(shop) == typed(demo)


def test_every_column_leads_to_its_field_and_no_other_does() -> None:
    """Paths of the declaration, groups of lists by number from 1."""
    for path, field in paths():
        assert leaf(path) is field, path
    assert leaf("changes.999.what") and leaf("changes.12.done_on")
    wrong = ["", "cutter", "changes", "changes.what", "changes.0.what", "changes.01.what", "changes.1000.what"]
    wrong += ["changes.1", "cutter.1.teeth", "why.1", "cutter.nothing", "1.what", "check.inputs.x", "said.1"]
    assert [path for path in wrong if leaf(path)] == []


def test_numbers_of_groups_leave_no_gap() -> None:
    """The second and the tenth change are the first and the second of two."""
    fields = {"changes": [{"what": "a"}, {"what": "b"}]}
    assert gathered({"changes.10.what": "b", "changes.2.what": "a"}) == fields
    assert gathered(flatten(fields)) == fields
