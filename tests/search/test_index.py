"""The search data in a built folder: prebuilt by Node, refreshed without it, right where there is none."""

import json
import statistics
import time
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from hooks.shop.read import Shop
from hooks.site import index
from hooks.site.texts import texts_of
from tests.search.generated import generated

needs_node = pytest.mark.skipif(index.find_node() is None, reason="no Node: the index is NOT tested")


def _shop(root: Path, count: int) -> Shop:
    return Shop(root, "generated", True, {}, tuple(generated(count)), ())


def _read(folder: Path, name: str) -> Any:
    return json.loads((folder / name).read_text(encoding="utf-8"))


@needs_node
def test_a_fresh_folder_gets_a_prebuilt_index_with_nothing_left_over(tmp_path: Path) -> None:
    """Every lesson is in the index, none is recent, and the three files belong together."""
    index.write(_shop(tmp_path, 12), tmp_path)
    kept, recent, words = (_read(tmp_path, name) for name in (index.INDEX, index.RECENT, index.WORDS))
    assert kept["index"]["documentCount"] == 12
    assert recent == {"of": kept["made"], "documents": [], "gone": []}
    assert kept["mark"] == words["mark"]


@needs_node
def test_a_refresh_tells_only_what_changed(tmp_path: Path) -> None:
    """New and changed lessons are recent, lost ones gone; the index itself is left alone."""
    shop = _shop(tmp_path, 12)
    index.write(shop, tmp_path)
    before = (tmp_path / index.INDEX).read_bytes()
    newest, changed, gone, *rest = shop.lessons
    added = replace(newest, id="20290101-000000-00000", hash="new")
    now = replace(shop, lessons=(added, newest, replace(changed, hash="other"), *rest))
    index.write(now, tmp_path)
    recent = _read(tmp_path, index.RECENT)
    assert [one["id"] for one in recent["documents"]] == [added.id, changed.id]
    assert recent["gone"] == [gone.id]
    assert (tmp_path / index.INDEX).read_bytes() == before


@needs_node
def test_a_refresh_of_a_thousand_lessons_needs_no_node_and_little_time(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """After a save, the median of five: well under the second in which it must be findable."""
    shop = _shop(tmp_path, 1000)
    index.write(shop, tmp_path)
    monkeypatch.setattr(index, "find_node", _no_node_wanted)
    took = []
    for change in range(5):
        now = replace(shop, lessons=(replace(shop.lessons[0], hash=f"changed {change}"), *shop.lessons[1:]))
        start = time.perf_counter()
        index.write(now, tmp_path)
        took.append(time.perf_counter() - start)
    assert statistics.median(took) < 0.3
    assert len(_read(tmp_path, index.RECENT)["documents"]) == 1


def _no_node_wanted() -> None:
    pytest.fail("a refresh started Node")


@needs_node
def test_other_words_make_another_index(tmp_path: Path) -> None:
    """An index made with other synonyms is not kept: it would miss what the new ones find."""
    index.write(_shop(tmp_path, 3), tmp_path)
    before = _read(tmp_path, index.INDEX)["mark"]
    (tmp_path / "words.yaml").write_text("same: [[bertha, bed mill]]", encoding="utf-8")
    index.write(_shop(tmp_path, 3), tmp_path)
    assert before != _read(tmp_path, index.INDEX)["mark"] == _read(tmp_path, index.WORDS)["mark"]
    assert _read(tmp_path, index.RECENT)["documents"] == []


def test_without_node_every_lesson_is_recent(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """There is no index then, and the browser is told so."""
    monkeypatch.setattr(index, "find_node", lambda: None)
    index.write(_shop(tmp_path, 5), tmp_path)
    assert not (tmp_path / index.INDEX).exists()
    recent = _read(tmp_path, index.RECENT)
    assert recent["of"] == "" and len(recent["documents"]) == 5 and recent["gone"] == []


def test_a_failing_node_is_as_none(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Node without the library (not installed yet, say) does not stop the build."""
    script = tmp_path / "broken.mjs"
    script.write_text('import "there-is-no-such-library";', encoding="utf-8")
    monkeypatch.setattr(index, "SCRIPT", script)
    index.write(_shop(tmp_path, 2), tmp_path)
    assert len(_read(tmp_path, index.RECENT)["documents"]) == 2


def test_an_empty_shop_has_an_empty_search(tmp_path: Path) -> None:
    """No lesson, no failure."""
    index.write(_shop(tmp_path, 0), tmp_path)
    assert _read(tmp_path, index.RECENT)["documents"] == []


def test_facts_are_told_in_words_and_as_typed(tmp_path: Path) -> None:
    """Labels for keys, the machine by its name, sizes as they were written; nothing of what is not searched."""
    shop = _shop(tmp_path, 1)
    shop = replace(shop, settings={"machines": ({"key": "bed-mill", "name": "Big Bertha"},)})
    (lesson,) = shop.lessons
    told = {"machine": "bed-mill", "operation": "finish_wall", "nearly": True, "why": ("a", "b")}
    texts = texts_of(replace(lesson, fields={**lesson.fields, **told}), shop)
    assert set(texts) <= {"title", "said", "now_do", "why", "changed", "facts"}
    facts = texts["facts"].split(", ")
    diameter = lesson.fields["cutter"]["cutter_diameter"].typed
    assert {"Big Bertha", "finish wall", "near miss", diameter} <= set(facts)
    assert texts["why"] == "a\nb"
    assert lesson.id not in texts["facts"]
