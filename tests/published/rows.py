"""Published numbers against the calculators, standard library only: it runs in the browser's Python too.

`rows.json` holds one number a row: inputs as typed, the value it is about, the number, how near it must
be in `unit`, where it comes from and how: "read" (seen in the source: outside evidence), "memory"
(recalled), "derived" (own computation by another hand: no outside evidence, counted apart).
"""

import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path

from calc.catalogue import named, work_out
from calc.units import factor

FILE = Path(__file__).with_name("rows.json")


@dataclass(frozen=True)
class Row:
    """One published number."""

    id: str
    calculator: str
    inputs: Mapping[str, str]
    value: str
    expected: float
    unit: str
    tolerance: float
    provenance: str
    source: str
    note: str


@dataclass(frozen=True)
class Outcome:
    """What the calculator says to a row: its number in the row's unit, and how far it is off."""

    row: Row
    found: float
    deviation: float

    @property
    def holds(self) -> bool:
        """Whether it is near enough."""
        return self.deviation <= self.row.tolerance


def load() -> tuple[Row, ...]:
    """The rows of rows.json."""
    return tuple(Row(**row) for row in json.loads(FILE.read_text(encoding="utf-8")))


def run(rows: Iterable[Row]) -> list[Outcome]:
    """Work every row out."""
    return [_outcome(row) for row in rows]


def _outcome(row: Row) -> Outcome:
    found = work_out(row.calculator, row.inputs).values[row.value].value
    unit = named(row.calculator).output(row.value).unit
    found *= float(factor(unit, row.unit))
    return Outcome(row, found, abs(found - row.expected))


ROWS = load()
