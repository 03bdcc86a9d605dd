"""Lessons and job sheets whose files cannot be read: each has a page that says where and why, with its text."""

import re
from collections import defaultdict
from dataclasses import dataclass
from pathlib import Path, PurePosixPath

from hooks.shop.problems import Problem
from hooks.shop.read import Shop

NAME = re.compile(r"\d[0-9a-z-]*", re.ASCII)  # what an id may be, mistyped; no page of ours is called so
LONGEST = 20_000  # characters shown of a file; a lesson has a tenth of that


@dataclass(frozen=True)
class Broken:
    """One such file. `address` is that of its page, `lines` its text, `path` where it lies in the shop's folder."""

    id: str
    path: str
    address: str
    problems: tuple[Problem, ...]
    lines: tuple[str, ...]

    @property
    def torn(self) -> bool:
        """Whether it is no YAML at all, which mostly is a matter of quotes."""
        return any("not YAML" in problem.text for problem in self.problems)

    @property
    def wrong(self) -> set[int]:
        """The lines that the problems name, counted from 1; past the end means the last."""
        return {min(problem.line, len(self.lines)) for problem in self.problems}


def broken_files(shop: Shop) -> list[Broken]:
    """Every file of a lesson or job that was not read, sorted by its path."""
    read = {"lessons": {one.id for one in shop.lessons}, "jobs": {one.id for one in shop.jobs}}
    found: dict[str, list[Problem]] = defaultdict(list)
    for problem in shop.problems:
        found[problem.path].append(problem)
    return [
        Broken(id_, path, f"{kind}/{id_}/", tuple(problems), _lines(shop.root / path))
        for path, problems in sorted(found.items())
        for kind, id_ in [(PurePosixPath(path).parts[0], PurePosixPath(path).stem)]
        if kind in read and NAME.fullmatch(id_) and id_ not in read[kind]
    ]


def _lines(path: Path) -> tuple[str, ...]:
    try:
        return tuple(path.read_bytes().decode("utf-8-sig", "replace")[:LONGEST].splitlines())
    except OSError:
        return ()
