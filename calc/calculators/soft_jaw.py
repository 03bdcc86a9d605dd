"""A pocket in soft jaws for a rectangular part: size, corner reliefs, walls left, and the cutter in its corners."""

from collections.abc import Iterator, Mapping
from typing import Any

from calc.answer import Finding, Value, judged
from calc.calculators.corner_sums import verdict as corner_verdict
from calc.calculators.soft_advice import advice
from calc.calculators.soft_drawing import drawing
from calc.calculators.soft_given import Given, given, shown
from calc.calculators.soft_quantities import INPUTS, OUTPUTS
from calc.calculators.soft_sums import Sums, findings, sums
from calc.calculators.soft_working import working
from calc.declare import Calculator, Guard
from calc.quantity import Reading, at_most
from calc.show import rough, show

HIGH = 3.0  # of the pocket's depth: a part that stands out further is cautioned (judgement)


def find(readings: Mapping[str, Reading]) -> Finding:
    """What is found for one pair of jaws. Raises Refused."""
    g = given(readings)
    s = sums(g)
    verdict, reason = judged((one[1:] for one in findings(g, s)), _fine(s))
    return Finding(
        inputs=shown(readings, g),
        values=_values(g, s),
        verdict=verdict,
        reason=reason,
        advice=advice(g, s, readings["cutter_diameter"].typed) if verdict != "ok" else (),
        cautions=tuple(_cautions(g, s)),
        working=tuple(working(g, s)),
        drawing=drawing(g, s),
    )


def _fine(s: Sums) -> str:
    if s.relief is None:
        return "The part's corners sit in the pocket's: no reliefs are needed."
    return (
        f"Plunge ⌀{show(2 * s.relief.radius, 'mm')} in each corner, {show(s.relief.aside, 'mm')} from both walls: "
        f"it eats {show(s.eaten, 'mm')} of each."
    )


def _values(g: Given, s: Sums) -> dict[str, Any]:
    relief = s.relief
    none = "none is needed" if not s.needed else "none is cut" if not g.reliefs else "it is too small to clear"
    thin = s.thinnest
    return {
        "relief_offset": Value(relief.offset if relief else None, why=none),
        "relief_from_walls": Value(relief.aside if relief else None, why=none),
        "relief_diameter": Value(2 * relief.radius if relief else None, why=none),
        "relief_needed": "yes" if s.needed else "no",
        "smallest_relief": Value(None if s.smallest is None else 2 * s.smallest, why="none is needed"),
        "seat_margin": s.margin,
        "pocket_length": g.pocket_length,
        "pocket_width": g.pocket_width,
        "gap_held": s.gap_held,
        "wall_eaten": s.eaten,
        "end_wall_left": s.end_wall,
        "long_wall_left": s.long_wall,
        "thinnest_jaw": Value(thin[0] if thin else None, why="no size of the jaws was given"),
        "parts_side_by_side": Value(s.fit, why="the length of the jaws was not given"),
        "stands_out": Value(s.stands_out, why="give the part's height and the pocket's depth"),
        "corner_engagement": Value(s.corner.corner),
        "removal_rate_rise": Value(s.corner.removal_rise),
    }


def _cautions(g: Given, s: Sums) -> Iterator[str]:
    yield (
        "The spacer is only pinched: put it where the cutter does not go, and see that it cannot fly. Door shut. What "
        "the vice may be tightened to is in its maker's manual."
    )
    if s.relief is not None and corner_verdict(s.corner_given, s.corner) != "ok":
        yield (
            "Plunge the reliefs before the finishing pass: without them it takes "
            f"{rough(s.corner.removal_rise or 0, '1')} times the metal in the corners. What plunges must cut to its "
            "middle."
        )
    if s.stands_out is not None and g.step is not None and not at_most(s.stands_out, HIGH * g.step):
        yield (
            f"{show(s.stands_out, 'mm')} stand out of a pocket {show(g.step, 'mm')} deep: a cut up there tips the part "
            "out. Work out Grip of the vice before the first cut."
        )
    if g.wanted > 1:
        yield "One vice holds only the widest of several parts: the others are loose, and fly. Measure them first."


SOFT_JAW = Calculator(
    name="soft-jaw",
    title="Pocket in soft jaws",
    step="hold",
    question="Will the part sit in these soft jaws?",
    inputs=INPUTS,
    outputs=OUTPUTS,
    headline="relief_offset",
    find=find,
    example={
        "part_length": "60 mm",
        "part_width": "40 mm",
        "part_corner_radius": "0.5 mm",
        "cutter_diameter": "6 mm",
        "jaw_gap": "6 mm",
        "jaw_thickness": "30 mm",
        "jaw_length": "150 mm",
        "step_depth": "5 mm",
        "part_height": "20 mm",
        "jaw_height": "40 mm",
    },
    guard=Guard("seat_margin", at_least="0 mm"),
    about=(
        "A cutter leaves its own radius in the pocket's corners, and a sharper part stands on it. Two lengths make the "
        "pocket; a plunge in each corner, as far out as it must be and no farther, lets the part down on its walls.",
        "Clearance along the jaws is play. Clearance across is taken up by the vice: it never helps a corner, and it "
        "puts the part's middle half of it nearer to the fixed jaw than the pocket's.",
    ),
    limits=(
        "Square corners, true jaws that do not lift. The part may lie against an end wall, so clearance is not counted "
        "in the relief; measure the largest part, not the drawing.",
        "A cutter with a corner radius leaves it at the pocket's foot too: break the part's lower edge, and take the "
        "reliefs a little deeper.",
        "With the reliefs plunged first a finishing pass of up to a quarter of the cutter meets no more metal in the "
        "corners than on the walls; without them the corner's own sum holds.",
        "0.2 mm of play, 1 mm of gap, 1 mm of part above the jaws, 2 mm of end wall, half of the long wall and 5 mm of "
        "jaw are judgements. So is the caution where more than 3 times the pocket's depth stands out of it.",
    ),
    sources=(
        "Reliefs, walls and places: own geometry, checked by areas and by trying.",
        "In the corner: the sum of Cutter in a corner, with its sources.",
        "Cut on a spacer, clamped as they will hold: common practice, no source.",
    ),
    bench_note="holding-work",
)  # fmt: skip
