"""What the brief knows of the lessons: columns to match on, and beside them what is said of each."""

from collections import Counter
from collections.abc import Mapping
from typing import Any

from hooks.shop.lesson import Lesson
from hooks.shop.match import columns, facts_of, metal_of, mishap
from hooks.shop.read import Shop, standing
from hooks.shop.state import HELD_AFTER, Facts, state_of_facts
from hooks.shop.vocabulary import OUTCOMES
from hooks.site.markup import unmarked
from hooks.site.told import severity, word

UNFORGOTTEN = ("remove", "guard")  # of the hierarchy of controls, what stands above cards and reminders


def known(shop: Shop) -> dict[str, Any]:
    """data/known.json: the columns of hooks.shop.match, `told` in their order, and the settings as texts."""
    stand = {one.id: standing(one, shop) for one in shop.lessons}
    states = {id_: state_of_facts(facts) for id_, facts in stand.items()}
    family = _families(shop)
    sizes = Counter(family.values())
    told = [_told(one, stand[one.id], family[one.id], sizes) for one in shop.lessons]
    return {**columns(shop.lessons, states), "told": told, "settings": shop.settings_typed}


def _families(shop: Shop) -> dict[str, str]:
    """For each lesson the first one that it repeats, or itself: a mishap that came back is told once."""
    before = {one.id: one.get("repeat_of", ())[0] for one in shop.lessons if one.get("repeat_of")}
    first = {}
    for one in shop.lessons:
        seen = [one.id]
        while (earlier := before.get(seen[-1])) and earlier not in seen:
            seen.append(earlier)
        first[one.id] = seen[-1]
    return first


def _told(lesson: Lesson, stand: Facts, family: str, sizes: Mapping[str, int]) -> dict[str, Any]:
    state, worst, facts = state_of_facts(stand), severity(lesson), facts_of(lesson.fields)
    return {
        "title": unmarked(lesson.title),
        "now_do": unmarked(lesson.get("now_do", "")),
        "could": word("outcome", OUTCOMES[worst]) if worst > 1 else "",
        "state": state,
        "held": _held(stand, state),
        "guarded": state != "came_back" and _guarded(lesson),
        "metal": metal_of(lesson.fields),
        "mishap": mishap(lesson.fields, facts.get("operation_family", [])),
        "family": family,
        "times": sizes[family],
    }


def _guarded(lesson: Lesson) -> bool:
    """Whether something was changed and done that works without being remembered; a rule in a brief is a reminder."""
    return any("done_on" in change and change.get("strength") in UNFORGOTTEN for change in lesson.get("changes", ()))


def _held(stand: Facts, state: str) -> str:
    """How far jobs have proved what was changed; "" where they have, or where it came back."""
    return (
        f"held in {stand.held_since} of {HELD_AFTER} jobs" if state in ("changed", "kept") and stand.held_since else ""
    )
