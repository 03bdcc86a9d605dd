"""The brief: at most seven rules of the shop's own lessons, each with why it was chosen, and the matches behind."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from hooks.brief.situations import Situation
from hooks.shop.match import Match, Mishap, akin, facts_of_job, rank, same_mishap

MOST, BEHIND, RANKED = 7, 30, 60
REASONS = 3
LIGHT = {"iso513", "material", "machine", "words"}  # of these alone no rule is one of the seven
FEATURE = {"feature", "feature_family"}
SORT = "operation_family"  # what makes a lesson one about an operation
ALIKE, AKIN = 0.25, 0.15  # less likeness is chance; the second where the sort of operation is the same
AKIN_METAL = 0.8  # what stainless tells of titanium comes after what titanium tells as well
NEARLY = 0.8  # part of the best likeness from which the safest rule, not the likest, stands at a line's head
TIMES = ("", "", "second time", "third time", "fourth time", "fifth time")


@dataclass(frozen=True)
class Line:
    """One lesson that fits. `rule` is what is done now, "" where nobody has said yet; `score` orders them.

    `alike` is its likeness from 0 to 1; `own`: it is about the very sort of operation, or about the named stage;
    `weighty`: more than the metal or the machine agrees; `shape`: the sort of feature does; `foreign`: its danger turns
    on the metal, and this job has another; `guarded`: what was changed works without being remembered; `more` tell the
    same mishap, best first.
    """

    id: str
    rule: str
    title: str
    why: tuple[str, ...]
    could: str
    proven: bool
    score: float
    setup: str
    operation: str
    called: str
    alike: float
    own: bool
    weighty: bool
    shape: bool
    foreign: bool
    guarded: bool
    mishap: Mishap | None
    more: tuple["Line", ...] = ()


@dataclass(frozen=True)
class Brief:
    """`lines` in the order to read them; `rest` fits as well but has no rule, or is the eighth and beyond.

    `new` and `unseated` name operations: those the memory knows nothing about, and those with rules but no line.
    """

    lines: tuple[Line, ...]
    rest: tuple[Line, ...]
    new: tuple[str, ...] = ()
    unseated: tuple[str, ...] = ()

    @property
    def ranked(self) -> tuple[Line, ...]:
        """All of them, best first."""
        told = (*self.lines, *(one for line in self.lines for one in line.more), *self.rest)
        return tuple(sorted(told, key=_best_first))


def brief(known: Mapping[str, Any], found: list[Situation]) -> Brief:
    """The brief of a job's situations, from the columns of all lessons (hooks.shop.match) with `told` beside them."""
    best: dict[str, Line] = {}
    met: dict[str, set[str]] = {}  # for each operation that the memory knows about, the rules there are (by family)
    for where in found:
        facts = facts_of_job(where.fields)
        held = known["keyed"].get(SORT, {})
        same_sort = {at for key in facts.get(SORT, ()) for at in held.get(key, ())}
        for match in rank(known, facts, RANKED):
            told = known["told"][match.at]
            if match.alike < (AKIN if match.at in same_sort else ALIKE) or told["state"] == "retired":
                continue
            line = _line(match, where, told, not where.operation or match.at in same_sort, facts.get("iso513", ""))
            if match.at in same_sort:
                met.setdefault(where.called, set()).update([told["family"]] if line.rule else [])
            before = best.get(told["family"])
            if before is None or _telling(line) > _telling(before):
                best[told["family"]] = line
    ordered = sorted(best.values(), key=_best_first)
    first = [headed(group) for group in seats(gathered(ordered))]
    ids = {one.id for head in first for one in (head, *head.more)}
    rest = tuple(one for one in ordered if one.id not in ids)[:BEHIND]
    called = list(dict.fromkeys(one.called for one in found if one.operation))
    shown = {family for family, line in best.items() if line.id in ids}
    return Brief(
        lines=tuple(first),
        rest=rest,
        new=tuple(one for one in called if one not in met),
        unseated=tuple(one for one in called if met.get(one) and not met[one] & shown),
    )


def _telling(one: Line) -> tuple[bool, bool, float]:
    """Of lessons that repeat each other the one that may be a line, else has a rule, else fits best."""
    return _leads(one), bool(one.rule), one.score


def _leads(one: Line) -> bool:
    """Whether a rule may be one of the seven."""
    return bool(one.rule) and one.weighty and not one.foreign


def seats(groups: list[list[Line]]) -> list[list[Line]]:
    """The seven to be read: the best of each operation and named stage has a seat, the others go by their score."""
    own = {group[0].called: group for group in reversed(groups) if group[0].own and group[0].alike >= ALIKE}
    seated = sorted(own.values(), key=lambda group: _best_first(group[0]))[:MOST]
    seated += [group for group in groups if group not in seated][: MOST - len(seated)]
    return [group for group in groups if group in seated]


def _best_first(one: Line) -> tuple[float, str]:
    return -one.score, one.id


def gathered(ordered: list[Line]) -> list[list[Line]]:
    """One group for each mishap that has a rule, the best of its rules first: all in it tell the same as each other."""
    groups: list[list[Line]] = []
    for one in sorted(ordered, key=lambda one: not _leads(one)):  # those that may be a line first, each sort best first
        group = next((group for group in groups if _same(one, group)), None)
        if group:
            group.append(one)
        elif _leads(one):
            groups.append([one])
    return [[group[0], *sorted(group[1:], key=_best_first)] for group in groups]


def headed(group: list[Line]) -> Line:
    """The safest rule of those that fit nearly as well as the best and where it does, the others under it."""
    best = group[0]
    near = [best, *(one for one in group[1:] if _stands_for(one, best))]
    head = max(near, key=lambda one: (one.proven, one.guarded))  # the first of equals: the likest
    why = head.why if head is best else (*head.why, "the safest rule on this danger")
    return replace(head, why=why, more=tuple(one for one in group if one is not head))


def _stands_for(one: Line, best: Line) -> bool:
    """Whether a rule may stand before the best match: for the same operation, metal and sort of feature."""
    fits = one.alike >= NEARLY * best.alike and one.shape >= best.shape
    return _leads(one) and one.called == best.called and fits


def _same(one: Line, group: list[Line]) -> bool:
    """One mishap, or one rule, however often it is told."""
    return all(_rule(one) == _rule(other) or same_mishap(one.mishap, other.mishap) for other in group)


def _rule(one: Line) -> str:
    return " ".join(one.rule.casefold().split()).rstrip(".")


def _line(match: Match, where: Situation, told: Mapping[str, Any], own: bool, metal: str) -> Line:
    times = told["times"]
    often = (TIMES[times] if times < len(TIMES) else f"{times} times",) if times > 1 else ()
    again = ("it came back",) if told["state"] == "came_back" else ()
    held = (told["held"],) if told["held"] else ()
    foreign = not akin(metal, told["metal"])
    other = metal and told["metal"] not in ("", metal) and not foreign
    return Line(
        id=match.id,
        rule=told["now_do"],
        title=told["title"],
        why=(*match.why[:REASONS], *often, *again, *held),
        could=told["could"],
        proven=told["state"] == "held",
        score=round(AKIN_METAL * match.score, 3) if other else match.score,
        setup=where.setup,
        operation=where.operation,
        called=where.called,
        alike=match.alike,
        own=own,
        weighty=not LIGHT.issuperset(match.rows),
        shape=not FEATURE.isdisjoint(match.rows),
        foreign=foreign,
        guarded=told["guarded"],
        mishap=told["mishap"],
    )
