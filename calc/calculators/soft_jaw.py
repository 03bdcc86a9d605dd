"""A pocket in soft jaws for a rectangular part: size, corner reliefs, walls left, and the cutter in its corners."""

from collections.abc import Iterator, Mapping
from typing import Any

from calc.answer import Finding, Value, judged
from calc.calculators.corner_sums import verdict as corner_verdict
from calc.calculators.soft_advice import advice
from calc.calculators.soft_drawing import drawing
from calc.calculators.soft_given import Given, given, shown
from calc.calculators.soft_sums import Sums, findings, sums
from calc.calculators.soft_working import working
from calc.declare import Calculator, Guard
from calc.quantity import Quantity, Reading
from calc.show import rough, show

LARGEST = 1000.0

INPUTS = (
    Quantity("part_length", "Part along the jaws", "mm", low=0.5, high=LARGEST, required=True, first=True),
    Quantity("part_width", "Part between the jaws", "mm", low=0.5, high=LARGEST, required=True, first=True),
    Quantity("part_corner_radius", "Radius of the part's corners", "mm", "0: sharp.", low=0, high=LARGEST / 2,
             default="0 mm", first=True),
    Quantity("cutter_diameter", "Cutter diameter", "mm", "For the pocket.", low=0.1, high=200, required=True,
             first=True),
    Quantity("reliefs", "Corner reliefs", help="Plunged into the pocket's corners where the part needs them.",
             choices=("cut", "none"), kind="choice", default="cut", first=True),
    Quantity("fit_clearance", "Clearance along the jaws", "mm", "In all. Nothing takes it up: the part can lie "
             "anywhere in it.", low=0, high=50, default="0.05 mm", first=True),
    Quantity("jaw_gap", "Spacer they are cut on", "mm", "Cut them clamped on it, as hard as they will hold.", above=0,
             high=LARGEST, required=True, first=True),
    Quantity("jaw_thickness", "Thickness of each jaw", "mm", "From the vice to the face that meets the other jaw.",
             above=0, high=LARGEST, first=True),
    Quantity("jaw_length", "Length of the jaws", "mm", above=0, high=2 * LARGEST, first=True),
    Quantity("clearance_across", "Clearance across the jaws", "mm", "In all. Empty: as along them. The vice takes it "
             "up: none is needed.", low=0, high=50, kept=True),
    Quantity("relief_diameter", "Cutter or drill for the reliefs", "mm", "Empty: the same cutter.", low=0.1, high=200),
    Quantity("corner_room", "Room beyond the part's corner", "mm", "For a burr.", low=0, high=50, default="0 mm"),
    Quantity("radial_depth", "Stock left on the wall", "mm", "For the pocket's finishing pass. Empty: 0.2 mm, less "
             "for a small cutter.", above=0, high=50, kept=True),
    Quantity("step_depth", "Depth of the pocket", "mm", above=0, high=LARGEST),
    Quantity("part_height", "Height of the part", "mm", above=0, high=LARGEST),
    Quantity("jaw_height", "Height of the jaws", "mm", above=0, high=LARGEST),
    Quantity("parts_wanted", "Parts side by side", "1", kind="whole", low=1, high=100, default="1"),
    Quantity("wall_wanted", "Jaw wanted round the pocket", "mm", "Judgement. Also between two pockets.", low=0,
             high=LARGEST, default="5 mm"),
)  # fmt: skip
OUTPUTS = (
    Quantity("relief_offset", "From the pocket's corner to the relief's middle", "mm", "inwards, on the bisector"),
    Quantity("relief_from_walls", "The same from each wall", "mm", "to be typed as X and Y"),
    Quantity("relief_diameter", "Relief, diameter", "mm"),
    Quantity("relief_needed", "Reliefs needed"),
    Quantity("smallest_relief", "Smallest relief that clears, diameter", "mm"),
    Quantity("seat_margin", "Room at each end, part in the middle", "mm", "below nothing it stands on the corners"),
    Quantity("pocket_length", "Pocket along the jaws", "mm"),
    Quantity("pocket_width", "Pocket across, cut on the spacer", "mm"),
    Quantity("gap_held", "Between the jaws when they hold", "mm", "1 mm is wanted (judgement)"),
    Quantity("wall_eaten", "Eaten of each wall, from the corner", "mm"),
    Quantity("end_wall_left", "End wall that locates, in each jaw", "mm", "2 mm is wanted (judgement)"),
    Quantity("long_wall_left", "Long wall that holds, in each jaw", "mm", "half of the part's flat is wanted "
             "(judgement)"),
    Quantity("thinnest_jaw", "Thinnest jaw left round the pocket", "mm", "reliefs included"),
    Quantity("parts_side_by_side", "Parts that fit along the jaws", "1"),
    Quantity("stands_out", "Part above the jaws by", "mm"),
    Quantity("corner_engagement", "Cutter in metal, in the pocket's corners", "deg", "before any relief"),
    Quantity("removal_rate_rise", "Times more metal in the corners", "1", "before any relief"),
)  # fmt: skip


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
        "0.2 mm of play, 1 mm of gap, 2 mm of end wall, half of the long wall and 5 mm of jaw are judgements.",
    ),
    sources=(
        "Reliefs, walls and places: own geometry, checked by areas and by trying.",
        "In the corner: the sum of Cutter in a corner, with its sources.",
        "Cut on a spacer, clamped as they will hold: common practice, no source.",
    ),
    bench_note="holding-work",
)  # fmt: skip
