"""A squeal: is it chatter or the teeth themselves, and which speed to try next."""

import math
from collections.abc import Iterator, Mapping
from typing import Any

from calc.answer import Advice, Finding, Step, Value, judged
from calc.declare import Calculator, Guard
from calc.drawing import Drawing
from calc.formulas.bending import best_speed, tooth_passing
from calc.quantity import Quantity, Reading, values
from calc.show import number, show

APART = 4.0  # the turning's multiples must lie this many times the reading's error apart (judgement)
SURE = 2.0  # so many errors from the nearest multiple: not one of them (judgement)
MOST_WAVES = 60
SLOWEST = 1.0  # rpm: no spindle that cuts turns slower
SHOWN = 6

INPUTS = (
    Quantity("teeth", "Teeth", "1", kind="whole", low=1, high=40, required=True, first=True),
    Quantity("spindle_speed", "Speed when it squealed", "rpm", above=0, high=100000, required=True, first=True),
    Quantity("heard_frequency", "Note heard", "Hz", "The tallest peak that a phone shows.", above=0, high=20000,
             required=True, first=True),
    Quantity("spindle_max", "Fastest speed", "rpm", "Of the machine or the cutter.", above=0, high=100000,
             default="8000 rpm", first=True),
    Quantity("spindle_min", "Slowest speed of use", "rpm", low=0, high=100000, default="0 rpm"),
    Quantity("frequency_error", "The note is read to", "Hz", "From memory: a phone's bar is some 10 Hz wide.", above=0,
             high=1000, default="10 Hz"),
)  # fmt: skip
OUTPUTS = (
    Quantity("kind", "It is"),
    Quantity("best_speeds", "Speeds to try", "rpm", "whole waves fit between two teeth there"),
    Quantity("tooth_passing", "Teeth passing", "Hz"),
    Quantity("nearest_multiple", "Nearest multiple of the turning", "Hz"),
    Quantity("waves_between_teeth", "Waves between two teeth", "1", "whole: quiet; a half: worst"),
    Quantity("waves_off", "Waves short of or over a whole number", "1", "held to 0.1 (judgement)"),
)


def find(readings: Mapping[str, Reading]) -> Finding:
    """What is found for one note. Raises Refused."""
    v = values(readings)
    turning = v["spindle_speed"] / 60
    nearest = max(1, round(v["heard_frequency"] / turning)) * turning
    kind = _kind(v, turning, nearest)
    waves = v["heard_frequency"] / tooth_passing(v["spindle_speed"], v["teeth"])
    speeds = _speeds(v)
    verdict, reason = judged([_told(v, kind, speeds)], "")
    return Finding(
        values={
            "kind": kind,
            "best_speeds": Value(
                speeds if kind != "forced" and speeds else None,
                why="the teeth themselves are heard: no speed is wrong" if kind == "forced" else "none in your range",
            ),
            "tooth_passing": tooth_passing(v["spindle_speed"], v["teeth"]),
            "nearest_multiple": nearest,
            "waves_between_teeth": waves,
            "waves_off": abs(waves - max(1, round(waves))),
        },
        verdict=verdict,
        reason=reason,
        advice=tuple(_advice(v, kind, speeds)),
        cautions=("Keep within the cutter's, the holder's and the machine's speeds.",),
        working=tuple(_working(v, turning, nearest)),
        drawing=_drawing(waves),
    )


def _kind(v: Mapping[str, Any], turning: float, nearest: float) -> str:
    """Chatter, forced (a multiple of the turning: teeth or run-out), or unclear."""
    error = v["frequency_error"]
    if turning < APART * error:
        return "unclear"
    off = abs(v["heard_frequency"] - nearest)
    return "forced" if off <= error else "chatter" if off > SURE * error else "unclear"


def _speeds(v: Mapping[str, Any]) -> list[float]:
    """Fastest first, rounded down to 10 rpm where that matters little."""
    found = [best_speed(v["heard_frequency"], v["teeth"], waves) for waves in range(1, MOST_WAVES + 1)]
    within = [speed for speed in found if max(v["spindle_min"], SLOWEST) <= speed <= v["spindle_max"]]
    return [round(speed, 1) for speed in within[:SHOWN]]


def _told(v: Mapping[str, Any], kind: str, speeds: list[float]) -> tuple[str, str]:
    note = show(v["heard_frequency"], "Hz")
    if kind == "forced":
        return "watch", f"{note} is the turning itself or its multiple: run-out or the teeth's own beat, not chatter."
    if kind == "unclear":
        return "watch", f"{note} cannot be told from a multiple of the turning: listen again at a second speed."
    where = f" Try {show(_nearest_speed(v, speeds), 'rpm')}." if speeds else " No speed of yours fits: see below."
    return "stop", f"{note} is no multiple of the turning: the cutter rings.{where}"


def _nearest_speed(v: Mapping[str, Any], speeds: list[float]) -> float:
    return min(speeds, key=lambda speed: abs(math.log(speed / v["spindle_speed"])))


def _advice(v: Mapping[str, Any], kind: str, speeds: list[float]) -> Iterator[Advice]:
    if kind == "forced":
        yield Advice("Measure the run-out, and look for one tooth that is chipped or high")
        return
    if speeds:
        speed = _nearest_speed(v, speeds)
        yield Advice(f"Try {show(speed, 'rpm')} and keep the feed per tooth; then listen again")
    yield Advice("Or less stick-out, a shallower cut, fewer teeth")


def _working(v: Mapping[str, Any], turning: float, nearest: float) -> Iterator[Step]:
    n, z, note = number(v["spindle_speed"], "rpm"), v["teeth"], number(v["heard_frequency"], "Hz")
    yield Step("Teeth passing", "n z/60", f"{n} × {z}/60", show(turning * z, "Hz"))
    yield Step(
        "Nearest multiple of the turning",
        "round(f/(n/60)) × n/60",
        f"{round(nearest / turning)} × {number(turning, 'Hz')}; multiples are {number(turning, 'Hz')} apart, the note "
        f"is read to {number(v['frequency_error'], 'Hz')}",
        show(nearest, "Hz"),
    )
    yield Step("Speeds to try", "60 f/(z k), k = 1, 2, 3 …", f"60 × {note}/({z} k)", "whole waves between two teeth")


def _drawing(waves: float) -> str:
    """The wave left on the wall between two teeth: where the next tooth meets it."""
    shown = min(waves, 12.0)
    d = Drawing("Waves between one tooth and the next", 0.5, 0.0, 1.3)
    steps = max(48, round(24 * shown))
    points = [(n / steps, 0.12 * math.sin(2 * math.pi * shown * n / steps)) for n in range(steps + 1)]
    d.shape([d.to(points[0]), *(d.on(point) for point in points[1:])], "edge")
    d.line((0, -0.3), (0, 0.3), "centre")
    d.line((1, -0.3), (1, 0.3), "centre")
    d.leader((0, 0.3), "nw", 0, "one tooth")
    d.leader((1, 0.3), "ne", 0, "the next")
    more = "" if shown == waves else f" ({shown:g} drawn)"
    d.write((0.5, -0.36), f"{number(waves, '1')} waves between them{more}")
    return d.svg()


CHATTER_SPEED = Calculator(
    name="chatter-speed",
    title="Squeal and speed",
    step="cutter",
    question="It squeals: which speed next?",
    inputs=INPUTS,
    outputs=OUTPUTS,
    headline="kind",
    find=find,
    example={"teeth": "3", "spindle_speed": "7400 rpm", "heard_frequency": "1300 Hz", "spindle_max": "8000 rpm"},
    guard=Guard("waves_off", at_most="0.1"),
    about=(
        "A ringing cutter leaves waves, and the next tooth cuts into them. Where whole waves fit between two teeth the "
        "cut is even and quiet; half a wave out of step it builds up.",
        "The note of chatter lies a little above the cutter's own and moves with the speed: listen again after each "
        "change. Close multiples of the turning cannot always be told apart, and then it says so.",
    ),
    limits=(
        "One ringing mode. Thin slices at high speed can ring in other ways, half a tooth out of step.",
        "How near is near (4 and 2 times the reading's error) is a judgement.",
        "How deep a cut stays quiet needs measurements of the machine and is not said here.",
    ),
    sources=(
        "Speeds: stability lobes after J. Tlusty; S. Smith and J. Tlusty, J. Eng. Ind. 113 (1991).",
        "No published numeric case was found to check the speeds against; tooth passing is a definition.",
    ),
)  # fmt: skip
