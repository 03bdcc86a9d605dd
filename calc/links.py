"""A sum's inputs as they stand in the fragment of an address."""

import re
from collections.abc import Mapping
from urllib.parse import quote

from calc.declare import Calculator

BARE = re.compile(r"[+-]?(\d+([.,]\d*)?|[.,]\d+)")


def fragment(calculator: Calculator, inputs: Mapping[str, str]) -> str:
    """Inputs as they stand in an address, units always: a bare number would be read in whatever unit is shown."""
    units = {one.name: one.unit for one in calculator.inputs}
    return "&".join(f"{quote(key)}={quote(_with_unit(text, units.get(key, '1')))}" for key, text in inputs.items())


def _with_unit(text: str, unit: str) -> str:
    return f"{text.strip()} {unit}" if unit != "1" and BARE.fullmatch(text.strip()) else text
