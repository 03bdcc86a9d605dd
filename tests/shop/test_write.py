"""The writer: what is written reads back, an edit changes nothing else, and nothing is lost. The rules are our own."""

import hashlib
import json
import threading
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hooks.shop.ids import lesson_path
from hooks.shop.nodes import NotStrict, parse
from hooks.shop.read import read_lesson
from hooks.shop.typed import CONTROL, plain
from hooks.shop.write import Conflict, Invalid, NotFound, edited, same, save_edit, save_new, sheet_text

ID = "20261125-063051-k7q2d"
PATH = f"lessons/2026/{ID}.yaml"
BASE: dict[str, Any] = {"kind": "crash", "said": "it hit"}
TEXT = st.text(min_size=1, max_size=80).filter(lambda text: text.strip() and not CONTROL.search(text))
BY_HAND = b"""# a note of my own
kind:   crash   # as it was
said: 'single
  quoted, over two lines'

# about the time
minutes: 12   # roughly
why:
  - first
  - "second # not a comment"
cutter: {cutter_diameter: 6 mm,   teeth: "3"}
title: >-
  folded
  text
# the end
"""


@pytest.fixture
def root(tmp_path: Path) -> Path:
    """An empty shop."""
    (tmp_path / "lessons").mkdir()
    (tmp_path / "shop.yaml").write_text("name: x\n")
    return tmp_path


@given(TEXT, TEXT, st.lists(TEXT, min_size=1, max_size=4))
def test_any_text_reads_back(said: str, title: str, why: list[str]) -> None:
    """Quotes, emoji, colons, other alphabets, line ends: written and read, the same."""
    fields = {**BASE, "said": said, "title": title, "why": why}
    lesson, problems = read_lesson(sheet_text(fields), PATH)
    assert lesson, problems
    assert (lesson.typed["said"], lesson.typed["title"], lesson.typed["why"]) == (said, title, why)


@given(st.binary(max_size=300))
def test_hostile_bytes_give_problems_never_another_exception(text: bytes) -> None:
    """Whatever lies in a file."""
    lesson, problems = read_lesson(text, PATH)
    assert (lesson is None) == bool(problems)


@given(st.text(alphabet="abc:-[]{}#&*!|>'\"%@`,? \n\t", max_size=80))
@settings(max_examples=300)
def test_hostile_yaml_gives_problems_never_another_exception(text: str) -> None:
    """The characters YAML is made of, in any order; both loaders."""
    read_lesson(text.encode(), PATH)


@given(
    st.dictionaries(
        st.sampled_from(["said", "title", "minutes", "why", "cutter", "stage", "now_do"]),
        st.one_of(st.none(), TEXT, st.lists(TEXT, min_size=1, max_size=3)),
        max_size=4,
    )
)
def test_an_edit_changes_its_keys_and_no_other_byte(changes: dict[str, Any]) -> None:
    """Lines of other keys and comments stand as before and in order; the changed values are the new ones."""
    after = edited(BY_HAND, changes)
    tree = plain(parse(after, "x"))
    before = plain(parse(BY_HAND, "x"))
    for key, value in {**before, **changes}.items():
        assert tree.get(key) == value
    kept = [line for line in BY_HAND.splitlines() if line.startswith((b"#", b"kind"))]
    lines = after.splitlines()
    assert [line for line in lines if line in kept] == kept


@pytest.mark.parametrize("key", ["said", "minutes", "why", "cutter", "title"])
def test_taking_one_key_away_takes_only_its_lines(key: str) -> None:
    """Comments above and below stay."""
    after = edited(BY_HAND, {key: None})
    lost = set(BY_HAND.splitlines()) - set(after.splitlines())
    assert key not in plain(parse(after, "x"))
    assert all(b"#" not in line.split(b'"')[0].lstrip()[:1] for line in lost)
    assert b"# the end" in after and b"# about the time" in after


def test_changing_to_what_is_there_changes_nothing() -> None:
    """The same values: the same bytes, odd spacing and all."""
    assert edited(BY_HAND, {"why": ["first", "second # not a comment"], "minutes": "12", "stage": None}) == BY_HAND


def test_line_ends_and_marks_stay() -> None:
    """CRLF files and those with a byte-order mark keep both."""
    windows = b"\xef\xbb\xbf" + b'kind: "crash"\r\nsaid: "x"\r\n'
    after = edited(windows, {"said": "y", "why": ["a b", "c d"]})
    assert after.startswith(b"\xef\xbb\xbf") and after.count(b"\n") == after.count(b"\r\n") == 5


def test_a_new_lesson_looks_like_those_of_the_demo() -> None:
    """First line, order of the declaration, every text in quotes."""
    text = sheet_text({"said": "x", "kind": "crash", "id": ID, "cutter": {"teeth": "3"}, "nearly": True}).decode()
    assert text == (
        "# yaml-language-server: $schema=../../lesson.schema.json\n"
        f'id: "{ID}"\nkind: "crash"\nnearly: "yes"\nsaid: "x"\ncutter: {{teeth: "3"}}\n'
    )


def test_saving_once_twice_and_otherwise(root: Path) -> None:
    """Created, there already, and a conflict that names the bytes on disk."""
    first, again = save_new(root, ID, BASE), save_new(root, ID, BASE)
    assert first.written and not again.written and first.hash == again.hash
    assert first.hash == hashlib.sha256((root / PATH).read_bytes()).hexdigest()
    with pytest.raises(Conflict) as conflict:
        save_new(root, ID, {**BASE, "said": "other"})
    assert conflict.value.hash == first.hash


@pytest.mark.parametrize(
    ("fields", "field"),
    [
        ({"said": "x"}, "kind"), ({"kind": "crash"}, "said"), ({"kind": "bang", "said": "x"}, "kind"),
        ({**BASE, "cutter": {"cutter_diameter": "6 kg"}}, "cutter.cutter_diameter"),
        ({**BASE, "why": ["ok", "x" * 500]}, "why.1"), ({**BASE, "nobody": "x"}, "nobody"),
        ({**BASE, "why": json.loads("[" * 800 + "]" * 800)}, "why.0.0.0.0.0.0.0.0"),
        ({**BASE, "said": "\ud800"}, "said"), ({**BASE, "said": None}, "said"), ({**BASE, "said": 7}, "said"),
    ],
)  # fmt: skip
def test_what_breaks_the_declaration_is_not_stored(root: Path, fields: dict[str, Any], field: str) -> None:
    """Each problem names its field by a dotted path; nothing is written."""
    with pytest.raises(Invalid) as invalid:
        save_new(root, ID, fields)
    assert field in [problem.field for problem in invalid.value.problems]
    assert not list(root.glob("lessons/*/*"))


def test_editing(root: Path) -> None:
    """The hash of what was read must be that of what is there; a bad edit leaves all as it was."""
    saved = save_new(root, ID, BASE)
    after = save_edit(root, ID, saved.hash, {"said": "in fact it nearly hit", "nearly": "yes"})
    assert after.hash != saved.hash
    with pytest.raises(Conflict):
        save_edit(root, ID, saved.hash, {"said": "late"})
    with pytest.raises(NotFound):
        save_edit(root, "20261125-063051-zzzzz", saved.hash, {})
    before = (root / PATH).read_bytes()
    with pytest.raises(Invalid):
        save_edit(root, ID, after.hash, {"kind": None})
    assert (root / PATH).read_bytes() == before


def test_twenty_writers_at_once_lose_nothing(root: Path) -> None:
    """Each reads, edits and tries again on a conflict: all twenty lines are there in the end."""
    save_new(root, ID, BASE)

    def add(n: int) -> None:
        while True:
            text = (root / PATH).read_bytes()
            why = plain(parse(text, "x")).get("why", [])
            try:
                save_edit(root, ID, hashlib.sha256(text).hexdigest(), {"why": [*why, f"line {n}"]})
            except Conflict:
                continue
            return

    threads = [threading.Thread(target=add, args=(n,)) for n in range(20)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert sorted(plain(parse((root / PATH).read_bytes(), "x"))["why"]) == sorted(f"line {n}" for n in range(20))


def test_a_disk_that_is_full_leaves_the_old_file(root: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A write that fails half-way: the lesson is what it was, and nothing half lies about."""
    saved = save_new(root, ID, BASE)
    before = (root / PATH).read_bytes()

    def full(_handle: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("os.fsync", full)
    with pytest.raises(OSError, match="No space"):
        save_edit(root, ID, saved.hash, {"said": "y"})
    assert (root / PATH).read_bytes() == before
    assert [path.name for path in (root / "lessons/2026").iterdir()] == [f"{ID}.yaml"]


def test_broken_files_are_not_edited() -> None:
    """A file that cannot be read is not guessed at."""
    with pytest.raises(Invalid):
        edited(b"kind: [crash\n", {"said": "x"})
    with pytest.raises(NotStrict):
        parse(b"a: *b\n", "x")


def test_a_lesson_that_leaves_its_id_to_its_name_is_the_same_lesson(tmp_path: Path) -> None:
    """Written by hand without an id: the same words with it are no other lesson."""
    path = lesson_path(ID)
    without = b'kind: "crash"\nsaid: "x"\n'
    assert same(without, b'id: "' + ID.encode() + b'"\n' + without, path)
    assert not same(without, without.replace(b"x", b"y"), path)
