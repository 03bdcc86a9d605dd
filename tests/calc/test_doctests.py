"""The worked examples in the formulas' docstrings."""

import doctest
import importlib
from pathlib import Path

import pytest

CALC = Path(__file__).parents[2] / "calc"
MODULES = sorted(
    ".".join(path.relative_to(CALC.parent).with_suffix("").parts)
    for folder in ("formulas", "calculators")
    for path in (CALC / folder).glob("*.py")
)


@pytest.mark.parametrize("name", MODULES)
def test_examples(name: str) -> None:
    """They hold."""
    assert doctest.testmod(importlib.import_module(name)).failed == 0


def test_every_formula_has_one() -> None:
    """At least one example in each file of formulas that has functions."""
    for path in (CALC / "formulas").glob("[a-z]*.py"):
        text = path.read_text("utf-8")
        assert "def " not in text or ">>>" in text, path
