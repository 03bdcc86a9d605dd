"""The brief: at most seven rules of the shop's own lessons, each with why it was chosen, and the matches behind."""

import math
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from hooks.brief.situations import Situation
from hooks.shop.match import Match, facts_of_job, rank

MOST, BEHIND, RANKED = 7, 30, 60
REASONS = 3
FEW = 3  # lines of one danger, while others wait for a seat
LIGHT = {"iso513", "material", "machine", "words"}  # of these alone no rule is one of the seven
SORT = "operation_family"  # what makes a lesson one about an operation
ALIKE, AKIN = 0.25, 0.15  # less likeness is chance; the second where the sort of operation is the same
TIMES = ("", "", "second time", "third time", "fourth time", "fifth time")


@dataclass(frozen=True)
class Line:
    """One lesson that fits. `rule` is what is done now, "" where nobody has said yet; `score` orders them.

    `danger` is the one that it tells of, "" where nobody knows; `brought`: the job's own facts bring it too; `own`: it
    is about the very sort of operation, or about the named stage; `weighty`: more than the metal or the machine agrees.
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
    danger: str
    brought: bool
    own: bool
    weighty: bool


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
        return (*self.lines, *self.rest)


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
            line = _line(match, where, told, facts.get("danger", ()), not where.operation or match.at in same_sort)
            if match.at in same_sort:
                met.setdefault(where.called, set()).update([told["family"]] if line.rule else [])
            before = best.get(told["family"])
            if before is None or (bool(line.rule), line.score) > (bool(before.rule), before.score):
                best[told["family"]] = line
    ordered = sorted(best.values(), key=_best_first)
    first = _seats(list(_once(one for one in ordered if one.rule and one.weighty)))
    rest = tuple(one for one in ordered if one not in first)[:BEHIND]
    called = list(dict.fromkeys(one.called for one in found if one.operation))
    shown = {family for family, line in best.items() if line in first}
    return Brief(
        lines=tuple(first),
        rest=rest,
        new=tuple(one for one in called if one not in met),
        unseated=tuple(one for one in called if met.get(one) and not met[one] & shown),
    )


def _seats(rules: list[Line]) -> list[Line]:
    """The seven to be read: the best of each operation and named stage has a seat, the others go by their score.

    One danger has no more than its share while others wait: FEW, or where the job's own facts bring it as many as
    there are for each operation.
    """
    heads = {one.called: one for one in reversed(rules) if one.own and one.alike >= ALIKE}.values()
    seated = sorted(heads, key=_best_first)[:MOST]
    operations = sum(bool(one.operation) for one in seated) or 1
    share = max(FEW, math.ceil(MOST / operations))
    crowd: list[Line] = []
    for one in rules:
        if one not in seated and len(seated) < MOST:
            beside = sum(other.danger == one.danger for other in seated) if one.danger else 0
            (seated if beside < (share if one.brought else FEW) else crowd).append(one)
    return sorted([*seated, *crowd[: MOST - len(seated)]], key=_best_first)


def _best_first(one: Line) -> tuple[float, str]:
    return -one.score, one.id


def _once(lines: Iterator[Line]) -> Iterator[Line]:
    """Each rule once, however many lessons say it."""
    said: set[str] = set()
    for one in lines:
        key = " ".join(one.rule.casefold().split()).rstrip(".")
        if key not in said:
            said.add(key)
            yield one


def _line(match: Match, where: Situation, told: Mapping[str, Any], brought: Iterable[str], own: bool) -> Line:
    shared = [one for one in told["dangers"] if one in brought]
    times = told["times"]
    often = (TIMES[times] if times < len(TIMES) else f"{times} times",) if times > 1 else ()
    again = ("it came back",) if told["state"] == "came_back" else ()
    return Line(
        id=match.id,
        rule=told["now_do"],
        title=told["title"],
        why=(*match.why[:REASONS], *often, *again),
        could=told["could"],
        proven=told["state"] in ("held", "kept"),
        score=match.score,
        setup=where.setup,
        operation=where.operation,
        called=where.called,
        alike=match.alike,
        danger=next(iter((*shared, *told["dangers"])), ""),
        brought=bool(shared),
        own=own,
        weighty=not LIGHT.issuperset(match.rows),
    )
