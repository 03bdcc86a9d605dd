"""What would mend a pocket in soft jaws; only what was tried and mends it is said."""

import math
from collections.abc import Iterator
from dataclasses import replace

from calc.answer import VERDICTS, Advice
from calc.calculators.corner_advice import in_inches
from calc.calculators.soft_given import Given, checked
from calc.calculators.soft_quantities import INPUTS
from calc.calculators.soft_sums import END_WALL, NEAR, Sums, findings, length_needed, sums, worst
from calc.formulas.sizes import cutter_sizes
from calc.quantity import Refused, at_least, at_most
from calc.show import show

STEP = 0.1  # mm: nobody sets finer jaws, spacers or reliefs
USUAL_CLEARANCE = 0.05  # mm

Way = tuple[Advice, Given]
Found = tuple[tuple[str, str, str], ...]


def advice(g: Given, s: Sums, typed: str) -> tuple[Advice, ...]:
    """The ways out of each finding that is told; `typed` is the cutter as it was typed."""
    ways = {"seat": _seat, "play": _play, "end": _end, "long": _smaller_relief, "gap": _gap, "thin": _thin,
            "fit": _fit, "top": _top}  # fmt: skip
    now = findings(g, s)
    told: list[Advice] = []
    for what in (one[0] for one in now if VERDICTS.index(one[1]) == worst(now)):
        told += (one for one, then in ways.get(what, _none)(g, s) if mends(now, then, what))
        if what in ("seat", "end", "long", "thin", "corner"):
            told += _smaller_cutter(g, now, what, in_inches(typed))
        if what == "end":
            told.append(Advice("Put a stop against the part's end; do not count on the walls"))
    return tuple(dict.fromkeys(filter(_takes, told))) or (Advice("Hold it in another way"),)


def mends(now: Found, after: Given, what: str) -> bool:
    """Whether a finding is gone with the other numbers, and nothing new or worse is found."""
    try:
        then = _found(checked(after))
    except Refused:
        return False
    return {one[0] for one in then} <= {one[0] for one in now} - {what} and worst(then) <= worst(now)


def _found(g: Given) -> Found:
    return findings(g, sums(g))


def _takes(one: Advice) -> bool:
    """Whether the input takes the number."""
    quantity = next((asked for asked in INPUTS if asked.name == one.input), None)
    if quantity is None or not isinstance(one.value, (int, float)):
        return True
    enough = one.value > quantity.above if quantity.above is not None else at_least(one.value, quantity.low or 0.0)
    return enough and at_most(one.value, quantity.high or math.inf)


def _none(_g: Given, _s: Sums) -> Iterator[Way]:
    yield from ()


def _number(g: Given, text: str, name: str, field: str, value: float) -> Way:
    """Advice to type one length, and the pocket with it."""
    return Advice(f"{text} {show(value, 'mm')}", name, value, "mm"), replace(g, **{field: value})


def _up(value: float) -> float:
    return round(math.ceil(value / STEP - 1e-9) * STEP, 6)


def _down(value: float) -> float:
    return round(math.floor(value / STEP + 1e-9) * STEP, 6)


def _seat(g: Given, s: Sums) -> Iterator[Way]:
    if not g.reliefs:
        yield Advice("Relieve the corners", "reliefs", "cut"), replace(g, reliefs=True)
    elif s.smallest is not None:
        size = _up(2 * s.smallest)
        yield _number(g, "Relieve the corners with at least", "relief_diameter", "relief", size)


def _smaller_relief(g: Given, s: Sums) -> Iterator[Way]:
    if s.relief is not None and s.smallest is not None and _up(2 * s.smallest) < 2 * s.relief.radius:
        size = _up(2 * s.smallest)
        yield _number(g, "Relieve the corners with a smaller cutter,", "relief_diameter", "relief", size)


def _end(g: Given, s: Sums) -> Iterator[Way]:
    spacer = _down(g.pocket_width - 2 * (s.eaten + END_WALL))
    if 0 < spacer < g.gap:
        yield _number(g, "Cut them on a thinner spacer,", "jaw_gap", "gap", spacer)
    yield from _smaller_relief(g, s)


def _play(g: Given, s: Sums) -> Iterator[Way]:
    """Also with the clearance across following it, where it was left empty and is not kept."""
    one, then = _number(g, "Cut it longer than the part by", "fit_clearance", "clearance", USUAL_CLEARANCE)
    if g.across != g.clearance or mends(findings(g, s), replace(then, across=USUAL_CLEARANCE), "play"):
        yield one, then


def _gap(g: Given, _s: Sums) -> Iterator[Way]:
    if g.gap >= NEAR:
        yield Advice("Cut it to the part's size across", "clearance_across", 0.0, "mm"), replace(g, across=0.0)
    yield _number(g, "Cut them on a thicker spacer,", "jaw_gap", "gap", _up(g.across + NEAR))


def _thin(g: Given, s: Sums) -> Iterator[Way]:
    left, where = s.thinnest or (0.0, "")
    short = g.wall - left
    if where == "behind the pocket" and g.jaw_thickness is not None:
        yield _number(g, "Take jaws of at least", "jaw_thickness", "jaw_thickness", _up(g.jaw_thickness + short))
        yield _number(g, "Cut them on a thicker spacer,", "jaw_gap", "gap", _up(g.gap + 2 * short))
    if where == "under the pocket" and g.step is not None and g.jaw_height is not None:
        yield _number(g, "Take jaws as high as", "jaw_height", "jaw_height", _up(g.jaw_height + short))
        if g.step > short:
            yield _number(g, "Cut the pocket only", "step_depth", "step", _down(g.step - short))


def _fit(g: Given, s: Sums) -> Iterator[Way]:
    if s.fit:
        yield Advice(f"Put in {s.fit}", "parts_wanted", s.fit), replace(g, wanted=s.fit)
    yield _number(g, "Take jaws at least as long as", "jaw_length", "jaw_length", _up(length_needed(g, s.bite)))


def _top(g: Given, _s: Sums) -> Iterator[Way]:
    if g.part_height is not None and g.part_height > NEAR:
        yield _number(g, "Cut the pocket only", "step_depth", "step", g.part_height - NEAR)


def _smaller_cutter(g: Given, now: Found, what: str, inch: bool) -> Iterator[Advice]:
    """The largest usual one that leaves nothing to watch; where there is none, the largest that mends it."""
    sizes = [one for one in reversed(cutter_sizes()) if one[0] < g.cutter and in_inches(one[1]) == inch]
    mending = [one for one in sizes if mends(now, replace(g, cutter=one[0]), what)]
    if mending:
        fine = (one for one in mending if not _found(replace(g, cutter=one[0])))
        diameter, typed = next(fine, mending[0])
        yield Advice(f"Take a smaller cutter, {typed}", "cutter_diameter", diameter, "mm")
