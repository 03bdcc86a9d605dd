"""Facing with a large cutter: passes, time, and the torque it wants, tooth by tooth."""

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from calc.answer import Advice, Finding, Step, Value, judged
from calc.declare import Calculator, Guard
from calc.drawing import Drawing, corners
from calc.formulas.engagement import straight_engagement
from calc.formulas.forces import Cut, cutting_power, greatest_tangential_sum, specific_force, torque
from calc.formulas.milling import feed_rate, mean_chip_thickness, removal_rate, spindle_speed
from calc.formulas.ridges import ridge
from calc.materials import BY_KEY, MATERIALS
from calc.quantity import Quantity, Reading, Refused, at_most, settled, values
from calc.show import mm, number, show

NEAR = 0.8

INPUTS = (
    Quantity("cutter_diameter", "Cutter", "mm", above=0, high=500, required=True, first=True),
    Quantity("teeth", "Inserts or teeth", "1", kind="whole", low=1, high=60, required=True, first=True),
    Quantity("face_width", "Width of the face", "mm", above=0, high=5000, required=True, first=True),
    Quantity("face_length", "Length of the face", "mm", above=0, high=10000, required=True, first=True),
    Quantity("step_over", "Step-over", "mm", above=0, high=500, required=True, first=True),
    Quantity("axial_depth", "Depth of cut", "mm", above=0, high=50, required=True, first=True),
    Quantity("feed_per_tooth", "Feed per tooth", "mm", above=0, high=5, required=True, first=True),
    Quantity("spindle_speed", "Spindle speed", "rpm", above=0, high=100000, first=True),
    Quantity("cutting_speed", "Or: cutting speed", "m/min", above=0, high=5000, first=True),
    Quantity("material", "Material", choices=tuple(one.key for one in MATERIALS), kind="choice", first=True),
    Quantity("spindle_torque", "Torque of the spindle at that speed", "N*m", above=0, high=5000, first=True),
    Quantity("efficiency", "Efficiency of the drive", "1", above=0, high=1, default="80 %"),
    Quantity("entering_angle", "Entering angle of the edge", "deg", "90: a square shoulder.", low=10, high=90,
             default="90"),
    Quantity("nose_radius", "Radius of the corner", "mm", above=0, high=50),
)  # fmt: skip
OUTPUTS = (
    Quantity("spindle_speed", "Spindle speed", "rpm"),
    Quantity("feed_rate", "Feed", "mm/min"),
    Quantity("passes", "Passes", "1"),
    Quantity("time", "Time", "min", "feed moves; each pass runs off by the cutter's diameter in all"),
    Quantity("teeth_in_cut", "Teeth in the metal", "1", "mean; under one it knocks"),
    Quantity("entry_angle", "Tooth enters past the thickest chip by", "deg", "below nothing: before it"),
    Quantity("removal_rate", "Metal a minute", "cm3/min"),
    Quantity("cutting_power", "Power at the cutter", "kW"),
    Quantity("cutting_torque", "Torque, mean", "N*m"),
    Quantity("peak_torque", "Torque, greatest in a turn", "N*m"),
    Quantity("torque_use", "Share of the spindle's torque", "1", "held to 0.8"),
    Quantity("peak_to_valley", "Height of the ridges", "um"),
)


@dataclass(frozen=True)
class Sums:
    """One pass. mm, rpm, mm/min, kW, N m; None where material or torque were not given."""

    speed: float
    feed: float
    engagement: float
    passes: int
    time: float
    power: float | None
    mean: float | None
    peak: float | None
    use: float | None


def find(readings: Mapping[str, Reading]) -> Finding:
    """What is found for one face. Raises Refused."""
    v = values(readings)
    s = _sums(v)
    material = BY_KEY.get(v.get("material", ""))
    no_force = "no material with a published specific force was given"
    corner = v.get("nose_radius")
    ridges = None if corner is None else 1000 * ridge(min(v["feed_per_tooth"], 2 * corner), corner)
    fine = f"{s.passes} passes in {show(s.time, 'min')}."
    verdict, reason = judged(_found(v, s), fine)
    return Finding(
        values={
            "spindle_speed": s.speed,
            "feed_rate": s.feed,
            "passes": s.passes,
            "time": s.time,
            "teeth_in_cut": v["teeth"] * s.engagement / 360,
            "entry_angle": s.engagement - 90,
            "removal_rate": removal_rate(v["axial_depth"], _width(v), s.feed),
            "cutting_power": Value(s.power, why=no_force),
            "cutting_torque": Value(s.mean, why=no_force),
            "peak_torque": Value(s.peak, why=no_force),
            "torque_use": Value(s.use, why=no_force if s.mean is None else "the spindle's torque was not given"),
            "peak_to_valley": Value(ridges, why="the corner's radius was not given"),
        },
        verdict=verdict,
        reason=reason,
        advice=tuple(_advice(v, s)) if verdict != "ok" else (),
        cautions=("A large cutter on a shallow grip throws the part: see whether it stays in the vice. Mind the body's "
                  "greatest speed.",),
        working=tuple(_working(v, s)),
        drawing=_drawing(v, s),
        sources=(material.source,) if material and material.kc11 else (),
    )  # fmt: skip


def _width(v: Mapping[str, Any]) -> float:
    return float(min(v["step_over"], v["face_width"]))


def _sums(v: Mapping[str, Any]) -> Sums:
    diameter = v["cutter_diameter"]
    if not at_most(v["step_over"], diameter):
        raise Refused("step_over", f"Step-over is at most the cutter's diameter, {show(diameter, 'mm')}")
    by_speed = None if v.get("cutting_speed") is None else spindle_speed(v["cutting_speed"], diameter)
    _, speed = settled({"spindle_speed": v.get("spindle_speed"), "cutting_speed": by_speed})
    feed = feed_rate(v["feed_per_tooth"], v["teeth"], speed)
    width = _width(v)
    engagement = straight_engagement(diameter / 2, width)
    passes = max(1, math.ceil(v["face_width"] / v["step_over"] - 1e-9))
    power = mean = peak = use = None
    material = BY_KEY.get(v.get("material", ""))
    if material and material.kc11 is not None and material.mc is not None:
        chip = mean_chip_thickness(v["feed_per_tooth"], width, diameter, engagement, v["entering_angle"])
        power = cutting_power(v["axial_depth"], width, feed, specific_force(material.kc11, material.mc, chip))
        mean = torque(power, speed)
        cut = Cut(material.kc11, material.mc, v["feed_per_tooth"], v["axial_depth"], engagement, v["entering_angle"],
                  v["teeth"], True)  # fmt: skip
        peak = greatest_tangential_sum(cut) * diameter / 2000
        given = v.get("spindle_torque")
        use = None if given is None else mean / v["efficiency"] / given
    time = passes * (v["face_length"] + diameter) / feed
    return Sums(speed, feed, engagement, passes, time, power, mean, peak, use)


def _found(v: Mapping[str, Any], s: Sums) -> Iterator[tuple[str, str]]:
    if s.use is None or s.peak is None:
        yield "watch", "The torque is not held against the spindle's: give material and torque at this speed."
        return
    share = number(100 * s.use, "%")
    if not at_most(s.use, 1):
        yield "stop", f"It wants {share} % of the spindle's torque: it stalls."
    elif not at_most(s.use, NEAR):
        yield "watch", f"It wants {share} % of the spindle's torque."
    elif s.peak / v["efficiency"] > v["spindle_torque"]:
        yield "watch", f"Each tooth knocks with {show(s.peak, 'N*m')}, more than the spindle's torque: few teeth cut."


def _advice(v: Mapping[str, Any], s: Sums) -> Iterator[Advice]:
    if s.use is not None and not at_most(s.use, NEAR):
        depth = float(f"{0.995 * NEAR * v['axial_depth'] / s.use:.3g}") * 0.99
        yield Advice(f"Take {show(depth, 'mm')} at a time", "axial_depth", depth, "mm")
        yield Advice("Or a smaller cutter: half the diameter wants half the torque for the same chip")
    elif s.use is not None:
        yield Advice("Take a cutter with more teeth, a smaller one, or less depth")


def _working(v: Mapping[str, Any], s: Sums) -> Iterator[Step]:
    yield Step("Feed", "fz z n", f"{mm(v['feed_per_tooth'])} × {v['teeth']} × {number(s.speed, 'rpm')}",
               show(s.feed, "mm/min"))  # fmt: skip
    yield Step("Passes", "width/step-over, rounded up", f"{mm(v['face_width'])}/{mm(v['step_over'])}", str(s.passes))
    yield Step("Time", "passes × (length + cutter)/feed",
               f"{s.passes} × ({mm(v['face_length'])} + {mm(v['cutter_diameter'])})/{number(s.feed, 'mm/min')}",
               show(s.time, "min"))  # fmt: skip
    if s.power is not None and s.mean is not None and s.peak is not None:
        yield Step("Torque, mean", "30000 P/(π n), P = ap ae vf kc/60e6",
                   f"P = {show(s.power, 'kW')}, n = {number(s.speed, 'rpm')}", show(s.mean, "N*m"))  # fmt: skip
        yield Step("Torque, greatest", "largest sum of kc1.1 h^(1−mc) b over a turn × D/2",
                   f"{number(v['teeth'] * s.engagement / 360, '1')} teeth in the metal, mean",
                   show(s.peak, "N*m"))  # fmt: skip


def _drawing(v: Mapping[str, Any], s: Sums) -> str:
    r, width = v["cutter_diameter"] / 2, _width(v)
    d = Drawing("The cutter on the face, seen from above", 0.0, 0.0, 5.2 * r)
    edge = r - width  # the face lies above this line, its cut part below the cutter's upper rim
    d.block(corners(-6 * r, edge, 6 * r, edge + max(v["face_width"], width)), "stock-left")
    d.swept([d.to((-6 * r, 0)), d.on((0, 0))], r)
    d.circle((0, 0), r, "cutter")
    d.engaged((0, 0), r, 90 - s.engagement, 90)
    d.line((-1.15 * r, 0), (1.15 * r, 0), "centre")
    d.line((0, -1.15 * r), (0, 1.15 * r), "centre")
    d.heading((0.1 * r, 0), (0.7 * r, 0))
    d.leader((-r, 0), "sw", 0, f"cutter ⌀{show(2 * r, 'mm')}, {v['teeth']} teeth")
    d.leader((0.4 * r, edge), "se", 1, f"step-over {show(width, 'mm')}")
    return d.svg()


FACING = Calculator(
    name="facing",
    title="Facing",
    step="run",
    question="Can the spindle turn that face cutter?",
    inputs=INPUTS,
    outputs=OUTPUTS,
    headline="feed_rate",
    find=find,
    example={
        "cutter_diameter": "63 mm",
        "teeth": "2",
        "face_width": "90 mm",
        "face_length": "160 mm",
        "step_over": "45 mm",
        "axial_depth": "1 mm",
        "feed_per_tooth": "0.08 mm",
        "spindle_speed": "3000 rpm",
        "material": "aluminium_hardened",
        "spindle_torque": "3 N*m",
    },
    guard=Guard("torque_use", at_most="0.8"),
    about=(
        "A large cutter with few inserts faces well and wants torque in knocks: one tooth at a time. A fast spindle "
        "has little torque low down, and stalls.",
        "It does not know the grip of the part: a face cutter pushes high up and sideways.",
    ),
    limits=(
        "Every pass is as wide as the step-over; the rim stands over the edge of the work.",
        "Straight edges, no run-out, sharp. Torque from published specific force: 30 % either way (judgement).",
    ),
    sources=("Kienzle's law; time of a pass: Mitsubishi Materials, formulae for face milling.",),
)  # fmt: skip
