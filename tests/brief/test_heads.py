"""Which rule stands at the head of a line: the safest of those that fit nearly as well as the best."""

import json
from pathlib import Path
from typing import Any

import pytest

from hooks.brief.lines import MOST, NEARLY, Line, brief, gathered, headed, seats
from hooks.brief.situations import situations
from hooks.shop import write
from hooks.shop.read import read_shop
from hooks.shop.sheet import JOB
from hooks.site.known import known

DEMO = Path(__file__).parents[2] / "content" / "demo"
LESSON = "20260101-080000-aaaaa"
FACING: dict[str, Any] = {"material": "6082", "setups": [{
    "holding": {"holding_kind": "vice_soft_jaws", "grip_height": "2 mm"},
    "operations": [{"operation": "face", "cutter": {"tool_kind": "face_mill", "cutter_diameter": "63 mm"}}],
}]}  # fmt: skip
LIKEST = "Mark the part at the jaw edge with ink before facing; stop when the line moves."
SAFEST = "No face cutter over 25 mm on a grip under 6 mm."


@pytest.fixture
def memory() -> dict[str, Any]:
    """The demo shop's memory, one that a test may change."""
    return json.loads(json.dumps(known(read_shop(DEMO))))


def first(memory: dict[str, Any], job: dict[str, Any]) -> Line:
    """The first line of a job's brief."""
    return brief(memory, situations(job, memory["settings"])).lines[0]


def test_a_guard_stands_before_a_reminder_that_fits_a_little_better(memory: dict[str, Any]) -> None:
    """It says so, the likest is the first under it, and the line keeps the place that the likest has."""
    line = first(memory, FACING)
    assert line.rule == SAFEST and line.more[0].rule == LIKEST
    assert line.more[0].score > line.score and line.alike >= NEARLY * line.more[0].alike
    assert line.why[-1] == "the safest rule on this danger" and line.why[-1] not in line.more[0].why


def test_without_a_guard_the_likest_is_the_head(memory: dict[str, Any]) -> None:
    """And nothing is said of safety."""
    for told in memory["told"]:
        told["guarded"] = False
    line = first(memory, FACING)
    assert line.rule == LIKEST and "safest" not in " ".join(line.why)


def test_what_jobs_have_proved_stands_before_a_guard(memory: dict[str, Any]) -> None:
    """Any of the others under the line, once three jobs have held it."""
    (proved,) = [told for told in memory["told"] if told["now_do"].startswith("If less than a third of it")]
    proved["state"] = "held"
    line = first(memory, FACING)
    assert line.rule == proved["now_do"] and line.proven


def test_where_the_danger_turns_on_the_metal_a_rule_of_another_is_no_line(memory: dict[str, Any]) -> None:
    """Never feed timidly, says stainless, and titanium may hear it; aluminium does not, though all else agrees."""
    of = dict(zip(memory["ids"], (told["mishap"] for told in memory["told"]), strict=True))
    metals = {}
    for material in ("316L", "Ti-6Al-4V", "5083", "odd bar"):
        cut = {"operation": "profile", "pass": "finishing", "cutter": {"tool_kind": "end_mill"},
               "cutting": {"feed_per_tooth": "0.005 mm"}}  # fmt: skip
        job = {"material": material, "setups": [{"operations": [cut]}]}
        lines = brief(memory, situations(job, memory["settings"])).lines
        rubbing = [of[line.id] for line in lines if of[line.id] and of[line.id]["danger"] == "rubbing"]
        metals[material] = {one["metal"] for one in rubbing}
    assert metals["316L"] == metals["Ti-6Al-4V"] == {"M"} and metals["5083"] == {"N"} and "M" in metals["odd bar"]


def _made(rule: str, **differs: Any) -> Line:
    """A line of one operation; the second of two is the safer, but less like the job."""
    told = {"title": rule, "why": (), "could": "", "proven": False, "score": 3.0, "setup": "A", "operation": "ream",
            "called": "ream (A)", "alike": 0.6, "own": True, "weighty": True, "shape": True, "foreign": False,
            "guarded": False, "mishap": None}  # fmt: skip
    return Line(id=rule, rule=rule, **{**told, **differs})


@pytest.mark.parametrize(
    ("differs", "head"),
    [
        ({}, "safer"),
        ({"foreign": True}, "likest"),  # the danger turns on the metal, and this is another
        ({"shape": False}, "likest"),  # the cure of a slot is none of a corner's
        ({"called": "bore (A)"}, "likest"),
        ({"weighty": False}, "likest"),  # the metal alone agrees
        ({"alike": 0.6 * NEARLY - 0.001}, "likest"),
        ({"alike": 0.6 * NEARLY}, "safer"),
        ({"guarded": False}, "likest"),
        ({"guarded": False, "proven": True}, "safer"),
    ],
)
def test_a_safer_rule_stands_before_the_likest_only_where_it_fits_as_well(differs: dict[str, Any], head: str) -> None:
    """The same operation, metal and sort of feature, and four fifths of the likeness."""
    likest, safer = _made("likest"), _made("safer", **{"guarded": True, "score": 2.0, **differs})
    line = headed([likest, safer])
    assert line.rule == head and {one.rule for one in (line, *line.more)} == {"likest", "safer"}


def test_a_line_keeps_the_seat_of_its_likest_rule() -> None:
    """A safer head with a low score does not cost the seven the best group of all."""
    groups = [[_made(f"likest {n}", called=f"op {n}", score=5.0 - n / 10)] for n in range(MOST + 1)]
    groups[0].append(_made("safer", called="op 0", score=1.0, alike=0.5, guarded=True))
    seated = [headed(group).rule for group in seats(groups)]
    assert seated == ["safer", *(f"likest {n}" for n in range(1, MOST))]


def test_what_two_lines_tell_apart_is_not_folded_by_a_third_that_tells_neither() -> None:
    """Two causes of one danger are two lines, whether the lesson without a cause comes first, between or last."""
    told = {"danger": "grip", "kind": "part_moved", "sorts": ["flats"], "sum": "", "metal": ""}
    weak, loose = ({**told, "causes": [cause]} for cause in ("holding_too_weak", "not_tightened"))
    for place in range(3):
        ones = [_made("Grip 6 mm", mishap=weak, score=3.0), _made("Tighten it", mishap=loose, score=2.0)]
        ones.insert(place, _made("Take care", mishap={**told, "causes": []}, score=(4.0, 2.5, 1.0)[place]))
        groups = [{one.rule for one in group} for group in gathered(ones)]
        assert len(groups) == 2 and not any({"Grip 6 mm", "Tighten it"} <= group for group in groups)


def test_of_lessons_that_repeat_each_other_the_one_of_this_metal_is_told(tmp_path: Path) -> None:
    """Aluminium hears aluminium's rule, though the stainless one that it repeats could have been worse."""
    (tmp_path / "shop.yaml").write_text('name: "x"\n', encoding="utf-8")
    rubbed = {"kind": "tool_failed", "said": "x", "operation": "profile", "contributing": ["too_slow_rubbing"],
              "cutter": {"tool_kind": "end_mill"}}  # fmt: skip
    write.save_new(tmp_path, LESSON, {
        **rubbed, "material": "316L", "iso513": "M", "could_have": "hurt_person", "now_do": "Feed it."})  # fmt: skip
    again = {**rubbed, "material": "6082", "iso513": "N", "repeat_of": [LESSON], "now_do": "No thinner than 0.01."}
    write.save_new(tmp_path, "20260102-080000-aaaaa", again)
    cut = {"operation": "profile", "cutter": {"tool_kind": "end_mill"}, "cutting": {"feed_per_tooth": "0.005 mm"}}
    job = {"material": "6082", "setups": [{"operations": [cut]}]}
    assert first(known(read_shop(tmp_path)), job).rule == "No thinner than 0.01."


@pytest.mark.parametrize(
    ("changes", "guarded"),
    [
        ([{"what": "x", "strength": "guard", "done_on": "2026-01-02"}], True),
        ([{"what": "x", "strength": "remind"}, {"what": "y", "strength": "remove", "done_on": "2026-01-02"}], True),
        ([{"what": "x", "strength": "guard"}], False),  # still planned
        ([{"what": "x", "strength": "aid", "done_on": "2026-01-02"}], False),
        ([{"what": "x", "done_on": "2026-01-02"}], False),
    ],
)
def test_guarded_is_what_was_done_and_needs_no_memory(
    tmp_path: Path, changes: list[dict[str, str]], guarded: bool
) -> None:
    """Hierarchy of controls (ISO 45001 8.1.2, recalled): what is planned, a card or a note is none."""
    told = _told(tmp_path, changes)
    assert told["guarded"] is guarded


def test_a_guard_after_which_it_came_back_is_none(tmp_path: Path) -> None:
    """A job that said "happened again" takes it away."""
    assert _told(tmp_path, GUARD, "held", "happened_again")["guarded"] is False


@pytest.mark.parametrize(
    ("answers", "said"),
    [
        ([], ""), (["not_met"], ""), (["held"], "held in 1 of 3 jobs"), (["held", "held"], "held in 2 of 3 jobs"),
        (["held"] * 3, ""), (["held", "happened_again"], ""),
    ],
)  # fmt: skip
def test_a_line_tells_how_far_it_is_proved(tmp_path: Path, answers: list[str], said: str) -> None:
    """Until it is, and not where it came back; the words are among the line's reasons."""
    told = _told(tmp_path, GUARD, *answers)
    assert told["held"] == said
    if said:
        memory = known(read_shop(tmp_path))
        job = {"material": "6082", "setups": [{"operations": [{"operation": "face"}]}]}
        assert first(memory, job).why[-1] == said


GUARD = [{"what": "z", "strength": "guard", "done_on": "2026-01-02"}]


def _told(shop: Path, changes: list[dict[str, str]], *answers: str) -> dict[str, Any]:
    """What the memory says of a lesson with these changes, after jobs that gave these answers."""
    (shop / "shop.yaml").write_text('name: "x"\n', encoding="utf-8")
    write.save_new(shop, LESSON, {
        "kind": "part_moved", "said": "x", "now_do": "y", "operation": "face", "material": "6082", "iso513": "N",
        "contributing": ["holding_too_weak"], "changes": changes})  # fmt: skip
    for n, answer in enumerate(answers):
        held = [{"lesson": LESSON, "answer": answer, "on": "2026-02-01"}]
        write.save_new(shop, f"20260201-08000{n}-aaaaa", {"part": "p", "held": held}, JOB)
    (told,) = known(read_shop(shop))["told"]
    return told
