"""The milled thread from above, to scale: hole or rod, the cutter on its path, how deep the tips go."""

from calc.calculators.thread_mill_sums import Job, Path
from calc.drawing import Drawing, Point, polar
from calc.show import show

MIDDLE: Point = (0.0, 0.0)
AT = 40.0  # degrees: where the cutter stands on its path


def drawing(job: Job, path: Path | None) -> str:
    """The picture; without a path the cutter stands over the hole that it does not fit."""
    size = job.thread.diameter
    span = 1.7 * size if job.internal else 2.4 * size
    d = Drawing("The thread from above, the cutter on its path", 0.0, 0.0, span)
    tips = path.tips if path else job.limits.major_min
    if job.internal:
        _ring(d, tips / 2, span)
        d.circle(MIDDLE, job.core / 2, "edge")
    else:
        d.hatched(_round(d, job.core / 2))
        d.circle(MIDDLE, job.core / 2, "edge")
        d.circle(MIDDLE, tips / 2, "edge")
    centre = polar(MIDDLE, path.first, AT) if path else MIDDLE
    if path:
        d.circle(MIDDLE, path.first, "cut-path")
    d.circle(centre, job.cutter / 2, "cutter")
    _names(d, job, path, centre, tips)
    return d.svg()


def _names(d: Drawing, job: Job, path: Path | None, centre: Point, tips: float) -> None:
    what = "hole" if job.internal else "rod"
    d.leader(polar(MIDDLE, job.core / 2, 200), "sw", 0, f"{what} ⌀{show(job.core, 'mm')}")
    d.leader(polar(MIDDLE, tips / 2, 150), "nw", 0, f"tips cut to ⌀{show(tips, 'mm')}")
    edge = polar(centre, min(job.cutter / 2, 0.3 * job.thread.diameter), 330)
    d.leader(edge, "se", 0, f"cutter ⌀{show(job.cutter, 'mm')}")
    if path:
        d.line(MIDDLE, centre, "dim")
        d.leader(polar(MIDDLE, 0.6 * path.first, AT), "ne", 0, f"path radius {show(path.first, 'mm')}")


def _round(d: Drawing, radius: float, turn: int = 1) -> list[str]:
    """A full circle as pieces of path, `turn` -1 clockwise."""
    start = d.to((radius, 0.0))
    return [start, *(d.round(MIDDLE, radius, turn * one, turn * (one + 180)) for one in (0, 180)), "Z"]


def _ring(d: Drawing, hole: float, span: float) -> None:
    """Metal all round, beyond the picture, with a hole."""
    pieces = [d.to((-span, -span)), d.on((span, -span)), d.on((span, span)), d.on((-span, span)), "Z"]
    d.hatched([*pieces, *_round(d, hole, -1)])
    d.circle(MIDDLE, hole, "edge")
