"""ISO 286 as makers and textbooks print it: a thousand deviations that were read, each held to ours exactly.

`iso286.json` holds the tables by source, in micrometres. `up_to` are the upper bounds of steps (`kind` "size": single
sizes). "width" is that of a grade, "near" the side of a shaft zone nearer to the nominal size, "zone" both sides.
"""

import json
from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest

from calc.formulas import fits

TABLES = json.loads(Path(__file__).with_name("iso286.json").read_text(encoding="utf-8"))


def _ours(kind: str, code: str, nominal: float) -> Any:
    if kind == "width":
        return fits.grade(nominal, int(code))
    if kind == "near":
        return min(map(abs, fits.shaft(nominal, f"{code}6") or ()))
    return list((fits.hole if code[0].isupper() else fits.shaft)(nominal, code) or ())


def _inside(table: dict[str, Any]) -> Iterator[tuple[int, float]]:
    """Place in the table and a size: the end of each step and, where the step before it is known, its beginning."""
    yield from enumerate(table["up_to"])
    if table["kind"] != "size":
        yield from ((at, before + 0.001) for at, (before, _) in enumerate(pairwise(table["up_to"]), 1))


@pytest.mark.parametrize("table", TABLES, ids=lambda one: f"{one['source']}: {' '.join(one['codes'])}")
def test_every_number_of_a_printed_table(table: dict[str, Any]) -> None:
    """Both ends of each step, both deviations; the source is named in the file."""
    for code, printed in table["codes"].items():
        assert len(printed) == len(table["up_to"]), code
        for at, nominal in _inside(table):
            assert _ours(table["kind"], code, nominal) == printed[at], (code, nominal)


def test_no_number_of_ours_is_unread() -> None:
    """Each grade and each letter's deviation is printed somewhere for the end of each of its steps."""
    read = {(code if one["kind"] in ("width", "near") else code[:-1], size)
            for one in TABLES for code in one["codes"] for size in one["up_to"]}  # fmt: skip
    ours = {(str(number), step) for number in fits.GRADES for step in fits.STEPS}
    ours |= {(letter, step) for letter in fits.SHAFTS for step in fits.STEPS}
    ours |= {("s", step) for step in fits.S_STEPS}
    assert ours - read == set()


def test_a_wrong_digit_would_be_noticed() -> None:
    """The comparison can fail: a deviation one micrometre off is not ours."""
    assert _ours("zone", "g6", 25) != [-7, -21] and _ours("near", "p", 80) != 33 and _ours("width", "7", 30) != 22
