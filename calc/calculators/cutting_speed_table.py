"""A table for the wall: speed and feed of each of the shop's cutters at one cutting speed, in the machine's limits."""

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from calc.answer import Advice, Finding, Step, judged
from calc.declare import Calculator, Guard
from calc.drawing import HEIGHT, WIDTH, Drawing
from calc.formulas.engagement import chip_share, straight_engagement
from calc.formulas.milling import cutting_speed, feed_rate, spindle_speed
from calc.quantity import Quantity, Reading, Refused, at_least, at_most, values
from calc.show import mm, number, show

MOST = 40  # rows: one sheet of paper
TOOTH = 0.05  # of the diameter: a feed per tooth over that is watched (judgement)
COLUMNS = (
    Quantity("cutter_diameter", "Cutter", "mm"),
    Quantity("teeth", "Teeth", "1"),
    Quantity("spindle_speed", "Speed", "rpm"),
    Quantity("feed_rate", "Feed", "mm/min"),
    Quantity("feed_per_tooth", "A tooth", "mm"),
    Quantity("cutting_speed", "At the rim", "m/min"),
)

INPUTS = (
    Quantity("cutters", "Cutters", "mm", "Diameter x teeth: 6 x 3, 10 x 3, 63 x 2.", above=0, high=200, kind="pieces",
             required=True, first=True),
    Quantity("cutting_speed", "Cutting speed", "m/min", "From the cutter maker, for this material.", above=0,
             high=2000, required=True, first=True),
    Quantity("chip_of_diameter", "Chip a tooth, share of the diameter", "1", "0.8 %: from memory, for end mills. Take "
             "the maker's.", above=0, high=0.1, default="0.8 %", first=True),
    Quantity("chip_limit", "Thickest chip, whatever the diameter", "mm", "0.15 mm: from memory, for inserts.", above=0,
             high=2, default="0.15 mm"),
    Quantity("radial_share", "Radial depth, share of the diameter", "1", "Under half, the feed rises until the chip is "
             "as thick again.", above=0, high=1, default="50 %", first=True),
    Quantity("material", "For the heading", help="Material, batch, date.", kind="text", first=True),
    Quantity("max_spindle_speed", "Fastest spindle speed", "rpm", above=0, high=200000, first=True),
    Quantity("min_spindle_speed", "Slowest spindle speed", "rpm", above=0, high=200000),
    Quantity("max_feed_rate", "Fastest feed", "mm/min", above=0, high=200000),
    Quantity("edge_radius", "Radius of the cutting edge", "mm", "5 µm: sharp, from memory.", above=0, high=0.2,
             default="0.005 mm"),
)  # fmt: skip
OUTPUTS = (
    Quantity("table", "Table", "1", "diameter mm, teeth, speed rpm, feed mm/min, feed a tooth mm, cutting speed m/min",
             columns=COLUMNS),
    Quantity("slowed", "Cutters that the spindle is too slow for", "1"),
    Quantity("thinnest_chip", "Thinnest chip, at its thickest place", "mm"),
    Quantity("over_speed", "Most over the cutting speed asked for", "1", "1: none is over"),
)  # fmt: skip


@dataclass(frozen=True)
class Row:
    """One cutter: mm, teeth, rpm, mm/min, mm, m/min; the chip at its thickest; the feed a tooth it should get (mm)."""

    diameter: float
    teeth: int
    speed: float
    feed: float
    a_tooth: float
    rim: float
    chip: float
    wanted: float

    def cells(self) -> list[float]:
        """As COLUMNS has them."""
        return [self.diameter, self.teeth, self.speed, self.feed, self.a_tooth, self.rim]


def find(readings: Mapping[str, Reading]) -> Finding:
    """The table for one material. Raises Refused."""
    v = values(readings)
    fastest, slowest = v.get("max_spindle_speed"), v.get("min_spindle_speed")
    if fastest is not None and slowest is not None and slowest > fastest:
        raise Refused("min_spindle_speed", "Slowest spindle speed (min_spindle_speed) is over the fastest")
    if sum(map(readings["cutters"].typed.count, "xX×*")) < len(v["cutters"]):
        raise Refused("cutters", "Cutters (cutters): each needs its teeth, as 10 x 3; one tooth is 10 x 1")
    cutters = sorted(set(v["cutters"]))
    if len(cutters) > MOST:
        raise Refused("cutters", f"Cutters (cutters): at most {MOST} at once, {len(cutters)} were given")
    if any(not 1 <= teeth <= 40 for _, teeth in cutters):
        raise Refused("cutters", "Cutters (cutters): 1 to 40 teeth each, as 6 x 3")
    rows = [_row(v, diameter, teeth) for diameter, teeth in cutters]
    slowed = [row for row in rows if row.rim < v["cutting_speed"] * (1 - 1e-9)]
    verdict, reason = judged(_found(v, rows), f"{_cutters(len(rows))} at {show(v['cutting_speed'], 'm/min')}."
                             + _slowed(slowed) + _held(rows))  # fmt: skip
    return Finding(
        values={
            "table": [row.cells() for row in rows],
            "slowed": len(slowed),
            "thinnest_chip": min(row.chip for row in rows),
            "over_speed": max(1.0, max(row.rim for row in rows) / v["cutting_speed"]),
        },
        verdict=verdict,
        reason=reason,
        advice=tuple(_advice(v, rows)) if verdict != "ok" else (),
        cautions=("Every cutter body has a greatest speed of its own: never above it, whatever the table says.",),
        working=tuple(_working(v, rows)),
        drawing=_drawing(v, rows),
    )


def _row(v: Mapping[str, Any], diameter: float, teeth: int) -> Row:
    speed = spindle_speed(v["cutting_speed"], diameter)
    speed = max(min(speed, v.get("max_spindle_speed", speed)), v.get("min_spindle_speed", 0.0))
    chip = _chip(v, diameter)
    share = chip_share(straight_engagement(diameter / 2, v["radial_share"] * diameter))
    feed = feed_rate(chip / share, teeth, speed)
    held = min(feed, v.get("max_feed_rate", feed))
    a_tooth = held / (teeth * speed)
    return Row(diameter, teeth, speed, held, a_tooth, cutting_speed(speed, diameter), a_tooth * share, chip / share)


def _chip(v: Mapping[str, Any], diameter: float) -> float:
    return float(min(v["chip_of_diameter"] * diameter, v["chip_limit"]))


def _cutters(count: int) -> str:
    return "1 cutter" if count == 1 else f"{count} cutters"


def _slowed(slowed: list[Row]) -> str:
    if not slowed:
        return ""
    return f" Up to ⌀{show(slowed[-1].diameter, 'mm')} the spindle is too slow for that, and the feed follows it."


def _held(rows: list[Row]) -> str:
    held = [row for row in rows if not at_least(row.a_tooth, row.wanted)]
    if not held:
        return ""
    worst = min(held, key=lambda row: row.a_tooth / row.wanted)
    return (f" The machine feeds too slowly for {_cutters(len(held))}: a tooth of ⌀{show(worst.diameter, 'mm')} gets "
            f"{show(worst.a_tooth, 'mm')} in place of {show(worst.wanted, 'mm')}.")  # fmt: skip


def _greedy(rows: list[Row]) -> list[Row]:
    """Cutters whose teeth get too much, the worst last."""
    found = [row for row in rows if not at_most(row.a_tooth, TOOTH * row.diameter)]
    return sorted(found, key=lambda row: row.a_tooth / row.diameter)


def _found(v: Mapping[str, Any], rows: list[Row]) -> Iterator[tuple[str, str]]:
    thin = [row for row in rows if not at_least(row.chip, v["edge_radius"])]
    if thin:
        yield "watch", (f"{_cutters(len(thin))} would rub: a chip of {show(thin[0].chip, 'mm')} is thinner than the "
                        "edge is sharp.")  # fmt: skip
    greedy = _greedy(rows)
    if greedy:
        worst = greedy[-1]
        share = f"{number(100 * worst.a_tooth / worst.diameter, '1')} % of its diameter"
        yield "watch", f"A tooth of ⌀{show(worst.diameter, 'mm')} would take {show(worst.a_tooth, 'mm')}, {share}."
    fast = [row for row in rows if not at_most(row.rim, v["cutting_speed"])]
    if fast:
        worst = f"⌀{show(fast[-1].diameter, 'mm')} runs at {show(fast[-1].rim, 'm/min')}"
        yield "watch", f"The spindle cannot turn slowly enough for {_cutters(len(fast))}: {worst}."


def _advice(v: Mapping[str, Any], rows: list[Row]) -> Iterator[Advice]:
    thin = [row for row in rows if not at_least(row.chip, v["edge_radius"])]
    if thin:
        yield _thicker(v, thin)
    if _greedy(rows):
        yield _calmer(max(_chip(v, row.diameter) / row.diameter for row in rows), v["radial_share"])
    if any(not at_most(row.rim, v["cutting_speed"]) for row in rows):
        yield Advice("Take a smaller cutter, or carbide in place of high-speed steel")


def _thicker(v: Mapping[str, Any], thin: list[Row]) -> Advice:
    """What keeps the chip from being rubbed off; a number to try only where that alone does."""
    wanted = v["edge_radius"] / thin[0].diameter
    if any(row.feed == v.get("max_feed_rate") for row in thin):
        return Advice("Turn the small cutters slower, so that the feed reaches them, or leave them out")
    limited, small = v["chip_limit"] < v["edge_radius"], v["chip_of_diameter"] < wanted
    if limited and not small:
        text = f"Allow a chip of {show(v['edge_radius'], 'mm')} or more, if the maker does, or take sharper cutters"
        return Advice(text, "chip_limit", v["edge_radius"], "mm")
    if small and not limited and at_most(wanted, TOOTH):
        text = f"Take a chip of {number(100 * wanted, '1')} % of the diameter or more, if the maker allows it"
        return Advice(text, "chip_of_diameter", wanted, "1")
    return Advice("Take sharper cutters, or thicker chips if the maker allows them, or leave the small ones out")


def _calmer(chip: float, depth: float) -> Advice:
    """What keeps the feed per tooth under TOOTH; thickest `chip` and radial `depth` as shares of the diameter."""
    if chip > TOOTH and at_least(depth, 0.5):
        return Advice(f"Take a chip of {number(100 * TOOTH, '1')} % of the diameter at most", "chip_of_diameter", TOOTH)
    if chip > TOOTH:
        return Advice("Take thinner chips and a larger radial depth")
    # chip/TOOTH = 2 √(x − x²), and up to a tenth of a percent
    share = math.ceil(1000 * (1 - math.sqrt(1 - (chip / TOOTH) ** 2)) / 2) / 1000
    text = f"Take {number(100 * share, '1')} % of the diameter or more in radial depth"
    return Advice(text, "radial_share", share, "1")


def _working(v: Mapping[str, Any], rows: list[Row]) -> Iterator[Step]:
    row, speed = rows[-1], number(v["cutting_speed"], "m/min")
    share = chip_share(straight_engagement(row.diameter / 2, v["radial_share"] * row.diameter))
    yield Step(f"Speed of ⌀{mm(row.diameter)}", "1000 vc/(π D), within the spindle's limits",
               f"1000 × {speed}/(π × {mm(row.diameter)})", show(row.speed, "rpm"))  # fmt: skip
    yield Step("Feed a tooth", "chip/(2 √(x − x²)) with x = ae/D; from half on the chip itself",
               f"{mm(row.chip)}/{number(share, '1')}", show(row.a_tooth, "mm"))  # fmt: skip
    yield Step("Feed", "fz z n, at most the machine's", f"{mm(row.a_tooth)} × {row.teeth} × {number(row.speed, 'rpm')}",
               show(row.feed, "mm/min"))  # fmt: skip


def _drawing(v: Mapping[str, Any], rows: list[Row]) -> str:
    """Speed over diameter: both axes to scale, in units of the picture."""
    largest, top = rows[-1].diameter, max(row.speed for row in rows)
    d = Drawing("Spindle speed over the cutter's diameter", WIDTH / 2, HEIGHT / 2, WIDTH)
    wide, high = WIDTH - 90, HEIGHT - 90

    def at(diameter: float, speed: float) -> tuple[float, float]:
        return 60 + wide * diameter / largest, 50 + high * speed / top

    d.line(at(0, 0), at(1.05 * largest, 0), "edge")
    d.line(at(0, 0), at(0, 1.1 * top), "edge")
    least = min(spindle_speed(v["cutting_speed"], 1.1 * top), largest)  # the diameter that turns so fast
    steps = [least + (largest - least) * n / 60 for n in range(61)]
    curve = [at(one, spindle_speed(v["cutting_speed"], one)) for one in steps]
    d.shape([d.to(curve[0]), *(d.on(one) for one in curve[1:])], "dim")
    for row in rows:
        d.circle(at(row.diameter, row.speed), 4, "cutter")
    if v.get("max_spindle_speed"):
        d.line(at(0, top), at(1.05 * largest, top), "centre")
    d.write(at(0, top), show(top, "rpm"), "start", (6, -8))
    d.write(at(largest, 0), show(largest, "mm"), "end", (12, 20))
    d.write(at(0, 0), v.get("material", "")[:40], "start", (0, 40))
    return d.svg()


CUTTING_SPEED_TABLE = Calculator(
    name="cutting-speed-table",
    title="Table of speeds",
    step="cutter",
    question="What does each of my cutters run at?",
    inputs=INPUTS,
    outputs=OUTPUTS,
    headline="slowed",
    find=find,
    example={
        "cutters": "3 x 2, 6 x 3, 8 x 3, 12 x 3, 16 x 4, 63 x 2",
        "cutting_speed": "250 m/min",
        "chip_of_diameter": "0.6 %",
        "material": "5083 aluminium, dry",
        "max_spindle_speed": "8000 rpm",
    },
    guard=Guard("thinnest_chip", at_least="0.005 mm"),
    about=(
        "One cutting speed and one chip give every cutter its speed and feed. Print it, write your own corrections "
        "into it, and hang it at the machine.",
        "It knows nothing of stick-out, depth, power or the grip: those have sums of their own.",
    ),
    limits=(
        "Cutting speed and chip are the maker's and yours: no published number holds for every cutter of a material.",
        "A chip in proportion to the diameter suits end mills of one family; a face cutter with inserts has its own.",
        "A feed per tooth over 5 % of the diameter is watched: a judgement, not the maker's limit.",
        "Thinner than about the edge's radius a chip is rubbed off (0.14 to 0.43 of it in published trials).",
    ),
    sources=(
        "n = 1000 vc/(π D), vf = fz z n: definitions, quantities as in ISO 3002. Thinning: own geometry, as in the "
        "chip's own sum.",
    ),
)  # fmt: skip
