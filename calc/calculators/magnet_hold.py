"""What round magnets hold a soft jaw or a stop with, and how neighbours behave. Never for work against cutting."""

import math
from collections.abc import Iterator, Mapping
from typing import Any

from calc.answer import Advice, Finding, Step, Value, judged
from calc.declare import Calculator, Guard
from calc.drawing import Drawing, corners
from calc.formulas.magnets import bound, pull
from calc.quantity import Quantity, Reading, at_least, values
from calc.show import mm, number, show

GRAVITY = 9.80665
ENOUGH, LITTLE = 5.0, 2.0  # times its weight: judgement

INPUTS = (
    Quantity("magnet_diameter", "Magnet", "mm", above=0, high=100, required=True, first=True),
    Quantity("magnet_thickness", "Its thickness", "mm", above=0, high=100, required=True, first=True),
    Quantity("gap", "Gap: glue, paint, chips", "mm", low=0, high=20, default="0 mm", first=True),
    Quantity("target", "It holds on", help="Thick iron pulls like an equal magnet twice as far away.",
             choices=("magnet", "iron"), kind="choice", default="magnet", first=True),
    Quantity("count", "How many", "1", kind="whole", low=1, high=100, default="1", first=True),
    Quantity("jaw_mass", "What hangs on them", "kg", above=0, high=1000, first=True),
    Quantity("remanence", "Remanence", "T", "Of its grade; 1.3 is a strong one (from memory).", above=0, high=1.6,
             default="1.3 T"),
    Quantity("pattern", "Poles side by side", choices=("alternating", "same"), kind="choice", default="alternating"),
)  # fmt: skip
OUTPUTS = (
    Quantity("pull_force_gap", "Pull of all, at that gap", "N"),
    Quantity("pull_force_contact", "Pull of all, touching", "N"),
    Quantity("bound", "No magnet this wide pulls more than", "N", "all together"),
    Quantity("jaw_held_margin", "Pull over the weight that hangs", "1", "5 or more is wanted (judgement)"),
    Quantity("neighbour", "Neighbours on the bench"),
)


def find(readings: Mapping[str, Reading]) -> Finding:
    """What is found for some magnets. Raises Refused."""
    v = values(readings)
    size = (v["remanence"], v["magnet_diameter"], v["magnet_thickness"])
    apart = v["gap"] * (2 if v["target"] == "iron" else 1)
    touching, holding = (v["count"] * pull(*size, gap) for gap in (0.0, apart))
    mass = v.get("jaw_mass")
    margin = None if mass is None else holding / (mass * GRAVITY)
    verdict, reason = judged(_found(margin), f"They pull with {show(holding, 'N')}.")
    return Finding(
        values={
            "pull_force_gap": holding,
            "pull_force_contact": touching,
            "bound": v["count"] * bound(*size[:2]),
            "jaw_held_margin": Value(margin, why="nothing was said to hang on them"),
            "neighbour": "attract" if v["pattern"] == "alternating" else "repel",
        },
        verdict=verdict,
        reason=reason,
        advice=tuple(_advice(v, margin)) if verdict != "ok" else (),
        cautions=(
            "Magnets never hold work against cutting.",
            "They pinch, and shatter when they snap together: eyes. Keep them from pacemakers and cards. Heat weakens "
            "them (often from 80 °C); do not drill or mill them, the dust burns.",
        ),
        working=tuple(_working(v, apart, touching, holding)),
        drawing=_drawing(v),
    )


def _found(margin: float | None) -> Iterator[tuple[str, str]]:
    if margin is None:
        return
    said = f"They pull {number(margin, '1')} times the weight that hangs"
    if not at_least(margin, LITTLE):
        yield "stop", f"{said}: a knock brings it down."
    elif not at_least(margin, ENOUGH):
        yield "watch", f"{said}."


def _advice(v: Mapping[str, Any], margin: float | None) -> Iterator[Advice]:
    if margin:
        count = math.ceil(v["count"] * ENOUGH / margin)
        if count <= 100:
            yield Advice(f"Take {count} of them", "count", count)
    if v["gap"] > 0:
        yield Advice("Close the gap", "gap", 0.0, "mm")
    yield Advice("Pins take the side force, magnets only keep it from falling")


def _working(v: Mapping[str, Any], apart: float, touching: float, holding: float) -> Iterator[Step]:
    what = f"Br = {number(v['remanence'], 'T')}, D = {mm(v['magnet_diameter'])}, L = {mm(v['magnet_thickness'])}"
    formula = "n Br²πR²/μ0 (I(g) − 2 I(g + L) + I(g + 2L)), I: the overlap of two discs"
    yield Step("Pull, touching", formula, f"{what}, g = 0, n = {v['count']}", show(touching, "N"))
    yield Step("Pull, at the gap", "the same; on iron at twice the gap", f"g = {mm(apart)}", show(holding, "N"))


def _drawing(v: Mapping[str, Any]) -> str:
    r, high = v["magnet_diameter"] / 2, v["magnet_thickness"]
    gap = v["gap"]
    tall = 2 * high + gap
    d = Drawing("Magnet and what it holds on", 0.0, 0.0, max(2.6 * tall, 4 * r))
    d.block(corners(-r, gap / 2, r, gap / 2 + high))
    if v["target"] == "iron":
        d.block(corners(-2.2 * r, -gap / 2 - 1.4 * high, 2.2 * r, -gap / 2), "stock-left")
    else:
        d.block(corners(-r, -gap / 2 - high, r, -gap / 2))
    d.leader((r, gap / 2 + high), "ne", 0, f"⌀{show(2 * r, 'mm')} × {show(high, 'mm')}")
    d.leader((-r, 0), "sw", 0, f"gap {show(gap, 'mm')}")
    return d.svg()


MAGNET_HOLD = Calculator(
    name="magnet-hold",
    title="Pull of round magnets",
    step="hold",
    question="What do these magnets hold?",
    inputs=INPUTS,
    outputs=OUTPUTS,
    headline="pull_force_gap",
    find=find,
    example={
        "magnet_diameter": "6 mm",
        "magnet_thickness": "3 mm",
        "gap": "0.5 mm",
        "target": "iron",
        "count": "4",
        "jaw_mass": "0.8 kg",
    },
    guard=Guard("jaw_held_margin", at_least="5"),
    about=(
        "Magnets that keep a soft jaw or a stop from falling lose most of their pull over half a millimetre of glue or "
        "chips. The sum adds it up exactly for round ones.",
        "Thin sheet, rust, a tilted face and warmth all take from it: try it.",
    ),
    limits=(
        "Two equal magnets on one axis, or one on iron thicker than itself; several do not disturb each other.",
        "2 and 5 times the weight are judgements.",
    ),
    sources=("Charged discs, own derivation; checked by adding up rings, and against the bound for endless magnets.",),
    bench_note="holding-work",
)  # fmt: skip
