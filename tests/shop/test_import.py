"""Past events from a foreign spreadsheet: 120 of them end to end, all or none, never twice. The rules are our own.

tests/shop/events.csv is invented: semicolons, Latin-1, decimal commas, other words, and some odd cells.
"""

import os
import subprocess
import sys
from collections.abc import Mapping
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest

from hooks.shop.importing import NotMapped, Plan, carry_out, make_plan, mapped
from hooks.shop.preview import choosable, told
from hooks.shop.read import read_shop
from hooks.shop.rows import Choices
from hooks.shop.spreadsheet import read_sheet

ROOT = Path(__file__).parents[2]
EVENTS = Path(__file__).with_name("events.csv").read_bytes()
NOW = datetime(2026, 11, 25, 12, tzinfo=UTC)
SHOP_YAML = 'name: "x"\nmachines: [{key: "big", name: "Big mill"}, {key: "small", name: "The small one"}]\n'
NOTHING_SAID = Choices()
MAP = [("Where", "machine"), ("step", "operation")]
SAID = Choices(dates="dmy", means={"Misc.": "worked_well", "small mill": "small", "lathe": ""})
# Cells that a person puts right in the sheet, since no lesson can do without its day.
MENDED = {b"mid March": b"12.03.2024", b"31.02.2024": b"29.02.2024"}
ODD = [
    (19, "B", "14 August 2023 or 23 August 2014"), (32, "B", "mid March"), (43, "B", "no day that exists"),
    (55, "B", "3 April 2024 or 4 March 2024"), (64, "D", "Misc."), (70, "D", "Misc."), (75, "H", "M8"),
    (84, "N", "about 1"), (89, "G", "the blue one"), (99, "I", "-3"), (101, "R", "soon"),
]  # fmt: skip


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    """A shop with two machines and no lesson."""
    (tmp_path / "shop.yaml").write_text(SHOP_YAML, encoding="utf-8")
    return tmp_path


def plan(shop: Path, data: bytes, choices: Choices = NOTHING_SAID, pairs: Any = (), now: datetime = NOW) -> Plan:
    """The plan for a file's bytes."""
    sheet = read_sheet(data)
    return make_plan(shop, sheet, replace(choices, columns=mapped(sheet, pairs)), now)


def mended() -> bytes:
    """The events with the two impossible days put right."""
    data = EVENTS
    for wrong, right in MENDED.items():
        assert data.count(wrong) == 1
        data = data.replace(wrong, right)
    return data


def files(shop: Path) -> Mapping[str, bytes]:
    """Every lesson's file, and whatever else may lie beside them."""
    return {str(path.relative_to(shop)): path.read_bytes() for path in shop.rglob("lessons/**/*") if path.is_file()}


def test_every_odd_cell_is_told_with_its_row_and_column(shop: Path) -> None:
    """As a spreadsheet shows them, in its order, and nothing may be imported yet."""
    found = plan(shop, EVENTS)
    assert [(odd.row, odd.column.letter) for odd in found.odd] == [(row, letter) for row, letter, _ in ODD]
    assert all(part in odd.text for odd, (_, _, part) in zip(found.odd, ODD, strict=True))
    assert str(found.odd[1]) == 'row 32, column B "Date": "mid March" is no day such as 2024-03-05'
    assert not found.ready and found.twice == ((52, 46),)
    with pytest.raises(ValueError, match="odd cells"):
        carry_out(shop, found)
    assert files(shop) == {}


def test_a_hundred_and_twenty_events_end_to_end(shop: Path) -> None:
    """Into an empty shop: every one is read without a problem, and says what its row says."""
    found = plan(shop, mended(), replace(SAID, without_odd=True), MAP)
    assert found.ready and len(found.new) == 120
    assert len(carry_out(shop, found)) == 120
    read = read_shop(shop)
    assert (len(read.lessons), read.problems) == (120, ())
    one = next(lesson for lesson in read.lessons if "landed by the door" in lesson.get("said"))
    assert one.get("said") == 'the "good" vice was not tight: blank came out\nand landed by the door'
    assert {lesson.get("material") for lesson in read.lessons} >= {"acetal, ±5 % glass", "6082 plate"}
    assert {lesson.get("machine") for lesson in read.lessons} == {"big", "small", None}
    first = min(read.lessons, key=lambda lesson: lesson.when)
    assert first.when.date().isoformat() == "2023-01-14" and first.get("kind") == "tool_failed"
    assert first.get("cutter")["cutter_diameter"].value == 8 and first.get("minutes").value == 120
    assert first.get("operation") == "tap" and first.get("changes")[0]["done_on"].isoformat() == "2023-01-16"
    assert {round(lesson.get("minutes").value, 3) for lesson in read.lessons if lesson.get("minutes")} >= {7.5, 15, 90}


def test_a_second_time_adds_nothing(shop: Path) -> None:
    """Nor with other columns, in another order, in other letters, with another mark, or after a lesson was edited."""
    choices = replace(SAID, without_odd=True)
    carry_out(shop, plan(shop, mended(), choices, MAP))
    before = files(shop)
    again = plan(shop, mended(), choices, MAP, now=datetime(2027, 1, 1, tzinfo=UTC))
    assert not again.new and {event.there for event in again.events} == {"same"} and carry_out(shop, again) == []
    rows = read_sheet(mended())
    turned = "\n".join(
        "\t".join('"' + cell.replace('"', '""') + '"' for cell in reversed(cells))
        for cells in ([column.heading for column in rows.columns], *(row.cells for row in rows.rows))
    )
    other = plan(shop, turned.encode("utf-8-sig"), choices)
    assert not other.new and len(other.events) == 120
    edited = shop / next(iter(before))
    edited.write_bytes(edited.read_bytes() + b'title: "mine"\n')
    last = plan(shop, mended(), choices, MAP)
    assert not last.new and [event.there for event in last.events].count("other") == 1
    assert carry_out(shop, last) == [] and b"mine" in edited.read_bytes()


def test_more_rows_in_the_same_sheet_add_only_those(shop: Path) -> None:
    """A sheet that is kept on with: the old rows are known, also where a cell was filled in later."""
    head, old = b"Date,Type,What happened,Fix\n", b"2024-03-05,crash,it hit,\n"
    carry_out(shop, plan(shop, head + old))
    found = plan(shop, head + old.replace(b"hit,", b"hit,look first") + b"2024-03-06,crash,it hit,\n")
    assert [(event.row, event.there) for event in found.events] == [(2, "other"), (3, "")]


def test_two_events_in_the_same_words_on_one_day_stay_two(shop: Path) -> None:
    """They differ in another cell; a row that repeats every cell is one event, and told."""
    rows = b"2024-03-05,tool,it broke,3\n2024-03-05,tool,it broke,6\n2024-03-05,tool,it broke,3\n"
    found = plan(shop, b"Date,Type,What happened,Dia\n" + rows)
    assert len({event.id for event in found.new}) == 2 and found.twice == ((4, 2),)


def test_without_a_column_of_days_no_day_is_invented(shop: Path) -> None:
    """Nothing is said of when; taken in again on another day it is known."""
    data = b"Type,What happened\ncrash,it hit\ntool,it broke\n"
    first = plan(shop, data)
    assert all("when" not in event.fields for event in first.events) and len(carry_out(shop, first)) == 2
    again = plan(shop, data, now=datetime(2027, 5, 1, tzinfo=UTC))
    assert not again.new and len(again.events) == 2


def test_an_empty_day_may_be_left_out_but_no_odd_one(shop: Path) -> None:
    """Rows without a day are told; only where that is accepted are they taken without."""
    data = b"Date,Type,What happened\n,crash,it hit\n"
    assert not plan(shop, data).ready
    found = plan(shop, data, Choices(without_odd=True))
    assert found.ready and "when" not in found.new[0].fields
    assert not plan(shop, data.replace(b"\n,", b"\nlately,"), Choices(without_odd=True)).ready


def test_kind_and_sentence_are_needed(shop: Path) -> None:
    """A kind may be given for all rows that name none; what happened cannot be."""
    data = b"Date,What happened,Type\n2024-03-05,it hit,\n2024-03-06,,crash\n"
    assert [(odd.row, odd.column.letter, odd.stops) for odd in plan(shop, data).odd] == [(2, "C", True), (3, "B", True)]
    found = plan(shop, data, Choices(kind="wrong_size"))
    assert [event.fields["kind"] for event in found.events] == ["wrong_size"]
    assert "no column says what kind" in plan(shop, b"Date,What happened\n2024-03-05,x\n").wrong[0]
    assert "no column says what happened" in plan(shop, b"Date,Type\n2024-03-05,crash\n").wrong[0]
    assert "no kind of mishap" in plan(shop, data, Choices(kind="boom")).wrong[0]
    assert "cannot mean" in plan(shop, data, Choices(means={"a": "boom"})).wrong[0]


def test_a_word_left_out_leaves_no_row_out_silently(shop: Path) -> None:
    """A kind that is said to mean nothing leaves its row without one, and that is told."""
    found = plan(shop, b"What happened,Type\nit hit,misc\n", Choices(means={"misc": ""}))
    assert [(odd.row, odd.text) for odd in found.odd] == [(2, "nothing is said here")] and not found.events


def test_columns_are_named_by_heading_or_letter(shop: Path) -> None:
    """Slips are told with what is near; a heading that stands twice needs its letter."""
    sheet = read_sheet(b"Date,What,Note,Note\n2024-03-05,x,y,z\n")
    assert mapped(sheet, [("what", "said"), ("D", "material"), ("Date", "")]) == {1: "said", 3: "material"}
    for pairs, part in (
        ([("Dat", "when")], "did you mean Date"),
        ([("Note", "material")], "columns C and D"),
        ([("What", "sad")], "no field"),
        ([("Z", "said")], "no column"),
    ):
        with pytest.raises(NotMapped, match=part):
            mapped(sheet, pairs)
    assert "2 columns go to said" in make_plan(shop, sheet, Choices({0: "said", 1: "said"}, kind="crash"), NOW).wrong[0]


def test_a_cell_without_a_heading_stops(shop: Path) -> None:
    """A mark inside an unquoted text has moved every cell behind it: that is not taken."""
    found = plan(shop, b"Date,Type,What happened\n2024-03-05,crash,it hit, hard\n", Choices(without_odd=True))
    assert [(str(odd), odd.stops) for odd in found.odd] == [('row 2, column D: "hard" has no heading above it', True)]


def test_where_one_cannot_be_stored_none_is(shop: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A disk that fills up at the third file, or at the third link, leaves the shop as it was."""
    found = plan(shop, mended(), replace(SAID, without_odd=True), MAP)
    for name in ("fsync", "link"):
        real, calls = getattr(os, name), []

        def full(*args: Any, real: Any = real, calls: list[Any] = calls) -> Any:
            calls.append(args)
            if len(calls) == 9:
                raise OSError(28, "No space left on device")
            return real(*args)

        with monkeypatch.context() as patched:
            patched.setattr(os, name, full)
            with pytest.raises(OSError, match="No space"):
                carry_out(shop, found)
        assert len(calls) == 9 and files(shop) == {}
    assert len(carry_out(shop, found)) == 120


def test_the_preview_tells_all_of_it(shop: Path) -> None:
    """Columns with their example, unknown words with what they may mean, words read as others, first rows."""
    said = told(plan(shop, EVENTS, pairs=MAP))
    assert (said["rows"], said["parted"], len(said["columns"])) == (121, "semicolons", 19)
    assert said["odd_count"] == len(said["odd"]) > len(ODD)
    stick = next(one for one in said["columns"] if one["letter"] == "J")
    assert (stick["heading"], stick["field"], stick["unit"]) == ("Stickout (mm)", "cutter.stick_out", "mm")
    words = {one["word"]: one for one in said["unknown"]}
    assert words["Misc."]["count"] == 2 and {"key": "crash", "label": "crash"} in words["Misc."]["words"]
    assert words["small mill"]["words"][0] == {"key": "big", "label": "Big mill"}
    assert {"field": "Kind of mishap", "word": "Collision", "means": "crash", "count": 23} in said["read_as"]
    assert [one["row"] for one in said["first"]] == [2, 3, 4]
    assert said["first"][0]["facts"][:2] == [["When", "2023-01-14"], ["Kind of mishap", "tool failed"]]
    assert {"path": "cutter.stick_out", "label": "Cutter: Stick-out"} in choosable()


def run(*words: str) -> subprocess.CompletedProcess[str]:
    """run.py as it is typed."""
    command = [sys.executable, str(ROOT / "run.py"), *words]
    return subprocess.run(command, capture_output=True, text=True, encoding="utf-8", timeout=120)


def test_the_word_previews_first_and_imports_with_yes(shop: Path, tmp_path: Path) -> None:
    """Without --yes nothing is written; with it all; the second time nothing; odd cells end with 1."""
    sheet = tmp_path / "mended.csv"
    sheet.write_bytes(mended())
    words = ["import", str(sheet), "--shop", str(shop), "--map", "Where=machine", "--dates", "dmy"]
    words += ["--means", "Misc.=worked_well", "--means", "small mill=small", "--means", "lathe="]
    odd = run(*words)
    assert odd.returncode == 1 and 'row 89, column G "Tool": "the blue one"' in odd.stdout
    assert "--without-odd leaves out 5 odd cells" in odd.stdout and "Reported by" in odd.stdout
    looked = run(*words, "--without-odd")
    assert looked.returncode == 0 and "Nothing is written yet" in looked.stdout and files(shop) == {}
    done = run(*words, "--without-odd", "--yes")
    assert done.returncode == 0 and "120 lessons imported" in done.stdout and len(files(shop)) == 120
    assert "0 lessons imported" in run(*words, "--without-odd", "--yes").stdout


@pytest.mark.parametrize(
    ("words", "part"),
    [
        (["no-such.csv"], "cannot be read"),
        (["events.csv", "--map", "Wher=machine"], "did you mean Where"),
        (["events.csv", "--map", "Where"], "no pair"),
        (["events.csv", "--dates", "dym"], "invalid choice"),
    ],
)
def test_slips_are_told_in_a_line(shop: Path, words: list[str], part: str) -> None:
    """No traceback, and an ending that says so."""
    done = run("import", str(Path(__file__).with_name(words[0])), *words[1:], "--shop", str(shop))
    assert done.returncode and part in done.stderr and "Traceback" not in done.stderr
