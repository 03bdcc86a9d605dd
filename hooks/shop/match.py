"""Which lessons fit a situation, by its facts: the same columns and the same ranking in build and browser.

A situation is a plain mapping of the names in `ROWS` to what is known there: a key for "same", a
positive number for "near", keys for "shared"; what is not known is left out. Columns are made once
from all lessons, are plain JSON, and keep for each row only the lessons that have it.
"""

import heapq
import math
import re
from bisect import bisect_left, bisect_right
from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from calc.show import show

Facts = Mapping[str, Any]
Columns = Mapping[str, Any]


@dataclass(frozen=True)
class Row:
    """One fact that is compared, and what it counts.

    `how`: same = equal keys; near = numbers compared by their ratio, where one that is `halves` times
    the other counts half; shared = the part of both lists of keys that they have in common.
    """

    name: str
    said: str
    how: str
    weight: float
    halves: float = 0.0
    unit: str = "1"


# How much each fact says about whether a lesson fits. Set by judgement of the trade, no source; the
# ratios weigh most because they decide engagement and stiffness whatever the size of the part.
ROWS = (
    Row("operation", "operation", "same", 3.0),
    Row("feature", "feature", "same", 2.0),
    Row("tool_kind", "kind of cutter", "same", 2.0),
    Row("iso513", "material group", "same", 2.0),
    Row("holding_kind", "way of holding", "same", 2.0),
    Row("stage", "stage", "same", 1.5),
    Row("kind", "kind of mishap", "same", 1.5),
    Row("machine", "machine", "same", 0.5),
    Row("contributing", "what helped it to happen", "shared", 3.0),
    Row("surface", "marks on the surface", "shared", 2.5),
    Row("tool_state", "state of the cutter", "shared", 2.0),
    Row("corner_to_cutter", "corner radius to cutter radius", "near", 3.0, 1.15),
    Row("width_to_cutter", "pocket width to cutter diameter", "near", 3.0, 1.3),
    Row("stick_out_to_cutter", "stick-out to cutter diameter", "near", 2.0, 1.4),
    Row("depth_to_cutter", "axial depth to cutter diameter", "near", 1.5, 1.7),
    Row("engagement", "radial depth to cutter diameter", "near", 1.5, 1.7),
    Row("cutter_diameter", "cutter diameter", "near", 1.0, 1.5, "mm"),
    Row("feed_per_tooth", "feed per tooth", "near", 1.0, 1.6, "mm"),
    Row("wall_thickness", "wall thickness", "near", 2.0, 1.5, "mm"),
    Row("floor_thickness", "floor thickness", "near", 2.0, 1.5, "mm"),
    Row("hole_diameter", "hole diameter", "near", 1.0, 1.4, "mm"),
    Row("hardness", "hardness (HRC)", "near", 1.0, 1.15),
)
# Where the facts are in a lesson's fields; a ratio is the first over the second, times the number.
SINGLE = ("operation", "iso513", "stage", "kind", "machine", "contributing", "surface", "tool_state")
GROUPS = ("cutter", "holding", "cutting", "geometry")
RATIOS = (
    ("corner_to_cutter", "corner_radius", "cutter_diameter", 2.0),
    ("width_to_cutter", "pocket_width", "cutter_diameter", 1.0),
    ("stick_out_to_cutter", "stick_out", "cutter_diameter", 1.0),
    ("depth_to_cutter", "axial_depth", "cutter_diameter", 1.0),
    ("engagement", "radial_depth", "cutter_diameter", 1.0),
)
# Added whatever the facts: for what it could have come to, and where nothing proves its cure.
SEVERITY, UNPROVEN = 1.0, 0.5
OUTCOMES = ("nothing", "rework", "scrapped_part", "broken_tool", "damaged_machine", "hurt_person")
PROVEN = ("held", "kept", "retired")
HALF = -math.log(2)
WINDOW = 2  # times the logarithm that counts half: a number farther off counts under a sixteenth
HRC = re.compile(r"(\d+(?:[.,]\d+)?)\s*HRC", re.IGNORECASE)


@dataclass(frozen=True)
class Match:
    """A lesson that fits: how well (a score only for comparing), the share of what could agree, and why."""

    id: str
    score: float
    share: float
    why: tuple[str, ...]


def facts_of(fields: Mapping[str, Any]) -> dict[str, Any]:
    """The comparable facts of a lesson's or a job's fields (typed: quantities have `.value` in mm)."""
    parts = {key: value for group in GROUPS for key, value in (fields.get(group) or {}).items()}
    known = {**{key: fields.get(key) for key in SINGLE}, **parts}
    facts = {row.name: known.get(row.name) for row in ROWS}
    facts |= {name: _ratio(known, over, under, times) for name, over, under, times in RATIOS}
    facts |= {row.name: _value(facts[row.name]) for row in ROWS if row.how == "near"}
    facts["hardness"] = _hardness(fields.get("hardness"))
    return {key: _plain(value) for key, value in facts.items() if value}


def _plain(value: Any) -> Any:
    """Each key of a list once, as JSON has it."""
    return list(dict.fromkeys(value)) if isinstance(value, list | tuple) else value


def columns(lessons: Iterable[Any], states: Mapping[str, str]) -> dict[str, Any]:
    """The columns of many lessons (each with `.id` and `.fields`), as plain JSON; `states` by id.

    `keyed`: {row: {key: [lesson numbers]}}; `near`: {row: [[logarithms, rising], [their lesson numbers]]};
    `sizes`: {row: {lesson number: keys it has}}; `extra`: what each lesson is worth whatever the facts.
    """
    ids, keyed, numbers = [], _nested(), defaultdict(list)
    extra, sizes = [], {row.name: {} for row in ROWS if row.how == "shared"}
    for at, lesson in enumerate(lessons):
        ids.append(lesson.id)
        extra.append(_extra(lesson.fields, states.get(lesson.id, "")))
        for name, value in facts_of(lesson.fields).items():
            if isinstance(value, list):
                sizes[name][str(at)] = len(value)
            if isinstance(value, float):
                numbers[name].append((round(math.log(value), 6), at))
            for key in _keys(value):
                keyed[name][key].append(at)
    return {"ids": ids, "extra": extra, "keyed": keyed, "sizes": sizes, "near": _sorted(numbers)}


def _sorted(numbers: Mapping[str, list[tuple[float, int]]]) -> dict[str, list[list[Any]]]:
    """Each row's numbers rising, so that the near ones are a slice."""
    pairs = {name: sorted(found) for name, found in numbers.items()}
    return {name: [[log for log, _ in found], [at for _, at in found]] for name, found in pairs.items()}


def _nested() -> defaultdict[str, defaultdict[str, list[int]]]:
    return defaultdict(lambda: defaultdict(list))


def _keys(value: Any) -> list[str]:
    if isinstance(value, list):
        return value
    return [value] if isinstance(value, str) else []


def rank(known: Columns, facts: Facts, at_most: int, but: str = "") -> list[Match]:
    """The lessons that fit `facts` best, best first; the lesson `but` is left out."""
    parts = {row.name: COMPARE[row.how](row, known, facts[row.name]) for row in ROWS if row.name in facts}
    scores: dict[int, float] = defaultdict(float)
    for found in parts.values():
        for at, worth in found.items():
            scores[at] += worth
    possible = sum(row.weight for row in ROWS if row.name in facts)
    ids, extra = known["ids"], known["extra"]
    totals = [(scores[at] + extra[at], -at) for at in scores if ids[at] != but]
    best = heapq.nlargest(at_most, totals)
    return [_match(known, facts, parts, -at, total, scores[-at] / possible) for total, at in best]


def _same(row: Row, known: Columns, key: str) -> dict[int, float]:
    return dict.fromkeys(known["keyed"].get(row.name, {}).get(key, ()), row.weight)


def _near(row: Row, known: Columns, value: float) -> dict[int, float]:
    logs, lessons = known["near"].get(row.name, ((), ()))
    wanted, half = math.log(value), math.log(row.halves)
    low, high = bisect_left(logs, wanted - WINDOW * half), bisect_right(logs, wanted + WINDOW * half)
    scale, worth = HALF / half**2, row.weight
    return {lessons[at]: worth * math.exp(scale * (logs[at] - wanted) ** 2) for at in range(low, high)}


def _shared(row: Row, known: Columns, keys: list[str]) -> dict[int, float]:
    counts: dict[int, int] = defaultdict(int)
    for key in keys:
        for at in known["keyed"].get(row.name, {}).get(key, ()):
            counts[at] += 1
    sizes, mine = known["sizes"][row.name], len(keys)
    return {at: row.weight * both / (mine + sizes[str(at)] - both) for at, both in counts.items()}


COMPARE: Mapping[str, Callable[[Row, Columns, Any], dict[int, float]]] = {
    "same": _same,
    "near": _near,
    "shared": _shared,
}


def _match(known: Columns, facts: Facts, parts: Mapping[str, Any], at: int, total: float, share: float) -> Match:
    worth = sorted(((parts[row.name].get(at, 0.0), row) for row in ROWS if row.name in parts), key=_first)
    why = tuple(_reason(row, known, facts, at) for gained, row in reversed(worth) if gained > row.weight / 3)
    return Match(known["ids"][at], round(total, 3), round(share, 3), why)


def _first(pair: tuple[float, Row]) -> float:
    return pair[0]


def _reason(row: Row, known: Columns, facts: Facts, at: int) -> str:
    """One plain reason: "same operation: finish wall", "cutter diameter 6 mm, there 6.35 mm"."""
    here = facts[row.name]
    if row.how == "near":
        logs, lessons = known["near"][row.name]
        there = math.exp(logs[lessons.index(at)])
        return f"{row.said} {show(here, row.unit)}, there {show(there, row.unit)}"
    shared = [key for key in _keys(here) if at in known["keyed"].get(row.name, {}).get(key, ())]
    words = ", ".join(key.replace("_", " ") for key in shared)
    return f"same {row.said}: {words}"


def _ratio(known: Mapping[str, Any], over: str, under: str, times: float) -> float | None:
    top, bottom = _value(known.get(over)), _value(known.get(under))
    return times * top / bottom if top and bottom else None


def _value(reading: Any) -> float | None:
    """A positive number of a reading or of a number; None where there is none to compare."""
    number = getattr(reading, "value", reading)
    return float(number) if isinstance(number, int | float) and number > 0 else None


def _hardness(text: str | None) -> float | None:
    found = HRC.search(text or "")
    return _value(float(found[1].replace(",", "."))) if found else None


def _extra(fields: Mapping[str, Any], state: str) -> float:
    worst = max(_rank(fields.get("could_have")), _rank(fields.get("outcome")))
    return SEVERITY * worst / (len(OUTCOMES) - 1) + (0.0 if state in PROVEN else UNPROVEN)


def _rank(outcome: str | None) -> int:
    return OUTCOMES.index(outcome) if outcome in OUTCOMES else 0
