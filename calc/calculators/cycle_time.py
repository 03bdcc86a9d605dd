"""How much of a program's time is air."""

from collections.abc import Iterator, Mapping
from typing import Any

from calc.answer import Advice, Finding, Step, judged
from calc.declare import Calculator, Guard
from calc.drawing import Drawing, corners
from calc.quantity import Quantity, Reading, Refused, at_most, settled, values
from calc.show import number, show

HALF = 0.5

INPUTS = (
    Quantity("removed_volume", "Metal removed", "cm3", above=0, high=1e6, required=True, first=True),
    Quantity("removal_rate", "Metal a minute while cutting", "cm3/min", above=0, high=1e5, required=True, first=True),
    Quantity("measured_time", "Time of the program, by the clock", "min", above=0, high=100000, first=True),
    Quantity("program_length", "Or: its whole way", "mm", above=0, high=1e9, first=True),
    Quantity("feed_rate", "At a feed of", "mm/min", "Mean, with the whole way.", above=0, high=100000, first=True),
)
OUTPUTS = (
    Quantity("air_share", "Share of the time in air", "1"),
    Quantity("cutting_time", "In the metal", "min"),
    Quantity("total_time", "In all", "min"),
    Quantity("saved_if_halved", "Saved if the air were halved", "min"),
)


def find(readings: Mapping[str, Reading]) -> Finding:
    """What is found for one program. Raises Refused."""
    v = values(readings)
    cutting = v["removed_volume"] / v["removal_rate"]
    total = _total(v)
    if not at_most(cutting, total):
        raise Refused(
            "removal_rate",
            f"At that rate the metal alone takes {show(cutting, 'min')}, more than the {show(total, 'min')} in all: "
            "volume, rate or time is wrong",
        )
    air = max(0.0, 1 - cutting / total)
    fine = f"{number(100 * air, '%')} % of the time is air."
    found = [] if at_most(air, HALF) else [("watch", f"{fine} That is more than the cutting itself.")]
    verdict, reason = judged(found, fine)
    saved = air * total / 2
    return Finding(
        values={"air_share": air, "cutting_time": cutting, "total_time": total, "saved_if_halved": saved},
        verdict=verdict,
        reason=reason,
        advice=tuple(_advice()) if verdict != "ok" else (),
        cautions=("Lower clearance and faster rapids save time and cost crashes: prove them in single block.",),
        working=(
            Step("In the metal", "volume/rate", f"{number(v['removed_volume'], 'cm3')}/"
                 f"{number(v['removal_rate'], 'cm3/min')}", show(cutting, "min")),
            Step("Share in air", "1 − cutting/all", f"1 − {number(cutting, 'min')}/{number(total, 'min')}",
                 f"{number(100 * air, '%')} %"),
        ),
        drawing=_drawing(cutting, total),
    )  # fmt: skip


def _total(v: Mapping[str, Any]) -> float:
    length, feed = v.get("program_length"), v.get("feed_rate")
    if length is not None and feed is None:
        raise Refused("feed_rate", "feed_rate is needed with program_length")
    by_way = None if length is None else length / feed
    return settled({"measured_time": v.get("measured_time"), "program_length": by_way})[1]


def _advice() -> Iterator[Advice]:
    yield Advice("Look for long ways at clearance height, lead-ins and tool changes")
    yield Advice("Or start from a blank nearer to the part")


def _drawing(cutting: float, total: float) -> str:
    d = Drawing("The program's time: metal and air", 0.5, 0.0, 1.25, 160)
    share = cutting / total
    d.block(corners(0, -0.1, share, 0.1))
    d.outline(corners(share, -0.1, 1, 0.1), "cut-path")
    d.leader((share / 2, 0.1), "nw", 0, f"metal {show(cutting, 'min')}")
    d.leader(((1 + share) / 2, -0.1), "se", 0, f"air {show(total - cutting, 'min')}")
    return d.svg()


CYCLE_TIME = Calculator(
    name="cycle-time",
    title="Air in a program",
    step="run",
    question="How much of it is air?",
    inputs=INPUTS,
    outputs=OUTPUTS,
    headline="air_share",
    find=find,
    example={"removed_volume": "85 cm3", "removal_rate": "12 cm3/min", "measured_time": "19 min"},
    guard=Guard("air_share", at_most="0.5"),
    about=(
        "The metal that goes and the rate it goes at say how long cutting takes; the rest is moves in air, "
        "tool changes and waiting.",
        "A rate that is not held everywhere (corners, entries, finishing) makes the air look larger than it is.",
    ),
    limits=("One mean rate for all cuts.", "Half as much is a judgement."),
    sources=("Definitions: time is volume over rate, way over feed.",),
)
