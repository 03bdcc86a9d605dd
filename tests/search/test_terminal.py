"""`run.py find`: the very answer of the find page, as lines and as JSON, and one plain line where it cannot be had."""

import json
import subprocess
import sys
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest

from hooks.run import commands, finding
from hooks.shop.read import read_shop
from hooks.site import asked, index

ROOT = Path(__file__).parents[2]
DEMO = ROOT / "content" / "demo"
QUESTIONS = ("vise handel", "dug in at the corner of a pocket", '1/4"', "paral", "xqzwv")
needs_node = pytest.mark.skipif(index.find_node() is None, reason="no Node: run.py find is NOT tested")


def _args(*words: str, at_most: int = 10, as_json: bool = False, shop: Path = DEMO) -> SimpleNamespace:
    return SimpleNamespace(words=list(words), at_most=at_most, json=as_json, shop=str(shop))


@needs_node
def test_json_is_a_list_of_hits_with_reasons() -> None:
    """Run as a user does, the whole standard output is the list, best first, no longer than asked."""
    command = [sys.executable, "run.py", "find", "vise", "handel", "--json", "--at-most", "2", "--shop", str(DEMO)]
    run = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, timeout=60)
    assert run.returncode == 0, run.stderr
    first, second = json.loads(run.stdout)
    assert list(first) == ["id", "title", "score", "why"]
    assert first["id"] == "20250115-093013-gqcpd" and first["score"] > second["score"] > 0
    assert first["title"] == read_shop(DEMO, checks=False).lesson(first["id"]).title
    assert any("as “handle”" in line for line in first["why"])


@needs_node
def test_lines_say_how_many_and_why(capsys: pytest.CaptureFixture[str]) -> None:
    """The count first, then id and title with the reason below."""
    assert commands.find(_args("vise", "handel", at_most=1)) == 0
    count, hit, why = capsys.readouterr().out.splitlines()
    assert count.endswith(f"of {len(read_shop(DEMO).lessons)} lessons, the best 1")
    assert hit.startswith("20250115-093013-gqcpd  left the handle on the vice")
    assert why.startswith("    matched “")


@needs_node
@pytest.mark.parametrize("question", [("the", "a"), ("??",)])
def test_words_that_tell_nothing_are_told(question: tuple[str, ...], capsys: pytest.CaptureFixture[str]) -> None:
    """Only "the", or no word at all: one line says so, and the list for programs is empty."""
    assert commands.find(_args(*question)) == 0
    assert capsys.readouterr().out.startswith("There is no word to look for in")
    assert commands.find(_args(*question, as_json=True)) == 0
    assert json.loads(capsys.readouterr().out) == []


@needs_node
def test_nothing_found_is_told(capsys: pytest.CaptureFixture[str]) -> None:
    """No bare emptiness."""
    assert commands.find(_args("xqzwv")) == 0
    assert capsys.readouterr().out == finding.NOTHING + "\n"


def test_without_node_one_line_says_so(monkeypatch: pytest.MonkeyPatch) -> None:
    """No traceback: what is missing, and what does without."""
    monkeypatch.setattr(asked, "find_node", lambda: None)
    with pytest.raises(commands.Stop, match=r"^Searching by words needs Node[^\n]*$"):
        commands.find(_args("handle"))


@needs_node
def test_a_failing_node_is_told_in_one_line(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Node without the library, say."""
    script = tmp_path / "broken.mjs"
    script.write_text('import "there-is-no-such-library";', encoding="utf-8")
    monkeypatch.setattr(asked, "SCRIPT", script)
    with pytest.raises(commands.Stop, match=r"^Node is here, but[^\n]*$"):
        commands.find(_args("handle"))


@needs_node
def test_a_lesson_that_cannot_be_read_hides_no_other(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The rest of the shop is searched."""
    (tmp_path / "shop.yaml").write_text("name: Two\n", encoding="utf-8")
    folder = tmp_path / "lessons" / "2026"
    folder.mkdir(parents=True)
    good = 'kind: crash\nsaid: "the belt slipped"\n'
    (folder / "20260105-100000-00000.yaml").write_text(good, encoding="utf-8")
    (folder / "20260106-100000-00000.yaml").write_text("kind: [", encoding="utf-8")
    assert commands.find(_args("belt", shop=tmp_path)) == 0
    assert capsys.readouterr().out.startswith("1 of 1 lesson")


@pytest.mark.parametrize("question", QUESTIONS)
def test_the_page_answers_alike(page: Any, notes_site: Any, question: str) -> None:
    """The same lessons in the same order for the same reasons, in a real browser."""
    page.goto(f"{notes_site.url}find/")
    page.wait_for_selector("html[data-ready=yes]")
    page.fill("#find-words", question)
    page.wait_for_selector("#found:not([aria-busy])", state="attached")
    shown = page.eval_on_selector_all(
        "#found > li",
        "all => all.map(one => [one.dataset.lesson, one.querySelector('.lesson-strip__reason').textContent])",
    )
    found = asked.find(read_shop(notes_site.shop, checks=False), question, 30)
    assert found is not None
    assert shown == [[one["id"], "; ".join(one["why"])] for one in found.best]
