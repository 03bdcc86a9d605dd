"""A lesson in words and marks: what strips, pages and data files show of it."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from calc.quantity import Reading
from hooks.shop.declaration import FIELDS, field
from hooks.shop.fields import Field
from hooks.shop.lesson import Lesson
from hooks.shop.read import Shop, state_of
from hooks.shop.state import SHOWN
from hooks.shop.vocabulary import OUTCOMES, VOCABULARIES
from hooks.site.markup import unmarked

DOTS = 4
UNFINISHED = ("noted", "explained")
MINOR = ("nothing", "rework")
STRIP_GROUPS = ("cutter", "geometry", "cutting", "holding")
TOLD_ELSEWHERE = {"id", "when", "kind", "nearly", "said", "title", "why", "now_do", "changes", "check"}
TOLD_ELSEWHERE |= {"repeat_of", "shared", "retired", "photos", "contributing"}


@dataclass(frozen=True)
class Told:
    """What a template needs of one lesson."""

    lesson: Lesson
    id: str
    title: str
    kind: str
    kind_label: str
    nearly: bool
    day: str
    state: str
    state_label: str
    dots: int
    facts: str
    iso513: str
    now_do: str


def told(lesson: Lesson, shop: Shop) -> Told:
    """The lesson in words."""
    state = state_of(lesson, shop)
    label, dots = SHOWN[state]
    return Told(
        lesson=lesson,
        id=lesson.id,
        title=unmarked(lesson.title),
        kind=lesson.get("kind"),
        kind_label=word("kind", lesson.get("kind")),
        nearly=bool(lesson.get("nearly")),
        day=lesson.when.date().isoformat(),
        state=state,
        state_label=label,
        dots=dots,
        facts=facts_line(lesson),
        iso513=lesson.get("iso513", ""),
        now_do=lesson.get("now_do", ""),
    )


def word(vocabulary: str, key: str) -> str:
    """How a word of a vocabulary is shown."""
    return VOCABULARIES[vocabulary].word(key).label


def severity(lesson: Lesson) -> int:
    """How bad it could have been, else how bad it was: 0 (unknown or nothing) upwards."""
    worst = max((lesson.get("could_have"), lesson.get("outcome")), key=lambda one: OUTCOMES.index(one) if one else -1)
    return OUTCOMES.index(worst) if worst else 0


def facts_line(lesson: Lesson) -> str:
    """Operation, material, cutter in a few words."""
    cutter: Mapping[str, Any] = lesson.get("cutter", {})
    parts = [
        word("operation", lesson.get("operation")) if lesson.get("operation") else "",
        lesson.get("material", ""),
        " ".join(_cutter(cutter)),
    ]
    return " · ".join(part for part in parts if part)


def _cutter(cutter: Mapping[str, Any]) -> Iterator[str]:
    if "cutter_diameter" in cutter:
        yield cutter["cutter_diameter"].typed
    if "tool_kind" in cutter:
        yield word("tool_kind", cutter["tool_kind"])


def fact_rows(lesson: Lesson, shop: Shop) -> list[tuple[str, list[tuple[str, str]]]]:
    """Every other fact of the lesson: (heading, rows of label and text), in the declaration's order."""
    single: list[tuple[str, str]] = []
    groups: list[tuple[str, list[tuple[str, str]]]] = []
    for one in FIELDS:
        if one.key in TOLD_ELSEWHERE or one.key not in lesson.fields:
            continue
        value = lesson.fields[one.key]
        if one.type == "group":
            groups.append(
                (
                    one.label.rstrip("?"),
                    [(part.label, _shown(part, value[part.key])) for part in one.parts if part.key in value],
                )
            )
        else:
            single.append(
                (one.label.rstrip("?"), _machine(shop, value) if one.key == "machine" else _shown(one, value))
            )
    return [("The job", single), *groups] if single else groups


def _machine(shop: Shop, key: str) -> str:
    return next((str(one["name"]) for one in shop.settings.get("machines", ()) if one.get("key") == key), key)


def _shown(declared: Field, value: Any) -> str:
    if isinstance(value, Reading):
        unit = value.unit if value.typed.replace(".", "", 1).isdigit() and value.unit != "1" else ""
        return f"{value.typed} {unit}".strip()
    if isinstance(value, bool):
        return "yes" if value else "no"
    if declared.type == "list" and declared.item:
        return ", ".join(_shown(declared.item, one) for one in value)
    if declared.type == "one_of":
        return word(declared.of, value)
    return str(value)


def words_of(key: str, lesson: Lesson) -> list[str]:
    """The labels of a list field's words."""
    item = field(key).item
    return [_shown(item, one) for one in lesson.get(key, ())] if item else []


def unfinished(lessons: tuple[Told, ...]) -> list[Told]:
    """Lessons that still want a word, the worst first; what came to nothing much is not asked for."""
    open_ones = [one for one in lessons if one.state in UNFINISHED and one.kind != "worked_well"]
    return sorted(open_ones, key=lambda one: -severity(one.lesson))


def rules(lessons: tuple[Told, ...]) -> list[Told]:
    """What to do now: the rules of lessons that are in force, what could have been worst first."""
    in_force = [one for one in lessons if one.now_do and one.state not in ("retired",)]
    return sorted(in_force, key=lambda one: (one.state != "came_back", -severity(one.lesson)))
