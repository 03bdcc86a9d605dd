"""How far a cutter bends away from the wall, and how far it may stick out."""

import math
from collections.abc import Iterator, Mapping
from typing import Any

from calc.answer import Advice, Finding, Step, Value, judged
from calc.declare import Calculator, Guard
from calc.drawing import Drawing, corners
from calc.formulas.bending import stepped_deflection
from calc.quantity import Quantity, Reading, Refused, at_most, values
from calc.show import mm, number, show

MODULUS = {"carbide": 600.0, "hss": 210.0, "cobalt_hss": 210.0}  # GPa, from memory; carbide 550 to 650
LONG = 5.0  # diameters: common practice, no source
MUCH = 0.1  # mm: bent so far without a limit it is told (judgement)
NEAR = 0.8

INPUTS = (
    Quantity("cutter_diameter", "Cutter", "mm", above=0, high=100, required=True, first=True),
    Quantity("stick_out", "Out of the holder", "mm", above=0, high=500, required=True, first=True),
    Quantity("tool_material", "Made of", choices=tuple(MODULUS), kind="choice", default="carbide", first=True),
    Quantity(
        "wall_force",
        "Force that bends it",
        "N",
        'From "Is the cutter fed too gently or too hard?".',
        above=0,
        high=50000,
        required=True,
        first=True,
    ),
    Quantity("wall_error_limit", "The wall may be out by", "mm", above=0, high=5, first=True),
    Quantity(
        "flute_length", "Flutes", "mm", "Empty: all of what sticks out, the weak case.", above=0, high=500, first=True
    ),
    Quantity("shank_diameter", "Shank", "mm", "Empty: as the cutter.", above=0, high=100),
    Quantity(
        "core_ratio",
        "Flutes bend like a bar of so many diameters",
        "1",
        "0.8 published; 0.7 for slim two-flute cutters (from memory) bends 1.7 times as far.",
        low=0.4,
        high=1,
        default="0.8",
    ),
    Quantity("modulus", "Modulus of its material", "N/mm2", "Empty: from what it is made of.", above=1000, high=1.2e6),
    Quantity("holder_stiffness", "Stiffness of holder and spindle", "N/um", above=0, high=5000),
)
OUTPUTS = (
    Quantity("wall_error", "The wall would be out by", "mm", "at least: holder and spindle give as well"),
    Quantity("deflection", "The cutter alone bends by", "mm"),
    Quantity("stiffness", "Stiffness at the tip", "N/um"),
    Quantity("longest_stick_out", "Longest stick-out for the limit", "mm"),
)


def find(readings: Mapping[str, Reading]) -> Finding:
    """What is found for one cutter. Raises Refused."""
    v = values(readings)
    out = v["stick_out"]
    flutes = v.get("flute_length", out)
    if not at_most(flutes, out):
        flutes = out  # what is in the holder does not bend
    bent = _bent(v, out, flutes)
    give = v["wall_force"] / v["holder_stiffness"] / 1000 if v.get("holder_stiffness") else 0.0
    error, limit = bent + give, v.get("wall_error_limit")
    longest = None if limit is None else _longest(v, limit - give)
    verdict, reason = judged(_found(v, error), f"It bends {show(bent, 'mm')} at least.")
    return Finding(
        values={
            "wall_error": error,
            "deflection": bent,
            "stiffness": v["wall_force"] / bent / 1000,
            "longest_stick_out": Value(
                longest, why="no limit was given" if limit is None else "the holder alone gives more than that"
            ),
        },
        verdict=verdict,
        reason=reason,
        advice=() if verdict == "ok" else tuple(_advice(v, give, error)),
        cautions=_cautions(v),
        working=tuple(_working(v, flutes, bent, give)),
        drawing=_drawing(v, flutes, bent),
    )


def _bent(v: Mapping[str, Any], out: float, flutes: float) -> float:
    modulus = v.get("modulus") or 1000 * MODULUS[v["tool_material"]]
    diameter = v["cutter_diameter"]
    bent = stepped_deflection(
        v["wall_force"], out, flutes, v["core_ratio"] * diameter, v.get("shank_diameter", diameter), modulus
    )
    if not bent > 0:
        raise Refused("stick_out", "Out of the holder (stick_out) is too little to bend at all")
    return bent


def _longest(v: Mapping[str, Any], allowed: float) -> float | None:
    """The stick-out at which the cutter alone bends as far as allowed; the fluted part as long as it can be."""
    if allowed <= 0:
        return None
    full = v.get("flute_length")
    low, high = 0.0, 1000.0
    for _ in range(60):  # halved until a thousandth of a micrometre
        middle = (low + high) / 2
        flutes = middle if full is None else min(full, middle)
        bent = _bent(v, middle, flutes)
        low, high = (middle, high) if bent <= allowed else (low, middle)
    return round(low, 6)


def _found(v: Mapping[str, Any], error: float) -> Iterator[tuple[str, str]]:
    limit, slender = v.get("wall_error_limit"), v["stick_out"] / v["cutter_diameter"]
    if limit is not None and not at_most(error, limit):
        yield "stop", f"It bends {show(error, 'mm')} at least: more than the {show(limit, 'mm')} allowed."
    elif limit is not None and not at_most(error, NEAR * limit):
        yield "watch", f"It bends {show(error, 'mm')} at least, close to the {show(limit, 'mm')} allowed."
    elif limit is None and not at_most(error, MUCH):
        yield "watch", f"It bends {show(error, 'mm')} at least, and no limit was given."
    if not at_most(slender, LONG):
        yield "watch", f"It sticks out {number(slender, '1')} diameters: over {LONG:g} most cutters ring."


def _advice(v: Mapping[str, Any], give: float, error: float) -> Iterator[Advice]:
    limit = v.get("wall_error_limit")
    if limit is not None and not at_most(error, NEAR * limit):
        short = math.floor(10 * (_longest(v, NEAR * limit - give) or 0.0)) / 10
        if short > 0:
            yield Advice(f"Let it stick out at most {show(short, 'mm')}", "stick_out", short, "mm")
    if limit is not None:
        force = float(f"{0.79 * v['wall_force'] * limit / error:.2g}")
        yield Advice(f"Or take less at a time: at most {show(force, 'N')} on the wall", "wall_force", force, "N")
    if v["tool_material"] != "carbide" and not v.get("modulus"):
        yield Advice("Or take a carbide cutter: it bends a third as far", "tool_material", "carbide")
    yield Advice("Or a thicker cutter: twice the diameter bends a sixteenth as far")


def _cautions(v: Mapping[str, Any]) -> tuple[str, ...]:
    if v["core_ratio"] <= 0.75:
        return ()
    return ("Slim two-flute cutters for aluminium bend up to 1.7 times as far (from memory).",)


def _working(v: Mapping[str, Any], flutes: float, bent: float, give: float) -> Iterator[Step]:
    modulus = v.get("modulus") or 1000 * MODULUS[v["tool_material"]]
    core = v["core_ratio"] * v["cutter_diameter"]
    shank = v.get("shank_diameter", v["cutter_diameter"])
    yield Step(
        "The cutter bends",
        "F/(3E) (Lf³/I₁ + (L³ − Lf³)/I₂), I = πd⁴/64",
        f"F = {number(v['wall_force'], 'N')}, E = {number(modulus, 'N/mm2')}, L = {mm(v['stick_out'])}, Lf = "
        f"{mm(flutes)}, d₁ = {mm(core)}, d₂ = {mm(shank)}",
        show(bent, "mm"),
    )
    if give:
        yield Step("Holder and spindle give", "F/stiffness", "", show(give, "mm"))


def _drawing(v: Mapping[str, Any], flutes: float, bent: float) -> str:
    out, r = v["stick_out"], v["cutter_diameter"] / 2
    shank = v.get("shank_diameter", 2 * r) / 2
    span = max(1.55 * out, 5 * max(r, shank))
    d = Drawing("The cutter, and which way it bends", 0.0, -out / 2, span)
    wide = max(1.7 * shank, 0.12 * span)
    d.block(corners(-wide, 0, wide, span))
    d.outline(corners(-shank, -(out - flutes), shank, 0), "cutter")
    d.outline(corners(-r, -out, r, -(out - flutes)), "cutter")
    lean = 0.12 * span
    d.shape([d.to((0, 0)), d.on((lean / 4, -out / 2)), d.on((lean, -out))], "hidden-edge")
    d.heading((-r - 0.16 * span, -0.97 * out), (-r, -0.97 * out))
    d.leader((-r - 0.1 * span, -0.97 * out), "sw", 0, show(v["wall_force"], "N"))
    d.leader((lean, -out), "se", 0, f"bends {show(bent, 'mm')} (not to scale)")
    d.leader((-shank, -0.1 * out), "nw", 0, f"out {show(out, 'mm')}")
    return d.svg()


STICK_OUT = Calculator(
    name="stick-out",
    title="Bending of the cutter",
    step="cutter",
    question="How far does the cutter bend?",
    inputs=INPUTS,
    outputs=OUTPUTS,
    headline="wall_error",
    find=find,
    example={
        "cutter_diameter": "6 mm",
        "stick_out": "36 mm",
        "wall_force": "60 N",
        "tool_material": "carbide",
        "wall_error_limit": "0.02 mm",
    },
    guard=Guard("wall_error", at_most="0.02 mm"),
    about=(
        "A cutter is a beam: twice as long it bends eight times as far, half as thick sixteen times. The wall comes "
        "out by as much, and the spring pass takes it off.",
        "It is a lower bound: collet, holder and spindle often give as much again.",
    ),
    limits=(
        "A straight beam held stiffly; below three diameters shear adds to it.",
        "Moduli (carbide 600 GPa, steel 210 GPa) and 5 diameters as long are from memory and common practice.",
    ),
    sources=("Beam theory; flutes as a bar of 0.8 diameters: Kops and Vo, CIRP Annals 39 (1990), abstract read.",),
)
