"""Will the part slip or tip in the vice under the greatest force of the cut?"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from calc.answer import Advice, Finding, Step, Value, judged
from calc.declare import Calculator, Guard
from calc.drawing import Drawing, corners
from calc.formulas.holding import holding_moment, screw_force, slip_limit
from calc.quantity import Quantity, Reading, Refused, at_least, settled, values
from calc.show import mm, number, show

SHALLOW = 0.2  # of the cut's height above the jaws: gripped by less, a dig-in throws it (common practice, no source)

INPUTS = (
    Quantity(
        "peak_force",
        "Greatest force of the cut",
        "N",
        'From "Is the cutter fed too gently or too hard?".',
        above=0,
        high=200000,
        required=True,
        first=True,
    ),
    Quantity("clamp_force", "Force of the vice", "N", "From its maker.", above=0, high=500000, first=True),
    Quantity("handle_torque", "Or: torque on the handle", "N*m", "", above=0, high=1000, first=True),
    Quantity("grip_height", "Gripped by the jaws", "mm", above=0, high=1000, required=True, first=True),
    Quantity(
        "force_height",
        "Height of the cut above the jaws",
        "mm",
        low=0,
        high=1000,
        required=True,
        first=True,
    ),
    Quantity("part_width", "Width between the jaws", "mm", above=0, high=2000, required=True, first=True),
    Quantity("screw_pitch", "Pitch of the vice's screw", "mm", above=0, high=50, default="5 mm"),
    Quantity(
        "screw_efficiency",
        "Efficiency of the screw",
        "1",
        "From memory: a fifth to a third for a plain greased one.",
        above=0,
        high=1,
        default="20 %",
    ),
    Quantity(
        "jaw_friction",
        "Friction at the jaws",
        "1",
        "Smooth and oily: 0.10 to 0.15. Clean dry tables say far more.",
        above=0,
        high=1.5,
        default="0.12",
    ),
    Quantity("safety_factor", "Safety factor", "1", "2 to 3 is usual (from memory).", low=1, high=20, default="2.5"),
)
OUTPUTS = (
    Quantity("margin", "Holds against slipping, safety included", "1", "1 or more is wanted"),
    Quantity("tip_margin", "Holds against tipping, safety included", "1", "1 or more is wanted"),
    Quantity("slip_limit", "Slips at", "N"),
    Quantity("clamp_force", "Force of the vice", "N"),
    Quantity("needed_clamp_force", "Force the vice needs", "N", "safety included"),
)


@dataclass(frozen=True)
class Sums:
    """Forces in N; the tipping margin is None where the cut is no higher than the jaws."""

    clamp: float
    by_handle: bool
    slip: float
    margin: float
    tip: float | None
    needed: float


def find(readings: Mapping[str, Reading]) -> Finding:
    """What is found for one grip. Raises Refused."""
    v = values(readings)
    s = _sums(v)
    verdict, reason = judged(_found(v, s), f"It holds {number(s.margin, '1')} times what is wanted against slipping.")
    return Finding(
        values={
            "margin": s.margin,
            "tip_margin": Value(s.tip, why="the cut is no higher than the jaws"),
            "slip_limit": s.slip,
            "clamp_force": s.clamp,
            "needed_clamp_force": s.needed,
        },
        verdict=verdict,
        reason=reason,
        advice=() if verdict == "ok" else tuple(_advice(v, s)),
        cautions=(
            "A part that comes out flies. Door shut, nobody in line with the cutter. What the vice may be tightened to "
            "is in its maker's manual.",
        ),
        working=tuple(_working(v, s)),
        drawing=_drawing(v, s),
    )


def _sums(v: Mapping[str, Any]) -> Sums:
    torque = v.get("handle_torque")
    by_handle = None if torque is None else screw_force(torque, v["screw_pitch"], v["screw_efficiency"])
    name, clamp = settled({"clamp_force": v.get("clamp_force"), "handle_torque": by_handle})
    push, safety, friction = v["peak_force"], v["safety_factor"], v["jaw_friction"]
    if v["part_width"] > 1e3 * v["grip_height"]:
        raise Refused("grip_height", "Gripped by the jaws (grip_height) is too little for a part as wide as that")
    slip = slip_limit(clamp, friction)
    tipping = push * v["force_height"]
    holding = holding_moment(clamp, push, v["grip_height"], v["part_width"], friction)
    lever = v["grip_height"] + friction * v["part_width"]
    return Sums(
        clamp=clamp,
        by_handle=name == "handle_torque",
        slip=slip,
        margin=slip / (push * safety),
        tip=holding / (tipping * safety) if tipping else None,
        needed=max(push * safety / (2 * friction), push + tipping * safety / lever),
    )


def _found(v: Mapping[str, Any], s: Sums) -> Iterator[tuple[str, str]]:
    for what, margin in (("slips", s.margin), ("tips", s.tip)):
        if margin is None or at_least(margin, 1):
            continue
        plain = margin * v["safety_factor"]
        if not at_least(plain, 1):
            yield "stop", f"It {what}: the vice holds {number(plain, '1')} times the force of the cut."
        else:
            yield "watch", f"Before it {what} there are {number(plain, '1')} times, not {v['safety_factor']:g}."
    if _shallow(v):
        grip, high = show(v["grip_height"], "mm"), show(v["force_height"], "mm")
        yield "watch", f"Only {grip} held for a cut {high} above the jaws: this sum knows no dig-in, and one throws it."


def _shallow(v: Mapping[str, Any]) -> bool:
    return not at_least(v["grip_height"], SHALLOW * v["force_height"])


def _advice(v: Mapping[str, Any], s: Sums) -> Iterator[Advice]:
    if _shallow(v):
        grip = SHALLOW * v["force_height"]
        yield Advice(f"Grip at least {show(grip, 'mm')}, or clamp it down as well", "grip_height", grip, "mm")
    if at_least(min(s.margin, s.margin if s.tip is None else s.tip), 1):
        return
    needed = round(s.needed + 0.5)
    if s.by_handle:
        torque = v["handle_torque"] * s.needed / s.clamp
        torque = round(torque + 0.05, 1)
        yield Advice(f"Tighten to {show(torque, 'N*m')}, if the vice may", "handle_torque", torque, "N*m")
    else:
        yield Advice(f"Clamp with {show(needed, 'N')}, if the vice may", "clamp_force", needed, "N")
    push = v["peak_force"] * min(s.margin, s.tip if s.tip is not None else s.margin, 1) * 0.999
    yield Advice(f"Or cut so that the force stays under {show(push, 'N')}", "peak_force", float(f"{push:.3g}"), "N")
    yield Advice("Or grip deeper, rough the jaws' grip (serrated or stepped jaws), or add a stop")


def _working(v: Mapping[str, Any], s: Sums) -> Iterator[Step]:
    if s.by_handle:
        yield Step(
            "Force of the vice",
            "2π η T/p",
            f"2π × {number(v['screw_efficiency'], '1')} × {number(v['handle_torque'], 'N*m')}/{mm(v['screw_pitch'])}",
            show(s.clamp, "N"),
        )
    clamp, push = number(s.clamp, "N"), number(v["peak_force"], "N")
    friction, safety = number(v["jaw_friction"], "1"), number(v["safety_factor"], "1")
    yield Step("Slips at", "2 μ F", f"2 × {friction} × {clamp}", show(s.slip, "N"))
    yield Step(
        "Margin against slipping",
        "slips at/(force × safety)",
        f"{number(s.slip, 'N')}/({push} × {safety})",
        number(s.margin, "1"),
    )
    if s.tip is not None:
        yield Step(
            "Margin against tipping, pushed against the jaw that gives",
            "(F − P)(grip + μ width)/(P × height × safety)",
            f"({clamp} − {push})({mm(v['grip_height'])} + {friction} × {mm(v['part_width'])})/({push} × "
            f"{mm(v['force_height'])} × {safety})",
            number(s.tip, "1"),
        )


def _drawing(v: Mapping[str, Any], s: Sums) -> str:
    grip, up, wide = v["grip_height"], v["force_height"], v["part_width"]
    high = grip + up
    span = max(2.4 * wide, 2.0 * high)
    d = Drawing("The part between the jaws, and what pushes", 0.0, high / 2 - 0.1 * span, span)
    jaw = 0.3 * span
    d.block(corners(-wide / 2 - jaw, -0.1 * span, -wide / 2, grip))
    d.block(corners(wide / 2, -0.1 * span, wide / 2 + jaw, grip))
    d.block(corners(-wide / 2, 0, wide / 2, high), "stock-left")
    arrow = 0.14 * span
    d.heading((-wide / 2 - arrow, high), (-wide / 2, high))
    d.heading((-wide / 2 - arrow, 0.05 * span), (-wide / 2, 0.05 * span))
    d.leader((-wide / 2 - arrow / 2, high), "nw", 0, f"cut {show(v['peak_force'], 'N')}")
    d.leader((wide / 2, high), "ne", 0, f"{show(up, 'mm')} above")
    d.leader((-wide / 2 - arrow / 2, 0.05 * span), "sw", 0, f"vice {show(s.clamp, 'N')}")
    d.leader((wide / 2, grip), "se", 0, f"grip {show(grip, 'mm')}")
    return d.svg()


CLAMPING = Calculator(
    name="clamping",
    title="Grip of the vice",
    step="hold",
    question="Will the part stay in the vice?",
    inputs=INPUTS,
    outputs=OUTPUTS,
    headline="margin",
    find=find,
    example={
        "peak_force": "1600 N",
        "handle_torque": "25 N*m",
        "grip_height": "3 mm",
        "force_height": "27 mm",
        "part_width": "60 mm",
    },
    guard=Guard("tip_margin", at_least="1"),
    about=(
        "Friction alone keeps a part between plain jaws, and a high cut on a shallow grip tips it out long before it "
        "slips. The sum compares both with the greatest force of the cut.",
        "It lies where the jaws touch at a few high spots of a sawn face, where the jaw lifts, and where a blunt or "
        "packed cutter pushes harder than was worked out.",
    ),
    limits=(
        "Rigid part, square flat faces, jaws bearing over the whole grip. Tipping along the jaws is not worked out.",
        "The push is taken towards the jaw that gives: the other then holds with the vice's force less the push.",
        "A grip under a fifth of the cut's height is watched whatever the forces say: common practice, no source.",
        "Friction and safety factor are yours; those assumed are from memory.",
    ),
    sources=(
        "Slip of a body between two faces (Coulomb), work of a screw; tipping: own derivation.",
        "No table of vice force against handle torque was found published: ask the vice's maker.",
    ),
    bench_note="holding-work",
)
