"""The working of a corner: formula, numbers put in, result, in the order a person would do it."""

from collections.abc import Iterator

from calc.answer import Step
from calc.calculators.corner_given import Given
from calc.calculators.corner_sums import Sums
from calc.show import number, show


def working(g: Given, s: Sums) -> tuple[Step, ...]:
    """The steps for `g`, as far as they exist."""
    steps = [_straight(g, s)]
    if s.place is not None:
        steps += [*_corner(g, s), *_rises(g, s), *_feeds(g, s)]
    return tuple(steps)


def _n(value: float) -> str:
    return number(value, "mm")


def _straight(g: Given, s: Sums) -> Step:
    return Step(
        "Cutter in metal on the straight",
        "cos φs = 1 − ae/r",
        f"1 − {_n(g.stock)}/{_n(g.cutter_radius)} = {_n(1 - g.stock / g.cutter_radius)}",
        show(s.straight, "deg"),
    )


def _corner(g: Given, s: Sums) -> Iterator[Step]:
    big, r, ae = g.corner_radius, g.cutter_radius, g.stock
    phi = show(s.corner or 0, "deg")
    if g.rougher is not None and g.rougher > big - ae:
        yield Step(
            "Left in the corner by the roughing cutter, beyond the wall stock",
            "(1/sin(b/2) − 1)(r1 − (R − ae))",
            f"b = {_n(180 - g.turn)}°, r1 = {_n(g.rougher)}, R − ae = {_n(big - ae)}",
            show(s.leftover, "mm"),
        )
        yield Step(
            "Cutter in metal in the corner: the worst place on the way round",
            "rim outside the roughed outline, tried along the whole path",
            f"R = {_n(big)}, r = {_n(r)}, ae = {_n(ae)}, r1 = {_n(g.rougher)}",
            phi,
        )
    elif s.place and s.place.heading == 0 and (s.corner or 0) >= g.turn:
        yield Step(
            "Cutter in metal in the corner: too short a turn to settle, worst at its beginning",
            "φc = T + acos(((R − ae) − (R − r) cos T)/r)",
            f"T = {_n(g.turn)}°, R = {_n(big)}, r = {_n(r)}, ae = {_n(ae)}",
            phi,
        )
    else:
        yield Step(
            "Cutter in metal in the corner, steady",
            "cos φc = 1 − ae (2R − ae)/(2 r (R − r))",
            f"1 − {_n(ae)} × (2 × {_n(big)} − {_n(ae)})/(2 × {_n(r)} × ({_n(big)} − {_n(r)}))",
            phi,
        )


def _rises(g: Given, s: Sums) -> Iterator[Step]:
    slowed = "" if g.feed_share == 1 else f" × {_n(g.feed_share)} (corner feed)"
    yield Step(
        "The same bite off a straight wall",
        "r (1 − cos φc)",
        f"{_n(g.cutter_radius)} × (1 − cos {show(s.corner or 0, 'deg')}){slowed}",
        show(s.like_straight or 0, "mm"),
    )
    yield Step(
        "Times more metal",
        "r (1 − cos φc)/ae",
        f"{_n(s.like_straight or 0)}/{_n(g.stock)}",
        number(s.removal_rise or 0, "1"),
    )
    yield Step(
        "Times thicker chip",
        "sin φc/sin φs (the sine is 1 from 90° on)",
        f"sin {show(min(s.corner or 0, 90), 'deg')}/sin {show(min(s.straight, 90), 'deg')}{slowed}",
        number(s.chip_rise or 0, "1"),
    )
    if s.wall_rise is not None:
        big, r = g.corner_radius, g.cutter_radius
        yield Step(
            "Times more wall passed by each tooth",
            "R/(R − r)",
            f"{_n(big)}/({_n(big)} − {_n(r)}){slowed}",
            number(s.wall_rise, "1"),
        )


def _feeds(g: Given, s: Sums) -> Iterator[Step]:
    if g.feed and s.feed_for_removal and s.feed_for_chip:
        for text, feed in (("no more metal", s.feed_for_removal), ("no thicker a chip", s.feed_for_chip)):
            yield Step(
                f"Corner feed for {text} than on the straight",
                "feed on the straight/rise at an even feed",
                f"{_n(g.feed)}/{number(g.feed / feed, '1')}",
                show(feed, "mm/min"),
            )
    if g.acceleration and s.feed_reachable is not None:
        yield Step(
            "Feed the machine can hold round the corner",
            "√(a (R − r))",
            f"√({_n(g.acceleration)} m/s² × {_n(g.corner_radius - g.cutter_radius)} mm)",
            show(s.feed_reachable, "mm/min"),
        )
