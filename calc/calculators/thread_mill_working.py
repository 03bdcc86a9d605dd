"""How the numbers of a milled thread come about, line by line."""

from collections.abc import Iterator, Mapping
from typing import Any

from calc.answer import Step
from calc.calculators.thread_mill_sums import Job, Path, depths, engagement
from calc.formulas.thread_limits import basic_minor_diameter, basic_pitch_diameter
from calc.formulas.thread_milling import centre_feed_share, helix_angle
from calc.formulas.threads import thread_share
from calc.show import mm, number, show


def working(v: Mapping[str, Any], job: Job, path: Path | None) -> Iterator[Step]:
    """The steps for one job; those of the path only where there is one."""
    yield from _sizes(job)
    if job.internal:
        share = thread_share(job.thread, job.core)
        yield Step("Height of thread", "(D − d)/(1.0825 P): 5/8 H is full. An inch chart (3/4 H) says 5/6 of it",
                   f"({mm(job.thread.diameter)} − {mm(job.core)})/(1.0825 × {mm(job.thread.pitch)})",
                   f"{number(100 * share, '%')} %; inch chart {number(100 * share * 5 / 6, '%')} %")  # fmt: skip
    if path is not None:
        yield from _path(job, path)
        yield from _run(v, job, path)


def _sizes(job: Job) -> Iterator[Step]:
    thread, found = job.thread, job.limits
    size, pitch = mm(thread.diameter), mm(thread.pitch)
    middle = show(basic_pitch_diameter(thread.diameter, thread.pitch), "mm")
    yield Step("Pitch diameter, basic", "d − 0.6495 P", f"{size} − 0.6495 × {pitch}", middle)
    yield Step("Minor diameter, basic", "d − 1.0825 P", f"{size} − 1.0825 × {pitch}",
               show(basic_minor_diameter(thread.diameter, thread.pitch), "mm"))  # fmt: skip
    if thread.series == "M":
        rule = "90 P^0.4 d^0.1\u00a0µm to the series R40, × 1.32 in a hole, or the table; g, G: 15 + 11 P\u00a0µm off"
        numbers = f"P = {pitch}, d in its range"
    else:
        rule = "0.0015 (∛D + √LE) + 0.015 ∛P² in; × 1.3 in a hole; class 3 × 0.75; class 2A moved in by 0.3 of it"
        whole = "D" if abs(engagement(thread) - thread.diameter) < 1e-9 else "9 P"
        numbers = f"in inches; LE = {whole}"
    yield Step(f"Tolerance of the pitch diameter, {job.thread_class}", rule, numbers,
               show(found.pitch_max - found.pitch_min, "mm"))  # fmt: skip


def _path(job: Job, path: Path) -> Iterator[Step]:
    pitch, limits = job.thread.pitch, job.limits
    root, sign = (limits.major_min, "−") if job.internal else (limits.minor_max, "+")
    yield Step("Tips beyond the pitch diameter", "√3 (P/2 − tip)", f"1.732 × ({mm(pitch)}/2 − {mm(job.tip_flat)})",
               show(job.reach, "mm"))  # fmt: skip
    name = "D" if job.internal else "d1"
    yield Step("Path radius for the root", f"({name} {sign} Dc)/2", f"({mm(root)} {sign} {mm(job.cutter)})/2",
               show(job.tip_limit, "mm"))  # fmt: skip
    rule = "D2 − Dc + tips" if job.internal else "d2 + Dc − tips"
    begin, end = (limits.pitch_min, limits.pitch_max) if job.internal else (limits.pitch_max, limits.pitch_min)
    ways = (("Path radius, most metal left", begin, job.constant), ("Path radius, last; K 5 % up", end, job.most))
    for text, size, constant in ways:
        found, grown = job.radius_for(size, constant), mm(constant) if constant else "0 (corrected)"
        yield Step(text, f"2 e + K/e = {rule} + 2 K/D2, K = 3 P²/(4 π²)", f"D2 = {mm(size)}, K = {grown}",
                   "none" if found is None else show(found, "mm"))  # fmt: skip
    which = "larger" if job.internal else "smaller"
    yield Step("Begin at", f"the {which} of root and most metal",
               "", show(path.first, "mm"))  # fmt: skip


def _run(v: Mapping[str, Any], job: Job, path: Path) -> Iterator[Step]:
    each = depths(job, path, v["passes"])
    radii, left = [], sum(each)
    for one in each:
        left -= one
        radii.append(path.first - left if job.internal else path.first + left)
    yield Step("Passes of the same area", "tip t + t² tan 30° in equal parts: a sharp tip goes with the root",
               f"{mm(sum(each))} in {len(each)}", "path radii " + ", ".join(map(mm, radii)))  # fmt: skip
    yield Step("The path climbs at", "atan(P/(2 π e))", f"P = {mm(job.thread.pitch)}, e = {mm(path.first)}",
               show(helix_angle(job.thread.pitch, path.first), "deg"))  # fmt: skip
    if all(key in v for key in ("teeth", "spindle_speed", "feed_per_tooth")):
        whole = v["feed_per_tooth"] * v["teeth"] * v["spindle_speed"]
        yield Step("Feed of the centre", "fz z n × 2 e/tips", f"{mm(whole)} × 2 × {mm(path.first)}/{mm(path.tips)}",
                   show(whole * centre_feed_share(path.first, path.tips), "mm/min"))  # fmt: skip
