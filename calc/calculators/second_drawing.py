"""The block before and after it was turned over, drawn from above."""

from collections.abc import Iterable
from math import dist

from calc.calculators.second_sums import Placed
from calc.drawing import HEIGHT, WIDTH, Drawing, corners
from calc.formulas.placing import Matrix, Vector, applied, corner_of, size_after, turn


def drawing(p: Placed) -> str:
    """SVG of both set-ups side by side, to scale."""
    after = size_after(p.matrix, p.size)
    unit = max((p.size[0] + after[0]) / 250, max(p.size[1], after[1]) / 210)  # mm for one unit of the picture
    step = max((p.size[0] + after[0]) / 2 + 60 * unit, 110 * unit)
    middle = (after[0] - p.size[0]) / 4
    d = Drawing("The block before and after it was turned over, seen from above", middle, 0.0, WIDTH * unit)
    _view(d, -step / 2, p, turn("X", 0), p.first, "first set-up")
    _view(d, step / 2, p, p.matrix, p.now, "turned" if p.lies in (None, p.matrix) else "as it should lie")
    d.write((-middle - 6 * unit, 0), "→")
    hidden = any(one[2] < size[2] / 2 for points, size in ((p.first, p.size), (p.now, after)) for one in points)
    d.write(
        (middle - WIDTH / 2 * unit, HEIGHT / 2 * unit),
        "arrow: fixed-jaw edge" + ("; dashed: underneath" if hidden else ""),
        "start",
        (8, 18),
    )
    return d.svg()


def _view(d: Drawing, x: float, p: Placed, matrix: Matrix, points: Iterable[Vector], text: str) -> None:
    size = size_after(matrix, p.size)
    low, high = corner_of(p.stop, p.jaw, size)
    shift = (x - (low[0] + high[0]) / 2, -(low[1] + high[1]) / 2)
    left, front, right, back = low[0] + shift[0], low[1] + shift[1], high[0] + shift[0], high[1] + shift[1]
    thick = 14 / d.size(1.0)
    y = back if p.jaw[1] > 0 else front - thick
    d.block(corners(left - thick, y, right + thick, y + thick))
    end = left - thick if p.stop[0] < 0 else right
    middle = (front + back) / 2
    d.block(corners(end, middle - thick, end + thick, middle + thick))
    d.outline(corners(left, front, right, back), "stock-left-ground")
    d.outline(corners(left, front, right, back), "edge")
    _mark(d, applied(matrix, p.jaw), (left, front, right, back))
    _holes(d, [(a + shift[0], b + shift[1], c < size[2] / 2) for a, b, c in points], (left, front, right, back))
    d.write((x, min(front, y)), text, beside=(0, 20))


def _holes(d: Drawing, holes: list[tuple[float, float, bool]], box: tuple[float, float, float, float]) -> None:
    """Features at (x, y), dashed where underneath; numbered where there is more than one, and room for it.

    What was typed far outside the block is left out.
    """
    left, front, right, back = box
    unit, numbered = 1 / d.size(1.0), list[tuple[float, float]]()
    for n, (x, y, below) in enumerate(holes, 1):
        if not (left - 12 * unit <= x <= right + 12 * unit and front - 12 * unit <= y <= back + 12 * unit):
            continue
        d.circle((x, y), 5 * unit, "hidden-edge" if below else "edge")
        if len(holes) > 1 and all(dist((x, y), other) > 20 * unit for other in numbered):
            numbered.append((x, y))
            d.write((x, y), str(n), beside=(10, -4))


def _mark(d: Drawing, direction: Vector, box: tuple[float, float, float, float]) -> None:
    """An arrow on the side that lay against the fixed jaw, where it is seen from above."""
    left, front, right, back = box
    tail = ((left + right) / 2, (front + back) / 2)
    tip = {(0, 1): (tail[0], back), (0, -1): (tail[0], front), (1, 0): (right, tail[1]), (-1, 0): (left, tail[1])}.get(
        (int(direction[0]), int(direction[1]))
    )
    if tip:
        d.heading(tail, tip)
