"""What the find page shows: every lesson, and the facets by which they are narrowed down."""

from collections import Counter
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from hooks.shop.lesson import Lesson
from hooks.shop.read import Shop, state_of
from hooks.shop.state import SHOWN
from hooks.shop.vocabulary import VOCABULARIES
from hooks.site.told import told


@dataclass(frozen=True)
class Facet:
    """One way to narrow down.

    `key` gives a lesson's key, "" where it has none; `words` how each key is shown, in the order of the list.
    """

    name: str
    title: str
    key: Callable[[Lesson, Shop], str]
    words: Callable[[Shop], Mapping[str, str]]


def _field(name: str) -> Callable[[Lesson, Shop], str]:
    return lambda lesson, _shop: lesson.get(name) or ""


def _cutter(lesson: Lesson, _shop: Shop) -> str:
    return (lesson.get("cutter") or {}).get("tool_kind", "")


def _nearly(lesson: Lesson, _shop: Shop) -> str:
    return "yes" if lesson.get("nearly") else "no"


def _states(_shop: Shop) -> Mapping[str, str]:
    return {key: said for key, (said, _dots) in SHOWN.items()}


def _vocabulary(name: str) -> Callable[[Shop], Mapping[str, str]]:
    return lambda _shop: {word.key: word.label for word in VOCABULARIES[name].words}


def _machines(shop: Shop) -> Mapping[str, str]:
    return {one["key"]: one["name"] for one in shop.settings.get("machines", ())}


FACETS = (
    Facet("kind", "What happened", _field("kind"), _vocabulary("kind")),
    Facet("nearly", "How near", _nearly, lambda _shop: {"yes": "it nearly happened", "no": "it happened"}),
    Facet("stage", "Stage", _field("stage"), _vocabulary("stage")),
    Facet("operation", "Operation", _field("operation"), _vocabulary("operation")),
    Facet("group", "Material group", _field("iso513"), _vocabulary("iso513")),
    Facet("cutter", "Cutter", _cutter, _vocabulary("tool_kind")),
    Facet("machine", "Machine", _field("machine"), _machines),
    Facet("state", "How far it has come", state_of, _states),
)


def find_context(shop: Shop) -> dict[str, Any]:
    """What templates/find.html shows.

    `facets`: [{name, title, choices: [{key, label, count}]}]; `lessons`: [{one: Told, keys: {facet: key}}].
    """
    lessons = [{"one": told(one, shop), "keys": _keys(one, shop)} for one in shop.lessons]
    facets = [_choices(facet, Counter(one["keys"][facet.name] for one in lessons), shop) for facet in FACETS]
    return {"facets": facets, "lessons": lessons}


def _keys(lesson: Lesson, shop: Shop) -> dict[str, str]:
    return {facet.name: facet.key(lesson, shop) for facet in FACETS}


def _choices(facet: Facet, counts: Counter[str], shop: Shop) -> dict[str, Any]:
    """The facet with those of its keys that occur; a key without a word is shown as it is."""
    words = facet.words(shop)
    keys = [key for key in words if counts[key]] + sorted(set(counts) - set(words) - {""})
    choices = [{"key": key, "label": words.get(key, key), "count": counts[key]} for key in keys]
    return {"name": facet.name, "title": facet.title, "choices": choices}
