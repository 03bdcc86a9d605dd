"""The kinds of file that a shop's folder holds one thing each in: lessons and job sheets; read alike, written alike."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from hooks.shop.declaration import FIELDS
from hooks.shop.fields import Field
from hooks.shop.ids import is_id, job_path, lesson_path
from hooks.shop.job_sheet import JOB_FIELDS
from hooks.shop.nodes import Group, NotStrict, parse
from hooks.shop.problems import Problem, quoted
from hooks.shop.typed import Reading


@dataclass(frozen=True)
class Sheet:
    """One kind of file: its fields, where the file of an id lies, and the line that it begins with."""

    name: str
    fields: tuple[Field, ...]
    path: Callable[[str], str]
    first_line: str


LESSON = Sheet("lesson", FIELDS, lesson_path, "# yaml-language-server: $schema=../../lesson.schema.json")
JOB = Sheet("job", JOB_FIELDS, job_path, "# A job sheet.")

Read = tuple[dict[str, Any] | None, Group | None, tuple[Problem, ...]]


def read_sheet(text: bytes, path: str, sheet: Sheet, named: bool = True) -> Read:
    """(typed values, tree, problems) of one file's bytes; no values where it has any problem.

    `named`: the file's name must be its id.
    """
    try:
        tree = parse(text, path)
    except NotStrict as broken:
        return None, None, (broken.problem,)
    reading = Reading(path)
    fields = reading.group(tree, sheet.fields)
    id_ = Path(path).stem
    if named and fields.get("id", id_) != id_:
        reading.wrong(tree.entries["id"], f'"id" (expected the file\'s name {quoted(id_)})')
    if named and not is_id(id_):
        expected = "a name such as 20261125-063051-k7q2d.yaml"
        reading.wrong(Group(), f"the file's name is no id (expected {expected})")
    if reading.problems:
        return None, tree, tuple(sorted(reading.problems))
    return fields, tree, ()


def placed(values: Mapping[str, Any] | None, path: str, sheet: Sheet) -> tuple[Problem, ...]:
    """The problem of a good file that lies in the wrong folder."""
    wanted = sheet.path(Path(path).stem)
    if values is None or path == wanted:
        return ()
    return (Problem(path, 1, 1, f"in the wrong folder (expected {wanted})"),)
