"""A rapid move: guard, vice, clamp or part in its way, and the ends of the travel."""

import re
from collections.abc import Iterator, Mapping
from typing import Any

from calc.answer import Finding, Step, Value, judged
from calc.calculators.travel_advice import advice
from calc.calculators.travel_drawing import drawing
from calc.calculators.travel_sums import (
    AXES,
    FAR,
    LONGEST,
    SAME,
    Box,
    Nearest,
    Sums,
    nearest,
    nose_above_tip,
    sums,
)
from calc.declare import Calculator, Guard
from calc.formulas.room import between
from calc.quantity import Quantity, Reading, Refused, at_least, values
from calc.show import mm, show

MOST_POINTS, MOST_BOXES, LONGEST_NAME = 20, 12, 24
ENDS = "Lowest and highest, as the machine counts: -400, 0."

INPUTS = (
    Quantity("tool_diameter", "Tool, thickest", "mm", "Below the holder.", above=0, high=300, required=True,
             first=True),
    Quantity("tool_length", "Tool out of holder", "mm", above=0, high=LONGEST, required=True, first=True),
    Quantity("holder_diameter", "Holder, thickest", "mm", "Empty: it is not looked at.", above=0, high=500, first=True),
    Quantity("safe_height", "Goes first to Z", "mm", "To it, down too where it is lower, then across, then on. Empty: "
             "from point to point.", low=-FAR, high=FAR, first=True),
    Quantity("obstacles", "What stands in the way", "mm", "Each a box, two opposite corners x,y,z,x,y,z in work "
             "coordinates; semicolons between. The part too.", low=-FAR, high=FAR, kind="boxes", first=True),
    Quantity("move", "The tip goes from point to point", "mm", "x,y,z; x,y,z in work coordinates.", low=-FAR, high=FAR,
             kind="points", required=True, first=True),
    Quantity("rapid", "A rapid goes", help="Each axis: at its own pace, not in a line, so the whole box between two "
             "points is looked at. Straight: only where the machine's manual says so.",
             choices=("each_axis", "straight"), kind="choice", default="each_axis", first=True),
    Quantity("obstacle_names", "Names of what stands there", help="In the same order: part; vice; clamp.", kind="text"),
    Quantity("clearance_wanted", "Room wanted", "mm", low=0.1, high=100, default="2 mm"),
    Quantity("holder_length", "Holder, face to spindle nose", "mm", "Empty: as if it never ended.", above=0,
             high=LONGEST),
    Quantity("work_zero", "Work zero, as the machine counts", "mm", "x,y,z in machine coordinates.", low=-FAR, high=FAR,
             kind="point"),
    Quantity("zero_taken_with", "Its Z was read, on work zero, with", help="Tool tip: this tool's tip. Spindle nose: "
             "the bare nose; holder and tool are added.", choices=("tool_tip", "spindle_nose"), kind="choice",
             default="tool_tip"),
    Quantity("travel_x", "Travel in X", "mm", ENDS, low=-FAR, high=FAR, kind="list"),
    Quantity("travel_y", "Travel in Y", "mm", ENDS, low=-FAR, high=FAR, kind="list"),
    Quantity("travel_z", "Travel in Z", "mm", ENDS, low=-FAR, high=FAR, kind="list"),
)  # fmt: skip
OUTPUTS = (
    Quantity("clearance", "Least room", "mm", "0: it touches"),
    Quantity("contact_with", "Touches"),
    Quantity("first_contact", "First touches with the tip at", "mm", "X, Y, Z in work coordinates"),
    Quantity("safe_height_margin", "Safe height over everything by", "mm", "below nothing: something stands higher"),
    Quantity("travel_margin", "Travel left in X, Y, Z", "mm", "below nothing: past the end"),
    Quantity("least_travel_margin", "Least travel left", "mm"),
)


def find(readings: Mapping[str, Reading]) -> Finding:
    """What is found for one move. Raises Refused."""
    v = values(readings)
    _refuse(v)
    s = sums(v, _boxes(v))
    verdict, reason = judged(_found(v, s), _fine(s))
    return Finding(
        values=_values(v, s),
        verdict=verdict,
        reason=reason,
        advice=tuple(advice(v, s)) if verdict != "ok" else (),
        cautions=tuple(_cautions(v, s)),
        working=tuple(_working(v, s)),
        drawing=drawing(v, s),
    )


def _refuse(v: Mapping[str, Any]) -> None:
    """What was given by halves, or is more than can be looked through."""
    ends = {f"travel_{axis.lower()}": v.get(f"travel_{axis.lower()}") for axis in AXES}
    given = {name: pair for name, pair in ends.items() if pair is not None}
    if not v.get("obstacles") and not given:
        raise Refused("obstacles", "Give obstacles, or travel_x, travel_y or travel_z with work_zero")
    if given and v.get("work_zero") is None:
        raise Refused("work_zero", "Work zero (work_zero) is needed to know where the move lies in the travel: x, y, z")
    for name, pair in given.items():
        if len(pair) != 2 or not pair[0] < pair[1]:
            raise Refused(name, f"Travel ({name}) takes two numbers, the lower end first: -400, 0")
    if "travel_z" in given and v["zero_taken_with"] == "spindle_nose" and v.get("holder_length") is None:
        raise Refused("holder_length", "Holder length (holder_length) is needed: the Z of the bare nose counts from it")
    if not v["move"] or len(v["move"]) > MOST_POINTS:
        raise Refused("move", f"The move (move) takes 1 to {MOST_POINTS} points; {len(v['move'])} were given")
    if len(v.get("obstacles", ())) > MOST_BOXES:
        raise Refused("obstacles", f"At most {MOST_BOXES} obstacles; {len(v['obstacles'])} were given")


def _boxes(v: Mapping[str, Any]) -> tuple[Box, ...]:
    rows = v.get("obstacles", ())
    typed = [" ".join(one.split()) for one in re.split("[;,]", v.get("obstacle_names", "")) if one.strip()]
    if len(typed) > len(rows):
        raise Refused("obstacle_names", f"{len(typed)} names for {len(rows)} obstacles: one name each, in their order")
    names = [_name(one) for one in typed] + [f"obstacle {n + 1}" for n in range(len(typed), len(rows))]
    pairs = [tuple(zip(row[:3], row[3:], strict=True)) for row in rows]
    return tuple(
        Box(name, tuple(min(one) for one in pair), tuple(max(one) for one in pair))
        for name, pair in zip(names, pairs, strict=True)
    )


def _name(typed: str) -> str:
    """Short, with its article, its numbers left alone where a text is turned into inches."""
    short = typed if len(typed) <= LONGEST_NAME else typed[: LONGEST_NAME - 1] + "…"
    article = "" if re.match(r"(a|an|the|my|our)\b", short, re.IGNORECASE) else "the "
    return article + re.sub(r"(\d) ", "\\1\u00a0", short)


def _found(v: Mapping[str, Any], s: Sums) -> Iterator[tuple[str, str]]:
    near = s.nearest
    if near and near.touches:
        other = _other_rapid(v, s)
        line = " A straight line would miss it." if other and v["rapid"] == "each_axis" and not other.touches else ""
        yield "stop", _contact(near) + line
    elif near and not at_least(near.gap, v["clearance_wanted"]):
        yield "watch", f"Only {show(near.gap, 'mm')} between the {near.body.name} and {near.box.name}, {_when(near)}."
    for axis, left in enumerate(s.travel):
        if left is not None and left < -SAME:
            lowest, highest = s.reached[axis] or (0.0, 0.0)
            low, high = v[f"travel_{AXES[axis].lower()}"]
            end = "lower" if lowest - low <= high - highest else "upper"
            yield "stop", f"{AXES[axis]} runs {show(-left, 'mm')} past the {end} end of its travel."


def _contact(near: Nearest) -> str:
    at = ", ".join(f"{axis} {show(one, 'mm')}" for axis, one in zip(AXES, near.place, strict=True))
    below = near.box.high[2] - near.place[2] - near.body.low
    deep = f", {show(below, 'mm')} below its top" if below > SAME else ""
    return f"The {near.body.name} runs into {near.box.name}{deep}, {_when(near)}, with the tip at {at}."


def _when(near: Nearest) -> str:
    leg = near.leg
    return f"at point {leg.point}" if leg.start == leg.end else f"on the way from point {leg.point} to {leg.point + 1}"


def _fine(s: Sums) -> str:
    near, parts = s.nearest, []
    if near:
        parts.append(f"{show(near.gap, 'mm')} at least between the {near.body.name} and {near.box.name}.")
    if s.least_travel is not None:
        parts.append(f"{show(s.least_travel, 'mm')} of travel left.")
    return " ".join(parts)


def _values(v: Mapping[str, Any], s: Sums) -> dict[str, Any]:
    near, safe = s.nearest, v.get("safe_height")
    touched = near if near and near.touches else None
    none = "nothing is touched" if near else "no obstacles were given"
    margin = None if safe is None or not s.boxes else safe - max(box.high[2] for box in s.boxes)
    travel = list(s.travel) if s.least_travel is not None else None
    return {
        "clearance": Value(near.gap if near else None, why=none),
        "contact_with": Value(f"{touched.body.name} with {touched.box.name}" if touched else None, why=none),
        "first_contact": Value([round(one, 6) + 0.0 for one in touched.place] if touched else None, why=none),
        "safe_height_margin": Value(margin, why="the safe height or the obstacles were not given"),
        "travel_margin": Value(travel, why="travel and work zero were not given"),
        "least_travel_margin": Value(s.least_travel, why="travel and work zero were not given"),
    }


def _cautions(v: Mapping[str, Any], s: Sums) -> Iterator[str]:
    yield "The first time: rapids turned right down, a finger on hold, and the door shut."
    if v["rapid"] == "straight" and s.boxes:
        yield "Straight only where the machine's manual says that rapids are: many go each axis at its own pace."
    if len(s.bodies) == 1:
        yield "The holder was not looked at: give its diameter."


def _working(v: Mapping[str, Any], s: Sums) -> Iterator[Step]:
    near = s.nearest
    if near:
        (x, y, z), (low, high) = near.place, (near.box.low, near.box.high)
        across, along = between(x, x, low[0], high[0]), between(y, y, low[1], high[1])
        up = between(z + near.body.low, z + near.body.high, low[2], high[2])
        yield Step(f"From {near.body.name} to {near.box.name}", "√((√(x² + y²) − r)² + z²), nothing below 0",
                   f"x {mm(across)}, y {mm(along)}, r {mm(near.body.radius)}, z {mm(up)}",
                   show(near.gap, "mm"))  # fmt: skip
    other = _other_rapid(v, s)
    if other:
        text = "Each axis at its own pace" if v["rapid"] == "straight" else "In a straight line"
        yield Step(f"{text} it would be", "the same", f"{other.body.name} to {other.box.name}", show(other.gap, "mm"))
    if v.get("safe_height") is not None and s.boxes:
        top = max(box.high[2] for box in s.boxes)
        yield Step("Safe height over everything", "safe height − highest top", f"{mm(v['safe_height'])} − {mm(top)}",
                   show(v["safe_height"] - top, "mm"))  # fmt: skip
    for axis, left in enumerate(s.travel):
        if left is not None:
            yield _travel_step(v, s, axis, left)


def _other_rapid(v: Mapping[str, Any], s: Sums) -> Nearest | None:
    """What the other kind of rapid would come nearest to, where that is not the same."""
    other = nearest(s.legs, s.bodies, s.boxes, v["rapid"] != "straight")
    return other if other and s.nearest and abs(other.gap - s.nearest.gap) > SAME else None


def _travel_step(v: Mapping[str, Any], s: Sums, axis: int, left: float) -> Step:
    name = AXES[axis]
    low, high = v[f"travel_{name.lower()}"]
    lowest, highest = s.reached[axis] or (0.0, 0.0)
    nose = f" + {mm(nose_above_tip(v))}" if axis == 2 and nose_above_tip(v) else ""
    formula = f"work zero{' + tool and holder' if nose else ''} + point, to each end"
    return Step(f"Travel left in {name}", formula,
                f"{mm(v['work_zero'][axis])}{nose}: from {mm(lowest)} to {mm(highest)}, of {mm(low)} to {mm(high)}",
                show(left, "mm"))  # fmt: skip


TRAVEL_CLEARANCE = Calculator(
    name="travel-clearance",
    title="Clear of vice, guard and travel ends",
    step="datum",
    question="Does this rapid hit anything?",
    inputs=INPUTS,
    outputs=OUTPUTS,
    headline="clearance",
    find=find,
    example={
        "tool_diameter": "10 mm",
        "tool_length": "45 mm",
        "holder_diameter": "40 mm",
        "holder_length": "80 mm",
        "obstacles": "0,0,-25,80,50,0; -60,0,-10,-25,30,18 mm",
        "obstacle_names": "part; clamp",
        "move": "-80,60,5; 40,25,5 mm",
        "work_zero": "-320,-210,-285 mm",
        "travel_x": "-600,0 mm",
        "travel_y": "-400,0 mm",
        "travel_z": "-400,0 mm",
    },
    guard=Guard("clearance", at_least="2 mm"),
    about=(
        "A rapid seldom runs in a line: each axis goes at its own pace, so the tool swings through places that no line "
        "on paper touches. This looks at all of them, for tool and holder, and at the ends of the travel.",
        "It knows only the boxes typed. A handle left on the vice, a hose, a chip bin or a door are not in them.",
    ),
    limits=(
        "Tool and holder are upright cylinders, obstacles boxes square to the axes: a pocket counts as solid. What is "
        "above the holder, spindle head and motor, is not looked at.",
        "Work coordinates: where the set-up is moved, a guard fixed to the machine stands elsewhere in them.",
        "The height that it goes to first is taken as typed, also under a point or a top. Between two points one above "
        "the other it goes straight.",
        "2 mm as enough room is a judgement. Lag, overshoot and what the control does by itself (a tool change, a "
        "homing move) are not in it.",
    ),
    sources=("Own geometry; checked by trying many thousand places of the tool one by one.",),
    bench_note="finding-a-datum",
)  # fmt: skip
