"""Hand-over files taken in from a page without a server. The format is the project's own."""

import hashlib
import json
from pathlib import Path

import pytest

from hooks.shop.receive import receive_files
from tests.serve.client import FIELDS, ID

OTHER_ID = "20261125-063052-zzzz9"


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    """A shop with no lesson."""
    root = tmp_path / "shop"
    (root / "lessons").mkdir(parents=True)
    (root / "shop.yaml").write_text("name: A shop for tests\nmachines: []\n", encoding="utf-8")
    return root


def _lesson(id_: str = ID, **changed: str) -> dict:
    return {"twice_shy": 1, "kind": "lesson", "id": id_, "fields": {**FIELDS, **changed}}


def _file(shop: Path, content: object, name: str = "handed.json") -> Path:
    path = shop.parent / name
    path.write_text(content if isinstance(content, str) else json.dumps(content), encoding="utf-8")
    return path


def _lessons(shop: Path) -> dict[str, bytes]:
    return {path.stem: path.read_bytes() for path in shop.glob("lessons/*/*.yaml")}


def test_one_lesson_and_a_list_are_taken(shop: Path) -> None:
    """A file with one object, and a file with a list."""
    first = receive_files(shop, [_file(shop, _lesson())])
    more = receive_files(shop, [_file(shop, [_lesson(OTHER_ID)], "more.json")])
    assert [line.taken for line in first + more] == [True, True]
    assert _lessons(shop).keys() == {ID, OTHER_ID}


def test_taking_twice_changes_nothing(shop: Path) -> None:
    """The second time says that it was here already, and the bytes are the same."""
    path = _file(shop, _lesson())
    receive_files(shop, [path])
    before = _lessons(shop)
    (line,) = receive_files(shop, [path])
    assert line.taken and "already" in line.text
    assert _lessons(shop) == before


def test_a_lesson_that_differs_is_reported_and_overwrites_nothing(shop: Path) -> None:
    """Same id, other words: a conflict."""
    receive_files(shop, [_file(shop, _lesson())])
    before = _lessons(shop)
    (line,) = receive_files(shop, [_file(shop, _lesson(said="Other words."))])
    assert not line.taken and "nothing was changed" in line.text
    assert _lessons(shop) == before


def test_an_edit_is_taken_once_and_twice(shop: Path) -> None:
    """An edit made without a server changes its keys; sent again it is known."""
    receive_files(shop, [_file(shop, _lesson())])
    base = hashlib.sha256(_lessons(shop)[ID]).hexdigest()
    edit = {
        "twice_shy": 1,
        "kind": "edit",
        "id": ID,
        "base": base,
        "changes": {"said": "In fact: dug in twice."},
    }
    first = receive_files(shop, [_file(shop, edit)])
    after = _lessons(shop)
    again = receive_files(shop, [_file(shop, edit)])
    assert b"dug in twice" in after[ID]
    assert (first[0].taken, again[0].taken) == (True, True)
    assert _lessons(shop) == after


def test_a_broken_one_hides_no_other(shop: Path) -> None:
    """Broken files and broken lessons are told with their reason; the good ones are taken."""
    lines = receive_files(
        shop,
        [
            _file(shop, "{not json", "a.json"),
            shop.parent / "not-there.json",
            _file(shop, [_lesson(kind="explosion"), {"twice_shy": 2}, 7, None, _lesson()], "c.json"),
            _file(shop, _lesson(OTHER_ID), "d.json"),
        ],
    )
    assert [line.taken for line in lines] == [False, False, False, False, False, False, True, True]
    assert "explosion" in lines[2].text or "kind" in lines[2].text
    assert _lessons(shop).keys() == {ID, OTHER_ID}


@pytest.mark.parametrize("id_", ["../../../evil", "", None, 5, "20261125-063051-k7q2d/../../x", ["a"]])
def test_a_bad_id_writes_nothing(shop: Path, id_: object) -> None:
    """The file's name comes from the id, so only the one shape is taken."""
    (line,) = receive_files(shop, [_file(shop, _lesson(id_))])  # type: ignore[arg-type]
    assert not line.taken
    assert _lessons(shop) == {}
    assert not list(shop.parent.glob("evil*"))


def test_an_endlessly_nested_file_is_refused(shop: Path) -> None:
    """A line about the file, no traceback."""
    (line,) = receive_files(shop, [_file(shop, "[" * 100_000)])
    assert not line.taken
