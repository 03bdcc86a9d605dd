"""An edit meets what was stored since it began: what only one side changed holds, and what both changed is told.

A list whose lines are known by one of their parts (`Field.by`: a cutter by its key) meets line by line.
The same rule for a page that has a server is in hooks/site/static/js/changes.js.
"""

from collections.abc import Iterable, Mapping
from typing import Any

from hooks.shop.fields import Field

Lines = dict[str, Any]


def met(
    was: Mapping[str, Any], stored: Mapping[str, Any], changes: Mapping[str, Any], fields: Iterable[Field]
) -> tuple[dict[str, Any], list[str]]:
    """(what is left to change, keys that clash), all of it as texts, lists and mappings; None is "not there".

    `was` holds the changed keys as the edit found them; of a key that it does not hold nothing is known.
    """
    by = {one.key: one.by for one in fields}
    left: dict[str, Any] = {}
    clashing = []
    for key, mine in changes.items():
        if mine == stored.get(key):
            continue
        if key in was and was[key] == stored.get(key):
            left[key] = mine
            continue
        lists = [_lines(one.get(key), by.get(key, "")) for one in (was, stored, changes)] if key in was else [None]
        lines = None if None in lists else _by_line(*lists)  # type: ignore[arg-type]
        if lines is None:
            clashing.append(key)
        elif lines != stored.get(key, []):
            left[key] = lines or None
    return left, clashing


def _lines(value: Any, by: str) -> Lines | None:
    """The lines of a list by their names; None where they have none of their own each."""
    value = [] if value is None else value
    if not by or not isinstance(value, list):
        return None
    named = {str(line.get(by)): line for line in value if isinstance(line, dict) and by in line}
    return named if len(named) == len(value) else None


def _by_line(was: Lines, stored: Lines, mine: Lines) -> list[Any] | None:
    """The lines that hold, those stored first; None where both sides changed one."""
    found = []
    for name in dict.fromkeys([*stored, *mine]):
        before, theirs, ours = was.get(name), stored.get(name), mine.get(name)
        if ours not in (before, theirs) and theirs != before:
            return None
        line = theirs if ours == before else ours
        if line is not None:
            found.append(line)
    return found
