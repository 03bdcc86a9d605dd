"""The three ways out of a bad corner, each with its number; the stock on the wall is kept."""

import math
from dataclasses import replace

from calc.answer import Advice
from calc.calculators.corner_given import ROUND_END, Given
from calc.calculators.corner_sums import EASY_DEPTH, Sums, sums, verdict
from calc.formulas.sizes import cutter_sizes
from calc.quantity import at_most
from calc.show import rough, show

WIDEST = 64.0  # times the cutter: beyond that a corner is a straight wall
HALVINGS = 24
ROUND_TO = 0.05  # mm; nobody draws a finer corner radius
SLOWER = "slower in the corner"


def largest_cutter(g: Given) -> tuple[float, str] | None:
    """The largest usual cutter (mm, and as typed) that stays within the rise allowed and is not `stop`."""
    even = replace(g, feed=None, corner_feed=None)
    for diameter, typed in reversed(cutter_sizes()):
        if _good(even.with_cutter(diameter)):
            return diameter, typed
    return None


def advice(g: Given, s: Sums, largest: tuple[float, str] | None) -> tuple[Advice, ...]:
    """A smaller cutter, a larger corner, a slower feed: those that exist."""
    ways = (_smaller(g, largest), _larger(g), _slower(g, s))
    return tuple(way for way in ways if way is not None)


def _good(g: Given) -> bool:
    """Within the rise allowed, at an even feed, and not a corner to stop at."""
    if not at_most(g.stock, 2 * g.cutter_radius) or not at_most(g.cutter_radius, g.corner_radius):
        return False
    s = sums(g)
    return s.removal_rise is not None and at_most(s.removal_rise, g.rise_limit) and verdict(g, s) != "stop"


def _fine(g: Given) -> bool:
    """Good, and nothing left to watch: what is advised must not ask for more advice."""
    return _good(g) and verdict(g, sums(g)) == "ok"


def _smaller(g: Given, largest: tuple[float, str] | None) -> Advice | None:
    """The largest usual cutter with which nothing is left to watch; where there is none, the largest allowed."""
    even = replace(g, feed=None, corner_feed=None)
    inch = in_inches(g.inputs["cutter_diameter"].typed)
    sizes = [one for one in reversed(cutter_sizes()) if one[0] < 2 * g.cutter_radius and in_inches(one[1]) == inch]
    mends = next((size for size in sizes if _fine(even.with_cutter(size[0]))), None)
    if mends is None and (largest is None or not largest[0] < 2 * g.cutter_radius):
        return None
    diameter, typed = mends or largest or sizes[0]
    then = sums(even.with_cutter(diameter))
    text = f"Take a smaller cutter, {typed}: like {rough(then.like_straight or 0, 'mm')} off a straight wall"
    return Advice(text if mends else f"{text}; better, but still to watch", "cutter_diameter", diameter, "mm")


def in_inches(typed: str) -> bool:
    """Whether a size was written in inches: nobody with a metric shelf is told of 1/8 in, nor the other way round."""
    return typed.rstrip().endswith(("in", '"', "inch", "inches", "thou"))


def _larger(g: Given) -> Advice | None:
    even = replace(g, feed=None, corner_feed=None)
    low, high = g.corner_radius, WIDEST * g.cutter_radius
    if g.width is not None and g.turn != ROUND_END:
        high = g.width / 2 * (1 - 1e-6)
    if not high > low or not _fine(even.with_corner(high)):
        return None
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        low, high = (low, middle) if _fine(even.with_corner(middle)) else (middle, high)
    radius = _rounded_up(high)
    if g.turn == ROUND_END and g.width is not None:
        text = f"Make the pocket wider, {show(2 * radius, 'mm')}, with the same stock on its walls"
        return Advice(text, "pocket_width", 2 * radius, "mm")
    text = f"Make the corner larger, radius {show(radius, 'mm')}, if the part allows it"
    return Advice(text, "corner_radius", radius, "mm")


def _rounded_up(radius: float) -> float:
    return round(math.ceil(radius / ROUND_TO - 1e-9) * ROUND_TO, 6)


def _slower(g: Given, s: Sums) -> Advice | None:
    """The feed that takes no more metal than on the straight, nor bites like over a tenth of the cutter."""
    if s.removal_rise is None or s.like_straight is None:
        return None
    rise, like = s.removal_rise / g.feed_share, s.like_straight / g.feed_share
    share = min(1.0, 1 / rise, EASY_DEPTH * 2 * g.cutter_radius / like)
    if g.feed is None:
        text = f"Go {SLOWER}: {rough(share, '1')} of the feed on the straight"
        return Advice(text, None, share, "1")
    feed = _round_feed(g.feed * share)
    return Advice(
        f"Go {SLOWER}, {show(feed, 'mm/min')}: no more metal than on the straight",
        "corner_feed_rate",
        feed,
        "mm/min",
    )


def _round_feed(feed: float) -> float:
    """Down to two digits that count: a number one can type and remember."""
    unit = 10.0 ** (math.floor(math.log10(feed)) - 1)
    return round(math.floor(feed / unit + 1e-9) * unit, 9)
