"""The milled thread from above, to scale: hole or rod, the cutter on its path, how deep the tips go."""

from calc.calculators.thread_mill_sums import Job, Path
from calc.drawing import Drawing, Point, polar
from calc.show import show

MIDDLE: Point = (0.0, 0.0)
INSIDE, OUTSIDE = 40.0, 0.0  # degrees: where the cutter stands on its path


def drawing(job: Job, path: Path | None) -> str:
    """The picture; without a path the cutter stands over the hole that it does not fit."""
    tips = path.tips if path else job.limits.major_min
    d = _sheet(job, path)
    if job.internal:
        _ring(d, tips / 2, 2 * job.thread.diameter)
    else:
        d.hatched(_round(d, job.core / 2))
        d.circle(MIDDLE, tips / 2, "edge")
    d.circle(MIDDLE, job.core / 2, "edge")
    at = INSIDE if job.internal else OUTSIDE
    centre = polar(MIDDLE, path.first, at) if path else MIDDLE
    if path:
        d.circle(MIDDLE, path.first, "cut-path")
    d.circle(centre, job.cutter / 2, "cutter")
    _names(d, job, path, centre, tips)
    return d.svg()


def _sheet(job: Job, path: Path | None) -> Drawing:
    """A hole in the middle; a rod on the left with as much of the cutter as leaves the thread to be seen."""
    size, title = job.thread.diameter, "The thread from above, the cutter on its path"
    if job.internal or path is None:
        return Drawing(title, 0.0, 0.0, 1.7 * size)
    span = min(1.3 * (path.first + job.cutter / 2 + size / 2), 3.2 * size)
    return Drawing(title, 0.38 * span - size / 2, 0.0, span)


def _names(d: Drawing, job: Job, path: Path | None, centre: Point, tips: float) -> None:
    what, facing = ("hole", 330.0) if job.internal else ("rod", 180 + min(10.0, 60 * job.thread.diameter / job.cutter))
    d.leader(polar(MIDDLE, job.core / 2, 200), "sw", 0, f"{what} ⌀{show(job.core, 'mm')}")
    d.leader(polar(MIDDLE, tips / 2, 150), "nw", 0, f"tips ⌀{show(tips, 'mm')}")
    d.leader(polar(centre, job.cutter / 2, facing), "se", 0, f"cutter ⌀{show(job.cutter, 'mm')}")
    if path:
        d.line(MIDDLE, centre, "dim")
        at, near = (INSIDE, 0.6) if job.internal else (OUTSIDE, 0.9)
        middle = min(near * path.first, 0.9 * job.thread.diameter)
        d.leader(polar(MIDDLE, middle, at), "ne", 0, f"path radius {show(path.first, 'mm')}")


def _round(d: Drawing, radius: float, turn: int = 1) -> list[str]:
    """A full circle as pieces of path, `turn` -1 clockwise."""
    start = d.to((radius, 0.0))
    return [start, *(d.round(MIDDLE, radius, turn * one, turn * (one + 180)) for one in (0, 180)), "Z"]


def _ring(d: Drawing, hole: float, far: float) -> None:
    """Metal all round, beyond the picture, with a hole."""
    pieces = [d.to((-far, -far)), d.on((far, -far)), d.on((far, far)), d.on((-far, far)), "Z"]
    d.hatched([*pieces, *_round(d, hole, -1)])
    d.circle(MIDDLE, hole, "edge")
