"""Writes everything that comes from lessons into a built folder, by filling the shell; MkDocs is not needed.

A file is replaced whole, and only where its bytes changed: the folder may be being served.
"""

import json
import os
import shutil
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

from jinja2 import Environment

from calc.catalogue import CALCULATORS
from hooks.shop.exporting import to_csv, to_handed
from hooks.shop.read import Shop
from hooks.site import index
from hooks.site.broken import Broken, broken_files
from hooks.site.data import lesson_data, lesson_list
from hooks.site.feeds import feeds
from hooks.site.finding import find_context
from hooks.site.forms import declaration_data, edit_context, record_context
from hooks.site.importing import import_context
from hooks.site.jobs import job_context, job_data, jobs_context
from hooks.site.known import known
from hooks.site.lessons import lesson_context
from hooks.site.notes import note_pages, notes_context, titles
from hooks.site.render import html, templates
from hooks.site.shell import Shell
from hooks.site.similar import similar_lessons
from hooks.site.sums import STEP_NAMES, calculator_context
from hooks.site.told import Told, rules, told, unfinished
from hooks.site.unchanged import changed_since

FROM_THE_ROOT = -1  # it answers at any depth, so its links begin at the root of the host
RULES, NEWEST, UNFINISHED = 7, 8, 5


def write(shop: Shop, shell: Shell, folder: Path) -> int:
    """Write all pages and data files of `shop`; the number of pages there are."""
    ones = tuple(told(lesson, shop) for lesson in shop.lessons)
    memory, broken = known(shop), broken_files(shop)
    for path, content in _pages(shop, ones, shell, templates(), folder, broken):
        put(folder / path, content)
    for path, content in _job_pages(shop, memory, shell):
        put(folder / path, content)
    for path, data in _data(shop, ones, memory):
        put(folder / path, json.dumps(data, ensure_ascii=False, separators=(",", ":")).encode("utf-8"))
    for path, content in (("lessons.csv", to_csv(shop.lessons)), *feeds(shop, ones)):
        put(folder / path, content)
    index.write(shop, folder)
    kept = [one.address.split("/") for one in broken]
    _take_away(folder / "lessons", {one.id for one in ones} | {id_ for kind, id_, _ in kept if kind == "lessons"})
    _take_away(folder / "data" / "lesson", {f"{one.id}.json" for one in ones})
    jobs = {one.id for one in shop.jobs} | {id_ for kind, id_, _ in kept if kind == "jobs"}
    _take_away(folder / "jobs", {"edit", "index.html", *jobs})
    _take_away(folder / "data" / "job", {f"{one.id}.json" for one in shop.jobs})
    return sum(1 for path in folder.rglob("*.html") if not any(part.startswith(".") for part in path.parts))


def put(path: Path, content: bytes) -> None:
    """Replace a file whole, where it differs."""
    try:
        if path.read_bytes() == content:
            return
    except FileNotFoundError:
        path.parent.mkdir(parents=True, exist_ok=True)
    beside = path.with_name(f".{path.name}.new")
    beside.write_bytes(content)
    os.replace(beside, path)


def _pages(
    shop: Shop, ones: tuple[Told, ...], shell: Shell, environment: Environment, folder: Path, broken: list[Broken]
) -> Iterator[tuple[str, bytes]]:
    notes = titles(folder)

    def page(address: str, kind: str, title: str, template: str, **context: Any) -> tuple[str, bytes]:
        main = html(environment, template, **context)
        return f"{address}index.html", shell.fill(title, kind, main, address.count("/"))

    yield page("", "home", "Home", "home.html", **_home(shop, ones))
    yield page("record/", "record", "Record", "record.html", **record_context(shop))
    yield page("edit/", "edit", "Complete a lesson", "edit.html", **edit_context(shop))
    yield page("find/", "find", "Find", "find.html", **find_context(shop))
    yield page("import/", "import", "Import", "import.html", **import_context())
    yield page("calculators/", "calculators", "Sums", "calculators.html", steps=_steps())
    yield page("notes/", "notes", "Bench notes", "notes.html", **notes_context(folder))
    addresses = {one.path: one.address for one in broken}
    yield page("attention/", "attention", "Needs attention", "attention.html", problems=shop.problems, pages=addresses)
    for one in broken:
        yield page(one.address, "broken", "Cannot be read", "broken.html", one=one)
    for calculator in CALCULATORS:
        context = calculator_context(calculator, ones, shop, notes)
        yield page(f"calculators/{calculator.name}/", "calculator", calculator.title, "calculator.html", **context)
    similar = similar_lessons(shop, folder)
    for one in changed_since(folder, ones, shop, similar):
        context = lesson_context(one, shop, ones, similar)
        yield page(f"lessons/{one.id}/", "lesson", one.title, "lesson.html", **context)
    yield "404.html", shell.fill("Not here", "missing", html(environment, "missing.html"), FROM_THE_ROOT)
    yield from note_pages(folder, ones, shop, environment)


def _job_pages(shop: Shop, memory: Mapping[str, Any], shell: Shell) -> Iterator[tuple[str, bytes]]:
    environment = templates()

    def page(address: str, kind: str, title: str, template: str, **context: Any) -> tuple[str, bytes]:
        return f"{address}index.html", shell.fill(
            title, kind, html(environment, template, **context), address.count("/")
        )

    yield page("jobs/", "jobs", "Before you cut", "jobs.html", **jobs_context(shop))
    yield page("jobs/edit/", "job-form", "Describe the job", "job_form.html")
    yield page("shop/", "shop", "Your shop", "shop.html")
    for job in shop.jobs:
        yield page(f"jobs/{job.id}/", "job", job.get("part"), "job.html", **job_context(job, memory, shop))


def _home(shop: Shop, ones: tuple[Told, ...]) -> dict[str, Any]:
    caught = sum(check.would_have_caught for check in shop.checks.values())
    return {
        "rules": rules(ones)[:RULES],
        "unfinished": unfinished(ones)[:UNFINISHED],
        "newest": ones[:NEWEST],
        "caught": {"checks": len(shop.checks), "caught": caught},
        "problems": len(shop.problems),
    }


def _steps() -> list[tuple[str, list[Any]]]:
    steps = dict.fromkeys(one.step for one in CALCULATORS)
    return [(STEP_NAMES[step], [one for one in CALCULATORS if one.step == step]) for step in steps]


def _data(shop: Shop, ones: tuple[Told, ...], memory: Mapping[str, Any]) -> Iterator[tuple[str, Any]]:
    yield "data/declaration.json", declaration_data(shop)
    yield "data/lessons.json", lesson_list(ones, shop)
    yield "data/known.json", memory
    yield "data/shop.json", {"hash": shop.settings_hash, "fields": shop.settings_typed}
    for job in shop.jobs:
        yield f"data/job/{job.id}.json", job_data(job)
    yield "data/lessons-all.json", to_handed(shop.lessons)
    for one in ones:
        yield f"data/lesson/{one.id}.json", lesson_data(one.lesson)


def _take_away(folder: Path, keep: set[str]) -> None:
    """Lessons that are gone from the shop go from the pages."""
    if not folder.is_dir():
        return
    for path in folder.iterdir():
        if path.name in keep or path.name.startswith("."):
            continue
        if path.is_dir():
            shutil.rmtree(path, ignore_errors=True)
        else:
            path.unlink(missing_ok=True)
