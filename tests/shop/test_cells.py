"""Foreign cells as values: days, numbers, words. What can be read in two ways is told, never guessed (own rules)."""

from datetime import UTC, date, datetime

import pytest

from hooks.shop.cells import Manner, OddCell, value_of
from hooks.shop.dates import NoDay, read_when
from hooks.shop.flat import leaf
from hooks.shop.headings import suggested, unit_of
from hooks.shop.near import NEAR, folded, meant
from hooks.shop.spreadsheet import Column
from hooks.shop.vocabulary import VOCABULARIES


@pytest.mark.parametrize(
    ("text", "order", "day"),
    [
        ("2024-03-05", "", date(2024, 3, 5)),
        ("2024/3/5", "dmy", date(2024, 3, 5)),
        ("5.3.2024", "", date(2024, 3, 5)),
        ("05.03.24", "", date(2024, 3, 5)),
        ("03.05.24", "mdy", date(2024, 3, 5)),
        ("05/03/2024", "dmy", date(2024, 3, 5)),
        ("05/03/2024", "mdy", date(2024, 5, 3)),
        ("25/03/2024", "", date(2024, 3, 25)),
        ("03-25-2024", "", date(2024, 3, 25)),
        ("4/4/2024", "", date(2024, 4, 4)),
        ("24-03-05", "ymd", date(2024, 3, 5)),
        ("5 Mar 2024", "", date(2024, 3, 5)),
        ("5-Mar-24", "", date(2024, 3, 5)),
        ("Tue, 5th March 2024", "", date(2024, 3, 5)),
        ("March 5, 2024", "", date(2024, 3, 5)),
        ("Sept 5 1999", "", date(1999, 9, 5)),
        ("5.3.99", "", date(1999, 3, 5)),
    ],
)
def test_usual_days_are_read(text: str, order: str, day: date) -> None:
    """Each usual form, with its order said where it needs one."""
    assert read_when(text, order) == datetime(day.year, day.month, day.day)


@pytest.mark.parametrize(
    ("text", "hour", "minute"),
    [("14:30", 14, 30), ("2:30 PM", 14, 30), ("12:05 am", 0, 5), ("12:05 p.m.", 12, 5), ("07.45", 7, 45)],
)
def test_usual_times_are_read(text: str, hour: int, minute: int) -> None:
    """After the day, with or without a half of the day."""
    assert read_when(f"2024-03-05 {text}") == datetime(2024, 3, 5, hour, minute)
    assert read_when(f"5 Mar 2024, {text}") == datetime(2024, 3, 5, hour, minute)


@pytest.mark.parametrize(
    ("text", "order", "part"),
    [
        ("03/04/2025", "", "3 April 2025 or 4 March 2025.*dmy or mdy"),
        ("03-04-25", "", "dmy or mdy or ymd"),
        ("25/03/24", "", "25 March 2024 or 24 March 2025"),
        ("13/25/2024", "dmy", "no day that exists"),
        ("31.02.2024", "", "no day that exists"),
        ("30 Feb 2024", "", "no day that exists"),
        ("45356", "", "no day such as"),
        ("mid March", "", "no day such as"),
        ("5 Foo 2024", "", "no month"),
        ("2024-03-05 25:00", "", "no time"),
        ("2024-03-05 13:00 pm", "", "no time"),
        ("2024-03-05 about noon", "", "no time"),
        ("5.3.1924", "", "before 1970"),
        ("2024-03.05", "", "no day such as"),
    ],
)
def test_days_that_are_not_sure_are_told(text: str, order: str, part: str) -> None:
    """In one line that holds what stands there."""
    with pytest.raises(NoDay, match=part) as told:
        read_when(text, order)
    assert text in str(told.value)


NUMBERS = [
    ("cutter.cutter_diameter", "Dia", "6,35", "", "6,35"),
    ("cutter.cutter_diameter", "Dia (in)", "0.25", "", "0.25 in"),
    ("cutter.cutter_diameter", "Dia in", "1/4", "", "1/4 in"),
    ("cutter.cutter_diameter", "Dia (in)", "6 mm", "", "6 mm"),
    ("cutter.cutter_diameter", "Dia", "0,125", "", "0.125"),
    ("cutting.spindle_speed", "rpm", "1.250,5", "comma", "1250.5"),
    ("cutting.spindle_speed", "rpm", "12,250", "point", "12250"),
    ("cutting.spindle_speed", "rpm", "1,250", "comma", "1.250"),
    ("minutes", "Lost time (h)", "1,5", "", "90"),
    ("minutes", "Lost", "25 mins", "", "25"),
    ("minutes", "Lost", "2 hours", "", "120"),
    ("minutes", "Cost min", "25", "", "25"),
    ("cutter.teeth", "Flutes", "3", "", "3"),
]


@pytest.mark.parametrize(("path", "heading", "cell", "decimals", "value"), NUMBERS)
def test_numbers_are_read_in_the_unit_they_are_in(
    path: str, heading: str, cell: str, decimals: str, value: str
) -> None:
    """Their own unit, else the heading's, else the field's; decimal commas and thousands where they are sure."""
    assert value_of(cell, leaf(path), heading, Manner(decimals=decimals)) == value


@pytest.mark.parametrize(
    ("path", "heading", "cell", "decimals", "part"),
    [
        ("cutting.spindle_speed", "rpm", "1,250", "", "in two ways"),
        ("cutting.spindle_speed", "rpm", "1.250", "comma", "decimal comma"),
        ("cutting.spindle_speed", "rpm", "12,5", "point", "decimal point"),
        ("cutter.cutter_diameter", "Dia (rpm)", "6", "", "heading says rpm"),
        ("cutter.cutter_diameter", "Dia", "M8", "", "M8"),
        ("cutter.teeth", "Flutes", "2,5", "", "whole number"),
        ("minutes", "Lost", "about 1", "", "about 1"),
        ("minutes", "Lost", "-5", "", "at least 0"),
        ("said", "What", "x" * 281, "", "at most 280"),
        ("said", "What", "bell \x07", "", "control character"),
        ("kind", "Type", "Crush", "", "did you mean crash"),
        ("nearly", "Near miss", "perhaps", "", "neither yes nor no"),
        ("machine", "Machine", "big one", "", "no machine"),
        ("changes.1.done_on", "Done", "soon", "", "no day"),
        ("contributing", "Causes", "rushed; gremlins", "", "gremlins"),
        ("check.inputs", "Inputs", "six", "", "expected a line such as"),
        ("when", "Date", "2031-01-01", "", "in the future"),
    ],
)
def test_what_cannot_go_into_its_field_is_told(path: str, heading: str, cell: str, decimals: str, part: str) -> None:
    """Nothing is dropped or bent: the field's own limits hold."""
    with pytest.raises(OddCell, match=part):
        value_of(cell, leaf(path), heading, Manner(decimals=decimals, now=datetime(2026, 1, 1, tzinfo=UTC)))


def test_words_are_known_by_key_label_and_near_words() -> None:
    """Whole cells only, capitals and marks aside; a word said to mean another goes before."""
    manner = Manner(means={"misc": "wrong_size", "n.a": ""}, machines={"the big mill": "big", "big": "big"})
    assert value_of("Tool breakage", leaf("kind"), "Type", manner) == "tool_failed"
    assert value_of("T-slot cutter", leaf("cutter.tool_kind"), "Tool", manner) == "t_slot"
    assert value_of("P", leaf("iso513"), "Group", manner) == "P"
    assert value_of("MISC.", leaf("kind"), "Type", manner) == "wrong_size"
    assert value_of("The big mill", leaf("machine"), "Machine", manner) == "big"
    assert value_of("rushed, tired\nrushed", leaf("contributing"), "Causes", manner) == ["rushed", "tired", "rushed"]
    assert value_of("n.a.", leaf("outcome"), "Result", manner) is None


def test_no_near_word_means_two_things() -> None:
    """Every near word leads to a key of its vocabulary, and to that one alone."""
    for name, keys in NEAR.items():
        known = {word.key for word in VOCABULARIES[name].words}
        for key, words in keys.items():
            assert key in known
            assert {word: meant(word, name) for word in words.split(", ")} == dict.fromkeys(words.split(", "), key)
    assert folded("  Set-up. ") == "set up"


def test_every_word_of_ours_means_itself() -> None:
    """No near word takes a key away: what is exported is read as it was."""
    keys = [(name, word.key) for name, one in VOCABULARIES.items() for word in one.words]
    assert [(name, key) for name, key in keys if meant(key, name) != key] == []


def columns(*headings: str) -> tuple[Column, ...]:
    """Columns with these headings."""
    return tuple(Column(at, chr(65 + at), heading) for at, heading in enumerate(headings))


@pytest.mark.parametrize(
    ("heading", "path"),
    [
        ("Date", "when"), ("What happened", "said"), ("What happened?", "said"), ("DESCRIPTION", "said"),
        ("Machine", "machine"), ("Material", "material"), ("Fix", "now_do"), ("Action", "now_do"),
        ("Root cause", "why"), ("Cost min", "minutes"), ("Cost (min)", "minutes"),
        ("Tool Ø [mm]", "cutter.cutter_diameter"),
        ("cutter.cutter_diameter", "cutter.cutter_diameter"), ("cutter_diameter", "cutter.cutter_diameter"),
        ("Stick-out", "cutter.stick_out"), ("changes.2.what", "changes.2.what"), ("In one line", "said"),
    ],
)  # fmt: skip
def test_usual_headings_are_suggested(heading: str, path: str) -> None:
    """By path, key, label and what people write."""
    assert suggested(columns(heading)) == {0: path}


@pytest.mark.parametrize("heading", ["Operator", "Name", "Reported by", "No.", "Cost (EUR)", "", "Note", "xyzzy"])
def test_other_headings_are_not_guessed_at(heading: str) -> None:
    """Above all no column with people's names."""
    assert suggested(columns(heading)) == {}


def test_no_field_is_suggested_twice() -> None:
    """The best claim wins; a fix beside an action is what was changed."""
    assert suggested(columns("Description", "What happened", "Fix", "Action")) == {
        1: "said", 2: "changes.1.what", 3: "now_do",
    }  # fmt: skip
    assert unit_of("Feed (mm/min)") == "mm/min" and unit_of("Dia [inch]") == "in" and unit_of("Main") == ""
