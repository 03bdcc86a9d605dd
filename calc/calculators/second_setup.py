"""The second set-up: which way the block was turned, where its features are now, and what offset to enter."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from math import dist
from typing import Any

from calc.answer import Advice, Finding, Step, Value, judged
from calc.declare import Calculator, Guard
from calc.drawing import WIDTH, Drawing, corners
from calc.formulas.placing import (
    FACES,
    Matrix,
    Vector,
    applied,
    carried,
    corner_of,
    face_at,
    placed,
    size_after,
    tilt_shift,
    turn,
)
from calc.quantity import Quantity, Reading, Refused, at_most, values
from calc.show import mm, show

LARGEST = 2000.0
TURNS = tuple(f"{axis}_{angle}" for axis in "XYZ" for angle in (180, 90, 270))
SAID = {"left_end": "left end", "right_end": "right end", "front_edge": "front edge", "back_edge": "back edge",
        "underside": "underside", "top": "top"}  # fmt: skip
STOPS, JAWS = {"left": (-1, 0, 0), "right": (1, 0, 0)}, {"back": (0, 1, 0), "front": (0, -1, 0)}
UP: Vector = (0, 0, 1)

INPUTS = (
    Quantity("turn", "Turned about", help="X runs along the jaws. About X it rolls over an edge, about Y over an end.",
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


@dataclass(frozen=True)
class Placed:
    """The block as it should lie and as it is said to lie; points in mm from the corner of stop, jaw and seat."""

    matrix: Matrix
    lies: Matrix | None
    stop: Vector
    jaw: Vector
    size: Vector
    datum: Vector
    new_datum: Vector
    now: tuple[Vector, ...]
    misplaced: float | None
    budget: Vector

    def features(self) -> list[list[float]]:
        """The features in the new offset."""
        return [[a - b for a, b in zip(one, self.new_datum, strict=True)] for one in self.now]


def find(readings: Mapping[str, Reading]) -> Finding:
    """What is found for one turn. Raises Refused."""
    v = values(readings)
    p = _placed(v)
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
        drawing=_drawing(p, [tuple(a + b for a, b in zip(one, p.datum, strict=True)) for one in v["features"]]),
    )


def _placed(v: Mapping[str, Any]) -> Placed:
    axis, angle = v["turn"].split("_")
    matrix = turn(axis, int(angle))
    stop, jaw = STOPS[v["stop_side"]], JAWS[v["fixed_jaw"]]
    size = (v["part_length"], v["part_width"], v["part_thickness"])
    after = size_after(matrix, size)
    datum = v.get("datum", (0.0, 0.0, size[2]))
    lies = _lies(v, matrix, stop, jaw)
    points = [tuple(a + b for a, b in zip(one, datum, strict=True)) for one in v["features"]]
    now = tuple(placed(matrix, stop, jaw, size, one) for one in points)
    chip = v["chip_under"]
    return Placed(
        matrix=matrix,
        lies=lies,
        stop=stop,
        jaw=jaw,
        size=size,
        datum=datum,
        new_datum=v.get("new_datum", (0.0, 0.0, after[2])),
        now=now,
        misplaced=None
        if lies is None
        else max(dist(a, placed(lies, stop, jaw, size, b)) for a, b in zip(now, points, strict=True)),
        budget=(
            v["stop_error"] + tilt_shift(chip, after[0], after[2]),
            v["face_error"] + tilt_shift(chip, after[1], after[2]),
            v["face_error"] + chip,
        ),
    )


def _lies(v: Mapping[str, Any], matrix: Matrix, stop: Vector, jaw: Vector) -> Matrix | None:
    """How the block lies by the faces that were named; with one alone, the side that should be up is up."""
    edge, end = v.get("edge_against_fixed_jaw"), v.get("stop_face")
    if edge is None and end is None:
        return None
    named = [(FACES[name], to) for name, to in ((edge, jaw), (end, stop)) if name is not None]
    if len(named) == 1:
        named.append((FACES[face_at(matrix, UP)], UP))
    (one, _), (two, _) = named
    if abs(sum(a * b for a, b in zip(one, two, strict=True))) > 0:
        field = "stop_face" if edge is None or end is not None else "edge_against_fixed_jaw"
        raise Refused(field, f"{v['turn'].replace('_', ' ')}: that face is up or down then, or both are the same or "
                             "opposite; name another one")  # fmt: skip
    return carried(*named)


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


def _drawing(p: Placed, first: Iterable[Vector]) -> str:
    """SVG of both set-ups side by side, to scale; `first` are the features from the corner."""
    after = size_after(p.matrix, p.size)
    unit = max((p.size[0] + after[0]) / 250, max(p.size[1], after[1]) / 210)  # mm for one unit of the picture
    step = max((p.size[0] + after[0]) / 2 + 60 * unit, 110 * unit)
    d = Drawing("The block before and after it was turned over, seen from above", (after[0] - p.size[0]) / 4, 0.0,
                WIDTH * unit)  # fmt: skip
    _view(d, -step / 2, p, turn("X", 0), first, "first set-up")
    _view(d, step / 2, p, p.matrix, p.now, "turned")
    d.write(((p.size[0] - after[0]) / 4 - 6 * unit, 0), "→")
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
    for one in points:
        d.circle((one[0] + shift[0], one[1] + shift[1]), 4 / d.size(1.0), "edge")
    d.write((x, min(front, y)), text, beside=(0, 20))


def _mark(d: Drawing, direction: Vector, box: tuple[float, float, float, float]) -> None:
    """An arrow on the side that lay against the fixed jaw, where it is seen from above."""
    left, front, right, back = box
    tail = ((left + right) / 2, (front + back) / 2)
    tip = {(0, 1): (tail[0], back), (0, -1): (tail[0], front), (1, 0): (right, tail[1]), (-1, 0): (left, tail[1])}.get(
        (int(direction[0]), int(direction[1]))
    )
    if tip:
        d.heading(tail, tip)


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
