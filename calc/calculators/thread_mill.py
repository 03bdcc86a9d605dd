"""A milled thread: its limits, the path of the tool's centre, and what room the gauge has."""

import math
from collections.abc import Iterator, Mapping
from typing import Any

from calc.answer import Finding, Value, judged
from calc.calculators.thread_mill_advice import advice, findings
from calc.calculators.thread_mill_drawing import drawing
from calc.calculators.thread_mill_sums import Job, Path, depths, job_of, largest_cutter, path_of, unlisted
from calc.calculators.thread_mill_working import working
from calc.declare import Calculator, Guard
from calc.formulas.thread_milling import centre_feed_share, form_growth, helix_angle
from calc.formulas.threads import thread_share
from calc.quantity import Quantity, Reading, values
from calc.show import show

INPUTS = (
    Quantity("thread", "Thread", help="M10x1.5, 1/4-20 UNC, 1/4-36 UNS, #8-32, or M6-6H with its class.", kind="text",
             required=True, first=True),
    Quantity("side", "Thread in a hole or on a rod", help="internal: in a hole.", choices=("internal", "external"),
             kind="choice", default="internal", first=True),
    Quantity("cutter_diameter", "Cutter, over its tips", "mm", above=0, high=200, required=True, first=True),
    Quantity("drill_diameter", "Hole before threading", "mm", "Empty: thread less pitch.", above=0, high=300,
             first=True),
    Quantity("teeth", "Teeth", "1", low=1, high=20, kind="whole", first=True),
    Quantity("spindle_speed", "Spindle speed", "rpm", above=0, high=200000, first=True),
    Quantity("feed_per_tooth", "Feed per tooth, at its tips", "mm", above=0, high=2, first=True),
    Quantity("passes", "Passes", "1", "A pass without new depth at the end is not counted.", low=1, high=12,
             kind="whole", default="2", first=True),
    Quantity("thread_class", "Class", help="Empty: 6H or 6g, inch 2B or 2A.", kind="choice",
             choices=("6H", "6G", "6g", "6h", "2B", "3B", "2A", "3A")),
    Quantity("rod_diameter", "Rod before threading", "mm", "External. Empty: the middle of its limits.", above=0,
             high=310),
    Quantity("tip_flat", "Width of the cutter's tips", "mm", "Empty: pitch/8 in a hole, pitch/6 on a rod. A cutter "
             "for many pitches is sharper: measure it.", low=0, high=4),
    Quantity("cutter_form", "Form of its teeth", help="corrected: made for this size of thread, its form allows for "
             "the helix; ask the maker.", choices=("plain", "corrected"), kind="choice", default="plain"),
)  # fmt: skip
OUTPUTS = (
    Quantity("path_radius", "Path radius to begin with", "mm", "of the tool's centre"),
    Quantity("last_radius", "Path radius, last allowed", "mm", "by the pitch diameter's limit"),
    Quantity("path_room", "From the first to the last", "mm", "held to 0.01 mm"),
    Quantity("centre_feed", "Feed of the tool's centre", "mm/min"),
    Quantity("radial_depths", "Depth of each pass", "mm", "each removes the same"),
    Quantity("cut_diameter", "Tips cut to", "mm", "at the first radius"),
    Quantity("helix_angle", "The path climbs at", "deg"),
    Quantity("form_growth", "Pitch diameter grown by the helix", "mm", "in the path radii already"),
    Quantity("largest_cutter", "Largest cutter for it", "mm"),
    Quantity("core_drill", "Hole before threading", "mm"),
    Quantity("thread_share", "Height of thread in that hole", "1", "of the full 5/8 H"),
    Quantity("pitch_diameter_min", "Pitch diameter, smallest", "mm"),
    Quantity("pitch_diameter_max", "Pitch diameter, largest", "mm"),
    Quantity("major_min", "Major diameter, smallest", "mm"),
    Quantity("major_max", "Major diameter, largest", "mm"),
    Quantity("minor_min", "Minor diameter, smallest", "mm"),
    Quantity("minor_max", "Minor diameter, largest", "mm"),
)


def find(readings: Mapping[str, Reading]) -> Finding:
    """What is found for one thread and cutter. Raises Refused."""
    v = values(readings)
    job = job_of(v)
    path = path_of(job)
    metric = job.thread.series == "M"
    verdict, reason = judged((one[1:] for one in findings(job, path)), _fine(job, path))
    return Finding(
        values=_values(v, job, path) | _limits(job),
        verdict=verdict,
        reason=reason,
        advice=advice(job, path) if verdict != "ok" else (),
        cautions=tuple(_cautions(job)),
        working=tuple(working(v, job, path)),
        drawing=drawing(job, path),
        sources=(METRIC_SOURCE if metric else INCH_SOURCE,),
    )


def _cautions(job: Job) -> Iterator[str]:
    yield "Run the path once above the work: a radius typed for a diameter drives the cutter into the wall."
    yield "Path radii are the tool centre's: with cutter compensation switched on as well they count twice."
    if unlisted(job.thread):
        name, series = job.thread.name, job.thread.series
        yield f"{name} is not among the {series} sizes known here. Look at the drawing again: another pitch, or UNS?"


def _fine(job: Job, path: Path | None) -> str:
    if path is None or path.last is None:
        return ""
    way = "outwards" if job.internal else "inwards"
    return f"Begin at a path radius of {show(path.first, 'mm')}; by gauge {way} to {show(path.last, 'mm')}, no further."


def _values(v: Mapping[str, Any], job: Job, path: Path | None) -> dict[str, Any]:
    largest = largest_cutter(job)
    why = "its tips leave no room on any path" if largest is None else "any, as far as the form goes"
    outside = "an external thread begins with a rod"
    found = {
        "largest_cutter": Value(None if largest is None or math.isinf(largest) else largest, why=why),
        "core_drill": Value(job.core if job.internal else None, why=outside),
        "thread_share": Value(thread_share(job.thread, job.core) if job.internal else None, why=outside),
    }
    if path is None:
        none = Value(None, why="the cutter is no smaller than the thread")
        names = ("path_radius", "last_radius", "path_room", "centre_feed", "radial_depths", "cut_diameter",
                 "helix_angle", "form_growth")  # fmt: skip
        return found | dict.fromkeys(names, none)
    growth = form_growth(job.thread.pitch, path.first, job.limits.pitch_middle) if job.constant else 0.0
    return found | {
        "path_radius": path.first,
        "last_radius": Value(path.last, why="the helix makes the thread too loose on every path"),
        "path_room": path.room,
        "centre_feed": Value(_feed(v, path), why="give teeth, spindle speed and feed per tooth"),
        "radial_depths": depths(job, path, v["passes"]),
        "cut_diameter": path.tips,
        "helix_angle": helix_angle(job.thread.pitch, path.first),
        "form_growth": growth,
    }


def _feed(v: Mapping[str, Any], path: Path) -> float | None:
    if not all(key in v for key in ("teeth", "spindle_speed", "feed_per_tooth")):
        return None
    return v["feed_per_tooth"] * v["teeth"] * v["spindle_speed"] * centre_feed_share(path.first, path.tips)


def _limits(job: Job) -> dict[str, Any]:
    found = job.limits
    return {
        "pitch_diameter_min": found.pitch_min,
        "pitch_diameter_max": found.pitch_max,
        "major_min": found.major_min,
        "major_max": Value(found.major_max, why="the standard sets none: the cutter's tips make it"),
        "minor_min": Value(found.minor_min, why="the standard sets none: the cutter's tips make it"),
        "minor_max": found.minor_max,
    }


METRIC_SOURCE = (
    "Metric limits: ISO 965-1 grade 6, formulas and part of its tables from memory; compared with a reproduction of "
    "ASME B1.13M and tap makers' tables for 6H."
)
INCH_SOURCE = (
    "Inch limits: ASME B1.1, formulas from memory; compared with reproductions of its tables from No. 0 to 3 1/2 in, "
    "0.0001 in apart at most where those are not misprinted."
)
THREAD_MILL = Calculator(
    name="thread-mill",
    title="Milled thread",
    step="cutter",
    question="Which path cuts this thread, and does this cutter leave the gauge any room?",
    inputs=INPUTS,
    outputs=OUTPUTS,
    headline="path_radius",
    find=find,
    example={
        "thread": "M10x1.5",
        "side": "internal",
        "cutter_diameter": "7.5 mm",
        "teeth": "3",
        "spindle_speed": "3000 rpm",
        "feed_per_tooth": "0.04 mm",
        "passes": "2",
    },
    guard=Guard("path_room", at_least="0.01 mm"),
    about=(
        "The first path radius is where tips and flanks are just deep enough: in a hole half of thread less cutter. It "
        "leaves most metal. Try the gauge, then open by hundredths; past the last radius the thread is too loose.",
        "A straight ring on a helix cuts the flanks wide, the more the nearer the cutter is to the thread's size. That "
        "is in the sums, and it is why a thread mill wants to be well under the thread.",
    ),
    limits=(
        "One start, 60 degrees. How far cutter and spindle bend is not in it: bent away, the first try is tighter.",
        "The flanks' growth is worked out for small climbs: up to 5 % low, down to a path radius of half a pitch. The "
        "last radius allows for these 5 %. The maker may have corrected it already.",
        "A rod's root is looked at where the path begins. Inch threads have no smallest minor diameter: that of a root "
        "of radius pitch/8, as in metric threads, stands for it (judgement).",
        "Before plating. Metric grade 6 and inch classes 2 and 3, normal length. Limits of gauges are narrower.",
        "0.01 mm of room and 0.1 mm beside the cutter are judgements.",
    ),
    sources=(
        "Profile: ISO 68-1, ASME B1.1. Feed at the centre: tool makers' threading guides. Window, growth and depths: "
        "own derivation, checked by walking the helix in steps.",
    ),
)  # fmt: skip
