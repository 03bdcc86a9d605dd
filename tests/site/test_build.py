"""The built site: what it holds, what a published one leaves out, and that a bad lesson hides nothing (own rules)."""

import itertools
import json
import re
import shutil
import zipfile
from html.parser import HTMLParser
from pathlib import Path

import pytest

from hooks.build import _assets, build_site
from hooks.run import setup
from hooks.serve.headers import POLICY
from hooks.shop.read import read_shop
from hooks.site import pages
from hooks.site.index import find_node
from hooks.site.policy import META_POLICY
from hooks.site.shell import load

ROOT = Path(__file__).parents[2]
DEMO = ROOT / "content" / "demo"
INVALID = ROOT / "tests" / "invalid"
CONFIG = ROOT / "mkdocs.yml"
OTHERS = re.compile(rb"""(?:src|href)=["'](?:https?:)?//""")


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo, built."""
    out = tmp_path_factory.mktemp("built")
    build_site(CONFIG, DEMO, out)
    return out


def _pages(folder: Path) -> list[Path]:
    return [path for path in folder.rglob("*.html") if ".written" not in path.parts and path.name[0] != "."]


def test_every_page_is_there(built: Path) -> None:
    """Home, record, find, edit, sums, notes, attention, about, and a page for each lesson and calculator."""
    shop = read_shop(DEMO)
    wanted = ["", "record", "find", "edit", "import", "calculators", "notes", "attention", "about", "about/numbers"]
    wanted += [f"calculators/{name}" for name in ("corner-clearance", "chip-load", "stock-allowance")]
    wanted += [f"notes/{name}" for name in ("corners", "finding-a-datum", "holding-work", "sawn-stock")]
    wanted += [f"lessons/{one.id}" for one in shop.lessons]
    assert [name for name in wanted if not (built / name / "index.html").is_file()] == []
    assert (built / "404.html").is_file()


@pytest.mark.skipif(find_node() is None, reason="no Node: the browser's library is NOT compiled")
def test_the_browsers_library_is_whole_and_what_a_start_needs_is_compiled(tmp_path: Path) -> None:
    """The same modules as in the package; the first that Python imports, and those of the sums, are bytecode."""
    setup._compile_stdlib()
    _assets(tmp_path)
    brought, served = (
        zipfile.ZipFile(folder / "python_stdlib.zip").namelist()
        for folder in (ROOT / "node_modules" / "pyodide", tmp_path / "pyodide")
    )
    assert sorted(brought) == sorted(re.sub(r"\.pyc$", ".py", name) for name in served)
    assert {"encodings/__init__.pyc", "asyncio/__init__.pyc", "dataclasses.pyc", "decimal.pyc"} <= set(served)


def test_pages_leave_no_mark_unfilled_and_no_other_host(built: Path) -> None:
    """Every mark of the shell and the notes is filled; no script, style or picture of another host."""
    for path in _pages(built):
        text = path.read_bytes()
        assert b"@@" not in text and b"<@" not in text, path
        assert not OTHERS.search(text.replace(b'href="https://', b"")), path


def test_every_id_stands_once_and_every_label_has_its_box(built: Path) -> None:
    """On every page: ids are unique, and `for` and `aria-describedby` name one of them."""
    for path in _pages(built):
        text = path.read_text("utf-8")
        ids = re.findall(r'\sid="([^"]+)"', re.sub(r"<template.*?</template>", "", text, flags=re.DOTALL))
        assert len(ids) == len(set(ids)), path
        assert set(re.findall(r'\sfor="([^"]+)"', text)) <= set(ids), path
        assert set(re.findall(r"url\(#([^)]+)\)", text)) <= set(ids), path


def test_the_policy_is_that_of_the_server() -> None:
    """One policy in two places: the page's, and the header's less what only a header can say."""
    assert POLICY.replace("; frame-ancestors 'none'", "") == META_POLICY


def test_nothing_of_the_theme_is_left(built: Path) -> None:
    """No script or style but our own."""
    scripts = {path.parent.name for path in built.rglob("*.js")}
    assert scripts <= {"js", "find"}
    assert [path.name for path in built.rglob("*.css")] == ["shop.css"]


def test_demo_pages_say_that_they_are_invented(built: Path) -> None:
    """On every page, and on a lesson's own."""
    assert all(b"invented" in path.read_bytes() for path in _pages(built))


def test_a_published_site_holds_nothing_that_is_not_shared(tmp_path: Path) -> None:
    """No text of an unshared lesson anywhere: not in a page, not in a data file, not in the index."""
    shop, out = tmp_path / "shop", tmp_path / "out"
    shutil.copytree(DEMO, shop)
    secret = next(one for one in read_shop(shop).lessons if not one.get("shared") and one.get("now_do"))
    shown = next(one for one in read_shop(shop).lessons if one.get("shared"))
    with (shop / shown.path).open("a", encoding="utf-8") as file:
        file.write(f'repeat_of: ["{secret.id}"]\n')
    path = shop / secret.path
    path.write_text(path.read_text("utf-8").replace('said: "', 'said: "zugzwang secret '), "utf-8")
    (shop / "lessons/2026/20260101-000000-zzzzz.yaml").write_text("kind: [zugzwang broken\n")
    build_site(CONFIG, shop, out, publish=True)
    shared = [one for one in read_shop(shop).lessons if one.get("shared")]
    assert {path.parent.name for path in out.glob("lessons/*/index.html")} == {one.id for one in shared}
    assert shared
    for file in out.rglob("*"):
        if file.is_file() and file.suffix not in (".wasm", ".zip"):
            text = file.read_bytes()
            assert b"zugzwang" not in text, file
            assert secret.id.encode() not in text, file
    assert not list(out.rglob(".*")), "what a build lays by is not published"


def test_a_bad_lesson_hides_no_page(tmp_path: Path) -> None:
    """A shop full of mistakes builds whole; every problem stands on the page for it."""
    built = build_site(CONFIG, INVALID, tmp_path)
    attention = (tmp_path / "attention" / "index.html").read_text("utf-8")
    assert len(built.problems) == attention.count('class="problems__where"')
    assert (tmp_path / "lessons/20260101-000000-gd000/index.html").is_file()


def test_hostile_lessons_stay_text(tmp_path: Path) -> None:
    """Script, marks of the shell and templates in every text: none of it comes alive, in page or list."""
    shop = tmp_path / "shop"
    (shop / "lessons/2026").mkdir(parents=True)
    (shop / "shop.yaml").write_text('name: "<script>alert(1)</script> & co"\n')
    nasty = "<img src=x onerror=alert(1)> {{ 7*7 }} <@main@> @@NUMBERS@@ </title>"
    fields = {"said": nasty, "title": nasty, "now_do": nasty, "material": nasty[:50]}
    body = 'kind: "crash"\n' + "".join(f'{key}: "{text}"\n' for key, text in fields.items()) + f'why: ["{nasty}"]\n'
    (shop / "lessons/2026/20260101-000000-zzzzz.yaml").write_text(body)
    build_site(CONFIG, shop, tmp_path / "out")
    for path in _pages(tmp_path / "out"):
        text = path.read_text("utf-8")
        assert "<img src=x" not in text and "<script>alert" not in text and " 49 " not in text, path
    lesson = (tmp_path / "out/lessons/20260101-000000-zzzzz/index.html").read_text("utf-8")
    assert lesson.count("<@main@>") == 0 and "&lt;@main@&gt;" in lesson and "@@NUMBERS@@" in lesson
    assert lesson.count("<main") == 1 and lesson.count("</title>") == 1


def test_a_lesson_that_is_gone_leaves_no_page(tmp_path: Path, built: Path) -> None:
    """Pages, data and lists follow the folder; nothing else is touched."""
    shop, out = tmp_path / "shop", tmp_path / "out"
    shutil.copytree(DEMO, shop)
    shutil.copytree(built, out)
    gone = read_shop(shop).lessons[0]
    (shop / gone.path).unlink()
    before = (out / "notes/index.html").stat().st_mtime_ns
    pages.write(read_shop(shop), load(out), out)
    assert not (out / "lessons" / gone.id).exists() and not (out / f"data/lesson/{gone.id}.json").exists()
    assert gone.id not in (out / "data/lessons.json").read_text("utf-8")
    assert (out / "notes/index.html").stat().st_mtime_ns == before


def test_only_what_changed_is_written_again(tmp_path: Path, built: Path) -> None:
    """After one edit: that lesson's page and those that show it, and all of them as a fresh build has them."""
    shop, out, fresh = tmp_path / "shop", tmp_path / "out", tmp_path / "fresh"
    shutil.copytree(DEMO, shop)
    build_site(CONFIG, shop, out)
    times = {path: path.stat().st_mtime_ns for path in out.glob("lessons/*/index.html")}
    one = read_shop(shop).lessons[3]
    path = shop / one.path
    path.write_text(path.read_text("utf-8").replace('said: "', 'said: "in fact: '), "utf-8")
    pages.write(read_shop(shop), load(out), out)
    again = {path.parent.name for path, when in times.items() if path.stat().st_mtime_ns != when}
    assert one.id in again and len(again) < len(times) / 2
    build_site(CONFIG, shop, fresh)
    for path in fresh.glob("lessons/*/index.html"):
        assert path.read_bytes() == (out / path.relative_to(fresh)).read_bytes(), path


def test_the_browsers_python_is_this_source(built: Path) -> None:
    """calc.zip holds exactly the files of calculators, brief and matching, and two builds give the same bytes."""
    with zipfile.ZipFile(built / "calc.zip") as archive:
        held = {name: archive.read(name) for name in archive.namelist()}
    folders = ("calc", "hooks/brief", "hooks/shop/match")
    ours = [path for folder in folders for path in (ROOT / folder).rglob("*.py")]
    ours += [ROOT / "hooks/__init__.py", ROOT / "hooks/shop/__init__.py"]
    assert held == {path.relative_to(ROOT).as_posix(): path.read_bytes() for path in ours}


def test_data_files_are_whole(built: Path) -> None:
    """Lists and single lessons agree; the declaration names every field with its words."""
    lessons = json.loads((built / "data/lessons.json").read_text("utf-8"))
    assert len(lessons) == len(read_shop(DEMO).lessons)
    for one in lessons[:5]:
        assert json.loads((built / f"data/lesson/{one['id']}.json").read_text("utf-8"))["hash"] == one["hash"]
    declared = json.loads((built / "data/declaration.json").read_text("utf-8"))
    assert {"fields", "job_fields", "shop_fields", "vocabularies", "calculators"} == set(declared)
    assert all(one["label"] for kind in ("fields", "job_fields", "shop_fields") for one in declared[kind])
    memory = json.loads((built / "data/known.json").read_text("utf-8"))
    assert len(memory["ids"]) == len(memory["told"]) == len(memory["sorts"]) == len(lessons)
    for job in read_shop(DEMO).jobs:
        assert json.loads((built / f"data/job/{job.id}.json").read_text("utf-8"))["fields"]["part"] == job.get("part")
        assert "Before you cut" in (built / "jobs" / job.id / "index.html").read_text("utf-8")


class _Balance(HTMLParser):
    """Finds tags that are not closed in their order, and headings that skip a level."""

    VOID = {"meta", "link", "input", "br", "hr", "img", "source"}
    SHAPES = {"path", "line", "circle", "polyline", "rect"}

    def __init__(self) -> None:
        super().__init__()
        self.open: list[str] = []
        self.faults: list[str] = []
        self.levels: list[int] = []

    def handle_starttag(self, tag: str, _attrs: list[tuple[str, str | None]]) -> None:
        """A tag opens."""
        if tag not in self.VOID:
            self.open.append(tag)
        if tag[0] == "h" and tag[1:].isdigit():
            self.levels.append(int(tag[1:]))

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """A tag that closes itself."""

    def handle_endtag(self, tag: str) -> None:
        """A tag closes: it must be the one opened last."""
        if not self.open or self.open.pop() != tag:
            self.faults.append(tag)


def test_every_page_is_well_formed(built: Path) -> None:
    """Tags balance, there is one first heading, and no heading skips a level."""
    for path in _pages(built):
        page = _Balance()
        page.feed(path.read_text("utf-8"))
        shown = [level for level in page.levels if level]
        assert not page.faults and not page.open, (path, page.faults, page.open)
        assert shown.count(1) == 1, path
        assert all(b - a <= 1 for a, b in itertools.pairwise(shown)), path
