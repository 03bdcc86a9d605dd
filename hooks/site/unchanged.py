"""Which lessons' pages must be written again: those whose own file, state or neighbours changed.

What each page was made from is kept, as a short mark, in the built folder; a fresh folder has no marks.
"""

import hashlib
from collections.abc import Iterator, Mapping
from pathlib import Path

from hooks.shop.read import Shop
from hooks.site.kept import read_kept, write_kept
from hooks.site.told import Told

KEPT = "data/.pages-kept.json"  # not served


def changed_since(
    folder: Path, ones: tuple[Told, ...], shop: Shop, similar: Mapping[str, list[tuple[str, list[str]]]]
) -> Iterator[Told]:
    """The lessons whose pages in `folder` are not what they would be now; the rest are left as they are."""
    kept, by_id = read_kept(folder / KEPT), {one.id: one for one in ones}
    marks = {one.id: _mark(one, shop, similar.get(one.id, []), by_id) for one in ones}
    for one in ones:
        if kept.get(one.id) != marks[one.id] or not (folder / "lessons" / one.id / "index.html").is_file():
            yield one
    write_kept(folder / KEPT, marks)  # last: a page that could not be written is tried again


def _mark(one: Told, shop: Shop, like: list[tuple[str, list[str]]], by_id: Mapping[str, Told]) -> str:
    """Of all that a lesson's page shows."""
    neighbours = [(id_, why, by_id[id_].lesson.hash, by_id[id_].state) for id_, why in like if id_ in by_id]
    shown = (one.lesson.hash, one.state, shop.demo, shop.settings.get("machines"), neighbours)
    return hashlib.sha256(repr(shown).encode("utf-8")).hexdigest()[:16]
