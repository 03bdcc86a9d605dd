"""The lessons most like each lesson, by their facts, for the lessons' pages.

To compare every lesson with every other takes a second at a thousand. So the result is kept in the
built folder, and after a save only the changed lessons, and those nearest to them, are done anew.
"""

from pathlib import Path

from hooks.shop.lesson import Lesson
from hooks.shop.match import Columns, columns, facts_of, rank
from hooks.shop.read import Shop, state_of
from hooks.site.kept import read_kept, write_kept

KEPT = "data/.similar-kept.json"  # not served
AT_MOST = 4
ALIKE = 0.45  # less is chance
OF_ALL = "running"  # the stage that every cut goes through makes no likeness

Similar = dict[str, list[tuple[str, list[str]]]]


def similar_lessons(shop: Shop, folder: Path) -> Similar:
    """For each lesson the ids of those most like it, most alike first, each with why."""
    kept = read_kept(folder / KEPT)
    known = columns(shop.lessons, {one.id: state_of(one, shop) for one in shop.lessons})
    ids = {one.id for one in shop.lessons}
    changed = [one for one in shop.lessons if kept.get(one.id, {}).get("hash") != one.hash]
    found = {one.id: _like(one, known) for one in changed}
    touched = {other for like in found.values() for other, _ in like} - found.keys()
    touched |= {id_ for id_, held in kept.items() if any(other not in ids for other, _ in held["like"])}
    found |= {one.id: _like(one, known) for one in shop.lessons if one.id in touched}
    result = {one.id: found[one.id] if one.id in found else kept[one.id]["like"] for one in shop.lessons}
    write_kept(folder / KEPT, {one.id: {"hash": one.hash, "like": result[one.id]} for one in shop.lessons})
    return result


def _like(lesson: Lesson, known: Columns) -> list[tuple[str, list[str]]]:
    facts = facts_of(lesson.fields)
    if facts.get("stage") == OF_ALL:
        facts = {name: fact for name, fact in facts.items() if name not in ("stage", "stage_family")}
    found = rank(known, facts, AT_MOST, but=lesson.id)
    alike = [match for match in found if match.alike >= ALIKE]
    return [(match.id, list(match.why[:3])) for match in alike]
