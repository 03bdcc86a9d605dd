"""What the pages' scripts read of lessons."""

from typing import Any

from hooks.shop.lesson import Lesson
from hooks.shop.read import Shop
from hooks.site.told import Told

KEYS = ("stage", "operation", "pass", "iso513", "material", "machine", "said", "now_do")


def lesson_list(ones: tuple[Told, ...], shop: Shop) -> list[dict[str, Any]]:
    """data/lessons.json: newest first, what a list or a choice shows."""
    return [_row(one, shop) for one in ones]


def lesson_data(lesson: Lesson) -> dict[str, Any]:
    """data/lesson/ID.json: what the editor needs, as typed."""
    return {"id": lesson.id, "hash": lesson.hash, "fields": lesson.typed}


def _row(one: Told, shop: Shop) -> dict[str, Any]:
    lesson = one.lesson
    check = shop.checks.get(one.id)
    return {
        "id": one.id,
        "title": one.title,
        "kind": one.kind,
        "nearly": one.nearly,
        **{key: lesson.get(key, "") for key in KEYS},
        "tool_kind": lesson.get("cutter", {}).get("tool_kind", ""),
        "state": one.state,
        "when": lesson.when.isoformat(),
        "facts": one.facts,
        "hash": lesson.hash,
        "check": check.calculator if check else "",
    }
