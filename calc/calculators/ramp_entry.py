"""Into the metal by a ramp or a helix: slope, length, time, and the post that is left standing."""

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from calc.answer import Advice, Finding, Step, Value, judged
from calc.declare import Calculator, Guard
from calc.drawing import Drawing
from calc.formulas.entry import helix_angle, ramp_length, rim_feed
from calc.quantity import Quantity, Reading, Refused, at_most, values
from calc.show import mm, number, show

NEAR = 0.8

INPUTS = (
    Quantity("cutter_diameter", "Cutter", "mm", above=0, high=200, required=True, first=True),
    Quantity("hole_diameter", "Hole, for a helix", "mm", "0: a straight ramp.", low=0, high=2000, default="0 mm",
             first=True),
    Quantity("depth", "Depth", "mm", above=0, high=500, required=True, first=True),
    Quantity("max_ramp_angle", "Steepest ramp of the cutter", "deg", "From its maker.", above=0, high=89, required=True,
             first=True),
    Quantity("pitch", "Deeper in each turn", "mm", "For a helix.", above=0, high=100, first=True),
    Quantity("feed_rate", "Feed", "mm/min", "Of the cutter's centre, level.", above=0, high=60000, first=True),
)  # fmt: skip
OUTPUTS = (
    Quantity("ramp_angle", "Slope of the way down", "deg"),
    Quantity("ramp_length", "Level way to the depth", "mm"),
    Quantity("core_left", "Post left standing", "mm", "its diameter"),
    Quantity("centre_feed", "Feed of the centre", "mm/min"),
    Quantity("peripheral_feed", "Feed at the wall", "mm/min"),
    Quantity("time", "Time on the way down", "min"),
)


@dataclass(frozen=True)
class Way:
    """The way down. mm and degrees; `path` is the diameter of the helix of the centre, None for a ramp."""

    path: float | None
    angle: float
    length: float
    core: float


def find(readings: Mapping[str, Reading]) -> Finding:
    """What is found for one way down. Raises Refused."""
    v = values(readings)
    way = _way(v)
    feed = v.get("feed_rate")
    no_feed = "the feed was not given"
    rim = None if feed is None or way.path is None else rim_feed(feed, v["hole_diameter"], v["cutter_diameter"])
    fine = f"{number(way.angle, 'deg')} degrees over {show(way.length, 'mm')}."
    verdict, reason = judged(_found(v, way), fine)
    return Finding(
        values={
            "ramp_angle": way.angle,
            "ramp_length": way.length,
            "core_left": way.core,
            "centre_feed": Value(feed, why=no_feed),
            "peripheral_feed": Value(rim, why=no_feed if feed is None else "a straight ramp has no wall to go round"),
            "time": Value(None if feed is None else way.length / feed, why=no_feed),
        },
        verdict=verdict,
        reason=reason,
        advice=() if verdict == "ok" else tuple(_advice(v, way)),
        cautions=("Chips must get out of the hole: air or coolant into it, and not too deep at once.",),
        working=tuple(_working(v, way)),
        drawing=_drawing(v, way),
    )


def _way(v: Mapping[str, Any]) -> Way:
    hole, cutter = v["hole_diameter"], v["cutter_diameter"]
    if not hole:
        return Way(None, v["max_ramp_angle"], ramp_length(v["depth"], v["max_ramp_angle"]), 0.0)
    if at_most(hole, cutter):
        raise Refused("hole_diameter", f"The hole must be wider than the cutter ({show(cutter, 'mm')}) to go round in")
    if v.get("pitch") is None:
        raise Refused("pitch", "pitch is needed for a helix: how much deeper in each turn")
    path = hole - cutter
    angle = helix_angle(v["pitch"], path)
    return Way(path, angle, math.pi * path * v["depth"] / v["pitch"], max(0.0, hole - 2 * cutter))


def _found(v: Mapping[str, Any], way: Way) -> Iterator[tuple[str, str]]:
    slope, most = number(way.angle, "deg"), number(v["max_ramp_angle"], "deg")
    if way.core > 1e-9:
        yield "stop", f"A post of {show(way.core, 'mm')} is left standing in the middle."
    if way.path is None:
        return
    if not at_most(way.angle, v["max_ramp_angle"]):
        yield "stop", f"{slope} degrees is steeper than the cutter can go ({most})."
    elif not at_most(way.angle, NEAR * v["max_ramp_angle"]):
        yield "watch", f"{slope} degrees is close to the steepest that the cutter can go ({most})."


def _advice(v: Mapping[str, Any], way: Way) -> Iterator[Advice]:
    if way.path is not None and not at_most(way.angle, NEAR * v["max_ramp_angle"]):
        pitch = 0.999 * math.pi * way.path * math.tan(math.radians(NEAR * v["max_ramp_angle"]))
        pitch = float(f"{pitch:.3g}") * 0.99
        yield Advice(f"Go {show(pitch, 'mm')} deeper in each turn", "pitch", pitch, "mm")
    if way.core > 1e-9:
        hole = 2 * v["cutter_diameter"]
        yield Advice(f"Make the helix no wider than {show(hole, 'mm')}, then open it up", "hole_diameter", hole, "mm")


def _working(v: Mapping[str, Any], way: Way) -> Iterator[Step]:
    if way.path is None:
        yield Step("Level way", "depth/tan(angle)", f"{mm(v['depth'])}/tan({number(way.angle, 'deg')}°)",
                   show(way.length, "mm"))  # fmt: skip
        return
    hole, cutter = mm(v["hole_diameter"]), mm(v["cutter_diameter"])
    yield Step("Slope of the centre's path", "atan(P/(π (Dm − Dc)))", f"atan({mm(v['pitch'])}/(π ({hole} − {cutter})))",
               show(way.angle, "deg"))  # fmt: skip
    yield Step("Level way", "π (Dm − Dc) × depth/P", f"π × {mm(way.path)} × {mm(v['depth'])}/{mm(v['pitch'])}",
               show(way.length, "mm"))  # fmt: skip
    yield Step("Post left", "Dm − 2 Dc", f"{hole} − 2 × {cutter}", show(way.core, "mm"))


def _drawing(v: Mapping[str, Any], way: Way) -> str:
    r = v["cutter_diameter"] / 2
    if way.path is None:
        span = 1.4 * max(way.length, v["depth"])
        d = Drawing("The ramp from the side", way.length / 2, -v["depth"] / 2, span)
        d.hatched([d.to((-span, 0)), d.on((0, 0)), d.on((way.length, -v["depth"])), d.on((2 * span, -v["depth"])),
                   d.on((2 * span, -2 * span)), d.on((-span, -2 * span)), "Z"], "stock-left")  # fmt: skip
        d.shape([d.to((0, 0)), d.on((way.length, -v["depth"]))], "edge")
        d.leader((way.length / 2, -v["depth"] / 2), "ne", 0, show(way.angle, "deg"))
        d.leader((way.length, -v["depth"]), "se", 0, f"over {show(way.length, 'mm')}")
        return d.svg()
    big = v["hole_diameter"] / 2
    d = Drawing("The helix from above", 0.0, 0.0, 2.7 * big)
    d.circle((0, 0), big, "edge")
    d.circle((0, 0), way.path / 2, "cut-path")
    d.circle((way.path / 2, 0), r, "cutter")
    if way.core > 0:
        d.circle((0, 0), way.core / 2, "stock-left-ground")
        d.circle((0, 0), way.core / 2, "edge")
    d.leader((0, big), "nw", 0, f"hole ⌀{show(2 * big, 'mm')}")
    d.leader((way.path / 2 + r, 0), "se", 0, f"cutter ⌀{show(2 * r, 'mm')}")
    d.leader((-way.path / 2, 0), "sw", 0, show(way.angle, "deg"))
    return d.svg()


RAMP_ENTRY = Calculator(
    name="ramp-entry",
    title="Ramp and helix",
    step="cutter",
    question="How steep is the way in?",
    inputs=INPUTS,
    outputs=OUTPUTS,
    headline="ramp_angle",
    find=find,
    example={
        "cutter_diameter": "10 mm",
        "hole_diameter": "16 mm",
        "depth": "12 mm",
        "max_ramp_angle": "3",
        "pitch": "1.5 mm",
        "feed_rate": "400 mm/min",
    },
    guard=Guard("ramp_angle", at_most="3 deg"),
    about=(
        "Most end mills cannot go straight down. A ramp or a helix lets the corner teeth cut and the middle clear: how "
        "steep it may be is the maker's number.",
        "The wall of a small hole passes faster than the centre moves, so the feed at the wall is given as well.",
    ),
    limits=("A flat cutter: round corners and cutters that cut to the middle allow more.",
            "The slope is that of the centre's path, which is the steepest of all teeth."),
    sources=("Own geometry. Feed at the wall: Sandvik Coromant, threading application guide, p. 117.",),
)  # fmt: skip
