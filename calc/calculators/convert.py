"""One value in another unit; hardness refused, with the reason."""

import re
from collections.abc import Mapping

from calc.answer import Finding, Step
from calc.declare import Calculator, Guard
from calc.drawing import Drawing
from calc.quantity import Quantity, Reading, Refused, nearest, values
from calc.show import SPELLED, number
from calc.typed import read, unit_in
from calc.units import DIMENSIONS, INCH_SIDE, WRITTEN, converted, dimension_of, named_unit

HARDNESS = re.compile(r"\b(hrc|hrb|hra|hb|hbw|hv|rockwell|brinell|vickers|shore)\b", re.IGNORECASE)
NO_HARDNESS = (
    "Hardness cannot be converted by a formula: each scale presses another body into the metal. Use a table for your "
    "material (ISO 18265, ASTM E140), and say which."
)

INPUTS = (
    Quantity("value", "Value with its unit", help='6 mm, 1/4", 300 sfm, 20 °C, 5 hp.', kind="text", required=True,
             first=True),
    Quantity("target", "Into", help="Empty: the other side, metric or inch.", kind="text", first=True),
)  # fmt: skip
OUTPUTS = (
    Quantity("result", "It is"),
    Quantity("result_number", "The number alone"),
    Quantity("factor", "One of the first is so many of the second"),
)


def find(readings: Mapping[str, Reading]) -> Finding:
    """What is found for one value. Raises Refused."""
    v = values(readings)
    for name in ("value", "target"):
        if HARDNESS.search(str(v.get(name, ""))):
            raise Refused(name, NO_HARDNESS)
    unit = _unit("value", _written(v["value"]))
    number_in = float(read(v["value"], Quantity("value", "Value", unit)).value)
    into = _unit("target", v["target"]) if v.get("target") else _other(unit)
    if into not in dimension_of(unit).units:
        raise Refused("target", f"{_spelled(unit)} is {dimension_of(unit).name}, {_spelled(into)} is "
                      f"{dimension_of(into).name}")  # fmt: skip
    result = converted(number_in, unit, into)
    said = f"{_digits(number_in)}{_gap(unit)} = {_digits(result)}{_gap(into)}"
    return Finding(
        values={
            "result": f"{_digits(result)}{_gap(into)}",
            "result_number": result,
            "factor": converted(1.0, unit, into),
        },
        verdict="ok",
        reason=f"{said}. Nothing found by this calculator.",
        working=(
            Step("Exact factors", "by the definitions of inch, pound, standard gravity", said,
                 f"{_digits(result)}{_gap(into)}"),
        ),
        drawing=_drawing(number_in, result, unit, into),
    )  # fmt: skip


def _written(text: str) -> str:
    unit = unit_in(text)
    if not unit:
        raise Refused("value", f'Value (value): "{text[:40]}" has no unit; write 6 mm, or 1/4 in')
    return unit


def _unit(name: str, text: str) -> str:
    unit = named_unit(text)
    if unit is None:
        known = [*(one for kind in DIMENSIONS for one in kind.units), *WRITTEN]
        raise Refused(name, f'"{text[:40]}" is not a unit known here{nearest(text, known)}')
    return unit


def _other(unit: str) -> str:
    """The usual unit of the other side."""
    back = {inch: metric for metric, inch in INCH_SIDE.items()}
    kind = tuple(dimension_of(unit).units)
    return INCH_SIDE.get(unit) or back.get(unit) or (kind[0] if unit != kind[0] else kind[-1])


def _digits(value: float) -> str:
    return f"{value:.7g}" if 1e-4 <= abs(value) < 1e7 or value == 0 else f"{value:.7e}"


def _spelled(unit: str) -> str:
    return SPELLED.get(unit, unit).strip() or "a plain number"


def _gap(unit: str) -> str:
    """The unit after a number, tied to it: a page that shows inches must not turn it again."""
    return SPELLED.get(unit, f" {unit}").replace(" ", "\u00a0")


def _drawing(one: float, other: float, unit: str, into: str) -> str:
    d = Drawing("The same on two rules", 0.5, 0.0, 1.25, 150)
    d.line((0, 0), (1, 0), "edge")
    for n in range(11):
        d.line((n / 10, 0.0), (n / 10, 0.05 if n % 5 else 0.08), "dim")
        d.line((n / 10, 0.0), (n / 10, -0.05 if n % 5 else -0.08), "dim")
    d.write((1, 0.1), f"{number(one, '1')}{_gap(unit)}", "end", (0, -4))
    d.write((1, -0.1), f"{number(other, '1')}{_gap(into)}", "end", (0, 16))
    return d.svg()


CONVERT = Calculator(
    name="convert",
    title="Units",
    step="any",
    question="What is that in the other unit?",
    inputs=INPUTS,
    outputs=OUTPUTS,
    headline="result",
    find=find,
    example={"value": "300 ft/min", "target": "m/min"},
    guard=Guard("result_number", at_least="0"),
    about=(
        "Lengths, speeds, feeds, force, power, torque, pressure, temperature, angle, mass and a few more, by exact "
        "definitions.",
        "Hardness is refused: no formula goes from one scale to another.",
    ),
    limits=(
        "Seven digits that count are shown.",
        "Pounds are pounds of mass; lbf is the force.",
        "Horsepower is 550 ft lbf/s; metric hp is 75 kgf m/s.",
    ),
    sources=("NIST SP 811, appendix B; inch and pound: agreement of 1959.",),
)
