"""The working of a pocket in soft jaws: formula, numbers put in, result."""

from collections.abc import Iterator

from calc.answer import Step
from calc.calculators.soft_given import Given
from calc.calculators.soft_sums import Relief, Sums, pitch
from calc.show import mm, number, show


def working(g: Given, s: Sums) -> Iterator[Step]:
    """The steps, as far as they exist."""
    yield Step("Pocket along the jaws", "part + clearance", f"{mm(g.length)} + {mm(g.clearance)}",
               show(g.pocket_length, "mm"))  # fmt: skip
    yield Step("Pocket across, cut on the spacer", "part + clearance", f"{mm(g.width)} + {mm(g.across)}",
               show(g.pocket_width, "mm"))  # fmt: skip
    yield Step("Gap when they hold: the vice takes up the clearance across", "spacer − clearance across",
               f"{mm(g.gap)} − {mm(g.across)}", show(s.gap_held, "mm"))  # fmt: skip
    yield Step("Part's middle then nearer to the fixed jaw than the pocket's", "clearance across/2",
               f"{mm(g.across)}/2", show(g.across / 2, "mm"))  # fmt: skip
    yield Step("The part sits without reliefs up to a cutter radius of", "p + clearance along/2",
               f"{mm(g.radius)} + {mm(g.clearance)}/2, cutter {mm(g.cutter / 2)}",
               show(g.radius + g.clearance / 2, "mm"))  # fmt: skip
    if s.smallest is not None:
        yield Step("Smallest relief that clears, diameter",
                   "2 (r² − √2 r s + s²)/(√2 r − 2 s), s = (√2 − 1) p − room, at most 0",
                   f"r = {mm(g.cutter / 2)}, p = {mm(g.radius)}, room = {mm(g.room)}",
                   show(2 * s.smallest, "mm"))  # fmt: skip
    if s.relief is not None:
        yield from _relief(g, s, s.relief)
    yield Step("Pocket in each jaw", "(pocket across − spacer)/2", f"({mm(g.pocket_width)} − {mm(g.gap)})/2",
               show(s.depth, "mm"))  # fmt: skip
    if s.fit is not None and g.jaw_length is not None:
        yield Step("Side by side", "(jaw − wall)/(pocket + 2 bites + wall), whole ones",
                   f"({mm(g.jaw_length)} − {mm(g.wall)})/{mm(pitch(g, s.bite))}", str(s.fit))  # fmt: skip
    yield Step("In the corner, before any relief: the sum of Cutter in a corner",
               f"R = {mm(s.corner_radius)}, r = {mm(g.cutter / 2)}, stock = {mm(g.stock)}",
               f"{number(s.corner.corner or 0, 'deg')}° of the cutter in metal",
               f"{number(s.corner.removal_rise or 0, '1')} times the metal")  # fmt: skip


def _relief(g: Given, s: Sums, relief: Relief) -> Iterator[Step]:
    yield Step("From the pocket's corner to the relief's middle, on the bisector",
               "k = q + (√2 − 1) p − room, at most (r + √(2 q² − r²))/√2",
               f"{mm(relief.radius)} + 0.414 × {mm(g.radius)} − {mm(g.room)}, r = {mm(g.cutter / 2)}",
               show(relief.offset, "mm"))  # fmt: skip
    yield Step("The same from each wall", "a = k/√2", f"{mm(relief.offset)}/1.414", show(relief.aside, "mm"))
    yield Step("Eaten of each wall, from the corner", "a + √(q² − a²)",
               f"{mm(relief.aside)} + √({mm(relief.radius)}² − {mm(relief.aside)}²)", show(s.eaten, "mm"))  # fmt: skip
    yield Step("Into the jaw beyond the wall", "q − a", f"{mm(relief.radius)} − {mm(relief.aside)}",
               show(relief.bite, "mm"))  # fmt: skip
