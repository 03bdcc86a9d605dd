"""What a calculator's page shows: its boxes, and its worked example baked in."""

from collections.abc import Mapping
from typing import Any

from markupsafe import Markup

from calc.catalogue import work_out
from calc.declare import Calculator
from calc.present import answer_html
from hooks.shop.read import Shop
from hooks.site.told import Told

STEP_NAMES = {
    "stock": "Stock",
    "hold": "Holding",
    "datum": "Finding the datum",
    "cutter": "Cutter and cut",
    "run": "Running",
    "inspect": "Measuring",
    "any": "At any time",
}
LESSONS = 6


def calculator_context(
    calculator: Calculator, ones: tuple[Told, ...], shop: Shop, notes: Mapping[str, str]
) -> dict[str, Any]:
    """The context of templates/calculator.html."""
    first = [one for one in calculator.inputs if one.first]
    more = [one for one in calculator.inputs if not one.first]
    answer = work_out(calculator.name, calculator.example).to_dict()
    return {
        "calculator": calculator,
        "first": first,
        "more": more,
        "more_open": any(one.name in calculator.example for one in more),
        "example": calculator.example,
        "baked": Markup(answer_html(answer, "metric")),
        "note": notes.get(calculator.bench_note, ""),
        "lessons": [one for one in ones if _checked_by(one, shop, calculator)][:LESSONS],
    }


def _checked_by(one: Told, shop: Shop, calculator: Calculator) -> bool:
    check = shop.checks.get(one.id)
    return check is not None and check.calculator == calculator.name
