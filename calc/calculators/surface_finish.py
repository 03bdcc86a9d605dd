"""The ridges that a cutter leaves: how high, with and without run-out, and what feed a wanted height allows."""

import math
from collections.abc import Iterator, Mapping
from typing import Any

from calc.answer import Advice, Finding, Step, Value, judged
from calc.declare import Calculator, Guard
from calc.drawing import Drawing
from calc.formulas.ridges import PARABOLIC, feed_for, ridge
from calc.quantity import Quantity, Reading, Refused, at_most, values
from calc.show import mm, number, show

KINDS = ("flat", "ball", "fly", "wall")
INPUTS = (
    Quantity(
        "tool_kind",
        "What makes the surface",
        help="A flat cutter's corners, a ball's step-over, one flying tooth, or the side of the cutter on a wall.",
        choices=KINDS,
        kind="choice",
        default="wall",
        first=True,
    ),
    Quantity("feed_per_tooth", "Feed per tooth", "mm", "For a ball: along the path.", above=0, high=10, first=True),
    Quantity("teeth", "Teeth", "1", kind="whole", low=1, high=40, default="3", first=True),
    Quantity("cutter_diameter", "Cutter", "mm", "For a ball and for a wall.", above=0, high=500, first=True),
    Quantity(
        "nose_radius", "Radius of its corner", "mm", "For a flat or a flying cutter.", above=0, high=50, first=True
    ),
    Quantity("step_over", "Step-over of the ball", "mm", above=0, high=50, first=True),
    Quantity("wanted_peak_to_valley", "Wanted height of the ridges, at most", "um", above=0, high=1000, first=True),
    Quantity(
        "one_tooth_cuts",
        "One tooth does all the finishing",
        help="One high tooth, or a run-out beyond the feed per tooth.",
        kind="yes_no",
        default="no",
    ),
)
OUTPUTS = (
    Quantity("peak_to_valley", "Height of the ridges", "um"),
    Quantity("peak_to_valley_run_out", "The same where one tooth does it all", "um"),
    Quantity("ra_estimate", "Ra, about", "um", "of clean ridges alone"),
    Quantity("marks_per_mm", "Marks", "1/mm"),
    Quantity("feed_or_step_over_wanted", "Feed a tooth, or step-over, for the height wanted", "mm"),
)


def find(readings: Mapping[str, Reading]) -> Finding:
    """What is found for one surface. Raises Refused."""
    v = values(readings)
    kind = v["tool_kind"]
    radius, name = _radius(v)
    one = v["one_tooth_cuts"] == "yes" or kind == "fly"
    step = _needed(v, "step_over" if kind == "ball" else "feed_per_tooth")
    clean = step * (v["teeth"] if one and kind != "ball" else 1)
    worst = step * (1 if kind == "ball" else v["teeth"])
    for pitch in (clean, worst):
        if not at_most(pitch, 2 * radius):
            raise Refused(
                name, f"Marks {show(pitch, 'mm')} apart are wider than the radius of {show(radius, 'mm')} cuts"
            )
    height, high = 1000 * ridge(clean, radius), 1000 * ridge(worst, radius)
    wanted = v.get("wanted_peak_to_valley")
    feed = None if wanted is None else _feed(v, radius, wanted / 1000, one)
    verdict, reason = judged(_found(height, high, wanted), f"Ridges of {show(height, 'um')}.")
    return Finding(
        values={
            "peak_to_valley": height,
            "peak_to_valley_run_out": high,
            "ra_estimate": height / PARABOLIC,
            "marks_per_mm": 1 / clean,
            "feed_or_step_over_wanted": Value(feed, why="no height was wanted"),
        },
        verdict=verdict,
        reason=reason,
        advice=() if verdict == "ok" or feed is None else tuple(_advice(v, radius, wanted or 0.0, feed)),
        working=tuple(_working(clean, worst, radius, height, high)),
        drawing=_drawing(clean, radius, height),
    )


def _radius(v: Mapping[str, Any]) -> tuple[float, str]:
    if v["tool_kind"] in ("flat", "fly"):
        return _needed(v, "nose_radius"), "nose_radius"
    return _needed(v, "cutter_diameter") / 2, "cutter_diameter"


def _needed(v: Mapping[str, Any], name: str) -> float:
    if v.get(name) is None:
        raise Refused(name, f"{name} is needed for this kind ({v['tool_kind']})")
    return float(v[name])


def _feed(v: Mapping[str, Any], radius: float, height: float, one: bool) -> float:
    pitch = feed_for(min(height, radius), radius)
    return pitch / (v["teeth"] if one and v["tool_kind"] != "ball" else 1)


def _found(height: float, high: float, wanted: float | None) -> Iterator[tuple[str, str]]:
    if wanted is None:
        return
    if not at_most(height, wanted):
        yield "stop", f"Ridges of {show(height, 'um')}: higher than the {show(wanted, 'um')} wanted."
    elif not at_most(high, wanted):
        yield "watch", f"{show(height, 'um')} if every tooth cuts alike, {show(high, 'um')} if one tooth is high."


def _advice(v: Mapping[str, Any], radius: float, wanted: float, feed: float) -> Iterator[Advice]:
    if v["tool_kind"] == "ball":
        yield Advice(f"Step over {show(feed, 'mm')}", "step_over", float(f"{feed:.3g}") * 0.99, "mm")
        return
    safe = feed_for(min(wanted / 1000, radius), radius) / v["teeth"]
    safe = float(f"{0.995 * safe:.3g}")
    yield Advice(f"Feed {show(safe, 'mm')} a tooth: good even if one tooth does it all", "feed_per_tooth", safe, "mm")
    yield Advice("Or measure the run-out and bring it well under the feed per tooth")


def _working(clean: float, worst: float, radius: float, height: float, high: float) -> Iterator[Step]:
    yield Step("Height of the ridges", "r − √(r² − p²/4)", f"r = {mm(radius)}, p = {mm(clean)}", show(height, "um"))
    yield Step("Where one tooth does it all", "the same over a whole turn's feed", f"p = {mm(worst)}", show(high, "um"))
    yield Step("Ra, about", "height/(9√3/4)", f"{number(height, 'um')}/3.897", show(height / PARABOLIC, "um"))


def _drawing(pitch: float, radius: float, height: float) -> str:
    """Three ridges, their height drawn as tall as can be seen; across, to scale."""
    d = Drawing("Ridges across the feed, their height drawn large", 0.0, 0.0, 4.0)
    tall = 0.9
    deep = min(radius, 1e6 * pitch)
    span = ridge(pitch, deep)
    points = []
    for n in range(-72, 73):
        x = n / 36
        within = (x + 0.5) % 1 - 0.5
        low = (deep - math.sqrt(max(0.0, deep**2 - (within * pitch) ** 2))) / span if span else 0.0
        points.append((round(x, 9), round(tall * low - tall / 2, 9)))
    ridges = [d.to(points[0]), *(d.on(one) for one in points[1:])]
    d.hatched([*ridges, d.on((2, -3)), d.on((-2, -3)), "Z"], "stock-left")
    d.shape(ridges, "edge")
    d.measure((-0.5, tall), (0.5, tall), f"{show(pitch, 'mm')} apart")
    d.leader((0.5, tall / 2), "se", 0, f"{show(height, 'um')} high")
    return d.svg()


SURFACE_FINISH = Calculator(
    name="surface-finish",
    title="Height of the ridges",
    step="cutter",
    question="How rough will it be?",
    inputs=INPUTS,
    outputs=OUTPUTS,
    headline="peak_to_valley",
    find=find,
    example={
        "tool_kind": "wall",
        "feed_per_tooth": "0.06 mm",
        "teeth": "3",
        "cutter_diameter": "10 mm",
        "wanted_peak_to_valley": "0.5 um",
    },
    guard=Guard("peak_to_valley_run_out", at_most="3 um"),
    about=(
        "A round edge leaves ridges as far apart as it moves from cut to cut: four times lower at half the distance. "
        "Where one tooth is higher than the others it alone makes them, z times as far apart and z² times as high.",
        "It is the best that geometry allows: tearing, built-up edge, chatter and bending come on top.",
    ),
    limits=(
        "The mark lies within the round of the corner or the cutter, without a wiper or flat.",
        "Ra is that of ridges like parabolas: height/3.9.",
    ),
    sources=("Geometry of a circle's cusps; Ra of a parabola: 4/(9√3) of its height, own integration.",),
)
