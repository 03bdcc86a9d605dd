"""A tapped hole: drill, feed, and whether the tap finds the bottom."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from calc.answer import Advice, Finding, Step, Value, judged
from calc.declare import Calculator, Guard
from calc.drawing import Drawing
from calc.formulas.setting import point_length
from calc.formulas.threads import Thread, formed_share, thread_of, thread_share
from calc.quantity import Impossible, Quantity, Reading, Refused, at_least, values
from calc.show import mm, number, show

SPARE = 1.0  # pitches of room wanted under the tap (judgement: a spindle stops late)
HIGH_SHARE, LOW_SHARE = 0.95, 0.6  # of 5/8 H, or of the metal of a full formed thread (judgement)
FULL = 1.0  # past it the hole is under the thread's minor diameter, or the formed metal has nowhere to go

INPUTS = (
    Quantity("thread", "Thread", help="M6, M10x1.25, 1/4-20 UNC, #8-32.", kind="text", required=True, first=True),
    Quantity("hole", "Hole", choices=("blind", "through"), kind="choice", default="blind", first=True),
    Quantity("thread_depth", "Full thread wanted to", "mm", above=0, high=500, required=True, first=True),
    Quantity("drilled_depth", "Drilled to, at full diameter", "mm", above=0, high=500, first=True),
    Quantity("drill_diameter", "Drill", "mm", "Empty: thread less pitch.", above=0, high=200, first=True),
    Quantity("spindle_speed", "Spindle speed", "rpm", above=0, high=20000, first=True),
    Quantity("kind", "Tap", choices=("cut", "form"), kind="choice", default="cut", first=True),
    Quantity("lead_threads", "Threads of its lead", "1", "2 for a bottoming tap, 4 or more for a longer lead: measure "
             "yours.", low=0, high=12, default="3"),
    Quantity("tap_point", "Point ahead of the lead", "mm", "Small taps have a centre point.", low=0, high=30,
             default="0 mm"),
    Quantity("point_angle", "Point of the drill", "deg", low=60, high=175, default="118"),
)  # fmt: skip
OUTPUTS = (
    Quantity("spare_depth", "Left under the tap", "mm", "below nothing it finds the bottom"),
    Quantity("needed_depth", "Drill to, at full diameter", "mm", "one pitch to stop in"),
    Quantity("usable_depth", "Full thread possible to", "mm"),
    Quantity("tap_drill", "Drill", "mm"),
    Quantity("thread_share", "Height of thread in that hole", "1", "of the full 5/8 H, or of a full formed thread"),
    Quantity("feed_rate", "Feed", "mm/min", "exactly"),
)


@dataclass(frozen=True)
class Sums:
    """Depths in mm; None for a through hole, or where the drilled depth was not given."""

    thread: Thread
    drill: float
    share: float
    ahead: float
    needed: float
    usable: float | None
    spare: float | None


def find(readings: Mapping[str, Reading]) -> Finding:
    """What is found for one hole. Raises Refused."""
    v = values(readings)
    s = _sums(v)
    speed = v.get("spindle_speed")
    through = v["hole"] == "through"
    none = "it goes through" if through else "the drilled depth was not given"
    verdict, reason = judged(_found(v, s), f"Drill {show(s.drill, 'mm')}, {show(s.needed, 'mm')} deep.")
    return Finding(
        values={
            "spare_depth": Value(s.spare, why=none),
            "needed_depth": s.needed,
            "usable_depth": Value(s.usable, why=none),
            "tap_drill": s.drill,
            "thread_share": s.share,
            "feed_rate": Value(None if speed is None else s.thread.pitch * speed, why="the speed was not given"),
        },
        verdict=verdict,
        reason=reason,
        advice=tuple(_advice(v, s)) if verdict != "ok" else (),
        cautions=_cautions(v),
        working=tuple(_working(v, s)),
        drawing=_drawing(v, s),
    )


def _sums(v: Mapping[str, Any]) -> Sums:
    thread = thread_of(v["thread"])
    if thread is None:
        raise Refused("thread", f'Thread (thread): "{v["thread"][:40]}" is not like M6, M10x1.25, 1/4-20 or #8-32')
    drill = v.get("drill_diameter", _usual_drill(thread, v["kind"]))
    if not 0 < drill < thread.diameter:
        raise Impossible("drill_diameter", f"A drill for {thread.name} is thinner than {show(thread.diameter, 'mm')}")
    ahead = v["lead_threads"] * thread.pitch + v["tap_point"]
    deep = v.get("drilled_depth") if v["hole"] == "blind" else None
    return Sums(
        thread=thread,
        drill=drill,
        share=thread_share(thread, drill) if v["kind"] == "cut" else formed_share(thread, drill),
        ahead=ahead,
        needed=v["thread_depth"] + ahead + (SPARE * thread.pitch if v["hole"] == "blind" else 0.0),
        usable=None if deep is None else max(0.0, deep - ahead - SPARE * thread.pitch),
        spare=None if deep is None else deep - v["thread_depth"] - ahead,
    )


def _usual_drill(thread: Thread, kind: str) -> float:
    return thread.diameter - (thread.pitch if kind == "cut" else thread.pitch / 2)


def _found(v: Mapping[str, Any], s: Sums) -> Iterator[tuple[str, str]]:
    if s.spare is not None and s.spare < -1e-9:
        yield "stop", f"The tap finds the bottom {show(-s.spare, 'mm')} before the thread is deep enough."
    elif s.spare is not None and not at_least(s.spare, SPARE * s.thread.pitch):
        yield "watch", f"Only {show(s.spare, 'mm')} left under the tap: less than a turn to stop in."
    full = number(100 * s.share, "%")
    if s.share > FULL + 1e-9:
        what = "cuts" if v["kind"] == "cut" else "forms"
        yield "stop", f"The hole of {show(s.drill, 'mm')} is too small for a tap that {what}: {full} % of the thread."
    elif s.share > HIGH_SHARE + 1e-9:
        yield "watch", f"{full} % of the thread: a tight hole breaks taps."
    elif s.share < LOW_SHARE - 1e-9:
        yield "watch", f"Only {full} % of the thread: weak."


def _advice(v: Mapping[str, Any], s: Sums) -> Iterator[Advice]:
    if s.spare is not None and not at_least(s.spare, SPARE * s.thread.pitch):
        yield Advice(f"Drill to {show(s.needed, 'mm')}", "drilled_depth", s.needed, "mm")
        less = (s.usable or 0.0) * 0.999
        if less > 0:
            yield Advice(f"Or thread to {show(less, 'mm')}", "thread_depth", less, "mm")
        yield Advice("Or take a tap with a shorter lead, or mill the thread")
    if not LOW_SHARE <= s.share <= HIGH_SHARE:
        usual = _usual_drill(s.thread, v["kind"])
        yield Advice(f"Take a drill of {show(usual, 'mm')}", "drill_diameter", usual, "mm")


def _cautions(v: Mapping[str, Any]) -> tuple[str, ...]:
    found = ["Feed and speed must keep step: a floating holder, or a control made for tapping."]
    if v["kind"] == "cut" and v["hole"] == "blind":
        found.append("A straight-fluted tap leaves its chips in a blind hole, under the tap: they count as bottom.")
    return tuple(found)


def _working(v: Mapping[str, Any], s: Sums) -> Iterator[Step]:
    pitch = mm(s.thread.pitch)
    if v.get("drill_diameter") is None:
        part = "P" if v["kind"] == "cut" else "P/2"
        yield Step("Drill", f"D − {part}", f"{mm(s.thread.diameter)}, P = {pitch}", show(s.drill, "mm"))
    if v["kind"] == "form":
        yield Step(
            "Height of thread",
            "metal pushed out of the grooves/what the ridges of the basic profile hold",
            f"hole {mm(s.drill)} in {s.thread.name}",
            f"{number(100 * s.share, '%')} %",
        )
    else:
        yield Step("Height of thread", "(D − d)/(1.0825 P): 5/8 H is full. An inch chart (3/4 H) says 5/6 of it",
                   f"({mm(s.thread.diameter)} − {mm(s.drill)})/(1.0825 × {pitch})",
                   f"{number(100 * s.share, '%')} %; inch chart {number(100 * s.share * 5 / 6, '%')} %")  # fmt: skip
    yield Step("Drill to", "thread + lead × P + point" + (" + one P" if v["hole"] == "blind" else ""),
               f"{mm(v['thread_depth'])} + {number(v['lead_threads'], '1')} × {pitch} + {mm(v['tap_point'])}",
               show(s.needed, "mm"))  # fmt: skip
    if s.spare is not None:
        tip = v["drilled_depth"] + point_length(s.drill, v["point_angle"])
        yield Step("Left under the tap", "drilled − thread − lead × P − point",
                   f"{mm(v['drilled_depth'])} − {mm(v['thread_depth'])} − {mm(s.ahead)}; drill's tip {mm(tip)}",
                   show(s.spare, "mm"))  # fmt: skip
    if v.get("spindle_speed") is not None:
        yield Step("Feed", "P × n", f"{pitch} × {number(v['spindle_speed'], 'rpm')}",
                   show(s.thread.pitch * v["spindle_speed"], "mm/min"))  # fmt: skip


def _drawing(v: Mapping[str, Any], s: Sums) -> str:
    r, half = s.thread.diameter / 2, s.drill / 2
    deep = v.get("drilled_depth") or s.needed
    tapped = v["thread_depth"] + s.ahead
    point = point_length(s.drill, v["point_angle"]) if v["hole"] == "blind" else 0.0
    low = max(deep + point, tapped)
    span = 1.5 * max(low, 4 * r)
    d = Drawing("Section through the tapped hole", 0.0, -low / 2, span)
    floor = -span if v["hole"] == "blind" else -deep
    d.hatched([d.to((-span, 0)), d.on((-half, 0)), d.on((-half, -deep)), d.on((0, -deep - point)), d.on((half, -deep)),
               d.on((half, 0)), d.on((span, 0)), d.on((span, floor)), d.on((-span, floor)), "Z"],
              "stock-left")  # fmt: skip
    d.shape([d.to((-half, 0)), d.on((-half, -deep)), d.on((0, -deep - point)), d.on((half, -deep)), d.on((half, 0))],
            "edge")  # fmt: skip
    depth = v["thread_depth"]
    d.outline([(-r, 0.12 * span), (-r, -depth), (-0.8 * half, -tapped), (0.8 * half, -tapped), (r, -depth),
               (r, 0.12 * span)], "cutter")  # fmt: skip
    d.line((0, 0.16 * span), (0, -low - 0.05 * span), "centre")
    d.leader((r, -depth), "ne", 0, f"thread to {show(depth, 'mm')}")
    d.leader((0.8 * half, -tapped), "se", 0, f"tap reaches {show(tapped, 'mm')}")
    d.leader((-half, -deep), "sw", 0, f"drilled {show(deep, 'mm')}")
    return d.svg()


TAP = Calculator(
    name="tap",
    title="Tapped hole",
    step="cutter",
    question="Does the tap find the bottom?",
    inputs=INPUTS,
    outputs=OUTPUTS,
    headline="needed_depth",
    find=find,
    example={
        "thread": "M6",
        "hole": "blind",
        "thread_depth": "12 mm",
        "drilled_depth": "14 mm",
        "spindle_speed": "600 rpm",
    },
    guard=Guard("spare_depth", at_least="1 mm"),
    about=(
        "In front of the full thread come the tap's lead, its point and the turn it takes to stop. The drill must go "
        "deeper by all three, or the tap breaks on the bottom.",
        "It does not know chips in the hole, nor a tap that has worn.",
    ),
    limits=(
        "The lead cuts no full thread. One pitch to stop in is a judgement: measure how late your spindle stops.",
        "Drill for a forming tap: thread less half a pitch, from memory; ask the maker. No metal is lost or squeezed.",
        "Two ways to count per cent of thread go about; both are in the working.",
    ),
    sources=("Profile: ISO 68-1, ASME B1.1. Coarse pitches: ISO 261, recalled. Thread − pitch: common practice.",),
)  # fmt: skip
