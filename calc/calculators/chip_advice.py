"""What would mend a cut: numbers for the very input that was given."""

import math
from collections.abc import Iterator, Mapping

from calc.answer import Advice
from calc.calculators.chip_given import Given
from calc.calculators.chip_sums import NEAR, Sums
from calc.quantity import Reading, at_least, at_most
from calc.show import show

KEEP_BACK = 0.75  # of a limit: what is advised stays clear of 0.8
WORTH_TELLING = 1.25  # a reserve smaller than this is none
THICK_ENOUGH = 2.0  # times the edge's rounding
UNITS = {"feed_per_tooth": "mm", "feed_rate": "mm/min", "chip_thickness": "mm"}
WORDS = {"feed_per_tooth": "feed per tooth", "feed_rate": "feed rate", "chip_thickness": "greatest chip"}


def advice(g: Given, s: Sums) -> tuple[Advice, ...]:
    """Slower or shallower where a limit is near, faster where it rubs or much is unused."""
    strained = max((use for use in (s.power_use, s.torque_use) if use is not None), default=0.0)
    fed = s.feed_use or 0.0
    if at_least(max(strained, fed), NEAR):
        return tuple(_less(g, strained, fed))
    if s.rubbing:
        factor = THICK_ENOUGH * g.values["edge_radius"] / s.thickest
        return (_feed(g, factor, "Feed faster"),)
    first = s.first_limit
    if first and s.reserves[first] * KEEP_BACK > WORTH_TELLING:
        return (_feed(g, s.reserves[first] * KEEP_BACK, "You could feed faster"),)
    return ()


def _less(g: Given, strained: float, fed: float) -> Iterator[Advice]:
    share = min(1.0, (KEEP_BACK / strained) ** (1 / (1 - (g.mc or 0.0)))) if strained else 1.0
    yield _feed(g, min(share, KEEP_BACK / fed) if fed else share, "Feed slower")
    if at_least(strained, NEAR) and at_most(fed, NEAR):
        depth = _two_digits(g.ap * KEEP_BACK / strained)
        yield Advice(f"Or take it shallower, {show(depth, 'mm')}", "axial_depth", depth, "mm")


def _feed(g: Given, factor: float, what: str) -> Advice:
    now = {"feed_per_tooth": g.fz, "feed_rate": g.feed, "chip_thickness": g.fz * g.thickest_share}[g.feed_input]
    value, unit = _two_digits(now * factor), UNITS[g.feed_input]
    return Advice(f"{what}: {WORDS[g.feed_input]} {show(value, unit)}", g.feed_input, value, unit)


def _two_digits(value: float) -> float:
    """Down to two digits that count."""
    unit = 10.0 ** (math.floor(math.log10(value)) - 1)
    return round(math.floor(value / unit + 1e-9) * unit, 12)


def too_deep(readings: Mapping[str, Reading]) -> tuple[str, ...]:
    """That the cut is deeper than the flutes are long, where that was given."""
    depth, flutes = readings["axial_depth"].value, readings.get("flute_length")
    if flutes is None or at_most(depth, flutes.value):
        return ()
    told = f"The cut of {show(depth, 'mm')} is deeper than the flutes of {show(flutes.value, 'mm')}: the shank rubs."
    return (told,)


def shallower(readings: Mapping[str, Reading]) -> tuple[Advice, ...]:
    """What such a cut may be changed to."""
    flutes = readings["flute_length"].value
    return (Advice(f"Cut {show(flutes, 'mm')} deep at most, then look again", "axial_depth", flutes, "mm"),)
