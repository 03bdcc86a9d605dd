"""How the seven lines are shared: stages that a sheet names, operations, and dangers."""

import json
from pathlib import Path
from typing import Any

import pytest

from hooks.brief.lines import FEW, MOST, Brief, brief
from hooks.brief.situations import situations
from hooks.brief.sums import sums
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


def _dangers(memory: dict[str, Any], told: Brief) -> list[list[str]]:
    of = dict(zip(memory["ids"], (one["dangers"] for one in memory["told"]), strict=True))
    return [of[line.id] for line in told.lines]


def test_a_named_stage_has_a_seat_beside_every_operation(memory: dict[str, Any]) -> None:
    """A restart in the middle of a profile: rules of restarting stand beside those of the cut, and say why."""
    told = _found(memory, {"stages": ["restart"], "operations": [OUTSIDE]})
    restart = [line for line in told.lines if line.why[0] == "same stage: restart"]
    assert restart and any(line.operation == "profile" for line in told.lines)
    assert {line.called for line in restart} == {"restart (Set-up 1)"}
    without = _found(memory, {"operations": [OUTSIDE]})
    assert not any("restart" in reason for line in without.lines for reason in line.why)


def test_an_operation_s_seat_is_for_a_rule_about_it(memory: dict[str, Any]) -> None:
    """With a zero to be found, rules about zeros fit every operation; yet tapping gets a rule about threads."""
    tap = {"operation": "tap", "geometry": {"feature": "thread", "thread": "M6"}}
    told = _found(memory, {"datum": {"finder_kind": "kicking"}, "operations": [OUTSIDE, tap]})
    assert any({"same operation: tap", "same sort of operation: threads"} & set(line.why) for line in told.lines)
    assert any("same danger: a wrong zero" in line.why for line in told.lines) and not told.unseated


def test_a_stage_adds_no_sum(memory: dict[str, Any]) -> None:
    """The sums of a job are those of its operations, named as before."""
    setup = {"holding": {"grip_height": "3 mm"}, "operations": [OUTSIDE]}
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


def test_a_danger_that_the_job_does_not_bring_is_told_few_times(memory: dict[str, Any]) -> None:
    """A bare profile in aluminium: chatter, rubbing and the like share the seven."""
    dangers = _dangers(memory, _found(memory, {"operations": [OUTSIDE]}))
    firsts = [ones[0] for ones in dangers if ones]
    assert len(dangers) == MOST and len(set(firsts)) >= 2
    assert max(firsts.count(one) for one in firsts) <= FEW


def test_a_danger_that_the_job_brings_may_fill_the_seven(memory: dict[str, Any]) -> None:
    """A cutter that hardly fits its slot: many rules are about just that; with other operations it gets its share."""
    cutter = {"tool_kind": "end_mill", "cutter_diameter": "8 mm"}
    tight = {"operation": "finish_wall", "pass": "finishing", "cutter": cutter,
             "geometry": {"feature": "slot", "pocket_width": "9 mm"}}  # fmt: skip
    alone = [ones for ones in _dangers(memory, _found(memory, {"operations": [tight]})) if "corner" in ones]
    assert len(alone) > FEW
    others = [
        {"operation": "tap"},
        {"operation": "drill", "geometry": {"feature": "through_hole"}},
        {"operation": "saw"},
    ]
    beside = [ones for ones in _dangers(memory, _found(memory, {"operations": [tight, *others]})) if "corner" in ones]
    assert len(beside) <= FEW
