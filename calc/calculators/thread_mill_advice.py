"""What is found in a milled thread, and what would mend it; only what was tried and mends what is told is said."""

import math
from collections.abc import Iterator
from dataclasses import replace

from calc.answer import VERDICTS, Advice
from calc.calculators.thread_mill_sums import (
    BESIDE,
    Job,
    Path,
    corrected,
    enough,
    fits,
    largest_cutter,
    path_of,
    widest_tip,
)
from calc.quantity import at_least, at_most
from calc.show import show

SMALLER = (1.0, 0.9, 0.8, 0.7, 0.6, 0.5)  # shares of the cutter that goes in, tried with narrower tips

Found = tuple[tuple[str, str, str], ...]
Way = tuple[Advice, Job]


def findings(job: Job, path: Path | None) -> Found:
    """(what, verdict, sentence) of everything that is not as it should be."""
    return (*_beside(job), *_window(job, path), *_root(job, path), *_blank(job))


def _beside(job: Job) -> Iterator[tuple[str, str, str]]:
    beside = fits(job)
    if beside is not None and not beside > 0:
        yield "fits", "stop", f"The cutter does not go into a hole of {show(job.core, 'mm')}."
    elif beside is not None and not at_least(beside, BESIDE):
        yield "fits", "watch", f"Only {show(beside, 'mm')} between cutter and hole, a side."


def _window(job: Job, path: Path | None) -> Iterator[tuple[str, str, str]]:
    if path is None or enough(path):
        return
    if path.room < -1e-9:
        even = path_of(corrected(job))
        helix = job.constant and even is not None and at_least(even.room, 0.0)
        why, loose = "on its helix" if helix else "with tips this wide", "large" if job.internal else "small"
        text = f"Before the tips are deep enough the pitch diameter is too {loose}: this cutter cuts it so {why}."
        yield "window", "stop", text
    else:
        yield "window", "watch", f"Only {show(path.room, 'mm')} of path radius between too tight and too loose."


def _root(job: Job, path: Path | None) -> Iterator[tuple[str, str, str]]:
    least = job.least_root
    if path is not None and least is not None and not at_least(path.tips, least):
        text = (
            f"The tips cut the root to {show(path.tips, 'mm')}, under the smallest minor diameter, {show(least, 'mm')}"
        )
        yield "root", "watch", f"{text}: so deep and sharp it weakens the bolt."


def _blank(job: Job) -> Iterator[tuple[str, str, str]]:
    found, core = job.limits, show(job.core, "mm")
    if job.internal:
        if not at_most(job.core, found.minor_max):
            text = f"The hole, {core}, is over the largest minor diameter, {show(found.minor_max, 'mm')}."
            yield "blank", "stop", text
        elif not at_least(job.core, found.minor_min or 0.0):
            yield "blank", "watch", f"The hole, {core}, is tight: only a cutter that trims the crests opens it."
    elif not at_least(job.core, found.major_min):
        text = f"The rod, {core}, is under the smallest major diameter, {show(found.major_min, 'mm')}."
        yield "blank", "stop", text
    elif not at_most(job.core, found.major_max or math.inf):
        yield "blank", "watch", f"The rod, {core}, is thick: only a cutter that trims the crests brings it down."


def advice(job: Job, path: Path | None) -> tuple[Advice, ...]:
    """The ways out of what is told, all of it that the cutter does; two changes together where no one is enough."""
    now = findings(job, path)
    worst = max((one[1] for one in now), key=VERDICTS.index)
    told = {what for what, word, _ in now if word == worst}
    found: list[Advice] = []
    if told != {"blank"}:
        by_cutter = told - {"blank"}
        found += [one for one, then in _singly(job) if _mends(now, then, by_cutter)]
        found = found or [one for one, then in _together(job) if _mends(now, then, by_cutter)][:1]
    if "blank" in told:
        found += [one for one, then in _by_blank(job) if _mends(now, then, {"blank"})][:1]
    return tuple(dict.fromkeys(found))


def _mends(now: Found, after: Job, told: set[str]) -> bool:
    """Whether it can be cut at all, what was told is gone, and nothing is new or worse."""
    if not after.cutter > after.thinnest:
        return False
    before = {what: VERDICTS.index(word) for what, word, _ in now}
    then = {what: VERDICTS.index(word) for what, word, _ in findings(after, path_of(after))}
    return not told & set(then) and all(rank <= before.get(what, 0) for what, rank in then.items())


def _singly(job: Job) -> Iterator[Way]:
    """One change each."""
    largest = largest_cutter(job)
    if largest is not None and 0.01 <= largest < job.cutter:
        size = math.floor(largest * 100 + 1e-9) / 100
        text = f"Take a cutter of at most {show(size, 'mm')}"
        yield Advice(text, "cutter_diameter", size, "mm"), replace(job, cutter=size)
    tip = _tip(job)
    if tip is not None:
        text = f"Take a cutter with tips at most {show(tip, 'mm')} wide"
        yield Advice(text, "tip_flat", tip, "mm"), replace(job, tip_flat=tip)
    yield from _wider(job)
    if job.constant:
        text = "Take a cutter whose form is corrected for this thread"
        yield Advice(text, "cutter_form", "corrected"), corrected(job)
    if job.internal and job.core < job.thread.diameter - job.thread.pitch:
        yield _blank_for(job)


def _tip(job: Job) -> float | None:
    """Narrower tips that leave a window, as a number that can be typed."""
    tip = widest_tip(job)
    tip = None if tip is None else math.floor(tip * 1000) / 1000
    return tip if tip and tip < job.tip_flat else None


def _wider(job: Job) -> Iterator[Way]:
    """Tips wide enough for a rod's root: as the first path leaves the largest pitch diameter."""
    least, top = job.least_root, job.limits.pitch_max
    if least is None:
        return
    e = (least + job.cutter) / 2
    reach = top - least + job.constant * (2 / top - 1 / e)
    tip = math.ceil(1000 * (job.thread.pitch / 2 - reach / math.sqrt(3)) - 1e-9) / 1000
    if job.tip_flat < tip < job.thread.pitch / 2:
        text = f"Take a cutter with tips at least {show(tip, 'mm')} wide"
        yield Advice(text, "tip_flat", tip, "mm"), replace(job, tip_flat=tip)


def _together(job: Job) -> Iterator[Way]:
    """Two changes: a smaller cutter or a corrected form, and narrower tips."""
    most = min(job.cutter, job.core - 2 * BESIDE) if job.internal else job.cutter
    for share in SMALLER:
        size = math.floor(most * share * 100 + 1e-9) / 100
        yield from _with_tips(replace(job, cutter=size), f"Take a cutter of at most {show(size, 'mm')} with tips")
    yield from _with_tips(corrected(job), "Take a cutter whose form is corrected for this thread, with tips")


def _with_tips(job: Job, text: str) -> Iterator[Way]:
    tip = _tip(job) if job.cutter > job.thinnest else None
    if tip is not None:
        yield Advice(f"{text} at most {show(tip, 'mm')} wide"), replace(job, tip_flat=tip)


def _by_blank(job: Job) -> Iterator[Way]:
    """The right hole or rod, else with another cutter that goes in there."""
    blank, then = _blank_for(job)
    yield blank, then
    for one, other in _singly(then):
        yield Advice(f"{blank.text}, and {one.text[:1].lower()}{one.text[1:]}"), other


def _blank_for(job: Job) -> Way:
    if job.internal:
        hole = job.thread.diameter - job.thread.pitch
        return Advice(f"Make the hole {show(hole, 'mm')}", "drill_diameter", hole, "mm"), replace(job, core=hole)
    rod = (job.limits.major_min + (job.limits.major_max or job.limits.major_min)) / 2
    return Advice(f"Bring the rod to {show(rod, 'mm')}", "rod_diameter", rod, "mm"), replace(job, core=rod)
