"""A hole and a shaft after ISO 286: limits, play or press, and how warm for a press."""

from collections.abc import Iterator, Mapping
from typing import Any

from calc.answer import Advice, Finding, Step, Value, judged
from calc.declare import Calculator, Guard
from calc.drawing import Drawing, corners
from calc.formulas import fits
from calc.formulas.heat import heating
from calc.quantity import Quantity, Reading, Refused, values
from calc.show import mm, number, show

KINDS = ("clearance", "transition", "interference")
HOT = 150.0  # K: from here on warming one part alone hurts finishes and tempers (judgement)

INPUTS = (
    Quantity("nominal_diameter", "Nominal diameter", "mm", above=0, high=500, required=True, first=True),
    Quantity("hole", "Hole", help="H7, K7: H6 to H11, F, G, JS, K, M, N, P.", kind="text", default="H7", first=True),
    Quantity("shaft", "Shaft", help="g6, p6: f, g, h, js, k, m, n, p, s.", kind="text", default="g6", first=True),
    Quantity("wanted", "It should", help="Slide, sit snugly either way, or press.", choices=KINDS, kind="choice",
             first=True),
    Quantity("assembly_gap", "Play to put a warm part on with", "um", low=0, high=500, default="20 um"),
    Quantity("coefficient", "Expansion of the part warmed", "um/(m K)", "Steel assumed.", above=0, high=500,
             default="11.5"),
)  # fmt: skip
OUTPUTS = (
    Quantity("kind", "It is a fit with"),
    Quantity("clearance_max", "Greatest play", "um", "below nothing: press"),
    Quantity("clearance_min", "Least play", "um", "below nothing: press"),
    Quantity("hole_max", "Hole, largest", "mm"),
    Quantity("hole_min", "Hole, smallest", "mm"),
    Quantity("shaft_max", "Shaft, largest", "mm"),
    Quantity("shaft_min", "Shaft, smallest", "mm"),
    Quantity("heating", "Warm the outer part by", "K", "for the tightest pair"),
)


def find(readings: Mapping[str, Reading]) -> Finding:
    """What is found for one fit. Raises Refused."""
    v = values(readings)
    d = v["nominal_diameter"]
    upper, lower = _zone("hole", fits.hole(d, v["hole"]), v)
    top, foot = _zone("shaft", fits.shaft(d, v["shaft"]), v)
    most, least = float(upper - foot), float(lower - top)
    kind = "clearance" if least >= 0 else "interference" if most <= 0 else "transition"
    warm = heating(v["assembly_gap"] - least, v["coefficient"], d) if least < 0 else None
    verdict, reason = judged(_found(v, kind, warm), _said(most, least))
    return Finding(
        values={
            "kind": kind,
            "clearance_max": most,
            "clearance_min": least,
            "hole_max": d + upper / 1000,
            "hole_min": d + lower / 1000,
            "shaft_max": d + top / 1000,
            "shaft_min": d + foot / 1000,
            "heating": Value(warm, why="it goes together cold"),
        },
        verdict=verdict,
        reason=reason,
        advice=(Advice("Take another shaft: f, g, h slide; js, k, m, n may do either; p and s press"),)
        if verdict == "stop"
        else (),
        cautions=_cautions(warm),
        working=tuple(_working(v, (upper, lower), (top, foot), warm)),
        drawing=_drawing(v, (upper, lower), (top, foot)),
    )


def _zone(name: str, zone: tuple[float, float] | None, v: Mapping[str, Any]) -> tuple[float, float]:
    if zone is None:
        takes = "H6 to H11, F, G, JS, K, M, N or P" if name == "hole" else "f, g, h, js, k, m, n, p or s, grade 5 to 11"
        raise Refused(name, f'{name}: "{v[name][:20]}" is not in these tables; it takes {takes}')
    return zone


def _said(most: float, least: float) -> str:
    if least >= 0:
        return f"Play of {show(least, 'um')} to {show(most, 'um')}."
    if most <= 0:
        return f"A press of {show(-most, 'um')} to {show(-least, 'um')}."
    return f"Anything from {show(-least, 'um')} of press to {show(most, 'um')} of play."


def _found(v: Mapping[str, Any], kind: str, warm: float | None) -> Iterator[tuple[str, str]]:
    wanted = v.get("wanted")
    if wanted is not None and wanted != kind:
        yield "stop", f"This is a fit with {kind}, not with {wanted}."
    if warm is not None and warm > HOT:
        yield "watch", f"Warming by {show(warm, 'K')} is much: cool the shaft as well, or press."


def _cautions(warm: float | None) -> tuple[str, ...]:
    found = ["Before measuring, let part and gauge come to 20 °C."]
    if warm is not None:
        found.append("Hot parts burn and cold ones freeze skin; a press can throw a part. Gloves, eyes, a guard.")
    return tuple(found)


def _working(
    v: Mapping[str, Any], hole: tuple[float, float], shaft: tuple[float, float], warm: float | None
) -> Iterator[Step]:
    yield Step(f"Hole {v['hole']}", "upper, lower deviation", "ISO 286 tables",
               f"{_signed(hole[0])}, {_signed(hole[1])} µm")  # fmt: skip
    yield Step(f"Shaft {v['shaft']}", "upper, lower deviation", "ISO 286 tables",
               f"{_signed(shaft[0])}, {_signed(shaft[1])} µm")  # fmt: skip
    yield Step("Greatest play", "hole's upper − shaft's lower", f"{hole[0]:g} − ({shaft[1]:g})",
               show(hole[0] - shaft[1], "um"))  # fmt: skip
    yield Step("Least play", "hole's lower − shaft's upper", f"{hole[1]:g} − ({shaft[0]:g})",
               show(hole[1] - shaft[0], "um"))  # fmt: skip
    if warm is not None:
        yield Step("Warm by", "(press + play to put it on)/(α d)",
                   f"({number(shaft[0] - hole[1], 'um')} + {number(v['assembly_gap'], 'um')})/"
                   f"({number(v['coefficient'], 'um/(m K)')}e-6 × {mm(v['nominal_diameter'])} × 1000)",
                   show(warm, "K"))  # fmt: skip


def _signed(value: float) -> str:
    return f"{value:+g}" if value else "0"


def _drawing(v: Mapping[str, Any], hole: tuple[float, float], shaft: tuple[float, float]) -> str:
    size = max(map(abs, (*hole, *shaft)))
    d = Drawing("Zones of hole and shaft about the nominal size, in micrometres", 0.0, 0.0, 2.9 * size)
    d.line((-2 * size, 0), (2 * size, 0), "centre")
    wide = 0.5 * size
    d.block(corners(-0.9 * size, hole[1], -0.9 * size + wide, hole[0]))
    d.block(corners(0.3 * size, shaft[1], 0.3 * size + wide, shaft[0]), "stock-left")
    d.leader((-0.9 * size + wide / 2, hole[0]), "nw", 0, f"{v['hole']} {_signed(hole[0])} / {_signed(hole[1])}")
    d.leader((0.3 * size + wide / 2, shaft[1]), "se", 0, f"{v['shaft']} {_signed(shaft[0])} / {_signed(shaft[1])}")
    return d.svg()


FIT = Calculator(
    name="fit",
    title="Hole and shaft",
    step="inspect",
    question="Will it slide or press?",
    inputs=INPUTS,
    outputs=OUTPUTS,
    headline="kind",
    find=find,
    example={"nominal_diameter": "25 mm", "hole": "H7", "shaft": "p6"},
    guard=Guard("clearance_min", at_least="0 um"),
    about=(
        "Letters say where the zone lies, numbers how wide it is. The sum gives the limits to measure to, and the play "
        "or press that any two good parts may have.",
        "It does not know form, roughness or warmth: a hole that is not round takes part of the play.",
    ),
    limits=(
        "Up to 500 mm, grades 5 (shafts) or 6 to 11.",
        "js and JS are half the grade each side; some tables round an odd one down to whole micrometres.",
        "Thin rings stretch and long presses need a calculation.",
    ),
    sources=(
        "ISO 286-1 and -2: tables recalled; every number held to printed tables that were read, and to the standard's "
        "formulas.",
        "Warming: linear expansion; steel 11.5 as in JCGM 100, H.1.",
    ),
)  # fmt: skip
