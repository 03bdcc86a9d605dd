"""Moves of the tests for rapids: numbers as typed, and one value of the answer."""

from typing import Any

from calc.catalogue import work_out

NAME = "travel-clearance"
BASE = {"tool_diameter": "10", "tool_length": "40", "holder_diameter": "36", "holder_length": "50"}


def typed(rows: Any) -> str:
    """Points or boxes as they are typed."""
    return ";".join(",".join(f"{one!r}" for one in row) for row in rows)


def value(name: str, inputs: dict[str, str], **changed: str) -> Any:
    """One value of the answer with some inputs changed."""
    return work_out(NAME, {**inputs, **changed}).values[name].value
