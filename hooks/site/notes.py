"""Written pages that also show lessons: MkDocs renders them once, with a mark that is filled from the shop.

In a note, `@@LESSONS pocket corner-clearance@@` on a line of its own lists lessons of those operations, stages, kinds
or calculators. `@@NUMBERS@@` shows what the calculators are checked against, `@@WEIGHTS@@` what counts when lessons
are matched, `@@DRAWING NAME@@` the worked example of a calculator.
"""

import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from jinja2 import Environment

from calc.catalogue import CALCULATORS, named, work_out
from hooks.shop.read import Shop
from hooks.site.told import Told, severity
from hooks.site.weights import weights

KEPT = ".written"  # in the built folder: the notes as MkDocs made them; not served
NUMBERS = re.compile(r"(?:<p>)?@@NUMBERS@@(?:</p>)?")
WEIGHTS = re.compile(r"(?:<p>)?@@WEIGHTS@@(?:</p>)?")
CHECKED = Path(__file__).with_name("numbers.json")
DRAWING = re.compile(r"(?:<p>)?@@DRAWING ([a-z-]+)@@(?:</p>)?")
MARK = re.compile(r"(?:<p>)?@@LESSONS ([a-z0-9_ -]+)@@(?:</p>)?")
TITLE = re.compile(r"<title>(.*?) · ", re.DOTALL)
MOST = 5


def keep_written(folder: Path) -> None:
    """Lay by every written page that holds a mark, so that it can be filled again after each save."""
    for path in sorted(folder.rglob("index.html")):
        text = path.read_text(encoding="utf-8")
        if any(mark.search(text) for mark in (MARK, NUMBERS, WEIGHTS, DRAWING)):
            kept = folder / KEPT / path.relative_to(folder)
            kept.parent.mkdir(parents=True, exist_ok=True)
            kept.write_text(text, encoding="utf-8")


def note_pages(
    folder: Path, ones: tuple[Told, ...], shop: Shop, environment: Environment
) -> Iterator[tuple[str, bytes]]:
    """The written pages that show lessons, filled."""
    strips = environment.get_template("strip.html").module.strips
    for path in sorted((folder / KEPT).rglob("index.html")):
        address = path.relative_to(folder / KEPT)
        base = "/".join([".."] * (len(address.parts) - 1)) or "."

        def listed(mark: re.Match[str], base: str = base) -> str:
            found = _about(set(mark[1].split()), ones, shop)
            return str(strips(found, base)) if found else "<p>None yet in this shop.</p>"

        text = DRAWING.sub(_drawing, path.read_text(encoding="utf-8"))
        if NUMBERS.search(text):
            text = NUMBERS.sub(lambda _, base=base: _numbers(environment, base), text)
        if WEIGHTS.search(text):
            text = WEIGHTS.sub(lambda _: weights(environment), text)
        yield address.as_posix(), MARK.sub(listed, text).encode("utf-8")  # last: what is typed is not looked through


def _drawing(mark: re.Match[str]) -> str:
    calculator = named(mark[1])
    return f'<figure class="drawing">{work_out(calculator.name, calculator.example).drawing}</figure>'


def _numbers(environment: Environment, base: str) -> str:
    checked = json.loads(CHECKED.read_text(encoding="utf-8"))
    titles = {one.name: one.title for one in CALCULATORS}
    return environment.get_template("numbers.html").render(numbers=checked, titles=titles, base=base)


def titles(folder: Path) -> dict[str, str]:
    """The bench notes' titles by slug."""
    found = {}
    for path in sorted((folder / "notes").glob("*/index.html")):
        title = TITLE.search(path.read_text(encoding="utf-8"))
        found[path.parent.name] = title[1] if title else path.parent.name
    return found


def notes_context(folder: Path) -> dict[str, Any]:
    """The context of templates/notes.html."""
    return {"notes": [{"slug": slug, "title": title} for slug, title in titles(folder).items()]}


def _about(words: set[str], ones: tuple[Told, ...], shop: Shop) -> list[Told]:
    found = [one for one in ones if words & _words(one, shop)]
    return sorted(found, key=lambda one: -severity(one.lesson))[:MOST]


def _words(one: Told, shop: Shop) -> set[str]:
    lesson, check = one.lesson, shop.checks.get(one.id)
    keys = {str(lesson.get(key)) for key in ("kind", "stage", "operation")}
    keys |= set(lesson.get("contributing", ()))
    return keys | ({check.calculator} if check else set())
