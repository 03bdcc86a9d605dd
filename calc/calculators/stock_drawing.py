"""One end of the blank to scale: the part in it, the sawn face that leans, the first cut."""

from collections.abc import Mapping

from calc.calculators.stock_sums import AXES, Sums
from calc.drawing import Drawing
from calc.quantity import Reading
from calc.show import show

SPAN = 5.0  # allowances across the picture
ALONG = 0.42  # of the picture's width: how much of the section is shown


def drawing(readings: Mapping[str, Reading], s: Sums) -> str:
    """SVG of the sawn face with least to spare. Across: to scale. Along the face: the lean over the whole section."""
    axis = s.drawn
    safety = readings["safety_allowance"].value if s.sawn[axis] else 0.0
    allowance = readings["machining_allowance"].value + safety
    leaning, defect = s.lean[axis], readings["surface_defect"].value
    size = max(allowance, leaning + defect, 1e-3)
    d = Drawing(f"One end of the blank along its {AXES[axis]}", 0.0, 0.0, SPAN * size)
    half = ALONG * SPAN * size
    left, right = -1.6 * size, allowance - 0.6 * size
    finished = -0.6 * size
    lowest = right - leaning
    d.hatched(
        [
            d.to((-SPAN * size, half)),
            d.on((finished, half)),
            d.on((finished, -half)),
            d.on((-SPAN * size, -half)),
            "Z",
        ]
    )
    d.hatched(
        [d.to((finished, half)), d.on((right, half)), d.on((lowest, -half)), d.on((finished, -half)), "Z"],
        "stock-left",
    )
    d.shape([d.to((finished, half)), d.on((finished, -half))], "edge")
    d.shape([d.to((right, half)), d.on((lowest, -half))], "edge")
    cut = lowest - defect
    d.shape([d.to((cut, 0.95 * half)), d.on((cut, -0.95 * half))], "hidden-edge")
    d.measure((finished, 0.45 * half), (right, 0.45 * half), f"left on {show(allowance, 'mm')}")
    d.leader((left, 0.2 * half), "nw", 0, f"finished {AXES[axis]} {show(s.finished[axis], 'mm')}")
    if s.sawn[axis]:
        d.leader((lowest, -0.9 * half), "se", 1, f"the saw leans {show(leaning, 'mm')}")
    d.leader((cut, -0.6 * half), "se", 0, f"first cut to here: {show(s.first_cut[axis], 'mm')}")
    return d.svg()
