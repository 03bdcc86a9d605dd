"""What of a shop may leave this machine: lessons marked to be shared, and nothing that tells of others."""

import shutil
from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any

from hooks.shop.lesson import Lesson
from hooks.shop.read import Shop

REPEATS = "repeat_of"
PUBLIC = ("name", "demo", "about", "address", "first_run")


def only_shared(shop: Shop) -> Shop:
    """The shop as it may be published: nothing of a lesson that is not marked so, nor of broken files."""
    ids = {one.id for one in shop.lessons if one.get("shared")}
    lessons = {one.id: _among(one, ids) for one in shop.lessons if one.id in ids}
    return replace(
        shop,
        lessons=tuple(lessons.values()),
        problems=(),
        checks={id_: check for id_, check in shop.checks.items() if id_ in ids},
        repeats={
            id_: tuple(lessons[one.id] for one in ones if one.id in ids)
            for id_, ones in shop.repeats.items()
            if id_ in ids
        },
        files={},
        jobs=(),
        settings=_public(shop.settings),
        settings_typed=_public(shop.settings_typed),
        settings_hash="",
    )


def _public(settings: Mapping[str, Any]) -> dict[str, Any]:
    """Of the settings what every page says anyway: what a shop owns is its own business."""
    machines = [{key: one[key] for key in ("key", "name")} for one in settings.get("machines", ())]
    return {key: settings[key] for key in PUBLIC if key in settings} | {"machines": machines}


def take_kept_away(folder: Path) -> None:
    """Remove what a build lays by for the next save (its names begin with a dot): a static host would serve it."""
    for path in list(folder.rglob(".*")):
        if path.is_dir():
            shutil.rmtree(path)
        else:
            path.unlink(missing_ok=True)


def _among(lesson: Lesson, ids: set[str]) -> Lesson:
    """The lesson, naming no lesson but `ids`."""
    if REPEATS not in lesson.fields:
        return lesson
    return replace(lesson, fields=_named(lesson.fields, ids), typed=_named(lesson.typed, ids))


def _named(fields: Mapping[str, Any], ids: set[str]) -> dict[str, Any]:
    kept = type(fields[REPEATS])(one for one in fields[REPEATS] if one in ids)
    rest = {key: value for key, value in fields.items() if key != REPEATS}
    return rest | ({REPEATS: kept} if kept else {})
