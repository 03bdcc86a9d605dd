"""Every published row holds; the source stands beside each in rows.json."""

import pytest

from calc.catalogue import CALCULATORS
from tests.published.__main__ import FILE, text
from tests.published.rows import ROWS, Row, run

OUTSIDE = ("read", "memory")


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.id)
def test_row(row: Row) -> None:
    """The calculator gives the published number, as near as the source's rounding."""
    (outcome,) = run([row])
    assert outcome.holds, f"{outcome.found} {row.unit}, {row.source} has {row.expected} ({row.note})"


def test_rows_say_where_they_come_from() -> None:
    """No row without source, and none twice."""
    assert all(row.source and row.provenance in (*OUTSIDE, "derived") for row in ROWS)
    assert len({row.id for row in ROWS}) == len(ROWS)


def test_outside_evidence_is_counted_apart() -> None:
    """At least twenty rows were read in a published source; derived ones do not count as evidence."""
    assert sum(row.provenance == "read" for row in ROWS) >= 20


def test_a_wrong_number_would_be_noticed() -> None:
    """The check can fail: a row moved by twice its tolerance does not hold."""
    row = ROWS[0]
    moved = Row(**{**row.__dict__, "expected": row.expected + 3 * row.tolerance})
    assert not run([moved])[0].holds


def test_every_calculator_has_rows() -> None:
    """No calculator goes unchecked."""
    assert {row.calculator for row in ROWS} == {one.name for one in CALCULATORS}


def test_the_page_of_numbers_is_the_newest() -> None:
    """hooks/site/numbers.json says what the rows say: `python -m tests.published` writes it anew."""
    assert FILE.read_text(encoding="utf-8") == text()
