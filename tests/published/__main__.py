"""Writes hooks/site/numbers.json, what the page "How the numbers are checked" shows: `python -m tests.published`."""

import json
import sys
from collections.abc import Iterable
from pathlib import Path
from typing import Any

from calc.catalogue import CALCULATORS
from tests.published.rows import ROWS, Outcome, run

FILE = Path(__file__).parents[2] / "hooks" / "site" / "numbers.json"


def summary() -> list[dict[str, Any]]:
    """One entry a calculator: counts by provenance, the number furthest off, the sources read."""
    outcomes = run(ROWS)
    return [_about(one.name, [o for o in outcomes if o.row.calculator == one.name]) for one in CALCULATORS]


def text() -> str:
    """The file's text."""
    return json.dumps(summary(), indent=1, ensure_ascii=False) + "\n"


def _about(name: str, outcomes: list[Outcome]) -> dict[str, Any]:
    outside = [one for one in outcomes if one.row.provenance != "derived"]
    derived = [one for one in outcomes if one.row.provenance == "derived"]
    return {
        "calculator": name,
        "outside": [_line(one) for one in outside],
        "derived": len(derived),
        "worst_share": _worst(outside),
        "sources": sorted({one.row.source for one in outside}),
    }


def _worst(outcomes: Iterable[Outcome]) -> float:
    """The largest deviation, as a share of the published number, to two digits that count."""
    return float(f"{max((one.deviation / abs(one.row.expected) for one in outcomes), default=0.0):.2g}")


def _line(one: Outcome) -> dict[str, Any]:
    return {
        "value": one.row.value,
        "published": float(f"{one.row.expected:.6g}"),
        "found": float(f"{one.found:.6g}"),
        "unit": one.row.unit,
        "source": one.row.source,
        "note": one.row.note,
    }


if __name__ == "__main__":
    FILE.write_text(text(), encoding="utf-8", newline="\n")
    sys.exit(0)
