"""The second set-up: which way the block was turned, where its features are now, and what offset to enter."""

from collections.abc import Iterator, Mapping
from typing import Any

from calc.answer import Advice, Finding, Step, Value, judged
from calc.calculators.second_drawing import drawing
from calc.calculators.second_sums import UP, Placed, placing
from calc.declare import Calculator, Guard
from calc.formulas.placing import FACES, Matrix, face_at, size_after, turn
from calc.quantity import Quantity, Reading, at_most, values
from calc.show import mm, show

LARGEST = 2000.0
TURNS = tuple(f"{axis}_{angle}" for axis in "XYZ" for angle in (180, 90, 270))
SAID = {"left_end": "left end", "right_end": "right end", "front_edge": "front edge", "back_edge": "back edge",
        "underside": "underside", "top": "top"}  # fmt: skip

INPUTS = (
    Quantity("turn", "Turned about", help="X runs along the jaws. X_90: the back edge comes up. Y_90: the left end.",
             kind="choice", choices=TURNS, required=True, first=True),
    Quantity("part_length", "Length of the block, along X", "mm", above=0, high=LARGEST, required=True, first=True),
    Quantity("part_width", "Width, along Y", "mm", above=0, high=LARGEST, required=True, first=True),
    Quantity("part_thickness", "Thickness, measured", "mm", "As it lay in the first set-up, after it.", above=0,
             high=LARGEST, required=True, first=True),
    Quantity("features", "Features in the first set-up", "mm", "Points x, y, z with semicolons between.", low=-LARGEST,
             high=LARGEST, kind="points", required=True, first=True),
    Quantity("edge_against_fixed_jaw", "Against the fixed jaw now", help="By its name in the first set-up.",
             kind="choice", choices=tuple(FACES), first=True),
    Quantity("stop_face", "Against the stop now", help="By its name in the first set-up.", kind="choice",
             choices=tuple(FACES)),
    Quantity("fixed_jaw", "The fixed jaw is at the", kind="choice", choices=("back", "front"), default="back"),
    Quantity("stop_side", "The stop is on the", kind="choice", choices=("left", "right"), default="left"),
    Quantity("datum", "First zero, from the corner of stop, fixed jaw and seat", "mm", "Empty: that corner, on top.",
             low=-LARGEST, high=LARGEST, kind="point"),
    Quantity("new_datum", "New zero, from that corner", "mm", "Empty: that corner, on top.", low=-LARGEST,
             high=LARGEST, kind="point"),
    Quantity("work_zero", "First work offset in the control", "mm", "0,0,0: the answer is the change.", low=-10000,
             high=10000, kind="point", default="0,0,0"),
    Quantity("seat_height", "Sits higher than before by", "mm", "Other parallels, or a step.", low=-500, high=500,
             default="0 mm"),
    Quantity("stop_error", "The stop repeats to", "mm", low=0, high=10, default="0.02 mm"),
    Quantity("face_error", "Face at the jaw, or on the seat, out by", "mm", low=0, high=10, default="0.02 mm"),
    Quantity("chip_under", "Chip or burr under it", "mm", low=0, high=5, default="0 mm"),
    Quantity("tolerance", "The features may be off by", "mm", above=0, high=100),
)  # fmt: skip
OUTPUTS = (
    Quantity("features_turned", "Features in the new offset", "mm", "x, y, z"),
    Quantity("offset_to_enter", "Work offset to enter", "mm", "x, y, z; the change, where none was given"),
    Quantity("misplaced", "As it lies, the worst feature is off by", "mm"),
    Quantity("jaw_face", "Belongs against the fixed jaw", "1"),
    Quantity("end_at_stop", "Belongs against the stop", "1"),
    Quantity("face_up", "Comes up", "1"),
    Quantity("error_budget", "Off by at most, x, y, z", "mm", "all worst cases added"),
)


def find(readings: Mapping[str, Reading]) -> Finding:
    """What is found for one turn. Raises Refused."""
    v = values(readings)
    p = placing(v)
    faces = [face_at(p.matrix, direction) for direction in (p.jaw, p.stop, UP)]
    shift = [n - d + z for n, d, z in zip(p.new_datum, p.datum, v["work_zero"], strict=True)]
    shift[2] += v["seat_height"]
    verdict, reason = judged(_found(v, p), f"The {SAID[faces[0]]} belongs against the fixed jaw, {SAID[faces[2]]} up.")
    return Finding(
        values={
            "features_turned": p.features(),
            "offset_to_enter": shift,
            "misplaced": Value(p.misplaced, why="what lies against the fixed jaw was not given"),
            "jaw_face": SAID[faces[0]],
            "end_at_stop": SAID[faces[1]],
            "face_up": SAID[faces[2]],
            "error_budget": list(p.budget),
        },
        verdict=verdict,
        reason=reason,
        advice=tuple(_advice(v, p)) if verdict != "ok" else (),
        cautions=_cautions(v),
        working=tuple(_working(v, p, shift)),
        drawing=drawing(p),
    )


def _said(matrix: Matrix) -> str | None:
    """The one turn that brings the block to lie so, where one is enough."""
    return next((one for one in TURNS if turn(one[0], int(one[2:])) == matrix), None)


def _found(v: Mapping[str, Any], p: Placed) -> Iterator[tuple[str, str]]:
    if p.lies is not None and p.lies != p.matrix:
        other = _said(p.lies)
        how = "was not turned at all" if other is None and p.lies == turn("X", 0) else "took more than one turn"
        told = f"was turned about {other.replace('_', ' by ')}°" if other else how
        yield "stop", (f"As it lies it {told}, not about {v['turn'].replace('_', ' by ')}°: the worst feature "
                       f"comes {show(p.misplaced or 0.0, 'mm')} off.")  # fmt: skip
    if p.outside:
        at = ", ".join(show(one, "mm") for one in p.outside)
        yield "watch", f"The feature at {at} lies outside the block: check its sign and the first zero."
    if "tolerance" in v and not at_most(max(p.budget), v["tolerance"]):
        yield "watch", f"Stop, faces and chips together can put it {show(max(p.budget), 'mm')} off."


def _advice(v: Mapping[str, Any], p: Placed) -> Iterator[Advice]:
    if p.lies is not None and p.lies != p.matrix:
        edge = face_at(p.matrix, p.jaw)
        text = f"Put the {SAID[edge]} against the fixed jaw and the {SAID[face_at(p.matrix, p.stop)]} against the stop"
        yield Advice(text, None if "stop_face" in v else "edge_against_fixed_jaw", edge)
        other = _said(p.lies)
        if other:
            yield Advice(f"Or write the second program for a turn about {other.replace('_', ' by ')}°", "turn", other)
    if p.outside:
        yield Advice("Correct that feature, or say where the first zero lies")
    if "tolerance" in v and not at_most(max(p.budget), v["tolerance"]):
        yield Advice("Brush seat, jaw and part, take the burr off, and find the zero anew from the part itself")


def _cautions(v: Mapping[str, Any]) -> tuple[str, ...]:
    found = ["Run above the part first: a finger on hold, the first move against a ruler."]
    if v.get("edge_against_fixed_jaw") is None:
        found.insert(0, "Pen an arrow on the edge that stays, or comes, against the fixed jaw, before you unclamp.")
    return tuple(found)


def _working(v: Mapping[str, Any], p: Placed, shift: list[float]) -> Iterator[Step]:
    about = v["turn"].replace("_", " by ")
    for one, found in list(zip(v["features"], p.features(), strict=True))[:4]:
        yield Step(f"A feature turned about {about}°", f"x, y, z → {_rule(p.matrix)}; into the corner again",
                   _point(one), _point(found))  # fmt: skip
    yield Step("Work offset", "first offset + new zero − first zero, higher seat on Z",
               f"{_point(v['work_zero'])} + {_point(p.new_datum)} − {_point(p.datum)}, {mm(v['seat_height'])}",
               _point(shift))  # fmt: skip
    base = size_after(p.matrix, p.size)
    yield Step("Off by at most", "stop or face + chip × height/base; on Z face + chip",
               f"{mm(v['stop_error'])}, {mm(v['face_error'])}, {mm(v['chip_under'])}; {mm(base[0])}, {mm(base[1])}",
               _point(p.budget))  # fmt: skip


def _rule(matrix: Matrix) -> str:
    """What becomes of x, y and z, as it is written on paper: "x, −y, −z"."""
    return ", ".join(
        ("−" if one < 0 else "") + letter for row in matrix for letter, one in zip("xyz", row, strict=True) if one
    )


def _point(point: Any) -> str:
    return ", ".join(mm(one) for one in point) + " mm"


SECOND_SETUP = Calculator(
    name="second-setup",
    title="Turning the part over",
    step="datum",
    question="Which way round, and where is everything now?",
    inputs=INPUTS,
    outputs=OUTPUTS,
    headline="misplaced",
    find=find,
    example={
        "turn": "X_180",
        "part_length": "120 mm",
        "part_width": "60 mm",
        "part_thickness": "12 mm",
        "features": "10,-8,0; 100,-8,0 mm",
        "edge_against_fixed_jaw": "back_edge",
    },
    guard=Guard("misplaced", at_most="0.05 mm"),
    about=(
        "A plate looks the same whichever way it was turned over. About X its edges change places, about Y its ends "
        "do; the wrong one puts every feature on the wrong side.",
        "It knows a block with square sides, pushed into the same corner of fixed jaw and stop each time.",
    ),
    limits=(
        "Right-angled block; quarter turns. Turns are right-handed: about X by 90° the back edge comes up.",
        "The budget adds worst cases; it does not know a jaw that lifts the part.",
        "What a stop and a face are out by is yours to measure; 0.02 mm is from memory.",
    ),
    sources=("Own geometry: rotation matrices; axes as in ISO 841. Checked against a general library for rotations.",),
    bench_note="finding-a-datum",
)
