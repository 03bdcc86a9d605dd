"""How far a drill must go, and whether there is room for its point."""

import math
from collections.abc import Iterator, Mapping
from typing import Any

from calc.answer import Advice, Finding, Step, Value, judged
from calc.declare import Calculator, Guard
from calc.drawing import Drawing, corners
from calc.formulas.setting import point_length
from calc.quantity import Quantity, Reading, at_least, values
from calc.show import mm, show

NEAR = 1.0  # mm under the point: judgement

INPUTS = (
    Quantity("drill_diameter", "Drill", "mm", above=0, high=100, required=True, first=True),
    Quantity(
        "full_depth",
        "Depth at full diameter",
        "mm",
        "To the shoulder of the point. For a through hole: the thickness.",
        above=0,
        high=1000,
        required=True,
        first=True,
    ),
    Quantity("point_angle", "Angle of the point", "deg", low=60, high=175, default="118", first=True),
    Quantity(
        "breakthrough", "Shoulder goes below the part by", "mm", "0: a blind hole.", low=0, high=100, default="0 mm",
        first=True,
    ),
    Quantity("free_under", "Free below the part", "mm", "To parallel, vice or table.", low=0, high=1000, first=True),
    Quantity("feed_rate", "Feed", "mm/min", above=0, high=20000, first=True),
    Quantity("peck_factor", "Drill diameters a peck", "1", "From memory: 1 when deep.", above=0, high=50, default="1"),
)  # fmt: skip
OUTPUTS = (
    Quantity("total_depth", "Depth to the tip", "mm"),
    Quantity("point_length", "Length of the point", "mm"),
    Quantity("below_part", "The tip goes below the part by", "mm"),
    Quantity("spare_under", "Left under the tip", "mm", "below nothing it drills what is there"),
    Quantity("pecks", "Pecks", "1"),
    Quantity("time", "Time in the metal", "min", "without the moves back"),
)


def find(readings: Mapping[str, Reading]) -> Finding:
    """What is found for one hole. Raises Refused."""
    v = values(readings)
    point = point_length(v["drill_diameter"], v["point_angle"])
    through = v["breakthrough"] > 0
    below = point + v["breakthrough"] if through else None
    free = v.get("free_under")
    spare = None if free is None or below is None else free - below
    total = v["full_depth"] + point + v["breakthrough"]
    pecks = math.ceil(total / (v["peck_factor"] * v["drill_diameter"]) - 1e-9)
    feed = v.get("feed_rate")
    verdict, reason = judged(_found(below, spare), f"Drill {show(total, 'mm')} to the tip.")
    blind = "it does not come through"
    return Finding(
        values={
            "total_depth": total,
            "point_length": point,
            "below_part": Value(below, why=blind),
            "spare_under": Value(spare, why=blind if below is None else "what is free below was not given"),
            "pecks": pecks,
            "time": Value(None if feed is None else total / feed, why="the feed was not given"),
        },
        verdict=verdict,
        reason=reason,
        advice=tuple(_advice(v, point, spare)) if spare is not None and not at_least(spare, NEAR) else (),
        cautions=("A drill that breaks through grabs: clamp the part, ease the feed, keep hands away.",),
        working=tuple(_working(v, point, total)),
        drawing=_drawing(v, point, below),
    )


def _found(below: float | None, spare: float | None) -> Iterator[tuple[str, str]]:
    if below is None:
        return
    if spare is None:
        yield "watch", f"The tip goes {show(below, 'mm')} below the part: is that free? Give what lies under it."
    elif spare < -1e-9:
        yield "stop", f"The tip goes {show(below, 'mm')} below the part, {show(-spare, 'mm')} into what lies under it."
    elif not at_least(spare, NEAR):
        yield "watch", f"Only {show(spare, 'mm')} left under the tip."


def _advice(v: Mapping[str, Any], point: float, spare: float | None) -> Iterator[Advice]:
    less = v["breakthrough"] - (NEAR - (spare or 0.0))
    if less > 0:
        yield Advice(f"Let the shoulder go {show(less, 'mm')} below", "breakthrough", less, "mm")
    high = point + v["breakthrough"] + NEAR
    yield Advice(f"Or free {show(high, 'mm')} below the part", "free_under", high, "mm")


def _working(v: Mapping[str, Any], point: float, total: float) -> Iterator[Step]:
    yield Step(
        "Length of the point",
        "D/(2 tan(angle/2))",
        f"{mm(v['drill_diameter'])}/(2 tan({v['point_angle'] / 2:g}°))",
        show(point, "mm"),
    )
    yield Step(
        "Depth to the tip",
        "full depth + point + breakthrough",
        f"{mm(v['full_depth'])} + {mm(point)} + {mm(v['breakthrough'])}",
        show(total, "mm"),
    )


def _drawing(v: Mapping[str, Any], point: float, below: float | None) -> str:
    r, deep = v["drill_diameter"] / 2, v["full_depth"]
    shoulder = -(deep + v["breakthrough"])
    tip = shoulder - point
    thick = deep if below is not None else 1.25 * (deep + point)
    low = min(tip, -thick, -thick - (v.get("free_under") or 0))
    span = max(1.35 * (0.3 * deep - low), 7 * r)
    d = Drawing("Section through the hole", 0.0, (0.2 * deep + low) / 2, span)
    d.block(corners(-0.36 * span, -thick, 0.36 * span, 0), "stock-left")
    if v.get("free_under") is not None and below is not None:
        under = -thick - v["free_under"]
        d.block(corners(-0.5 * span, under - span, 0.5 * span, under))
        d.leader((-0.45 * span, under), "sw", 0, f"free {show(v['free_under'], 'mm')}")
    d.outline([(-r, 0.2 * deep), (-r, shoulder), (0, tip), (r, shoulder), (r, 0.2 * deep)], "cutter")
    d.line((0, 0.25 * deep), (0, tip - 0.05 * span), "centre")
    d.leader((r, shoulder), "ne", 0, f"to the tip {show(-tip, 'mm')}")
    d.leader((0, tip), "se", 0, f"point {show(point, 'mm')}")
    return d.svg()


DRILL_POINT = Calculator(
    name="drill-point",
    title="Depth of a drilled hole",
    step="cutter",
    question="How deep to drill, and what is under it?",
    inputs=INPUTS,
    outputs=OUTPUTS,
    headline="total_depth",
    find=find,
    example={
        "drill_diameter": "8.5 mm",
        "full_depth": "15 mm",
        "breakthrough": "1 mm",
        "free_under": "3 mm",
        "feed_rate": "200 mm/min",
    },
    guard=Guard("spare_under", at_least="1 mm"),
    about=(
        "A drawing gives the depth at full diameter; the point goes further. Through a part it goes further still, "
        "into whatever lies below.",
        "It does not know a reground point: measure its angle or its length.",
    ),
    limits=("The point is a plain cone; split or thinned points are a little shorter.",
            "1 mm left under the tip is a judgement."),
    sources=("Geometry of a cone; point factors as printed by drill makers (0.300, 0.207, 0.182 of the diameter).",),
    bench_note="holding-work",
)  # fmt: skip
