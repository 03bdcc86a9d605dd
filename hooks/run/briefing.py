"""A job's brief for the terminal: the lines of its page, in the same order."""

import json
from pathlib import Path
from typing import Any

from calc.present import WORDS
from hooks.brief.lines import Brief, Line, brief
from hooks.brief.situations import situations
from hooks.brief.sums import Sum, sums
from hooks.shop.job import not_there, read_fields
from hooks.shop.problems import Problem
from hooks.shop.read import Shop, read_shop
from hooks.site.known import known

Told = tuple[str, tuple[Problem, ...]]


def as_text(root: Path, path: Path) -> Told:
    """The brief in lines, "" where the sheet cannot be read; and its problems, or names that the shop has not."""
    shop, job, problems = _read(root, path)
    if not job:
        return "", problems
    found = _found(shop, job)
    lines = [f"{n}. {_told(one)}" for n, one in enumerate(found.lines, 1)]
    done = [
        f"{_word(one)}: {one.calculator.title} ({one.where}): {one.reason}" for one in sums(job, shop.settings_typed)
    ]
    return "\n".join([*(lines or ["Nothing in the memory is like this job."]), *done]), problems


def as_json(root: Path, path: Path) -> Told:
    """Every lesson that fits, best first: [{"id", "title", "score", "why"}]."""
    shop, job, problems = _read(root, path)
    if not job:
        return "", problems
    found = _found(shop, job)
    rows = [{"id": one.id, "title": one.title, "score": one.score, "why": list(one.why)} for one in found.ranked]
    return json.dumps(rows, ensure_ascii=False), problems


def _word(one: Sum) -> str:
    return WORDS[one.verdict].upper() if one.verdict else "NEEDS"


def _told(one: Line) -> str:
    more = (f"the same: {' '.join(other.id for other in one.more)}",) if one.more else ()
    return "\n   ".join((one.rule, "; ".join(one.why), f"{one.id} {one.title}", *more))


def _read(root: Path, path: Path) -> tuple[Shop, dict[str, Any], tuple[Problem, ...]]:
    text, shop = path.read_bytes(), read_shop(root)
    job, problems = read_fields(text, path.name)
    return shop, job, problems or not_there(text, path.name, shop.settings)


def _found(shop: Shop, job: dict[str, Any]) -> Brief:
    return brief(known(shop), situations(job, shop.settings_typed))
