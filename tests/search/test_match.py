"""Ranking by facts: exact facets, numbers by ratio, weights as the table says, and only its own imports."""

import json
import math
import subprocess
import sys
import time
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from calc.quantity import Reading
from hooks.shop import match
from hooks.shop.declaration import FIELDS, field
from hooks.shop.lesson import Lesson
from hooks.shop.match import table
from hooks.shop.vocabulary import OUTCOMES, VOCABULARIES
from tests.search.generated import generated

ROOT = Path(__file__).parents[2]


def _mm(value: float) -> Reading:
    return Reading(value, "mm", f"{value} mm")


def _lesson(id_: str, **fields: Any) -> Lesson:
    return Lesson(id_, f"lessons/2026/{id_}.yaml", "h", fields)


def _ranked(lessons: list[Lesson], facts: match.Facts, **states: str) -> list[match.Match]:
    known = json.loads(json.dumps(match.columns(lessons, states)))
    return match.rank(known, facts, 10)


def test_ratios_are_made_from_the_fields() -> None:
    """Corner to cutter radius, pocket width, stick-out and engagement to the diameter; hardness in HRC."""
    facts = match.facts_of(
        {
            "operation": "finish_wall",
            "hardness": "58 HRC",
            "cutter": {"cutter_diameter": _mm(6), "stick_out": _mm(24), "tool_kind": "end_mill"},
            "cutting": {"axial_depth": _mm(12), "radial_depth": _mm(0.3)},
            "geometry": {"corner_radius": _mm(3.5), "pocket_width": _mm(6.8)},
            "surface": ("dig_in", "dig_in"),
        }
    )
    assert facts == {
        "operation": "finish_wall", "operation_family": ["outsides", "insides"], "tool_kind": "end_mill",
        "tool_family": ["end mills"],
        "surface": ["dig_in"], "hardness": 58.0,
        "corner_to_cutter": pytest.approx(7 / 6), "width_to_cutter": pytest.approx(6.8 / 6),
        "stick_out_to_cutter": 4.0, "depth_to_cutter": 2.0, "engagement": pytest.approx(0.05),
        "cutter_diameter": 6.0,
    }  # fmt: skip


def test_the_same_ratio_fits_at_another_size() -> None:
    """A 6 mm cutter in a 3.5 mm corner is nearer to 12 in 7 than to 6 in 6: engagement follows the ratio."""
    small = {"cutter": {"cutter_diameter": _mm(6)}, "geometry": {"corner_radius": _mm(3.5)}}
    same_ratio = _lesson("b", cutter={"cutter_diameter": _mm(12)}, geometry={"corner_radius": _mm(7)})
    same_size = _lesson("a", cutter={"cutter_diameter": _mm(6)}, geometry={"corner_radius": _mm(6)})
    found = _ranked([same_size, same_ratio], match.facts_of(small))
    assert [one.id for one in found] == ["b", "a"]
    assert found[0].why[0] == "corner radius to cutter radius 1.17, there 1.17"


@pytest.mark.parametrize("row", [row for row in match.ROWS if row.how == "near"], ids=lambda row: row.name)
def test_a_number_counts_half_where_the_table_says(row: match.Row) -> None:
    """Equal: the whole weight; the ratio in `halves`, either way: half of it."""
    logs = [math.log(number) for number in (7 / row.halves, 7, 7 * row.halves)]
    known = {"ids": ["less", "same", "more"], "extra": [1.0] * 3, "sorts": [0] * 3, "has": [[[row.name], 0]],
             "turns": [[row.name]], "keyed": {}, "sizes": {}, "near": {row.name: [logs, [0, 1, 2]]}}  # fmt: skip
    worth = {one.id: one.score * (row.weight + table.CHANCE) for one in match.rank(known, {row.name: 7.0}, 3)}
    assert worth["same"] == pytest.approx(row.weight, abs=4e-3)
    assert worth["less"] == pytest.approx(row.weight / 2, abs=4e-3)
    assert worth["more"] == pytest.approx(row.weight / 2, abs=4e-3)


def test_shared_keys_count_by_the_part_in_common() -> None:
    """Two of three different keys in common count two thirds (the index of Jaccard, from memory)."""
    lesson = _lesson("a", contributing=("rushed", "tired", "plan_missing"))
    found = _ranked([lesson], {"contributing": ["rushed", "tired"]})
    row = next(row for row in match.ROWS if row.name == "contributing")
    assert found[0].alike == pytest.approx(row.weight * 2 / 3 / (row.weight + table.CHANCE), abs=1e-3)
    assert found[0].why == ("same what helped it to happen: rushed, tired",)


def test_the_worse_outcome_and_the_unproven_come_first_among_equals() -> None:
    """Three lessons with the same facts, told apart by what they could have come to and by their state."""
    facts = {"operation": "drill"}
    mild = _lesson("mild", operation="drill", could_have="rework")
    worse = _lesson("worse", operation="drill", could_have="hurt_person")
    proven = _lesson("proven", operation="drill", could_have="hurt_person")
    found = _ranked([mild, proven, worse], facts, proven="held", worse="changed", mild="changed")
    assert [one.id for one in found] == ["worse", "proven", "mild"]


def test_a_lesson_with_nothing_in_common_is_not_found() -> None:
    """Severity alone makes no match."""
    assert _ranked([_lesson("a", operation="drill", could_have="hurt_person")], {"operation": "face"}) == []
    assert _ranked([], {"operation": "face"}) == []
    assert _ranked([_lesson("a", operation="drill")], {}) == []


def test_the_table_names_what_the_declaration_has() -> None:
    """Each fact is a field, a part of a group, a ratio or a sort; outcomes are those of the vocabulary, in order."""
    parts = {part.key for group in (*match.GROUPS, "datum") for part in field(group).parts}
    known = {one.key for one in FIELDS} | parts | {name for name, *_ in match.RATIOS}
    known |= {"danger", "cutting_speed", "words", *match.FAMILIES}
    assert {row.name for row in match.ROWS} <= known
    assert {name for _, over, under, _ in match.RATIOS for name in (over, under)} <= parts
    assert match.OUTCOMES == OUTCOMES


@pytest.mark.parametrize("name", match.FAMILIES)
def test_every_word_has_a_sort(name: str) -> None:
    """None that is no word, none left out, none twice in one sort."""
    of, sorts = match.FAMILIES[name]
    words = [key for keys in sorts.values() for key in keys.split()]
    assert set(words) == {word.key for word in VOCABULARIES[of].words}
    assert all(len(set(keys.split())) == len(keys.split()) for keys in sorts.values())


def test_words_break_ties_and_no_more() -> None:
    """Two lessons with the same facts: the one that tells of the same thing first; its rare word is the reason."""
    one = _lesson("one", operation="drill", said="chips jammed under the setting block")
    other = _lesson("other", operation="drill", said="drill was blunt from the start")
    found = _ranked([other, one], match.facts_of({"operation": "drill", "said": "lengths over the setting block"}))
    assert [each.id for each in found] == ["one", "other"]
    assert found[0].why[-1].startswith("same words: ") and "block" in found[0].why[-1]
    most = next(row.weight for row in match.ROWS if row.how == "words")
    assert found[0].alike == found[1].alike
    assert found[0].score - found[1].score <= most * (table.LIKENESS + table.SEVERITY + table.UNPROVEN)


KEYS = st.sampled_from(["drill", "face", "tap"])
FACTS = st.fixed_dictionaries(
    {},
    optional={
        "operation": KEYS,
        "surface": st.lists(st.sampled_from(["burr", "gouge"]), max_size=3).map(tuple),
        "hardness": st.text(max_size=12),
        "cutter": st.fixed_dictionaries({}, optional={"cutter_diameter": st.floats(1e-6, 1e6).map(_mm)}),
        "geometry": st.fixed_dictionaries({}, optional={"corner_radius": st.floats(0, 1e6).map(_mm)}),
    },
)


@settings(deadline=None, suppress_health_check=[HealthCheck.too_slow])  # a busy machine is slow to draw
@given(st.lists(FACTS, max_size=6))
def test_a_lesson_fits_itself_at_least_as_well_as_any_other(many: list[dict[str, Any]]) -> None:
    """Whatever the facts: likeness lies between 0 and 1, and none fits a lesson better than itself."""
    lessons = [_lesson(str(number), **fields) for number, fields in enumerate(many)]
    known = match.columns(lessons, {})
    for lesson in lessons:
        found = {one.id: one for one in match.rank(known, match.facts_of(lesson.fields), 10)}
        assert all(0 <= one.alike <= 1 for one in found.values())
        if lesson.id in found:
            assert found[lesson.id].alike == max(one.alike for one in found.values())


def test_ten_thousand_lessons_are_ranked_in_a_tenth_of_a_second() -> None:
    """The best of five runs, over columns that went through JSON as they do on the way to a browser."""
    lessons = generated(10_000)
    known = json.loads(json.dumps(match.columns(lessons, {})))
    facts = match.facts_of(lessons[77].fields)
    took = []
    for _ in range(5):
        start = time.perf_counter()
        assert match.rank(known, facts, 7)[0].id == lessons[77].id
        took.append(time.perf_counter() - start)
    assert min(took) < 0.1


def test_it_needs_nothing_but_calc_and_the_standard_library(tmp_path: Path) -> None:
    """Loaded in a Python without site packages, as in the browser, from a folder with only its own files."""
    for folder in ("calc", "hooks/__init__.py", "hooks/shop/__init__.py", "hooks/shop/match"):
        target = tmp_path / folder
        target.parent.mkdir(parents=True, exist_ok=True)
        target.symlink_to(ROOT / folder)
    code = (
        "import sys; from hooks.shop import match; known = match.columns([], {});"
        "print(match.rank(known, {'operation': 'face'}, 3),"
        " sorted(m for m in sys.modules if m.split('.')[0] in ('hooks', 'yaml', 'jinja2')))"
    )
    run = [sys.executable, "-I", "-S", "-c", f"import sys; sys.path.insert(0, {str(tmp_path)!r}); {code}"]
    done = subprocess.run(run, capture_output=True, text=True, timeout=60)
    ours = [
        "hooks",
        "hooks.shop",
        *(f"hooks.shop.match{part}" for part in ("", ".dangers", ".facts", ".mishap", ".ranking", ".table")),
    ]
    assert done.stdout.strip() == f"[] {ours}", done.stderr
