"""Columns of many lessons, made once, and the ranking on them: the same in build, terminal and browser."""

import heapq
import math
from bisect import bisect_left, bisect_right
from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from calc.show import show
from hooks.shop.match.dangers import BY_KEY, keys_of, told, turns_on
from hooks.shop.match.facts import Facts, facts_of
from hooks.shop.match.table import (
    CHANCE,
    FAMILIES,
    LIKENESS,
    NOT_OF_JOBS,
    ONLY_JOB,
    ONLY_LESSON,
    OUTCOMES,
    PROVEN,
    ROWS,
    SEVERITY,
    UNPROVEN,
    UNSAID,
    Row,
)

Columns = Mapping[str, Any]
WORDS = "words"
WEIGHTS = {row.name: row.weight for row in ROWS if row.name != WORDS}
AMONG = frozenset(row.name for row in ROWS if row.how == "among")  # what does not agree there contradicts nothing
HALF = -math.log(2)
COMMON_IN, COMMON_SHARE = 20, 0.03  # lessons, or share of them, from which a word is no longer rare
WINDOW = 2  # times the logarithm that counts half: a number farther off counts under a sixteenth


@dataclass(frozen=True)
class Match:
    """A lesson that fits: how well (a score only for comparing), its likeness from 0 to 1, and why.

    `at` is its number in the columns; `rows` are those that agree, in the order of `why`.
    """

    id: str
    score: float
    alike: float
    why: tuple[str, ...]
    at: int
    rows: tuple[str, ...]


def columns(lessons: Iterable[Any], states: Mapping[str, str]) -> dict[str, Any]:
    """The columns of many lessons (each with `.id` and `.fields`), as plain JSON; `states` by id.

    `keyed`: {row: {key: [lesson numbers]}}; `near`: {row: [[logarithms, rising], [their lesson numbers]]};
    `sizes`: {row: {lesson number: keys it has}}; `extra`: what likeness counts for in each lesson, whatever the facts;
    `sorts`: each lesson's place in `has`: [[rows that it has], place in `turns` of the rows that it turns on].
    """
    ids, keyed, numbers = [], _nested(), defaultdict(list)
    extra, sorts, has, turns = [], [], {}, {}
    sizes = {row.name: {} for row in ROWS if row.how == "shared"}
    for at, lesson in enumerate(lessons):
        ids.append(lesson.id)
        extra.append(_extra(lesson.fields, states.get(lesson.id, "")))
        facts = facts_of(lesson.fields)
        turn = turns.setdefault(_turn(lesson.fields), len(turns))
        sorts.append(has.setdefault((tuple(name for name in WEIGHTS if name in facts), turn), len(has)))
        for name, value in facts.items():
            if isinstance(value, list) and name in sizes:
                sizes[name][str(at)] = len(value)
            if isinstance(value, float):
                numbers[name].append((round(math.log(value), 6), at))
            for key in keys_of(value):
                keyed[name][key].append(at)
    return {"ids": ids, "extra": extra, "sorts": sorts, "has": list(has), "turns": list(turns), "keyed": keyed,
            "sizes": sizes, "near": _sorted(numbers)}  # fmt: skip


def _turn(fields: Mapping[str, Any]) -> tuple[str, ...]:
    """The rows that a lesson turns on."""
    bears = turns_on(told(fields))
    return tuple(name for name in WEIGHTS if bears is None or name in bears)


def _sorted(numbers: Mapping[str, list[tuple[float, int]]]) -> dict[str, list[list[Any]]]:
    """Each row's numbers rising, so that the near ones are a slice."""
    pairs = {name: sorted(found) for name, found in numbers.items()}
    return {name: [[log for log, _ in found], [at for _, at in found]] for name, found in pairs.items()}


def _nested() -> defaultdict[str, defaultdict[str, list[int]]]:
    return defaultdict(lambda: defaultdict(list))


@dataclass(frozen=True)
class Asked:
    """One question and what each row found: {row: {lesson number: worth}}, and for numbers their logarithms."""

    known: Columns
    facts: Facts
    parts: Mapping[str, Mapping[int, float]]
    numbers: Mapping[str, Mapping[int, float]]


def rank(known: Columns, facts: Facts, at_most: int, but: str = "") -> list[Match]:
    """The lessons that fit `facts` best, best first; the lesson `but` is left out."""
    rows = [row for row in ROWS if row.name in facts]
    numbers = {row.name: _window(row, known, facts[row.name]) for row in rows if row.how == "near"}
    parts = {
        row.name: _near(row, numbers[row.name], facts[row.name]) if row.how == "near"
        else COMPARE[row.how](row, known, facts[row.name])
        for row in rows
    }  # fmt: skip
    likeness = _likeness(known, facts, parts)
    extra, words = known["extra"], parts.get(WORDS, {})
    totals = [((alike + words.get(at, 0.0)) * extra[at], -at) for at, alike in enumerate(likeness) if alike]
    best = heapq.nlargest(at_most + 1, totals)
    asked = Asked(known, facts, parts, numbers)
    found = [(score, -at) for score, at in best if known["ids"][-at] != but][:at_most]
    return [_match(asked, at, score, likeness[at]) for score, at in found]


def _likeness(known: Columns, facts: Facts, parts: Mapping[str, Mapping[int, float]]) -> list[float]:
    """For each lesson what agrees, over what it is measured against."""
    agreed, among = [0.0] * len(known["ids"]), [0.0] * len(known["ids"])
    for name, found in parts.items():
        if name == WORDS:
            continue
        for at, worth in found.items():
            agreed[at] += worth
        if name in AMONG:
            for at, worth in found.items():
                among[at] += worth
    over = _over(known, facts)
    return [
        agrees / (over[sort] + (1 - ONLY_LESSON) * whole) if agrees else 0.0  # the rest is in `over`
        for agrees, whole, sort in zip(agreed, among, known["sorts"], strict=True)
    ]


def _over(known: Columns, facts: Facts) -> list[float]:
    """For each sort of lesson: what both say, parts of what only one of them says, and CHANCE."""
    said = {name: weight for name, weight in WEIGHTS.items() if name in facts and name not in AMONG}
    job = [CHANCE + ONLY_JOB * sum(said.get(name, 0.0) for name in turn) for turn in known["turns"]]
    lesson = {name: 0.0 if name in NOT_OF_JOBS else ONLY_LESSON * weight for name, weight in WEIGHTS.items()}
    cost = lesson | {name: (1 - ONLY_JOB) * weight for name, weight in said.items()}
    return [job[turn] + sum(cost[name] for name in has) for has, turn in known["has"]]


def _same(row: Row, known: Columns, key: str) -> dict[int, float]:
    return dict.fromkeys(known["keyed"].get(row.name, {}).get(key, ()), row.weight)


def _any(row: Row, known: Columns, keys: list[str] | str) -> dict[int, float]:
    held = known["keyed"].get(row.name, {})
    return {at: row.weight for key in keys_of(keys) for at in held.get(key, ())}


def _words(row: Row, known: Columns, keys: list[str]) -> dict[int, float]:
    """Rare words count most: each by log(1 + lessons/lessons with it), against the five rarest that were asked.

    A word that many lessons have tells nothing and is left out.
    """
    held, count = known["keyed"].get(row.name, {}), len(known["ids"])
    most = max(COMMON_IN, count * COMMON_SHARE)
    worth = {key: math.log(1 + count / len(held[key])) for key in keys if 0 < len(held.get(key, ())) <= most}
    scale = row.weight / (sum(sorted(worth.values(), reverse=True)[:5]) or 1.0)
    found: dict[int, float] = defaultdict(float)
    for key, one in worth.items():
        for at in held[key]:
            found[at] += scale * one
    return {at: min(one, row.weight) for at, one in found.items()}


def _near(row: Row, logs: Mapping[int, float], value: float) -> dict[int, float]:
    """What each number counts by its ratio to `value`: all at 1, half at `halves`."""
    wanted, scale, worth = math.log(value), HALF / math.log(row.halves) ** 2, row.weight
    return {at: worth * math.exp(scale * (log - wanted) ** 2) for at, log in logs.items()}


def _window(row: Row, known: Columns, value: float) -> dict[int, float]:
    """The logarithms of the lessons whose number is near enough to count."""
    logs, lessons = known["near"].get(row.name, ((), ()))
    wanted, half = math.log(value), math.log(row.halves)
    low, high = bisect_left(logs, wanted - WINDOW * half), bisect_right(logs, wanted + WINDOW * half)
    return dict(zip(lessons[low:high], logs[low:high], strict=True))


def _shared(row: Row, known: Columns, keys: list[str]) -> dict[int, float]:
    counts: dict[int, int] = defaultdict(int)
    for key in keys:
        for at in known["keyed"].get(row.name, {}).get(key, ()):
            counts[at] += 1
    sizes, mine = known["sizes"][row.name], len(keys)
    return {at: row.weight * both / (mine + sizes[str(at)] - both) for at, both in counts.items()}


COMPARE: Mapping[str, Callable[[Row, Columns, Any], dict[int, float]]] = {
    "same": _same,
    "any": _any,
    "among": _any,
    "words": _words,
    "shared": _shared,
}


def _match(asked: Asked, at: int, score: float, alike: float) -> Match:
    agree = [row for row in ROWS if asked.parts.get(row.name, {}).get(at, 0.0) > row.weight / 3]
    bears = turns_on(key for key, lessons in asked.known["keyed"].get("danger", {}).items() if _among(at, lessons))
    rows = [row for row in agree if bears is None or row.name in bears] or agree
    names = {row.name for row in rows}
    rows = [row for row in rows if row.name not in FAMILIES or FAMILIES[row.name][0] not in names]  # said already
    rows.sort(key=lambda row: -asked.parts[row.name][at])
    return Match(
        id=asked.known["ids"][at],
        score=round(score, 3),
        alike=round(alike, 3),
        why=tuple(_reason(asked, row, at) for row in rows),
        at=at,
        rows=tuple(row.name for row in rows),
    )


def _among(at: int, lessons: Sequence[int]) -> bool:
    """Whether a rising list holds it."""
    place = bisect_left(lessons, at)
    return place < len(lessons) and lessons[place] == at


def _reason(asked: Asked, row: Row, at: int) -> str:
    """One plain reason: "same operation: finish wall", "cutter diameter 6 mm, there 6.35 mm"."""
    here = asked.facts[row.name]
    if row.how == "near":
        there = math.exp(asked.numbers[row.name][at])
        return f"{row.said} {show(here, row.unit)}, there {show(there, row.unit)}"
    held = asked.known["keyed"].get(row.name, {})
    shared = [key for key in keys_of(here) if _among(at, held.get(key, ()))]
    words = ", ".join(BY_KEY[key].said if row.name == "danger" else key.replace("_", " ") for key in shared)
    return f"same {row.said}: {words}"


def _extra(fields: Mapping[str, Any], state: str) -> float:
    worst = max(_rank(fields.get("could_have", UNSAID)), _rank(fields.get("outcome")))
    return LIKENESS + SEVERITY * worst / (len(OUTCOMES) - 1) + (0.0 if state in PROVEN else UNPROVEN)


def _rank(outcome: str | None) -> int:
    return OUTCOMES.index(outcome) if outcome in OUTCOMES else 0
