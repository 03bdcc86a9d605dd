"""A lesson's texts as the search by words knows them: its own sentences, and its facts in words."""

from collections.abc import Iterator
from typing import Any

from hooks.shop.declaration import FIELDS, MACHINES
from hooks.shop.fields import Field
from hooks.shop.lesson import Lesson
from hooks.shop.read import Shop
from hooks.shop.vocabulary import VOCABULARIES

OWN = ("title", "said", "now_do", "why", "changes")  # searched as texts of their own
# What nobody looks for by word, or what every second lesson says alike.
SILENT = (
    "id", "when", "photos", "nearly", "could_have", "stopped_by", "noticed_by", "minutes",
    "parts_scrapped", "check", "repeat_of", "shared",
)  # fmt: skip


def texts_of(lesson: Lesson, shop: Shop) -> dict[str, str]:
    """The searched texts of a lesson, by the field names of words.js; empty ones are left out."""
    texts = {
        "title": lesson.get("title") or "",
        "said": lesson.get("said") or "",
        "now_do": lesson.get("now_do") or "",
        "why": "\n".join(lesson.get("why") or ()),
        "changed": "\n".join(change.get("what", "") for change in lesson.get("changes") or ()),
        "facts": ", ".join(_facts(lesson, shop)),
    }
    return {name: text for name, text in texts.items() if text}


def _facts(lesson: Lesson, shop: Shop) -> Iterator[str]:
    for field in FIELDS:
        value = lesson.get(field.key)
        if value is None or field.key in OWN + SILENT:
            continue
        if field.of == MACHINES:
            yield _machine(value, shop)
        else:
            yield from _said(field, value)
    if lesson.get("nearly"):
        yield "near miss"


def _said(field: Field, value: Any) -> Iterator[str]:
    """A value in words: a label for a key, a number as it was typed, parts one by one."""
    if field.type == "group":
        for part in field.parts:
            if part.key in value:
                yield from _said(part, value[part.key])
    elif field.type == "list" and field.item:
        for item in value:
            yield from _said(field.item, item)
    elif field.type == "one_of":
        yield VOCABULARIES[field.of].word(value).label
    elif field.type in ("text", "ref"):
        yield value
    elif field.type in ("number", "quantity"):
        yield value.typed


def _machine(key: str, shop: Shop) -> str:
    machines = shop.settings.get("machines", ())
    return next((one["name"] for one in machines if one["key"] == key), key)
