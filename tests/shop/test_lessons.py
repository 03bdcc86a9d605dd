"""The model: declaration, state, checks, schema and the demo shop."""

import json
import time
from collections import Counter
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import jsonschema
import pytest
import yaml

from hooks.shop.check import run_check
from hooks.shop.declaration import FIELDS
from hooks.shop.fields import Field
from hooks.shop.lesson import Lesson
from hooks.shop.nodes import parse
from hooks.shop.read import Shop, read_lesson, read_shop, state_of
from hooks.shop.schema import NAME, schema, write_schema
from hooks.shop.settings import SHOP_FIELDS
from hooks.shop.state import SHOWN, TABLE, Facts, state_of_facts
from hooks.shop.typed import plain
from hooks.shop.vocabulary import VOCABULARIES
from hooks.shop.write import sheet_text

DEMO = Path(__file__).parents[2] / "content" / "demo"
NOTHING = Facts(
    retired=False, worked_well=False, now_do=False, changed=False, explained=False, repeated_since=False, held_since=0
)


@pytest.fixture(scope="module")
def demo() -> Shop:
    """The demo shop."""
    return read_shop(DEMO)


@pytest.mark.parametrize(
    ("given", "state"),
    [
        ({"retired": True, "worked_well": True, "now_do": True, "changed": True}, "retired"),
        ({"worked_well": True, "now_do": True}, "kept"),
        ({"worked_well": True}, "noted"),
        ({"now_do": True, "changed": True, "repeated_since": True, "held_since": 9}, "came_back"),
        ({"repeated_since": True, "explained": True}, "explained"),
        ({"now_do": True, "changed": True, "held_since": 3}, "held"),
        ({"now_do": True, "changed": True, "held_since": 2}, "changed"),
        ({"now_do": True, "explained": True}, "explained"),
        ({"changed": True}, "noted"),
        ({"explained": True}, "explained"),
        ({}, "noted"),
    ],
)
def test_the_truth_table_row_by_row(given: dict[str, object], state: str) -> None:
    """First match wins; each row is reached, and not reached where one condition lacks."""
    assert state_of_facts(replace(NOTHING, **given)) == state


def test_every_state_is_shown() -> None:
    """The table and the words for it name the same states."""
    assert {state for state, _ in TABLE} == set(SHOWN)


def _fields(fields: tuple[Field, ...]) -> list[Field]:
    return [
        one for field in fields for one in (field, *_fields(field.parts), *_fields((field.item,) if field.item else ()))
    ]


def test_the_declaration_is_whole() -> None:
    """Every field has words, every choice a list, every quantity its unit; no key stands twice."""
    for one in _fields((*FIELDS, *SHOP_FIELDS)):
        assert one.label, one.key
        assert one.type != "one_of" or one.of in VOCABULARIES
        assert (one.quantity is not None) == (one.type in ("number", "quantity"))
    assert len({one.key for one in FIELDS}) == len(FIELDS)
    for vocabulary in VOCABULARIES.values():
        keys = [word.key for word in vocabulary.words]
        assert vocabulary.source and len(set(keys)) == len(keys)


def test_the_demo_has_no_problem(demo: Shop) -> None:
    """Read whole, and marked as invented."""
    assert demo.problems == ()
    assert demo.demo and "invented" in demo.name


def test_the_demo_is_as_large_as_it_should_be(demo: Shop) -> None:
    """Lessons across every kind and stage, in mixed states, with numbers, with checks, metric and inch."""
    lessons = demo.lessons
    assert len(lessons) >= 60
    assert {one.get("kind") for one in lessons} == {word.key for word in VOCABULARIES["kind"].words}
    assert {one.get("stage") for one in lessons} >= {word.key for word in VOCABULARIES["stage"].words}
    states = Counter(state_of(one, demo) for one in lessons)
    assert set(states) >= {"noted", "explained", "changed", "kept", "came_back", "retired"}
    assert sum(any(one.get(key) for key in ("cutting", "geometry", "measured")) for one in lessons) >= 30
    assert len(demo.checks) >= 20
    assert {check.calculator for check in demo.checks.values()} >= {
        "stock-allowance", "heights", "clamping", "tool-length", "edge-find", "corner-clearance", "chip-load",
        "drill-point", "tap", "thermal-growth", "chatter-speed",
    }  # fmt: skip
    written = "".join(path.read_text("utf-8") for path in DEMO.glob("lessons/*/*.yaml"))
    assert written.count(' in"') > 20 and written.count(' mm"') > 100


def test_every_check_would_have_caught_its_mishap(demo: Shop) -> None:
    """Broken where it went wrong, holding where it was mended: both sides."""
    for id_, check in demo.checks.items():
        assert check.broken and check.would_have_caught, id_
    assert sum(check.holds_mended is True for check in demo.checks.values()) >= 20


def _with_check(**check: object) -> Lesson:
    text = sheet_text({"kind": "bad_surface", "said": "x", "check": check})
    lesson, problems = read_lesson(text, "lessons/2026/20260101-000000-gd000.yaml")
    assert lesson, problems
    return lesson


@pytest.mark.parametrize(
    ("limits", "broken"),
    [
        ({"at_most": "9"}, False),
        ({"at_most": "2"}, True),
        ({"at_least": "2"}, False),
        ({"at_least": "9", "at_most": "20"}, True),
    ],
)  # fmt: skip
def test_limits_of_a_check(limits: dict[str, str], broken: bool) -> None:
    """At most, at least, and both: a rise of 8 against them."""
    inputs = {"cutter_diameter": "6 mm", "pocket_width": "6.8 mm"}
    result = run_check(_with_check(calculator="corner-clearance", inputs=inputs, value="removal_rate_rise", **limits))
    assert result is not None and result.broken is broken


def _validator() -> Callable[[object], bool]:
    checker = jsonschema.Draft202012Validator(schema())
    return lambda lesson: checker.is_valid(lesson)


def test_the_schema_accepts_what_the_reader_accepts(demo: Shop) -> None:
    """Every demo lesson, as an editor reads it; the schema itself is sound."""
    jsonschema.Draft202012Validator.check_schema(schema())
    valid = _validator()
    assert all(valid(yaml.safe_load((DEMO / lesson.path).read_text("utf-8"))) for lesson in demo.lessons)


@pytest.mark.parametrize(
    "lesson",
    [
        {"said": "no kind"},
        {"kind": "explosion", "said": "x"},
        {"kind": "crash", "said": "x", "operatr": "y"},
        {"kind": "crash", "said": 7},
    ],
)  # fmt: skip
def test_the_schema_refuses_what_the_reader_refuses(lesson: dict[str, object]) -> None:
    """Missing, unknown, of the wrong kind."""
    assert not _validator()(lesson)


def test_the_schema_in_the_demo_is_the_newest(tmp_path: Path) -> None:
    """`lesson.schema.json` beside the lessons is what the declaration says, and lessons name it."""
    write_schema(tmp_path)
    assert (DEMO / NAME).read_text("utf-8") == (tmp_path / NAME).read_text("utf-8")
    assert json.loads((DEMO / NAME).read_text("utf-8"))["title"]
    for path in DEMO.glob("lessons/*/*.yaml"):
        first = path.read_text("utf-8").splitlines()[0]
        assert (path.parent / first.split("$schema=")[1]).resolve() == (DEMO / NAME).resolve()


def test_repeats_bring_a_lesson_back(demo: Shop) -> None:
    """At least one demo lesson came back after its change, because a later one names it."""
    came_back = [one for one in demo.lessons if state_of(one, demo) == "came_back"]
    assert came_back and all(demo.repeats[one.id] for one in came_back)


def test_reading_again_reads_only_what_changed(tmp_path: Path) -> None:
    """A thousand lessons: the second time takes a tenth, and a changed file is seen."""
    folder = tmp_path / "lessons" / "2026"
    folder.mkdir(parents=True)
    (tmp_path / "shop.yaml").write_text("name: x\n")
    text = (DEMO / "lessons/2026/20260311-150212-m3xq7.yaml").read_bytes().replace(b"bed-mill", b"m")
    text = b"\n".join(line for line in text.splitlines() if not line.startswith((b"machine", b"id:")))
    for n in range(1000):
        (folder / f"20260101-00{n // 60:02}{n % 60:02}-aaaaa.yaml").write_bytes(text)
    begin = time.perf_counter()
    first = read_shop(tmp_path)
    middle = time.perf_counter()
    changed = folder / "20260101-000007-aaaaa.yaml"
    changed.write_bytes(text.replace(b"finishing pass grabbed", b"something else happened here"))
    second = read_shop(tmp_path, first)
    end = time.perf_counter()
    assert len(second.lessons) == 1000 and not second.problems
    assert "something else" in (second.lesson("20260101-000007-aaaaa") or second.lessons[0]).title
    assert end - middle < (middle - begin) / 5


def test_typed_fields_are_as_written(demo: Shop) -> None:
    """`typed` is the file's own text, for the editor."""
    lesson = demo.lessons[0]
    assert lesson.typed == plain(parse((DEMO / lesson.path).read_bytes(), "x"))
