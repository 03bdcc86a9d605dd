"""A tool's length from a touch, and the usual ways to get it wrong."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from calc.answer import Advice, Finding, Step, Value, judged
from calc.declare import Calculator, Guard
from calc.drawing import Drawing, corners
from calc.quantity import Quantity, Reading, Refused, values
from calc.show import hundredths, mm, show

FAR = 10000.0
SAME = 0.05  # mm: two heights nearer than this are taken for the same (judgement)
RIGHT = 0.02  # mm: an entered offset this near is right (judgement)
RULER = 2.0  # mm: a ruler held to a tool is no better (judgement)

INPUTS = (
    Quantity(
        "reading", "Machine Z at the touch", "mm", "As on the screen.", low=-FAR, high=FAR, required=True, first=True
    ),
    Quantity(
        "touched",
        "Touched on",
        choices=("part", "setting_block", "table", "paper_or_feeler"),
        kind="choice",
        default="setting_block",
        first=True,
    ),
    Quantity(
        "reference_height",
        "Height of what was touched, above work zero",
        "mm",
        "The block's or feeler's own height where it stands on work zero. 0 for work zero itself.",
        low=-FAR,
        high=FAR,
        first=True,
    ),
    Quantity(
        "entered_offset",
        "Offset that stands in the control",
        "mm",
        "To have it checked.",
        low=-FAR,
        high=FAR,
        first=True,
    ),
    Quantity(
        "convention",
        "The control's offset is",
        help="A tool's own length, or the machine Z at which its tip stands on work zero.",
        choices=("offset_to_work_zero", "length_from_gauge_line"),
        kind="choice",
        default="offset_to_work_zero",
        first=True,
    ),
    Quantity(
        "work_offset_z",
        "Z of the work offset in use",
        "mm",
        "Machine Z of work zero, seen from the bare spindle.",
        low=-FAR,
        high=FAR,
        default="0 mm",
        first=True,
    ),
    Quantity(
        "ruler_length",
        "Out of the spindle, by a ruler",
        "mm",
        "From the gauge line to the tip.",
        above=0,
        high=1000,
        first=True,
    ),
    Quantity("commanded_height", "Height to drive to", "mm", low=-FAR, high=FAR, default="50 mm"),
    Quantity("second_reading", "Second tool: machine Z at the touch", "mm", low=-FAR, high=FAR),
    Quantity("second_reference_height", "Second tool: height touched", "mm", "Empty: the same.", low=-FAR, high=FAR),
    Quantity("second_ruler_length", "Second tool: by a ruler", "mm", above=0, high=1000),
)
OUTPUTS = (
    Quantity("length_offset", "Offset to enter", "mm", "with its sign"),
    Quantity("tip_above_work_zero", "The tip would stand above work zero by", "mm", "for the height driven to"),
    Quantity("offset_error", "Entered offset is out by", "mm", "below nothing: the tip comes too deep"),
    Quantity("difference_between_tools", "Second tool longer by", "mm"),
    Quantity("ruler_disagreement", "Against the ruler", "mm", "a ruler is good to 2 mm"),
)


@dataclass(frozen=True)
class Sums:
    """Offsets in mm; None where what they need was not given."""

    height: float
    offset: float
    error: float | None
    difference: float | None
    ruler: float | None


def find(readings: Mapping[str, Reading]) -> Finding:
    """What is found for one touch. Raises Refused."""
    v = values(readings)
    s = _sums(v)
    verdict, reason = judged(_found(v, s), f"Enter {show(s.offset, 'mm')}.")
    tip = v["commanded_height"] + (s.error or 0.0)
    return Finding(
        values={
            "length_offset": s.offset,
            "tip_above_work_zero": tip,
            "offset_error": Value(s.error, why="what stands in the control was not given"),
            "difference_between_tools": Value(s.difference, why="no second tool was given"),
            "ruler_disagreement": Value(s.ruler, why="nothing measured with a ruler to compare with"),
        },
        verdict=verdict,
        reason=reason,
        advice=() if verdict == "ok" else tuple(_advice(s)),
        cautions=(
            "Before the first move: rapids down, finger on hold, stop above the part and compare the distance to go "
            "with a ruler. How the control adds up its offsets is in its manual.",
        ),
        working=tuple(_working(v, s)),
        drawing=_drawing(v, s),
    )


def _sums(v: Mapping[str, Any]) -> Sums:
    height = v.get("reference_height")
    if height is None and v["touched"] != "part":
        raise Refused("reference_height", "Give reference_height: how high what was touched stands above work zero")
    height = height or 0.0
    work = v["work_offset_z"]
    offset = v["reading"] - height - work
    entered, again = v.get("entered_offset"), v.get("second_reading")
    second = None if again is None else again - v.get("second_reference_height", height) - work
    difference = None if second is None else second - offset
    return Sums(
        height=height,
        offset=offset,
        error=None if entered is None else entered - offset,
        difference=difference,
        ruler=_against_ruler(v, offset, difference),
    )


def _against_ruler(v: Mapping[str, Any], offset: float, difference: float | None) -> float | None:
    """A length against the ruler; where offsets are no lengths, two tools' difference against that of two rulers."""
    one, two = v.get("ruler_length"), v.get("second_ruler_length")
    if one is not None and two is not None and difference is not None:
        return float(difference - (two - one))
    if one is not None and v["convention"] == "length_from_gauge_line":
        return float(offset - one)
    return None


def _found(v: Mapping[str, Any], s: Sums) -> Iterator[tuple[str, str]]:
    if s.error is not None and abs(s.error) > RIGHT:
        where = "above work zero: it cuts air" if s.error > 0 else "too deep"
        yield "stop", f"The tip would come {hundredths(abs(s.error))} {where}. {_why(v, s)}"
    if v["convention"] == "length_from_gauge_line" and s.offset <= 0:
        yield "stop", "A length from the gauge line is more than nothing: sign, work offset or convention is wrong."
    if s.ruler is not None and abs(s.ruler) > RULER:
        if abs(abs(s.ruler) - abs(s.height)) <= RULER and abs(s.height) > RULER:
            yield "stop", f"The ruler says {show(abs(s.ruler), 'mm')} otherwise, about the height of what was touched."
        else:
            yield "stop", f"The ruler says {show(abs(s.ruler), 'mm')} otherwise."
    if v["convention"] == "offset_to_work_zero" and v["work_offset_z"]:
        yield "watch", "Offset to work zero and a work Z of its own: this sum takes it off once. Check your control."


def _why(v: Mapping[str, Any], s: Sums) -> str:
    """The usual mistake that explains an entered offset."""
    error, work = s.error or 0.0, v["work_offset_z"]
    usual = (
        (s.height, "The height of what was touched was not taken off."),
        (-s.height, "The height of what was touched was taken off twice."),
        (work, "The work Z is counted twice."),
        (-work, "The work Z was taken off twice."),
        (-2 * s.offset, "It has the sign of the other convention."),
        (s.height + work, "Neither the height touched nor the work Z was taken off."),
    )
    return next((text for out, text in usual if abs(out) > SAME and abs(error - out) <= SAME), "Touch again.")


def _advice(s: Sums) -> Iterator[Advice]:
    if s.error is not None and abs(s.error) > RIGHT:
        yield Advice(f"Enter {show(s.offset, 'mm')}", "entered_offset", round(s.offset, 6), "mm")
    if s.ruler is not None and abs(s.ruler) > RULER:
        yield Advice("Touch both tools on the same surface, and measure them again")


def _working(v: Mapping[str, Any], s: Sums) -> Iterator[Step]:
    yield Step(
        "Offset",
        "machine Z − height touched − work Z",
        f"{mm(v['reading'])} − ({mm(s.height)}) − ({mm(v['work_offset_z'])})",
        show(s.offset, "mm"),
    )
    if s.error is not None:
        yield Step(
            "Entered offset out by",
            "entered − right",
            f"{mm(v['entered_offset'])} − ({mm(s.offset)})",
            show(s.error, "mm"),
        )
        tip = v["commanded_height"] + s.error
        yield Step(
            "Tip above work zero", "driven to + error", f"{mm(v['commanded_height'])} + ({mm(s.error)})",
            show(tip, "mm"),
        )  # fmt: skip
    if s.difference is not None:
        yield Step("Second tool longer by", "its offset − the first's", "", show(s.difference, "mm"))


def _drawing(v: Mapping[str, Any], s: Sums) -> str:
    height = abs(s.height) if v["touched"] != "part" else 0.0
    tool = v.get("ruler_length") or (s.offset if v["convention"] == "length_from_gauge_line" else 0)
    tool = tool if tool > 0 else max(1.5 * height, 60.0)
    high = height + tool
    error = s.error or 0.0
    low = min(0.0, error)
    span = 1.35 * (max(high, high + error) - low) * 1.2
    d = Drawing("The tool on what it touched, and where its tip would stand at work zero", 0.0,
                (high + low) / 2, span)  # fmt: skip
    wide = span / 9
    d.block(corners(-span / 2, low - span / 2, span / 2, 0), "stock-left")
    if height > 0:
        d.block(corners(-2.4 * wide, 0, 0.6 * wide, height))
    x = -0.9 * wide
    d.outline(corners(x - wide / 3, height, x + wide / 3, high), "cutter")
    d.line((x - 1.4 * wide, high), (x + 1.4 * wide, high), "edge")
    d.leader((x - 1.4 * wide, high), "nw", 0, "gauge line")
    if height > 0:
        d.leader((-2.4 * wide, height / 2), "sw", 1, f"{show(s.height, 'mm')} high")
    d.leader((-2.8 * wide, 0), "sw", 0, "work zero")
    if s.error is not None:
        other = 2.2 * wide
        d.outline(corners(other - wide / 3, error, other + wide / 3, error + tool), "cutter")
        d.leader((other + wide / 3, error), "se", 0, f"at zero: {show(error, 'mm')}")
    return d.svg()


TOOL_LENGTH = Calculator(
    name="tool-length",
    title="Tool length from a touch",
    step="datum",
    question="Is the tool's length right?",
    inputs=INPUTS,
    outputs=OUTPUTS,
    headline="length_offset",
    find=find,
    example={
        "reading": "-212.4 mm",
        "touched": "setting_block",
        "reference_height": "50 mm",
        "entered_offset": "-212.4 mm",
    },
    guard=Guard("offset_error", at_most="0.02 mm", at_least="-0.02 mm"),
    about=(
        "The tip is touched on a block, a feeler or the part, and the height of that must be taken off once. Type what "
        "stands in the control: the sum says where the tip would really come, and which slip explains it.",
        "It cannot know a tool that slipped in its holder or chips under the block. Compare with a ruler.",
    ),
    limits=(
        "The control moves to: height asked for + work Z + tool offset. If yours subtracts, turn the sign round.",
        "0.02 mm as right, and 2 mm for a ruler, are judgements.",
    ),
    sources=("Own derivation from the sum that the control makes.",),
    bench_note="finding-a-datum",
)
