"""A lesson's state: derived from what is known, never picked. One truth table, first match wins."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from hooks.shop.lesson import Lesson

HELD_AFTER = 3  # jobs that said "held"


@dataclass(frozen=True)
class Facts:
    """What the state follows from."""

    retired: bool
    worked_well: bool
    now_do: bool
    changed: bool
    explained: bool
    repeated_since: bool
    held_since: int


TABLE: tuple[tuple[str, Callable[[Facts], bool]], ...] = (
    ("retired", lambda f: f.retired),
    ("came_back", lambda f: (f.changed or f.worked_well) and f.repeated_since),
    ("kept", lambda f: f.worked_well and f.now_do),
    ("held", lambda f: f.changed and f.held_since >= HELD_AFTER),
    ("changed", lambda f: f.now_do and f.changed),
    ("explained", lambda f: f.explained),
    ("noted", lambda f: True),
)
# How it is shown: the word, and how many of four dots are filled.
SHOWN = {
    "noted": ("noted", 1),
    "explained": ("explained", 2),
    "changed": ("changed", 3),
    "held": ("held", 4),
    "kept": ("worth keeping", 4),
    "came_back": ("came back", 1),
    "retired": ("retired", 0),
}


def state_of_facts(facts: Facts) -> str:
    """The first row of the table that matches."""
    return next(state for state, matches in TABLE if matches(facts))


def facts_of(lesson: Lesson, repeats: Iterable[Lesson], answers: Iterable[Mapping[str, Any]] = ()) -> Facts:
    """The facts of a lesson, given the lessons that repeat it and what jobs answered to "did it hold?".

    What worked well may fail as well: it counts from its own day on where nothing was changed after it.
    """
    changed_on, worked_well = lesson.last_change, lesson.get("kind") == "worked_well"
    from_day = changed_on or (lesson.when.date() if worked_well else None)
    since = [one for one in answers if from_day is not None and one.get("on", from_day) >= from_day]
    again = any(one.get("answer") == "happened_again" for one in since)
    return Facts(
        retired=bool(lesson.get("retired")),
        worked_well=worked_well,
        now_do=bool(lesson.get("now_do")),
        changed=changed_on is not None,
        explained=bool(lesson.get("why")),
        repeated_since=again or (changed_on is not None and any(one.when.date() > changed_on for one in repeats)),
        held_since=sum(one.get("answer") == "held" for one in since),
    )
