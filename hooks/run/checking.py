"""Every problem of a shop's folder or of one lesson."""

from pathlib import Path

from hooks.shop.problems import Problem
from hooks.shop.read import read_lesson, read_shop


def problems_at(path: Path) -> tuple[Problem, ...]:
    """All problems at `path`, sorted; a file is read as one lesson, a folder as a shop."""
    if path.is_file():
        _, problems = read_lesson(path.read_bytes(), str(path))
        return tuple(sorted(problems))
    return tuple(sorted(read_shop(path).problems))
