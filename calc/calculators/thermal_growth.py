"""What warmth does to a measurement: part, scale and twenty degrees."""

from collections.abc import Iterator, Mapping
from typing import Any

from calc.answer import Advice, Finding, Step, judged
from calc.declare import Calculator, Guard
from calc.drawing import Drawing, corners
from calc.formulas.heat import REFERENCE, growth, size_at_reference
from calc.quantity import Quantity, Reading, Refused, at_most, settled, values
from calc.show import mm, number, show

# um/(m K). Steel as in JCGM 100, H.1 (11.5); all others from memory, rounded, as alloys differ.
COEFFICIENTS = {
    "steel": 11.5,
    "aluminium": 23.6,
    "stainless_austenitic": 16.0,
    "brass": 19.0,
    "bronze": 18.0,
    "titanium": 8.6,
    "cast_iron": 10.5,
    "acetal": 110.0,
    "glass_scale": 8.0,
}
FIFTH = 0.2  # of the tolerance: what a measurement may take (common practice, no source)

INPUTS = (
    Quantity("length", "Length as measured", "mm", above=0, high=20000, required=True, first=True),
    Quantity("temperature", "Temperature of the part", "degC", low=-50, high=300, required=True, first=True),
    Quantity("part_material", "The part is of", choices=tuple(COEFFICIENTS), kind="choice", first=True),
    Quantity("tolerance", "Tolerance, in all", "mm", above=0, high=50, first=True),
    Quantity("scale_material", "The gauge or scale is of", help="Empty: taken as right at any temperature.",
             choices=tuple(COEFFICIENTS), kind="choice", first=True),
    Quantity("scale_temperature", "Temperature of the gauge or scale", "degC", "Empty: the part's.", low=-50,
             high=300),
    Quantity("part_coefficient", "Or: the part's expansion", "um/(m K)", low=0, high=500),
    Quantity("scale_coefficient", "Or: the scale's expansion", "um/(m K)", low=0, high=500),
)  # fmt: skip
OUTPUTS = (
    Quantity("reading_error", "It reads large by", "um", "below nothing: small"),
    Quantity("size_at_20", "Size at 20 °C", "mm"),
    Quantity("growth", "The part has grown by", "um", "from 20 °C"),
)


def find(readings: Mapping[str, Reading]) -> Finding:
    """What is found for one measurement. Raises Refused."""
    v = values(readings)
    part = _coefficient(v, "part", needed=True)
    scale = _coefficient(v, "scale", needed=False)
    warm = v["temperature"]
    at_scale = v.get("scale_temperature", warm)
    size = size_at_reference(v["length"], part, warm, scale, at_scale)
    error = 1000 * (v["length"] - size)
    which = "large" if error >= 0 else "small"
    fine = f"It reads {show(abs(error), 'um')} {which}."
    verdict, reason = judged(_found(v, error, fine), fine)
    return Finding(
        values={"reading_error": error, "size_at_20": size, "growth": growth(size, part, warm)},
        verdict=verdict,
        reason=reason,
        advice=() if verdict == "ok" else tuple(_advice()),
        cautions=("Coefficients differ between alloys and makes: for tight work use the maker's.",),
        working=tuple(_working(v, part, scale, at_scale, size)),
        drawing=_drawing(v, size, error),
    )


def _coefficient(v: Mapping[str, Any], what: str, needed: bool) -> float:
    material = v.get(f"{what}_material")
    given = {
        f"{what}_material": None if material is None else COEFFICIENTS[material],
        f"{what}_coefficient": v.get(f"{what}_coefficient"),
    }
    if not needed and all(value is None for value in given.values()):
        return 0.0
    return settled(given)[1]


def _found(v: Mapping[str, Any], error: float, said: str) -> Iterator[tuple[str, str]]:
    tolerance = v.get("tolerance")
    if tolerance is None:
        return
    share = abs(error) / 1000 / tolerance
    if not at_most(share, 1):
        yield "stop", f"{said} That is more than the whole tolerance."
    elif not at_most(share, FIFTH):
        yield "watch", f"{said} That is {number(100 * share, '%')} % of the tolerance."


def _advice() -> Iterator[Advice]:
    yield Advice("Let it come to 20 °C", "temperature", REFERENCE, "degC")
    yield Advice("Or measure it beside a master of the same material and temperature")


def _working(v: Mapping[str, Any], part: float, scale: float, at_scale: float, size: float) -> Iterator[Step]:
    warm = v["temperature"]
    yield Step(
        "Size at 20 °C",
        "L (1 + αs (Ts − 20))/(1 + αp (Tp − 20))",
        f"{mm(v['length'])} × (1 + {number(scale, 'um/(m K)')}e-6 × {number(at_scale - 20, 'degC')})/(1 + "
        f"{number(part, 'um/(m K)')}e-6 × {number(warm - 20, 'degC')})",
        show(size, "mm"),
    )
    yield Step("Reads large by", "L − size", f"{mm(v['length'])} − {mm(size)}", show(1000 * (v["length"] - size), "um"))


def _drawing(v: Mapping[str, Any], size: float, error: float) -> str:
    if not size > 0:
        raise Refused("temperature", "These temperatures leave nothing of the part")
    d = Drawing("The part at 20 °C and as measured, the difference drawn large", 0.5, 0.0, 1.5, 180)
    shift = 0.12 if error > 0 else -0.12 if error < 0 else 0.0
    d.block(corners(0, 0.06, 1, 0.2), "stock-left")
    d.block(corners(0, -0.2, 1 + shift, -0.06))
    d.line((1, -0.28), (1, 0.28), "centre")
    d.leader((0.2, 0.2), "nw", 0, f"20 °C: {show(size, 'mm')}")
    d.leader((0.2, -0.2), "sw", 0, f"reads {show(v['length'], 'mm')}")
    return d.svg()


THERMAL_GROWTH = Calculator(
    name="thermal-growth",
    title="Warm part, cold gauge",
    step="run",
    question="What does the warmth do to the size?",
    inputs=INPUTS,
    outputs=OUTPUTS,
    headline="reading_error",
    find=find,
    example={
        "length": "50.012 mm",
        "temperature": "38 °C",
        "part_material": "aluminium",
        "scale_material": "steel",
        "scale_temperature": "22 °C",
        "tolerance": "0.02 mm",
    },
    guard=Guard("reading_error", at_most="5 um", at_least="-5 um"),
    about=(
        "Sizes on a drawing hold at 20 °C. A part warm from the cut reads large and is small next morning; a gauge of "
        "the same material, equally warm, takes most of it away.",
        "It takes one temperature for the whole part: it is warmest inside, and the skin lies.",
    ),
    limits=(
        "Even temperature, a straight law of expansion.",
        "A fifth of the tolerance as the limit of an error is common practice, no source.",
    ),
    sources=(
        "20 °C: ISO 1. Steel 11.5: JCGM 100:2008, H.1. Other coefficients: from memory.",
        "Law of linear expansion.",
    ),
)
