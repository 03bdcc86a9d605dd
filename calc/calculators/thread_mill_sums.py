"""The sums of a milled thread: its limits, the path's window, and what a smaller cutter would change."""

import math
import re
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from calc.formulas.thread_limits import HALF_PROFILE, Limits, iso_limits, unified_limits
from calc.formulas.thread_milling import equal_area_depths, growth_constant, path_radius_for, tip_reach
from calc.formulas.threads import Thread, thread_of
from calc.quantity import Impossible, Refused, at_least
from calc.show import show

ROOM = 0.01  # mm of path radius from first to last: less is not held on a small mill (judgement)
BESIDE = 0.1  # mm a side between cutter and hole (judgement)
LOW = 0.05  # by how much at most the growth's sum is low, down to a path radius of half a pitch
COARSEST_SHARE = 0.3  # pitch over diameter; the standards' own stay under 0.25
WITH_CLASS = re.compile(r"(?P<thread>.*\S)\s*-\s*(?P<its>\d[A-Za-z](?:\d[A-Za-z])?)")
METRIC_CLASSES = {"internal": ("6H", "6G"), "external": ("6g", "6h")}
INCH_CLASSES = {"internal": ("2B", "3B"), "external": ("2A", "3A")}
# Threads to the inch of UNC and UNF by size in in (recalled); their length of engagement is the diameter.
COARSE_AND_FINE = {
    0.06: (80,), 0.073: (64, 72), 0.086: (56, 64), 0.099: (48, 56), 0.112: (40, 48), 0.125: (40, 44), 0.138: (32, 40),
    0.164: (32, 36), 0.19: (24, 32), 0.216: (24, 28), 0.25: (20, 28), 0.3125: (18, 24), 0.375: (16, 24),
    0.4375: (14, 20), 0.5: (13, 20), 0.5625: (12, 18), 0.625: (11, 18), 0.75: (10, 16), 0.875: (9, 14), 1.0: (8, 12),
    1.125: (7, 12), 1.25: (7, 12), 1.375: (6, 12), 1.5: (6, 12), 1.75: (5,), 2.0: (4.5,),
}  # fmt: skip

NAMED = ("UNC", "UNF", "UNRC", "UNRF")


@dataclass(frozen=True)
class Job:
    """One thread and one cutter (mm). `core`: the hole, or the rod. `constant`: 0 where the form is corrected."""

    thread: Thread
    thread_class: str
    internal: bool
    limits: Limits
    cutter: float
    core: float
    tip_flat: float
    constant: float

    @property
    def reach(self) -> float:
        """From pitch diameter to tips, on the diameter."""
        return tip_reach(self.thread.pitch, self.tip_flat)

    @property
    def thinnest(self) -> float:
        """Twice the depth of its teeth: a cutter no thicker has no body."""
        deep = self.limits.major_min - self.core if self.internal else self.core - self.limits.minor_max
        return max(self.thread.pitch, deep)

    @property
    def tip_limit(self) -> float:
        """Path radius at which the tips just cut the root deep enough for the mating thread's crests."""
        if self.internal:
            return (self.limits.major_min - self.cutter) / 2
        return (self.limits.minor_max + self.cutter) / 2

    @property
    def most(self) -> float:
        """The constant of the growth, with what its sum may be low by."""
        return self.constant * (1 + LOW)

    @property
    def least_root(self) -> float | None:
        """A rod's smallest minor diameter: that of a root of radius P/8, the sharpest; None in a hole."""
        if self.internal:
            return None
        return self.limits.minor_min or self.limits.pitch_min - (HALF_PROFILE - 0.25) * self.thread.pitch

    def radius_for(self, pitch_diameter: float, constant: float) -> float | None:
        """Path radius that leaves this pitch diameter."""
        return path_radius_for(pitch_diameter, self.cutter, self.reach, constant, self.internal)


@dataclass(frozen=True)
class Path:
    """Where the tool's centre runs: `first` leaves most metal, `last` least (None: there is none). mm."""

    first: float
    last: float | None
    room: float
    tips: float


def job_of(v: Mapping[str, Any]) -> Job:
    """The job that was typed. Raises Refused."""
    v = _class_apart(v)
    thread = thread_of(v["thread"])
    if thread is None:
        raise Refused("thread", f'Thread (thread): "{v["thread"][:40]}" is not like M6, M10x1.25, 1/4-20 or #8-32')
    internal = v["side"] == "internal"
    chosen, limits = _limits(v, thread)
    flat = v.get("tip_flat", thread.pitch / (8 if internal else 6))
    if not flat < thread.pitch / 2:
        raise Refused("tip_flat", f"A tip for this pitch is narrower than {show(thread.pitch / 2, 'mm')}")
    job = Job(
        thread=thread,
        thread_class=chosen,
        internal=internal,
        limits=limits,
        cutter=v["cutter_diameter"],
        core=_core(v, thread, limits),
        tip_flat=flat,
        constant=growth_constant(thread.pitch) if v["cutter_form"] == "plain" else 0.0,
    )
    if not job.cutter > job.thinnest:
        text = f"A cutter for this thread is over {show(job.thinnest, 'mm')}: of a thinner one its teeth leave no body"
        raise Refused("cutter_diameter", text)
    return job


def _class_apart(v: Mapping[str, Any]) -> Mapping[str, Any]:
    """A class written behind the thread, as drawings have it (M10x1.5 - 6H), taken for the class."""
    found = WITH_CLASS.fullmatch(v["thread"])
    if not found:
        return v
    if v.get("thread_class", found["its"]) != found["its"]:
        raise Refused("thread_class", f"The thread is written with class {found['its']}: leave the class empty")
    return {**v, "thread": found["thread"], "thread_class": found["its"]}


def _limits(v: Mapping[str, Any], thread: Thread) -> tuple[str, Limits]:
    metric = thread.series == "M"
    low, high = (0.2, 8.0) if metric else (25.4 / 80, 25.4 / 4)
    if not (1 <= thread.diameter <= 300 and at_least(thread.pitch, low) and at_least(high, thread.pitch)):
        size = "M1 to M300, pitch 0.2 to 8" if metric else "No. 0 to 11 in, 80 to 4 threads to the inch"
        raise Refused("thread", f"Thread (thread): limits are known here for {size}")
    if thread.pitch > COARSEST_SHARE * thread.diameter or "J" in thread.series:
        raise Refused("thread", f"Thread (thread): no limits are known here for {thread.name[:40]}")
    classes = (METRIC_CLASSES if metric else INCH_CLASSES)[v["side"]]
    chosen = v.get("thread_class", classes[0])
    if chosen not in classes:
        raise Refused("thread_class", f"Class (thread_class): {' or '.join(classes)} for this thread, not {chosen}")
    if metric:
        return chosen, iso_limits(thread.diameter, thread.pitch, chosen[1])
    return chosen, unified_limits(thread.diameter / 25.4, thread.pitch / 25.4, engagement(thread) / 25.4, chosen)


def engagement(thread: Thread) -> float:
    """Length of engagement of a unified thread's tolerance: D for UNC and UNF, 9 P for all others. mm."""
    usual = any(abs(25.4 / thread.pitch - one) < 1e-6 for one in _coarse_and_fine(thread))
    return thread.diameter if thread.series in NAMED or (not thread.series and usual) else 9 * thread.pitch


def _coarse_and_fine(thread: Thread) -> tuple[float, ...]:
    size = thread.diameter / 25.4
    return next((its for known, its in COARSE_AND_FINE.items() if abs(size - known) < 1e-6), ())


def unlisted(thread: Thread) -> bool:
    """Whether a thread calls itself coarse or fine, and no such size is listed, up to 2 in."""
    if thread.series not in NAMED or thread.diameter > 2 * 25.4:
        return False
    its = _coarse_and_fine(thread)
    return not its or abs(25.4 / thread.pitch - its[0 if thread.series.endswith("C") else -1]) > 1e-6


def _core(v: Mapping[str, Any], thread: Thread, limits: Limits) -> float:
    """The hole before threading, or the rod."""
    if v["side"] == "internal":
        if "rod_diameter" in v:
            raise Refused("rod_diameter", "An internal thread begins with a hole: leave the rod empty")
        hole = v.get("drill_diameter", thread.diameter - thread.pitch)
        if not hole < limits.major_min:
            raise Impossible("drill_diameter", f"A hole for {thread.name} is under {show(limits.major_min, 'mm')}")
        return hole
    if "drill_diameter" in v:
        raise Refused("drill_diameter", "An external thread begins with a rod: leave the drill empty")
    rod = v.get("rod_diameter", (limits.major_max + limits.major_min) / 2)
    if not rod > limits.minor_max:
        raise Refused("rod_diameter", f"A rod for {thread.name} is over {show(limits.minor_max, 'mm')}")
    return rod


def path_of(job: Job) -> Path | None:
    """The window of path radii. None where the cutter leaves no path at all."""
    one, other = job.limits.pitch_min, job.limits.pitch_max
    begin, end = (one, other) if job.internal else (other, one)
    by_pitch, last = job.radius_for(begin, job.constant), job.radius_for(end, job.most)
    first = job.tip_limit
    if by_pitch is not None:
        first = max(first, by_pitch) if job.internal else min(first, by_pitch)
    if first <= 0:
        return None
    room = -first if last is None else (last - first if job.internal else first - last)
    return Path(first, last, room, 2 * first + (job.cutter if job.internal else -job.cutter))


def fits(job: Job) -> float | None:
    """Room a side between cutter and hole (mm); None outside."""
    return (job.core - job.cutter) / 2 if job.internal else None


def enough(path: Path | None) -> bool:
    """Whether the window is wide enough to be held."""
    return path is not None and at_least(path.room, ROOM)


def largest_cutter(job: Job) -> float | None:
    """Largest cutter that fits with room beside it and leaves a window of `ROOM` (mm); inf: any, None: no cutter does.

    At the last radius e the pitch diameter is at its limit t, and the tips must reach the root from e less the
    room on: inside K/e = t + a - D - 2 m + 2 K/t, outside the like. A root below sqrt(K/2) is none.
    """
    k, a, t = job.most, job.reach, job.limits.pitch_max if job.internal else job.limits.pitch_min
    if job.internal:
        spare = t + a - job.limits.major_min - 2 * ROOM + 2 * k / t
        if spare <= 0:
            return None
        by_form = job.limits.major_min + 2 * ROOM - 2 * max(k / spare, math.sqrt(k / 2))
        found = min(by_form, job.core - 2 * BESIDE)
    else:
        over = t - a - job.limits.minor_max + 2 * ROOM + 2 * k / t
        found = math.inf if over <= 0 else 2 * (k / over + ROOM) - job.limits.minor_max
    return found if found > job.thinnest else None


def widest_tip(job: Job) -> float | None:
    """Widest flat of the tips that leaves a window of `ROOM` with this cutter (mm). None: none does."""
    k, t = job.most, job.limits.pitch_max if job.internal else job.limits.pitch_min
    e = job.tip_limit + ROOM if job.internal else job.tip_limit - ROOM
    if e <= 0:
        return None
    if job.internal:
        reach = 2 * e + job.cutter + k / e - 2 * k / t - t
    else:
        reach = t - job.limits.minor_max + 2 * ROOM + 2 * k / t - k / e
    found = job.thread.pitch / 2 - reach / math.sqrt(3)
    return found if 0 < found < job.thread.pitch / 2 else None


def corrected(job: Job) -> Job:
    """The same job with a cutter whose form allows for the helix."""
    return replace(job, constant=0.0)


def depths(job: Job, path: Path, passes: int) -> list[float]:
    """Radial depth of each pass, all of the same area."""
    return equal_area_depths(abs(path.tips - job.core) / 2, job.tip_flat, passes)
