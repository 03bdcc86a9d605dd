"""The brief: judged jobs, its order and reasons, its sums, its card, and the same text whoever asks."""

import json
import re
from pathlib import Path
from typing import Any

import pytest
import yaml

from calc.catalogue import named, work_out
from hooks.brief.card import USUAL, datum_plan, lines, tools
from hooks.brief.given import at_speed, facts_for
from hooks.brief.lines import ALIKE, MOST, Brief, brief
from hooks.brief.page import SEEN, brief_html, card_html
from hooks.brief.respond import Desk
from hooks.brief.situations import situations
from hooks.brief.sums import Sum, sums
from hooks.shop.job import read_fields
from hooks.shop.read import read_shop
from hooks.site.known import known
from tests.brief.large import large_job
from tests.search.judging import ndcg

DEMO = Path(__file__).parents[2] / "content" / "demo"
SEARCH = Path(__file__).parents[1] / "search"
# Sheets, how many there are at least, and the part of the lessons of the very situation that is reached at least.
JUDGED = {"jobs.yaml": (25, 0.98), "jobs_unseen.yaml": (24, 0.84)}
SAME, NEAR = 3, 1  # grades
CORNER: dict[str, Any] = {
    "part": "Keel plate", "material": "5083", "machine": "bed-mill",
    "setups": [{"operations": [{
        "operation": "finish_wall",
        "cutter": {"tool_kind": "end_mill", "cutter_diameter": "12 mm", "teeth": "3"},
        "cutting": {"radial_depth": "0.6 mm"},
        "geometry": {"corner_radius": "7 mm"},
    }]}],
}  # fmt: skip


@pytest.fixture(scope="module")
def shop() -> Any:
    """The demo shop."""
    return read_shop(DEMO)


@pytest.fixture(scope="module")
def memory(shop: Any) -> dict[str, Any]:
    """Its memory, as it goes through JSON to a browser."""
    return json.loads(json.dumps(known(shop)))


@pytest.fixture(scope="module")
def judged() -> list[dict[str, Any]]:
    """The judged job sheets of tests/search/jobs.yaml."""
    return sheets("jobs.yaml")


def sheets(name: str) -> list[dict[str, Any]]:
    """Judged job sheets: {name, job, same, near}."""
    return yaml.load((SEARCH / name).read_text(encoding="utf-8"), Loader=yaml.BaseLoader)["jobs"]


def found(job: dict[str, Any], memory: dict[str, Any]) -> Brief:
    """The brief of a job."""
    return brief(memory, situations(job, memory["settings"]))


@pytest.mark.parametrize("name", JUDGED)
def test_judged_jobs_find_their_lessons(name: str, memory: dict[str, Any], capsys: Any) -> None:
    """Lessons of the very situation in the seven lines, as its head or under it (repeats count as one), are counted."""
    family = dict(zip(memory["ids"], (one["family"] for one in memory["told"]), strict=True))
    judged = sheets(name)
    wanted = heads = got = 0
    gains = []
    for one in judged:
        ranked = found(one["job"], memory)
        head = {family[line.id] for line in ranked.lines}
        under = {family[more.id] for line in ranked.lines for more in line.more}
        wanted += len(one["same"])
        heads += sum(family[id_] in head for id_ in one["same"])
        got += sum(family[id_] in head | under for id_ in one["same"])
        grades = {family[id_]: NEAR for id_ in one.get("near", ())} | {family[id_]: SAME for id_ in one["same"]}
        gains += [ndcg([family[line.id] for line in ranked.ranked], grades)] if grades else []
    with capsys.disabled():
        print(f"\n{name}, {len(judged)} sheets: same situation in the seven lines {got} of {wanted} "
              f"({got / wanted:.3f}), {heads} as a line's head; nDCG@10 {sum(gains) / len(gains):.3f}")  # fmt: skip
    fewest, reached = JUDGED[name]
    assert len(judged) >= fewest and got / wanted >= reached


def test_lines_are_rules_each_with_why(judged: list[dict[str, Any]], memory: dict[str, Any]) -> None:
    """At most seven, every one with a rule and a reason, no lesson or rule twice, none retired, best first."""
    for one in judged:
        told = found(one["job"], memory)
        assert len(told.lines) <= MOST and all(line.rule and line.why for line in told.lines)
        ids = [line.id for line in told.ranked]
        rules = [line.rule for line in told.lines]
        assert len(set(ids)) == len(ids) and len(set(rules)) == len(rules)
        best = [max(each.score for each in (line, *line.more) if each.rule) for line in told.lines]
        assert best == sorted(best, reverse=True)
        states = dict(zip(memory["ids"], (each["state"] for each in memory["told"]), strict=True))
        assert all(states[id_] != "retired" for id_ in ids)


def test_the_same_ratio_at_another_size_comes_first(memory: dict[str, Any]) -> None:
    """A 12 mm cutter in corners of 7 finds lessons of 6 in 3.5 and the like, and says so."""
    reasons = " ".join(" ".join(line.why) for line in found(CORNER, memory).lines)
    assert "corner radius to cutter radius 1.17" in reasons


def test_every_operation_has_a_seat(memory: dict[str, Any]) -> None:
    """A second operation with fewer facts is not crowded out by the first."""
    tapped = {"operation": "tap", "cutter": {"tool_kind": "cut_tap"}, "geometry": {"thread": "M6", "depth": "12 mm"}}
    both = {**CORNER, "setups": [{"operations": [*CORNER["setups"][0]["operations"], tapped]}]}
    assert {line.operation for line in found(both, memory).lines} == {"finish_wall", "tap"}


def test_a_job_like_nothing_is_told_so(memory: dict[str, Any]) -> None:
    """Nothing given, nothing matched; and less likeness than ALIKE is no match."""
    assert found({"part": "?"}, memory).ranked == ()
    html = brief_html(memory, {"part": "?"}, {}, ".")
    assert "Nothing in the memory is like this job" in html
    assert 0 < ALIKE < 1


def test_the_job_s_sums_are_the_calculators_own(memory: dict[str, Any]) -> None:
    """The corner's answer is what its calculator says to those numbers; the worst verdict comes first."""
    done = sums(CORNER, memory["settings"])
    corner = next(one for one in done if one.calculator.name == "corner-clearance")
    assert corner.answer == work_out("corner-clearance", corner.inputs).to_dict()
    assert corner.inputs["corner_radius"] == "7 mm" and corner.inputs["acceleration"] == "2 m/s2"
    verdicts = [one.answer["verdict"] for one in done if one.answer]
    assert verdicts == sorted(verdicts, key=["stop", "watch", "ok"].index)


def test_one_missing_fact_is_asked_for(memory: dict[str, Any]) -> None:
    """Without the depth on the wall the chip's sum cannot be done, and nothing is made up."""
    asked = [one for one in sums(CORNER, memory["settings"]) if one.answer is None]
    assert asked and all(one.lacks and one.lacks.told for one in asked)


def test_cutters_and_machine_come_from_the_shop(memory: dict[str, Any]) -> None:
    """A cutter of the shop brings its numbers; what the job says itself stands above them."""
    operation = {"operation": "profile", "cutter_of_shop": "em6", "cutter": {"stick_out": "40 mm"}}
    job = {"part": "x", "machine": "bed-mill", "setups": [{"operations": [operation]}]}
    (one,) = situations(job, memory["settings"])
    assert one.fields["cutter"]["cutter_diameter"] == "6 mm" and one.fields["cutter"]["stick_out"] == "40 mm"
    assert facts_for(one, job, memory["settings"])["max_spindle_speed"] == "8000 rpm"
    assert [(tool.number, tool.stick_out) for tool in tools(job, memory["settings"])] == [("3", "40 mm")]


def test_power_between_the_points_of_a_curve() -> None:
    """Linear between points, none beyond them, none without a speed."""
    curve = {"power_at": [{"spindle_speed": "1000 rpm", "spindle_power": "1 kW"},
                          {"spindle_speed": "4000 rpm", "spindle_power": "4 kW"}]}  # fmt: skip
    assert at_speed(curve, "2500 rpm") == {"spindle_power": "2.5 kW"}
    assert at_speed(curve, "9000 rpm") == {} and at_speed(curve, None) == {} and at_speed({}, "2500") == {}


def test_the_card_takes_the_shop_s_lines() -> None:
    """The usual ones, until the shop says its own."""
    assert lines({}) == USUAL and lines({"first_run": ["Ask Ann."]}) == ("Ask Ann.",)
    assert "Ask Ann." in card_html({}, {"first_run": ["Ask Ann."]})


def test_the_datum_plan_says_what_is_open() -> None:
    """One line a set-up; nothing said is said."""
    job = {"setups": [{"datum": {"work_offset": "G54", "finder_kind": "dial"}}, {"name": "Other side"}]}
    assert datum_plan(job) == [
        ("Set-up 1", "G54, with dial"),
        ("Other side", "nobody has said how the zero is found"),
    ]


def test_a_page_asks_and_gets_the_same_text(memory: dict[str, Any]) -> None:
    """The desk in the browser answers with the very HTML of the build."""
    reply = json.loads(Desk(json.dumps(memory)).answer(json.dumps(CORNER), "."))
    assert reply["brief"] == brief_html(memory, CORNER, memory["settings"], ".")
    assert reply["card"] == card_html(CORNER, memory["settings"])


@pytest.mark.parametrize(
    "nonsense",
    ["", "7", "[]", '"x"', "{", '{"setups": 7}', '{"setups": [7]}', '{"setups": [{"operations": [[]]}]}',
     '{"setups": [{"operations": [{"cutter": "x"}]}]}', '{"material": 7, "setups": null}'],
)  # fmt: skip
def test_nonsense_is_refused_in_one_line(nonsense: str, memory: dict[str, Any]) -> None:
    """Whatever a page sends: an answer or one plain line."""
    reply = json.loads(Desk(json.dumps(memory)).answer(nonsense, "."))
    assert reply["ok"] in (True, False) and (reply["ok"] or "\n" not in reply["message"])


def test_what_was_typed_is_text_on_the_page(memory: dict[str, Any]) -> None:
    """No mark-up of a sheet's author reaches the page."""
    job = {"setups": [{"name": "<b>x</b>", "datum": {"plan": "<script>"},
                       "operations": [{"operation": "<i>", "cutter": {"tool_number": "<u>"}}]}]}  # fmt: skip
    text = brief_html(memory, job, {}, ".") + card_html(job, {})
    assert not any(mark in text for mark in ("<b>", "<script", "<i>", "<u>"))


def test_the_demo_s_job_reads(shop: Any) -> None:
    """The demo's job sheets are good, and their fields come back as typed."""
    assert shop.jobs
    for job in shop.jobs:
        fields, problems = read_fields((DEMO / job.path).read_bytes(), job.path)
        assert not problems and fields == job.typed


def test_two_facts_that_disagree_are_told(memory: dict[str, Any]) -> None:
    """The grip and the height of the shop's vice cannot both be true: the sum is not done, and says why."""
    holding = {"vice": "vice", "grip_height": "3 mm", "part_height": "50 mm", "parallel_height": "30 mm",
               "lowest_cut": "38 mm"}  # fmt: skip
    job = {"setups": [{"holding": holding, "operations": [{"operation": "face"}]}]}
    heights = [one for one in sums(job, memory["settings"]) if one.calculator.name == "heights"]
    assert [one.answer for one in heights] == [None] and heights[0].lacks and "do not agree" in heights[0].lacks.told
    right = {**holding, "grip_height": "10 mm"}
    other = {"setups": [*job["setups"], {"holding": right, "operations": [{"operation": "drill"}]}]}
    told = [one.verdict for one in sums(other, memory["settings"]) if one.calculator.name == "heights"]
    assert "watch" in told and len(told) == 2  # the one set-up is told though the other's sum is done


def test_equal_sums_are_one_line_that_names_all_operations(memory: dict[str, Any]) -> None:
    """Profile and finish wall with the same numbers: one corner, both named."""
    (operation,) = CORNER["setups"][0]["operations"]
    other = {**operation, "operation": "profile"}
    done = sums({**CORNER, "setups": [{"operations": [operation, other]}]}, memory["settings"])
    (corner,) = [one for one in done if one.calculator.name == "corner-clearance"]
    assert corner.where == "Set-up 1: finish wall, profile"


def test_operations_without_a_line_are_named(memory: dict[str, Any]) -> None:
    """Many operations, seven lines: whose rules found no room is said; what is known is no first of its kind."""
    names = ("face", "pocket", "slot", "chamfer", "drill", "tap", "ream", "saw", "thread_mill", "find_edge", "indicate",
             "finish_wall", "hand_deburr", "bore", "ramp_or_helix_entry")  # fmt: skip
    told = found({"material": "5083", "setups": [{"operations": [{"operation": name} for name in names]}]}, memory)
    assert len(told.lines) == MOST and told.unseated and not told.new
    seated = {line.called for line in told.lines}
    assert not set(told.unseated) & seated
    nothing = {**memory, "keyed": {**memory["keyed"], "operation_family": {}, "operation": {}}}
    assert found({"material": "5083", "setups": [{"operations": [{"operation": "saw"}]}]}, nothing).new == (
        "saw (Set-up 1)",
    )


@pytest.mark.parametrize(
    ("verdict", "setups", "where"),
    [
        ("watch", 7, "slot, tap in 7 set-ups"), ("stop", 7, "every set-up: slot, tap"),
        ("stop", 4, "A, B, C, D: slot, tap"), ("watch", 2, "A, B: slot, tap"),
    ],
)  # fmt: skip
def test_many_set_ups_are_counted_but_for_what_must_not_be_run(verdict: str, setups: int, where: str) -> None:
    """A stop names its set-ups, or says that it is every one of the seven."""
    places = tuple((name, operation) for name in "ABCDEFG"[:setups] for operation in ("slot", "tap"))
    one = Sum(named("corner-clearance"), "A", "slot", {}, {"verdict": verdict}, places=places, setups=7)
    assert one.where == where


def test_many_sums_without_a_fault_are_folded_and_counted(memory: dict[str, Any]) -> None:
    """Those that stop or want watching are never among them."""
    page = brief_html(memory, large_job(), memory["settings"], ".")
    seen, _, folded = page.partition('<details class="job-sums-ok">')
    quiet = [one for one in sums(large_job(), memory["settings"]) if one.answer and one.answer["verdict"] == "ok"]
    assert len(quiet) > SEEN and f"<summary>{len(quiet)} more with no fault found" in folded
    assert "job-sum--ok" not in seen and "job-sum--stop" in seen
    assert not re.search("job-sum--(stop|watch)", folded)


def test_the_bar_of_the_sheet_is_held_against_the_blank(memory: dict[str, Any]) -> None:
    """A bar 8 mm too narrow is no blank; one that cannot be read is told, and never passed over as if it were none."""
    sizes = {"finished_length": "100 mm", "finished_width": "78 mm", "finished_height": "58 mm"}

    def stock(many: str = "1", **more: str) -> Any:
        job = {"quantity": many, "stock": sizes | more, "setups": [{"operations": [{"operation": "saw"}]}]}
        return next(one for one in sums(job, memory["settings"]) if one.calculator.name == "stock-allowance")

    narrow, wide = stock(bar="70 x 50"), stock(bar="90 x 70")
    assert narrow.answer["verdict"] == "stop" and "too small" in narrow.answer["reason"]
    assert wide.answer["verdict"] == "ok"
    assert (
        "2 bars are needed, 8 blanks from each"
        in stock(bar="90 x 70", bar_length="1000 mm", many="12").answer["reason"]
    )
    for bar, faces in (("80 x 60 flat", "2,0,0"), ("plate 12", "2,0,0"), ("90 x 70", "2")):
        odd = stock(bar=bar, sawn_faces=faces)
        assert odd.answer is None and odd.lacks and "cannot be taken" in odd.lacks.told
        html = brief_html(memory, {"stock": sizes | {"bar": bar, "sawn_faces": faces}}, memory["settings"], "..")
        assert "Not done: " in html and "cannot be taken" in html
