"""Similar lessons for the pages: right when made anew, and the same after a save that does only what changed."""

import json
from dataclasses import replace
from pathlib import Path

import pytest

from hooks.shop.read import Shop
from hooks.site import similar
from tests.search.generated import generated


@pytest.fixture
def shop(tmp_path: Path) -> Shop:
    """Sixty generated lessons."""
    return Shop(tmp_path, "generated", True, {}, tuple(generated(60)), ())


def test_each_lesson_gets_a_few_others_with_reasons(shop: Shop, tmp_path: Path) -> None:
    """Never itself, never more than there is room for, each with at least one plain reason."""
    found = similar.similar_lessons(shop, tmp_path)
    assert set(found) == {one.id for one in shop.lessons}
    assert any(found.values())
    for id_, like in found.items():
        assert len(like) <= similar.AT_MOST
        for other, why in like:
            assert other != id_ and why and all(len(line) > 5 for line in why)


def test_a_twin_comes_first_both_ways(shop: Shop, tmp_path: Path) -> None:
    """A lesson saved with another's facts is most like it, and it appears on the other's page at once."""
    similar.similar_lessons(shop, tmp_path)
    first = shop.lessons[30]
    twin = replace(first, id="20290101-000000-00000", hash="twin")
    found = similar.similar_lessons(replace(shop, lessons=(twin, *shop.lessons)), tmp_path)
    assert found[twin.id][0][0] == first.id
    assert found[first.id][0][0] == twin.id


def test_after_a_save_the_rest_is_taken_over(shop: Shop, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Only the changed lesson and those nearest to it are ranked anew."""
    before = similar.similar_lessons(shop, tmp_path)
    asked: list[str] = []
    rank = similar.rank
    monkeypatch.setattr(similar, "rank", lambda *given, but: asked.append(but) or rank(*given, but=but))
    assert similar.similar_lessons(shop, tmp_path) == {id_: _as_json(like) for id_, like in before.items()}
    assert asked == []
    changed = replace(shop.lessons[0], hash="changed")
    similar.similar_lessons(replace(shop, lessons=(changed, *shop.lessons[1:])), tmp_path)
    assert changed.id in asked and len(asked) <= 1 + similar.AT_MOST


def test_a_lesson_that_is_gone_is_no_longer_shown(shop: Shop, tmp_path: Path) -> None:
    """Nobody links to it, and those that did get another instead."""
    before = similar.similar_lessons(shop, tmp_path)
    gone = next(other for like in before.values() for other, _ in like)
    left = tuple(one for one in shop.lessons if one.id != gone)
    found = similar.similar_lessons(replace(shop, lessons=left), tmp_path)
    assert gone not in found
    assert gone not in {other for like in found.values() for other, _ in like}


def _as_json(like: object) -> object:
    return json.loads(json.dumps(like))
