"""The sorts of danger: what tells of them, what brings them, and that a lesson is compared by what they turn on."""

from typing import Any

import pytest

from calc.catalogue import named
from hooks.shop import match
from hooks.shop.lesson import Lesson
from hooks.shop.match import dangers, table
from hooks.shop.vocabulary import VOCABULARIES

ROWS = {row.name for row in match.ROWS}


def _ranked(lessons: dict[str, dict[str, Any]], job: dict[str, Any]) -> dict[str, match.Match]:
    ones = [Lesson(id_, f"lessons/2026/{id_}.yaml", "h", fields) for id_, fields in lessons.items()]
    return {one.id: one for one in match.rank(match.columns(ones, {}), match.facts_of_job(job), 10)}


def _keys(vocabulary: str) -> set[str]:
    return {word.key for word in VOCABULARIES[vocabulary].words}


def test_the_dangers_name_what_there_is() -> None:
    """Causes, kinds and keys are words of the vocabularies, sums calculators and their answers, facts are rows."""
    for one in match.DANGERS:
        assert set(one.causes.split()) <= _keys("contributing") and set(one.kinds.split()) <= _keys("kind")
        assert set(one.facts.split()) | {name for name, *_ in one.limits} <= ROWS
        for brings in (one.brings, one.perhaps):
            assert brings.keys() <= ROWS
            assert all(set(keys.split()) <= _keys(name) for name, keys in brings.items())
        for sum_ in one.sums.split():
            calculator, _, value = sum_.partition(":")
            assert not value or value in {output.name for output in named(calculator).outputs}


def test_a_cause_tells_of_one_danger() -> None:
    """And so does a sum; no two dangers are called alike."""
    for what in ("causes", "sums"):
        words = [word for one in match.DANGERS for word in getattr(one, what).split()]
        assert len(set(words)) == len(words)
    assert len({one.said for one in match.DANGERS} | {one.key for one in match.DANGERS}) == 2 * len(match.DANGERS)


def test_a_lesson_is_compared_by_what_its_danger_turns_on() -> None:
    """A wrong tool length happens in any metal with any cutter: neither is a fact, so neither is a reason."""
    cut = {"iso513": "N", "material": "6061", "operation": "pocket", "machine": "small",
           "cutter": {"tool_kind": "end_mill", "cutter_diameter": "6 mm", "stick_out": "24 mm"}}  # fmt: skip
    length = {**cut, "contributing": ("tool_length_wrong",), "stage": "first_part"}
    assert match.facts_of(length).keys() == {"danger", "stage", "stage_family", "machine", "contributing"}
    assert match.facts_of(cut).keys() >= {"iso513", "operation", "stick_out_to_cutter"}
    assert "length" not in _ranked({"length": {**length, "machine": "big"}}, cut)
    found = _ranked({"length": length}, {**cut, "stage": ["set_tool_length"]})
    assert found["length"].why == ("same danger: a wrong tool length", "same machine: small")


def test_what_an_unsaid_danger_turns_on_comes_first_among_the_reasons() -> None:
    """A lesson that is but likely about a danger keeps its facts; those beside the point are no reasons."""
    jog = {"stage": "jog_by_hand", "cutter": {"tool_kind": "edge_finder", "cutter_diameter": "10 mm"}}
    facts = match.facts_of(jog)
    assert facts["danger"] == ["way"] and facts["cutter_diameter"] == 10
    (found,) = _ranked({"jog": jog}, {**jog, "stage": ["jog_by_hand"]}).values()
    assert found.why and not any("diameter" in reason for reason in found.why)
    (found,) = _ranked({"jog": jog}, {"cutter": {"cutter_diameter": "10 mm"}}).values()
    assert found.why == ("cutter diameter 10 mm, there 10 mm",)


@pytest.mark.parametrize(
    ("fields", "brings"),
    [
        ({"operation": "saw"}, ["blank"]),
        ({"stage": ["set_tool_length", "restart"]}, ["length"]),
        ({"cutter": {"cutter_diameter": "6 mm"}, "geometry": {"pocket_width": "6.8 mm"}}, ["corner"]),
        ({"cutter": {"cutter_diameter": "6 mm"}, "geometry": {"pocket_width": "12 mm", "feature": "slot"}}, []),
        ({"geometry": {"feature": "slot"}}, ["corner"]),
        ({"cutter": {"cutter_diameter": "1/2 in", "stick_out": "2 in"}}, ["bending"]),
        ({"cutter": {"cutter_diameter": "50 mm"}, "holding": {"grip_height": "2 mm"}}, ["grip"]),
        ({"cutting": {"feed_per_tooth": "0.0002 in"}}, ["rubbing"]),
        ({"operation": "profile", "material": "6061"}, []),
    ],
)
def test_a_job_s_facts_bring_dangers(fields: dict[str, Any], brings: list[str]) -> None:
    """By operation, stage, feature or a number within its limits; a number that is known decides before the feature."""
    assert match.facts_of_job(fields).get("danger", []) == brings


def test_feed_and_speed_of_the_edge_come_from_what_was_typed() -> None:
    """1200 mm/min at 8000 rpm and three teeth is 0.05 mm; 10 mm at 8000 rpm runs at 251 m/min; inches alike."""
    cutting = {"spindle_speed": "8000 rpm", "feed_rate": "1200 mm/min"}
    facts = match.facts_of_job({"cutter": {"cutter_diameter": "10 mm", "teeth": "3"}, "cutting": cutting})
    assert facts["feed_per_tooth"] == pytest.approx(0.05) and facts["cutting_speed"] == pytest.approx(251.3, abs=0.1)
    inches = {"spindle_speed": "8000", "feed_rate": "24 in/min"}
    facts = match.facts_of_job({"cutter": {"cutter_diameter": "1 in", "teeth": "2"}, "cutting": inches})
    assert facts["feed_per_tooth"] == pytest.approx(0.0381)
    said = match.facts_of_job({"cutter": {"teeth": "3"}, "cutting": {**cutting, "feed_per_tooth": "0.04 mm"}})
    assert said["feed_per_tooth"] == 0.04


def test_what_is_not_said_contradicts_less_than_what_is_said_otherwise() -> None:
    """Same operation and cutter: a lesson that names another metal is behind one that names none."""
    cut = {"operation": "drill", "cutter": {"tool_kind": "twist_drill"}}
    lessons = {"none": cut, "other": {**cut, "iso513": "P"}, "same": {**cut, "iso513": "M"}}
    found = _ranked(lessons, {**cut, "iso513": "M"})
    assert found["same"].alike > found["none"].alike > found["other"].alike
    assert found["none"].alike - found["other"].alike > (1 - table.ONLY_LESSON) / 10


def test_another_stage_contradicts_nothing() -> None:
    """A sheet names the stages that most jobs have not, and goes through the others as well."""
    lessons = {"run": {"operation": "drill", "stage": "running"}, "restart": {"operation": "drill", "stage": "restart"}}
    plain, named_ = _ranked(lessons, {"operation": "drill"}), _ranked(lessons, {"operation": "drill", "stage": ["saw"]})
    assert [plain[one].alike for one in lessons] == [named_[one].alike for one in lessons]
    assert _ranked(lessons, {"operation": "drill", "stage": ["restart"]})["restart"].alike > plain["restart"].alike


def test_sorts_of_material_names_agree_by_a_word() -> None:
    """ "316L" and "316L stainless" are one material; "plate" says nothing of a material."""
    assert match.facts_of_job({"material": "316L stainless bar"})["material"] == ["316l", "stainless"]
    found = _ranked({"a": {"material": "316L"}, "b": {"material": "brass plate"}}, {"material": "316L plate"})
    assert list(found) == ["a"] and "same material: 316l" in found["a"].why


def test_keys_of_a_fact() -> None:
    """One, several, none."""
    assert dangers.keys_of("a") == ["a"] and dangers.keys_of(["a", "b"]) == ["a", "b"] and dangers.keys_of(None) == []


def test_two_lessons_are_one_mishap_unless_something_tells_them_apart() -> None:
    """Common practice, no source: a drill into the parallel is no rapid into the clamp, though both were in the way."""
    parallel = {"kind": "crash", "contributing": ["holding_in_the_way"], "check": {"calculator": "heights"}}
    one = match.mishap(parallel, ["holes"])
    assert match.same_mishap(
        one, match.mishap({**parallel, "contributing": ["holding_in_the_way", "rushed"]}, ["holes"])
    )
    assert match.same_mishap(one, match.mishap({**parallel, "check": {}}, ["holes"]))
    for other, sorts in (
        ({**parallel, "check": {"calculator": "travel-clearance"}}, ["holes"]),
        ({**parallel, "contributing": ["handle_left_on"]}, ["holes"]),
        ({**parallel, "kind": "wrong_size"}, ["holes"]),
        (parallel, ["flats"]),
        ({"kind": "crash"}, ["holes"]),
    ):
        assert not match.same_mishap(one, match.mishap(other, sorts)), other
    hands = {"kind": "person_at_risk", "contributing": ["rushed"]}
    assert match.mishap(hands, []) is None  # nobody knows which of many ways to be hurt it was


def test_where_the_danger_turns_on_the_metal_another_metal_is_another_mishap() -> None:
    """Common practice, no source: a feed for titanium is no rule for aluminium; a tight corner is one in both."""
    fast = {"kind": "tool_failed", "contributing": ["too_fast"]}
    tight = {"kind": "bad_surface", "contributing": ["corner_too_tight"]}
    for told, alike in ((fast, False), (tight, True)):
        one, other = (match.mishap({**told, "iso513": metal}, ["insides"]) for metal in "NS")
        assert match.same_mishap(one, other) == alike
