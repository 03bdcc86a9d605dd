"""A job as a value, and the reading of them."""

import hashlib
import os
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

from hooks.shop.lesson import Stored
from hooks.shop.nodes import Group
from hooks.shop.problems import Problem, nearest, quoted
from hooks.shop.sheet import JOB, placed, read_sheet
from hooks.shop.typed import at, plain


class Job(Stored):
    """A job sheet that was read."""


def read_fields(text: bytes, path: str) -> tuple[dict[str, Any], tuple[Problem, ...]]:
    """The fields of a job sheet as texts, whatever its file is called; empty where it has any problem."""
    _, tree, problems = read_sheet(text, path, JOB, named=False)
    return ({} if problems or tree is None else plain(tree)), problems


def not_there(text: bytes, path: str, settings: Mapping[str, Any]) -> tuple[Problem, ...]:
    """Each machine, cutter and vice that a job sheet names and `settings` (shop.yaml) does not have."""
    values, tree, _ = read_sheet(text, path, JOB, named=False)
    return () if values is None or tree is None else tuple(_unknown(values, tree, path, settings))


def read_jobs(root: Path, settings: Mapping[str, Any]) -> tuple[list[Job], list[Problem]]:
    """Every job of a shop's folder, newest first, and every problem of those that cannot be read.

    A machine, cutter or vice that `settings` (shop.yaml) does not have is a problem too; its job stays good.
    """
    jobs: list[Job] = []
    problems: list[Problem] = []
    for path in _files(root):
        try:
            text = (root / path).read_bytes()
        except OSError as error:
            problems.append(Problem(path, 1, 1, f"cannot be read ({error.strerror})"))
            continue
        values, tree, found = read_sheet(text, path, JOB)
        found = (*found, *placed(values, path, JOB))
        if values is not None and tree is not None and not found:
            jobs.append(Job(Path(path).stem, path, hashlib.sha256(text).hexdigest(), values, plain(tree)))
            found = tuple(_unknown(values, tree, path, settings))
        problems += found
    return sorted(jobs, key=lambda one: one.id, reverse=True), problems


def _files(root: Path) -> Iterator[str]:
    """Paths of job files, those in folders of their own too: they are told to be in the wrong one."""
    for folder, folders, names in os.walk(root / "jobs"):
        folders[:] = sorted(name for name in folders if not name.startswith("."))
        for name in sorted(names):
            if name.endswith((".yaml", ".yml")) and not name.startswith("."):
                yield (Path(folder) / name).relative_to(root).as_posix()


def _unknown(job: Mapping[str, Any], tree: Group, path: str, settings: Mapping[str, Any]) -> Iterator[Problem]:
    """Names of machines, cutters and vices that shop.yaml does not have."""
    for kind, where, key in _named(job):
        keys = [str(one.get("key")) for one in settings.get(kind, ())]
        if key not in keys:
            node = at(tree, where.split("."))
            text = f"no {kind[:-1]} {quoted(key)} in shop.yaml{nearest(key, keys)}"
            yield Problem(path, node.line, node.column, text, where)


def _named(job: Mapping[str, Any]) -> Iterator[tuple[str, str, str]]:
    """(list in shop.yaml, dotted place, key) of everything of the shop that a job names."""
    if "machine" in job:
        yield "machines", "machine", job["machine"]
    for n, setup in enumerate(job.get("setups", ())):
        if "vice" in setup.get("holding", {}):
            yield "vices", f"setups.{n}.holding.vice", setup["holding"]["vice"]
        for m, operation in enumerate(setup.get("operations", ())):
            if "cutter_of_shop" in operation:
                yield "cutters", f"setups.{n}.operations.{m}.cutter_of_shop", operation["cutter_of_shop"]
