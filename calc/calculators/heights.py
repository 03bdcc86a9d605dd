"""Heights in the vice: cutter into jaw, drill into parallel, holder into wall, flutes shorter than the wall."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from calc.answer import Advice, Finding, Step, Value, judged
from calc.declare import Calculator, Guard
from calc.drawing import Drawing, corners
from calc.quantity import Quantity, Reading, at_least, settled, values
from calc.show import mm, show

NEAR = 1.0  # mm: less room than this is worth a look (judgement)
LARGEST = 1000.0

INPUTS = (
    Quantity("part_height", "Height of the blank", "mm", above=0, high=LARGEST, required=True, first=True),
    Quantity("parallel_height", "Height of the parallels", "mm", low=0, high=LARGEST, required=True, first=True),
    Quantity("grip_height", "Gripped by the jaws", "mm", "How deep the blank sits in them.", above=0, high=LARGEST,
             first=True),
    Quantity("jaw_height", "Height of the jaws above the vice's bed", "mm", "In place of what is gripped.", above=0,
             high=LARGEST),
    Quantity("lowest_cut", "Lowest cut below the blank's top", "mm", "0: holes only.", low=0, high=LARGEST,
             required=True, first=True),
    Quantity("hole_breakthrough", "Drill goes below the blank by", "mm", "Its point included.", low=0, high=LARGEST,
             default="0 mm", first=True),
    Quantity("hole_from_jaw", "From the jaw to the hole's centre", "mm", "The nearer jaw.", low=0, high=LARGEST,
             first=True),
    Quantity("drill_diameter", "Drill", "mm", above=0, high=200, first=True),
    Quantity("parallel_thickness", "Thickness of the parallel", "mm", above=0, high=200, first=True),
    Quantity("flute_length", "Length of the cutter's flutes", "mm", above=0, high=500, first=True),
    Quantity("stick_out", "Cutter out of the holder", "mm", above=0, high=500, first=True),
    Quantity("holder_diameter", "Holder, diameter at its face", "mm", above=0, high=300),
    Quantity("wall_distance", "From the cutter's axis to the wall beside it", "mm", "Empty: the wall is right beside.",
             low=0, high=LARGEST),
    Quantity("table_to_parallel", "From the table to the vice's bed", "mm", "For the picture and the working only.",
             low=0, high=LARGEST),
)  # fmt: skip
OUTPUTS = (
    Quantity("jaw_clearance", "Lowest cut above the jaws by", "mm", "held to 1 mm; below nothing it cuts the jaw"),
    Quantity("parallel_clearance", "Drill beside the parallel by", "mm", "below nothing it goes into it"),
    Quantity("free_under_hole", "Left under the drill, above the vice's bed", "mm"),
    Quantity("holder_clearance", "Holder clear of the wall by", "mm"),
    Quantity("flute_reserve", "Flutes longer than the wall by", "mm"),
)


@dataclass(frozen=True)
class Room:
    """The five clearances (mm); None where what they need was not given."""

    jaw_top: float
    jaw: float
    parallel: float | None
    under: float
    holder: float | None
    flute: float | None


def find(readings: Mapping[str, Reading]) -> Finding:
    """What is found for one setting. Raises Refused."""
    v = values(readings)
    room = _room(v)
    verdict, reason = judged(_found(v, room), f"The lowest cut stays {show(room.jaw, 'mm')} above the jaws.")
    return Finding(
        values=_values(v, room),
        verdict=verdict,
        reason=reason,
        advice=tuple(_advice(v, room)),
        cautions=("Move the cutter by hand over the vice first, with the rapids turned down and a finger on hold.",),
        working=tuple(_working(v, room)),
        drawing=_drawing(v, room),
    )


def _room(v: Mapping[str, Any]) -> Room:
    seat = v["parallel_height"]
    grip = v.get("grip_height")
    by_grip = None if grip is None else seat + grip
    _, jaw_top = settled({"grip_height": by_grip, "jaw_height": v.get("jaw_height")})
    cut = seat + v["part_height"] - v["lowest_cut"]
    wall = max(v["lowest_cut"], jaw_top - cut)
    stick, beside = v.get("stick_out"), None
    if v.get("holder_diameter") is not None and v.get("wall_distance") is not None:
        beside = v["wall_distance"] - v["holder_diameter"] / 2
    holder = None if stick is None else stick - wall
    if holder is not None and beside is not None:
        holder = max(holder, beside)
    sideways = None
    if all(v.get(key) is not None for key in ("hole_from_jaw", "drill_diameter", "parallel_thickness")):
        sideways = v["hole_from_jaw"] - v["drill_diameter"] / 2 - v["parallel_thickness"]
    flute = v.get("flute_length")
    return Room(
        jaw_top=jaw_top,
        jaw=cut - jaw_top,
        parallel=sideways,
        under=seat - v["hole_breakthrough"],
        holder=holder,
        flute=None if flute is None else flute - v["lowest_cut"],
    )


def _found(v: Mapping[str, Any], room: Room) -> Iterator[tuple[str, str]]:
    yield _held(room.jaw, "The cutter goes {} into the jaws.", "Only {} between the cutter and the jaws.")
    if v["hole_breakthrough"] > 0:
        yield _held(room.under, "The drill goes {} into the vice's bed.", "Only {} left above the vice's bed.")
        if room.parallel is None:
            yield "watch", "The drill comes out below: is the hole clear of the parallels? Give where it is."
        else:
            yield _held(room.parallel, "The drill runs {} into the parallel.", "Only {} between drill and parallel.")
    if room.holder is not None:
        yield _held(room.holder, "The holder reaches {} into the wall.", "Only {} between the holder and the wall.")
    if room.flute is not None and not at_least(room.flute, 0):
        yield "stop", f"The flutes end {show(-room.flute, 'mm')} below the wall's top: the shank will rub."


def _held(room: float, into: str, near: str) -> tuple[str, str]:
    if room < -1e-9:
        return "stop", into.format(show(-room, "mm"))
    return ("ok", "") if at_least(room, NEAR) else ("watch", near.format(show(room, "mm")))


def _values(v: Mapping[str, Any], room: Room) -> dict[str, Any]:
    through = v["hole_breakthrough"] > 0
    return {
        "jaw_clearance": room.jaw,
        "parallel_clearance": Value(room.parallel, why="give the hole's place, the drill and the parallel's thickness"),
        "free_under_hole": Value(room.under if through else None, why="no hole goes through"),
        "holder_clearance": Value(room.holder, why="how far the cutter sticks out was not given"),
        "flute_reserve": Value(room.flute, why="the length of the flutes was not given"),
    }


def _advice(v: Mapping[str, Any], room: Room) -> Iterator[Advice]:
    if not at_least(room.jaw, NEAR):
        up = v["parallel_height"] + NEAR - room.jaw
        grip = room.jaw_top - up
        if grip > 0:
            text = f"Take parallels of {show(up, 'mm')}, which leaves {show(grip, 'mm')} in the jaws"
            yield Advice(text)
        else:
            yield Advice("No parallels help: turn the part, or hold it in another way")
    if room.parallel is not None and v["hole_breakthrough"] > 0 and not at_least(room.parallel, NEAR):
        thin = v["parallel_thickness"] + room.parallel - NEAR
        if thin > 0:
            yield Advice(f"Take parallels at most {show(thin, 'mm')} thick", "parallel_thickness", thin, "mm")
        else:
            yield Advice("Move the parallels away from under the hole, or put packing under the part beside it")
    if v["hole_breakthrough"] > 0 and not at_least(room.under, NEAR):
        up = v["hole_breakthrough"] + NEAR
        yield Advice(f"Take parallels of at least {show(up, 'mm')}, or drill less far")
    if room.holder is not None and not at_least(room.holder, NEAR):
        out = v["stick_out"] + NEAR - room.holder
        yield Advice(f"Let the cutter stick out {show(out, 'mm')}", "stick_out", out, "mm")
    if room.flute is not None and not at_least(room.flute, 0):
        yield Advice(f"Take flutes of at least {show(v['lowest_cut'], 'mm')}, or a cutter with a relieved neck",
                     "flute_length", v["lowest_cut"], "mm")  # fmt: skip


def _working(v: Mapping[str, Any], room: Room) -> Iterator[Step]:
    seat, high, low = (mm(v[key]) for key in ("parallel_height", "part_height", "lowest_cut"))
    yield Step("Lowest cut above the jaws", "parallels + blank − lowest cut − jaws' top",
               f"{seat} + {high} − {low} − {mm(room.jaw_top)}", show(room.jaw, "mm"))  # fmt: skip
    if room.parallel is not None:
        yield Step("Drill beside the parallel", "from the jaw − half the drill − thickness",
                   f"{mm(v['hole_from_jaw'])} − {mm(v['drill_diameter'])}/2 − {mm(v['parallel_thickness'])}",
                   show(room.parallel, "mm"))  # fmt: skip
    if v["hole_breakthrough"] > 0:
        yield Step("Left under the drill", "parallels − breakthrough", f"{seat} − {mm(v['hole_breakthrough'])}",
                   show(room.under, "mm"))  # fmt: skip
    if room.holder is not None:
        yield Step("Holder clear of the wall", "sticking out − wall above the cut, or sideways where that is more",
                   f"{mm(v['stick_out'])} − {low}", show(room.holder, "mm"))  # fmt: skip
    if room.flute is not None:
        yield Step("Flutes longer than the wall", "flutes − lowest cut", f"{mm(v['flute_length'])} − {low}",
                   show(room.flute, "mm"))  # fmt: skip


def _drawing(v: Mapping[str, Any], room: Room) -> str:
    seat, high = v["parallel_height"], v["part_height"]
    top = max(seat + high, room.jaw_top)
    wide = max(1.2 * high, 0.6 * room.jaw_top)
    jaw = 0.5 * wide
    cut = seat + high - v["lowest_cut"]
    height = top + 0.9 * wide
    d = Drawing("Section through vice, parallels and blank", 0.0, height / 2 - 0.15 * wide,
                max(3.0 * wide, 1.45 * height))  # fmt: skip
    d.block(corners(-wide / 2 - jaw, 0, -wide / 2, room.jaw_top))
    d.block(corners(wide / 2, 0, wide / 2 + jaw, room.jaw_top))
    d.block(corners(-wide / 2 - jaw, -0.2 * wide, wide / 2 + jaw, 0))
    thin = min(v.get("parallel_thickness") or 0.08 * wide, wide / 3)
    if seat > 0:
        for left in (-wide / 2, wide / 2 - thin):
            d.block(corners(left, 0, left + thin, seat), "stock-left")
    d.block(corners(-wide / 2, seat, wide / 2, seat + high), "stock-left")
    d.line((-wide / 2 - jaw, cut), (wide / 2, cut), "cut-path")
    r = 0.22 * wide
    x = -wide / 2 - 0.4 * r
    out = max(v.get("stick_out") or 0.0, v["lowest_cut"] + 0.3 * wide)
    d.outline(corners(x - r, cut, x + r, cut + out), "cutter")
    d.line((x, cut - 0.1 * wide), (x, cut + out + 0.1 * wide), "centre")
    d.leader((x - r, cut), "sw", 0, f"{show(abs(room.jaw), 'mm')} {'above' if room.jaw >= 0 else 'into'} the jaws")
    d.leader((wide / 2, seat + high), "ne", 0, f"blank {show(high, 'mm')}")
    if v["hole_breakthrough"] > 0:
        hole = (v.get("drill_diameter") or 0.2 * wide) / 2
        middle = wide / 2 - v["hole_from_jaw"] if v.get("hole_from_jaw") is not None else 0.0
        middle = max(-wide / 2, min(wide / 2, middle))
        tip = seat - v["hole_breakthrough"]
        d.outline([(middle - hole, top + 0.2 * wide), (middle - hole, tip + hole * 0.6), (middle, tip),
                   (middle + hole, tip + hole * 0.6), (middle + hole, top + 0.2 * wide)], "cutter")  # fmt: skip
        d.leader((middle, tip), "se", 0, f"drill {show(v['hole_breakthrough'], 'mm')} below")
    return d.svg()


HEIGHTS = Calculator(
    name="heights",
    title="Heights in the vice",
    step="hold",
    question="Does anything hit jaw, parallel or wall?",
    inputs=INPUTS,
    outputs=OUTPUTS,
    headline="jaw_clearance",
    find=find,
    example={
        "part_height": "25 mm",
        "parallel_height": "30 mm",
        "grip_height": "8 mm",
        "lowest_cut": "16 mm",
        "hole_breakthrough": "4 mm",
        "hole_from_jaw": "7 mm",
        "drill_diameter": "8.5 mm",
        "parallel_thickness": "4 mm",
        "flute_length": "22 mm",
        "stick_out": "32 mm",
    },
    guard=Guard("jaw_clearance", at_least="1 mm"),
    about=(
        "Jaw, parallel, holder and shank are what a small mill hits most. The sum stacks the heights and says how much "
        "room each has.",
        "It knows only what is typed: not a blank that is up on a chip, nor a screw head or a clamp.",
    ),
    limits=(
        "The blank is flat and down on its parallels; the jaws are level.",
        "The wall beside the cutter is as high as the blank's top, or the jaws' where they are higher.",
        "1 mm as enough room is a judgement.",
    ),
    sources=("Own geometry; checked against a general geometry library.",),
    bench_note="holding-work",
)  # fmt: skip
