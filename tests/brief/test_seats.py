"""How the seven lines are shared: stages that a sheet names, operations, and dangers."""

import json
from pathlib import Path
from typing import Any

import pytest

from hooks.brief.lines import MOST, Brief, brief
from hooks.brief.situations import situations
from hooks.brief.sums import sums
from hooks.shop.match import same_mishap
from hooks.shop.read import read_shop
from hooks.site.known import known

DEMO = Path(__file__).parents[2] / "content" / "demo"
OUTSIDE: dict[str, Any] = {
    "operation": "profile", "pass": "roughing",
    "cutter": {"tool_kind": "end_mill", "cutter_diameter": "10 mm", "stick_out": "30 mm"},
}  # fmt: skip


@pytest.fixture(scope="module")
def memory() -> dict[str, Any]:
    """The demo shop's memory, as it goes through JSON to a browser."""
    return json.loads(json.dumps(known(read_shop(DEMO))))


def _found(memory: dict[str, Any], *setups: dict[str, Any]) -> Brief:
    job = {"part": "x", "material": "6061", "setups": list(setups)}
    return brief(memory, situations(job, memory["settings"]))


def test_a_named_stage_has_a_seat_beside_every_operation(memory: dict[str, Any]) -> None:
    """A restart in the middle of a profile: rules of restarting stand beside those of the cut, and say why."""
    told = _found(memory, {"stages": ["restart"], "operations": [OUTSIDE]})
    restart = [line for line in told.lines if line.why[0] == "same stage: restart"]
    assert restart and any(line.operation == "profile" for line in told.lines)
    assert {line.called for line in restart} == {"restart (Set-up 1)"}
    without = _found(memory, {"operations": [OUTSIDE]})
    assert not any("restart" in reason for line in without.lines for reason in line.why)


@pytest.mark.parametrize(
    ("note", "stage"),
    [
        ("Power went last night half way round; still in the vice.", "restart"),
        ("To be picked up after line 400", "restart"),
        ("Vice back on, tram it first", "tram_vice"), ("New tools in all holders", "set_tool_length"),
        ("Powerful coolant, tramline marks", ""), ("A new vice", ""),
    ],
)  # fmt: skip
def test_a_note_names_a_stage_as_a_tick_does(memory: dict[str, Any], note: str, stage: str) -> None:
    """In the operation's note, the set-up's, or the job's, which is about the first set-up."""
    job = {"part": "x", "material": "6061", "setups": [{"operations": [OUTSIDE]}, {"operations": [OUTSIDE]}]}
    first, second = job["setups"]
    for noted in (
        {**job, "note": note},
        {**job, "setups": [{**first, "holding": {"note": note}}, second]},
        {**job, "setups": [{"operations": [{**OUTSIDE, "note": note}]}, second]},
    ):
        named = [(one.setup, one.stage) for one in situations(noted, memory["settings"]) if one.stage]
        assert named == ([("Set-up 1", stage)] if stage else [])


def test_an_operation_s_seat_is_for_a_rule_about_it(memory: dict[str, Any]) -> None:
    """With a zero to be found, rules about zeros fit every operation; yet tapping gets a rule about threads."""
    tap = {"operation": "tap", "geometry": {"feature": "thread", "thread": "M6"}}
    told = _found(memory, {"datum": {"finder_kind": "kicking"}, "operations": [OUTSIDE, tap]})
    assert any({"same operation: tap", "same sort of operation: threads"} & set(line.why) for line in told.lines)
    assert any("same danger: a wrong zero" in line.why for line in told.lines) and not told.unseated


ROUND_THE_END = {"cutting": {"radial_depth": "1 mm"}, "geometry": {"pocket_width": "12 mm"}}


def test_a_stage_adds_no_sum(memory: dict[str, Any]) -> None:
    """The sums of a job are those of its operations, named as before."""
    setup = {"holding": {"grip_height": "3 mm"}, "operations": [{**OUTSIDE, **ROUND_THE_END}]}
    plain, staged = (sums({"material": "6061", "setups": [one]}, memory["settings"])
                     for one in (setup, {**setup, "stages": ["restart"]}))  # fmt: skip
    assert plain and [(one.calculator.name, one.where) for one in plain] == [
        (one.calculator.name, one.where) for one in staged
    ]


@pytest.mark.parametrize("name", ["Second side", "other side, by the pin", "Turned over", "flipped", "Back-side"])
def test_a_set_up_called_second_side_is_turned_over(name: str) -> None:
    """Even where the sheet holds only that one; "First side" and a name that only sounds alike are not."""
    (one,) = situations({"setups": [{"name": name}]}, {})
    assert one.fields["stage"] == ["turn_part_over"]
    for other in ("First side", "Turning block, outside", "Inside"):
        (one,) = situations({"setups": [{"name": other}]}, {})
        assert one.fields["stage"] == []


def test_an_operation_that_is_a_stage_says_so() -> None:
    """Sawing, finding an edge and deburring are stages of the work as well."""
    for operation, stage in (("saw", "saw"), ("find_edge", "set_work_offset"), ("hand_deburr", "deburr")):
        (one,) = situations({"setups": [{"operations": [{"operation": operation}]}]}, {})
        assert one.fields["stage"] == [stage]


TIGHT: dict[str, Any] = {
    "operation": "finish_wall", "pass": "finishing", "cutter": {"tool_kind": "end_mill", "cutter_diameter": "8 mm"},
    "geometry": {"feature": "slot", "pocket_width": "9 mm"},
}  # fmt: skip


def test_one_mishap_takes_one_line_and_all_that_tell_it_are_under_it(memory: dict[str, Any]) -> None:
    """A cutter that hardly fits its slot: many lessons are about just that; the other lines are about other things."""
    of = dict(zip(memory["ids"], (one["mishap"] for one in memory["told"]), strict=True))
    told = _found(memory, {"operations": [TIGHT]})
    corner = [line for line in told.lines if of[line.id] and of[line.id]["danger"] == "corner"]
    assert corner[0].more and len(told.lines) > len(corner)
    for line in told.lines:
        assert all(more.rule == line.rule or same_mishap(of[more.id], of[line.id]) for more in line.more)
        assert not any(same_mishap(of[other.id], of[line.id]) for other in told.lines if other is not line)
    ids = [one.id for one in told.ranked]
    assert len(set(ids)) == len(ids) and {more.id for line in told.lines for more in line.more} <= set(ids)


def test_what_is_under_a_line_has_no_seat_of_its_own_and_no_place_in_the_rest(memory: dict[str, Any]) -> None:
    """Also for the lessons that have no rule yet: they are read with those that have one."""
    told = _found(memory, {"operations": [TIGHT, OUTSIDE, {"operation": "saw"}, {"operation": "drill"}]})
    under = [more for line in told.lines for more in line.more]
    assert any(not one.rule for one in under)
    assert not {one.id for one in under} & {one.id for one in (*told.lines, *told.rest)}
    assert len(told.lines) <= MOST
