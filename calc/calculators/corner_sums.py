"""The numbers of a corner, and the verdict on them."""

import math
from dataclasses import dataclass

from calc.calculators.corner_given import Given
from calc.formulas.corner import Place, leftover, worst_place
from calc.formulas.engagement import chip_share, depth_of, straight_engagement
from calc.quantity import at_least, at_most

EASY_ANGLE = 75.0  # degrees; judgement
HARDLY_MORE = 1.1
CLEARLY_MORE = 1.5
EASY_RISE, MOST_RISE = 2.0, 4.0
EASY_DEPTH = 0.1  # of the cutter's diameter


@dataclass(frozen=True)
class Sums:
    """Results in mm, degrees and mm/min; rises at the corner feed given; None where there is none."""

    fits: bool
    straight: float
    place: Place | None = None
    like_straight: float | None = None
    removal_rise: float | None = None
    chip_rise: float | None = None
    wall_rise: float | None = None
    leftover: float = 0.0
    feed_for_removal: float | None = None
    feed_for_chip: float | None = None
    feed_reachable: float | None = None

    @property
    def corner(self) -> float | None:
        """Peak engagement on the way round, degrees."""
        return self.place.engagement if self.place else None


def sums(g: Given) -> Sums:
    """All numbers of the corner `g`."""
    straight = straight_engagement(g.cutter_radius, g.stock)
    left = leftover(180 - g.turn, g.rougher, g.corner_radius, g.stock) if g.rougher and g.turn < 180 else 0.0
    if not at_least(g.corner_radius, g.cutter_radius):
        return Sums(False, straight, leftover=left)
    place = worst_place(g.corner)
    like = depth_of(g.cutter_radius, place.engagement)
    removal, chip = like / g.stock, chip_share(place.engagement) / chip_share(straight)
    offset = g.corner_radius - g.cutter_radius
    return Sums(
        fits=True,
        straight=straight,
        place=place,
        like_straight=like * g.feed_share,
        removal_rise=removal * g.feed_share,
        chip_rise=chip * g.feed_share,
        wall_rise=g.corner_radius / offset * g.feed_share if offset > 0 else None,
        leftover=left,
        feed_for_removal=g.feed / removal if g.feed else None,
        feed_for_chip=g.feed / chip if g.feed else None,
        feed_reachable=reachable_feed(g.acceleration, offset) if g.acceleration else None,
    )


def reachable_feed(acceleration: float, path_radius: float) -> float:
    """The feed (mm/min) at which going round `path_radius` (mm) takes all of `acceleration` (m/s2).

    v = sqrt(a rho), from a = v^2/rho.

    >>> round(reachable_feed(1, 0.4))
    1200
    """
    return 60 * math.sqrt(1000 * acceleration * max(path_radius, 0.0))


def verdict(g: Given, s: Sums) -> str:
    """ok, watch or stop: a judgement, explained in the calculator's limits."""
    if s.corner is None or s.removal_rise is None or s.like_straight is None:
        return "stop"
    gentle = at_most(s.corner, max(EASY_ANGLE, HARDLY_MORE * s.straight))
    shallow = at_most(s.like_straight, EASY_DEPTH * 2 * g.cutter_radius)
    if (at_most(s.removal_rise, EASY_RISE) and gentle) or (at_most(s.removal_rise, MOST_RISE) and shallow):
        return "ok"
    wrapped = not at_most(s.corner, EASY_ANGLE)
    worse = not at_most(s.removal_rise, EASY_RISE) or not at_most(s.corner, CLEARLY_MORE * s.straight)
    return "stop" if wrapped and worse else "watch"
