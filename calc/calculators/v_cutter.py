"""Engraving and chamfers with a V: width from depth, depth from width, and what an uneven surface does to it."""

from collections.abc import Iterator, Mapping
from typing import Any

from calc.answer import Advice, Finding, Step, Value, judged
from calc.declare import Calculator, Guard
from calc.drawing import Drawing
from calc.formulas.entry import v_depth, v_width
from calc.formulas.milling import cutting_speed
from calc.quantity import Quantity, Reading, Refused, at_least, at_most, settled, values
from calc.show import mm, show

UNEVEN = 0.2  # of the width: what an eye sees (judgement)

INPUTS = (
    Quantity("included_angle", "Angle of the V, both sides", "deg", low=10, high=150, required=True, first=True),
    Quantity("depth", "Depth", "mm", above=0, high=50, first=True),
    Quantity("width", "Or: width at the surface", "mm", above=0, high=100, first=True),
    Quantity("tip_flat", "Flat at the tip", "mm", low=0, high=10, default="0.1 mm", first=True),
    Quantity("surface_error", "The surface is out by, either way", "mm", "Half the swing of an indicator.", low=0,
             high=10, default="0 mm", first=True),
    Quantity("spindle_speed", "Spindle speed", "rpm", above=0, high=100000, first=True),
)  # fmt: skip
OUTPUTS = (
    Quantity("width", "Width at the surface", "mm"),
    Quantity("depth", "Depth", "mm"),
    Quantity("width_error", "The width changes by, either way", "mm"),
    Quantity("effective_diameter_tip", "Cutting diameter at the tip", "mm"),
    Quantity("effective_diameter_surface", "Cutting diameter at the surface", "mm"),
    Quantity("cutting_speed_tip", "Speed at the tip", "m/min"),
    Quantity("cutting_speed_surface", "Speed at the surface", "m/min"),
)


def find(readings: Mapping[str, Reading]) -> Finding:
    """What is found for one groove or chamfer. Raises Refused."""
    v = values(readings)
    angle, flat, wide = v["included_angle"], v["tip_flat"], v.get("width")
    if wide is not None and not at_least(wide, flat):
        raise Refused("width", f"The tip alone is {show(flat, 'mm')} wide; {show(wide, 'mm')} was asked for")
    by_width = None if wide is None else v_depth(flat, wide, angle)
    _, depth = settled({"depth": v.get("depth"), "width": by_width})
    width = v_width(flat, depth, angle)
    change = v_width(0.0, v["surface_error"], angle)
    speed = v.get("spindle_speed")
    no_speed = "the spindle speed was not given"
    verdict, reason = judged(_found(v, depth, width, change), f"{show(width, 'mm')} wide at {show(depth, 'mm')} deep.")
    return Finding(
        values={
            "width": width,
            "depth": depth,
            "width_error": change,
            "effective_diameter_tip": flat,
            "effective_diameter_surface": width,
            "cutting_speed_tip": Value(None if speed is None else cutting_speed(speed, flat), why=no_speed),
            "cutting_speed_surface": Value(None if speed is None else cutting_speed(speed, width), why=no_speed),
        },
        verdict=verdict,
        reason=reason,
        advice=() if verdict == "ok" else tuple(_advice(v, width)),
        cautions=("The tip hardly turns: set a chamfering cutter deeper, so that its side cuts and not its point.",),
        working=(
            Step("Width at the surface", "t + 2 d tan(angle/2)",
                 f"{mm(flat)} + 2 × {mm(depth)} × tan({angle / 2:g}°)", show(width, "mm")),
            Step("Change of the width", "2 × out × tan(angle/2)", f"2 × {mm(v['surface_error'])} × tan({angle / 2:g}°)",
                 show(change, "mm")),
        ),
        drawing=_drawing(v, depth, width),
    )  # fmt: skip


def _found(v: Mapping[str, Any], depth: float, width: float, change: float) -> Iterator[tuple[str, str]]:
    if v["surface_error"] and at_least(v["surface_error"], depth):
        yield "stop", "The surface is out by as much as the groove is deep: in places it will not cut at all."
    elif not at_most(change, UNEVEN * width):
        yield "watch", f"The width will change by {show(change, 'mm')} either way: it will be seen."


def _advice(v: Mapping[str, Any], width: float) -> Iterator[Advice]:
    level = round(0.99 * v_depth(0.0, UNEVEN * width, v["included_angle"]), 4)
    if 0 < level < (v.get("depth") or level + 1):
        yield Advice(f"Level the surface to {show(level, 'mm')}, or probe it in several places", "surface_error", level,
                     "mm")  # fmt: skip
    yield Advice("Or take a V of smaller angle: its width changes less")


def _drawing(v: Mapping[str, Any], depth: float, width: float) -> str:
    flat, out = v["tip_flat"], v["surface_error"]
    size = max(width, depth, 1e-6)
    d = Drawing("Section through the groove", 0.0, -0.2 * size, 3.2 * size)
    edge, tip = width / 2, flat / 2
    d.hatched([d.to((-2 * size, 0)), d.on((-edge, 0)), d.on((-tip, -depth)), d.on((tip, -depth)), d.on((edge, 0)),
               d.on((2 * size, 0)), d.on((2 * size, -3 * size)), d.on((-2 * size, -3 * size)), "Z"],
              "stock-left")  # fmt: skip
    up = 0.5 * size
    grown = edge + (edge - tip) * up / depth
    d.outline([(-grown, up), (-tip, -depth), (tip, -depth), (grown, up)], "cutter")
    d.shape([d.to((-2 * size, 0)), d.on((-edge, 0))], "edge")
    d.shape([d.to((edge, 0)), d.on((2 * size, 0))], "edge")
    if out:
        for level in (out, -out):
            d.line((-2 * size, level), (2 * size, level), "hidden-edge")
    d.measure((-edge, 0.12 * size), (edge, 0.12 * size), f"{show(width, 'mm')}")
    d.leader((tip, -depth), "se", 0, f"depth {show(depth, 'mm')}")
    return d.svg()


V_CUTTER = Calculator(
    name="v-cutter",
    title="Engraving and chamfers",
    step="cutter",
    question="How wide and deep does a V cut?",
    inputs=INPUTS,
    outputs=OUTPUTS,
    headline="width",
    find=find,
    example={
        "included_angle": "90",
        "depth": "0.3 mm",
        "tip_flat": "0.1 mm",
        "surface_error": "0.1 mm",
        "spindle_speed": "12000 rpm",
    },
    guard=Guard("width_error", at_most="0.05 mm"),
    about=(
        "A V is as wide as it is deep, so an uneven surface shows at once: with 90 degrees a tenth too high makes the "
        "line two tenths wider.",
        "It knows the tip only as it is typed: measure a trial line.",
    ),
    limits=("A straight V that runs true, square to the surface; deeper than its flanks it does not cut.",
            "A fifth of the width as what is seen is a judgement."),
    sources=("Geometry of a cone; speeds at the rim by definition (ISO 3002).",),
)  # fmt: skip
