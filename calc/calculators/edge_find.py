"""A face found with a finder: where it is, what to enter, how good it is, and the usual slips."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from calc.answer import Advice, Finding, Step, Value, judged
from calc.declare import Calculator, Guard
from calc.drawing import Drawing, corners
from calc.formulas.setting import face_position
from calc.formulas.uncertainty import combined, coverage_factor, rectangular
from calc.quantity import Quantity, Reading, values
from calc.show import hundredths, mm, number, show

FAR = 10000.0
RIGHT = 0.02  # mm: an entered zero this near is right (judgement)
SAME = 0.03  # of the tip's radius: near enough to name a slip (judgement)
LEFT_OF_SWING = 0.1  # of the swing that a kicking finder keeps (judgement)
FINE, ROUGH = 0.05, 0.2  # mm of expanded uncertainty: from here on only good to centre roughly (judgement)
SIGNS = {"+X": 1, "-X": -1, "+Y": 1, "-Y": -1}

INPUTS = (
    Quantity("approach", "The finder moved", choices=tuple(SIGNS), kind="choice", default="+X", first=True),
    Quantity("reading", "Reading at the touch", "mm", "Of the spindle's axis.", low=-FAR, high=FAR, required=True,
             first=True),
    Quantity("finder_diameter", "Diameter of the finder's tip", "mm", "Of the tip, not of the body.", above=0, high=100,
             required=True, first=True),
    Quantity("entered_zero", "Position that was entered for the face", "mm", "To have it checked.", low=-FAR, high=FAR,
             first=True),
    Quantity("second_reading", "Reading at the face opposite", "mm", "Moving the other way.", low=-FAR, high=FAR,
             first=True),
    Quantity("known_width", "Width between them, measured", "mm", above=0, high=FAR, first=True),
    Quantity("finder_kind", "Kind of finder", choices=("kicking", "fixed_stylus", "plain_pin", "dial", "touch_trigger",
             "cutter_with_feeler"), kind="choice", default="kicking", first=True),
    Quantity("feeler_thickness", "Feeler between", "mm", low=0, high=50, default="0 mm"),
    Quantity("body_diameter", "Diameter of the finder's body", "mm", "To notice it typed for the tip.", above=0,
             high=100),
    Quantity("turned_between", "Turned by 180° between the two touches", kind="yes_no", default="no"),
    Quantity("zero_error", "Tells late by", "mm", "How far it goes past the face before it tells.", low=-5, high=5,
             default="0 mm"),
    Quantity("run_out", "Swing of the tip on an indicator", "mm", low=0, high=5, default="0.01 mm"),
    Quantity("repeatability", "Scatter of touches (standard deviation)", "mm", "Touch five times. From memory.",
             low=0, high=5, default="0.005 mm"),
    Quantity("lost_motion", "Lost motion of the axis", "mm", low=0, high=5, default="0.01 mm"),
    Quantity("surface_defect", "Roughness and lean of the face, in all", "mm", "A sawn face: 0.5 mm or more.",
             low=0, high=20, default="0.01 mm"),
    Quantity("confidence", "Confidence", "1", low=0.5, high=0.999, default="95 %"),
)  # fmt: skip
OUTPUTS = (
    Quantity("face_position", "The face is at", "mm"),
    Quantity("second_face_position", "The face opposite is at", "mm"),
    Quantity("centre", "The middle is at", "mm", "the tip's size falls out of it"),
    Quantity("width_found", "Width found", "mm"),
    Quantity("width_error", "Found less measured", "mm"),
    Quantity("offset_to_enter", "Enter for zero at this face", "mm"),
    Quantity("this_face_should_read", "Then, at the touch, the screen must show", "mm"),
    Quantity("entered_error", "Entered position is out by", "mm"),
    Quantity("expanded_uncertainty", "Good to, either way", "mm", "of the middle where two faces were touched"),
    Quantity("coverage_factor", "Coverage factor k", "1"),
)


@dataclass(frozen=True)
class Sums:
    """Positions in mm; None where no second face or no width was given."""

    way: int
    reach: float
    face: float
    other: float | None
    centre: float | None
    width: float | None
    width_error: float | None
    entered_error: float | None
    uncertainty: float
    k: float


def find(readings: Mapping[str, Reading]) -> Finding:
    """What is found for one face, or two. Raises Refused."""
    v = values(readings)
    s = _sums(v)
    fine = f"The face is at {show(s.face, 'mm')}, good to {show(s.uncertainty, 'mm')}."
    verdict, reason = judged(_found(v, s), fine)
    one_face = "one face only was touched"
    return Finding(
        values={
            "face_position": s.face,
            "second_face_position": Value(s.other, why=one_face),
            "centre": Value(s.centre, why=one_face),
            "width_found": Value(s.width, why=one_face),
            "width_error": Value(s.width_error, why="no second face, or no measured width"),
            "offset_to_enter": s.face,
            "this_face_should_read": -s.way * s.reach,
            "entered_error": Value(s.entered_error, why="what was entered was not given"),
            "expanded_uncertainty": s.uncertainty,
            "coverage_factor": s.k,
        },
        verdict=verdict,
        reason=reason,
        advice=() if verdict == "ok" else tuple(_advice(s)),
        cautions=("Take the finder out of the spindle before it turns fast.",),
        working=tuple(_working(v, s)),
        drawing=_drawing(v, s),
    )


def _sums(v: Mapping[str, Any]) -> Sums:
    way = SIGNS[v["approach"]]
    swing = v["run_out"] if v["finder_kind"] == "plain_pin" else 0.0  # a plain pin that turns touches with its swing
    radius = v["finder_diameter"] / 2 + swing / 2
    reach = radius + v["feeler_thickness"] - v["zero_error"]
    face = face_position(v["reading"], way, reach)
    second = v.get("second_reading")
    other = None if second is None else face_position(second, -way, reach)
    width = None if other is None or second is None else _width(v["reading"], second, way, face, other)
    known, entered = v.get("known_width"), v.get("entered_zero")
    k = coverage_factor(v["confidence"])
    return Sums(
        way=way,
        reach=reach,
        face=face,
        other=other,
        centre=None if second is None else (v["reading"] + second) / 2,
        width=width,
        width_error=None if width is None or known is None else width - known,
        entered_error=None if entered is None else entered - face,
        uncertainty=k * _standard(v, second is not None),
        k=k,
    )


def _width(one: float, two: float, way: int, face: float, other: float) -> float:
    """Outside, moving to the other reading leads away from the first face; inside it leads back over the hollow."""
    outside = (two - one) * way > 0
    return (other - face) * way if outside else (face - other) * way


def _standard(v: Mapping[str, Any], both: bool) -> float:
    """Standard uncertainty of the face, or of the middle of two."""
    kind, swing = v["finder_kind"], v["run_out"]
    scatter = combined([v["repeatability"], rectangular(v["surface_defect"])]) / (2**0.5 if both else 1)
    lost = 0.0 if both else rectangular(v["lost_motion"])
    if kind == "plain_pin" or (both and v["turned_between"] == "yes"):
        swing = 0.0
    elif kind == "kicking":
        swing *= LEFT_OF_SWING
    return combined([scatter, lost, rectangular(swing)])


def _found(v: Mapping[str, Any], s: Sums) -> Iterator[tuple[str, str]]:
    r = v["finder_diameter"] / 2
    if s.entered_error is not None and abs(s.entered_error) > RIGHT:
        yield "stop", f"The entered position is {hundredths(abs(s.entered_error))} out. {_slip(s, r)}"
    if s.width is not None and s.width <= 0:
        yield "stop", "The two readings are nearer to each other than the finder is thick: one of them is wrong."
    elif s.width_error is not None and abs(s.width_error) > max(RIGHT, 2 * s.uncertainty):
        yield "stop", f"The width comes out {show(s.width_error, 'mm')} wrong. {_width_slip(v, s)}"
    body = v.get("body_diameter")
    if body is not None and abs(body - v["finder_diameter"]) <= SAME * r:
        yield "watch", "The diameter typed is that of the body: a finder touches with its tip."
    if s.uncertainty > ROUGH:
        yield "watch", f"Good to {show(s.uncertainty, 'mm')} only: enough to centre roughly, no datum."
    elif s.uncertainty > FINE:
        yield "watch", f"Good to {show(s.uncertainty, 'mm')} only. Mill this face before you trust it as a datum."


def _slip(s: Sums, r: float) -> str:
    error = (s.entered_error or 0.0) * s.way
    usual = (
        (-r, "Half the finder was forgotten."),
        (-2 * r, "Half the finder was taken with the wrong sign."),
        (r, "Half the finder was taken twice: once too often."),
        (-r / 2, "A quarter of the finder is missing: the radius was halved again."),
    )
    return next((text for out, text in usual if abs(error - out) <= SAME * r), "Touch again, the same way round.")


def _width_slip(v: Mapping[str, Any], s: Sums) -> str:
    d, error, body = v["finder_diameter"], s.width_error or 0.0, v.get("body_diameter")
    outside = (v["second_reading"] - v["reading"]) * s.way > 0
    error = error if outside else -error
    usual = [
        (-d, "The readings had half the finder taken off already."),
        (-2 * d, "The sides are mixed up, or half the finder has the wrong sign."),
        (d, "The whole finder is missing: half of it at each face."),
    ]
    if body is not None:
        usual += [(body - d, "The body's diameter was typed for the tip's, or the other way round.")]
        usual += [(d - body, "The body's diameter was typed for the tip's, or the other way round.")]
    said = f"It would fit a tip of {show(d + error, 'mm')}." if d + error > 0 else "Touch again."
    return next((text for out, text in usual if abs(error - out) <= SAME * d), said)


def _advice(s: Sums) -> Iterator[Advice]:
    if s.entered_error is not None and abs(s.entered_error) > RIGHT:
        yield Advice(f"Enter {show(s.face, 'mm')}", "entered_zero", round(s.face, 6), "mm")
    if s.uncertainty > FINE:
        yield Advice("Take a light cut over the face and touch again", "surface_defect", 0.01, "mm")


def _working(v: Mapping[str, Any], s: Sums) -> Iterator[Step]:
    sign, back = ("+", "−") if s.way > 0 else ("−", "+")
    yield Step("From the axis to the face", "half the tip (+ half the swing of a plain pin) + feeler − tells late",
               f"{mm(v['finder_diameter'])}/2 + {mm(v['feeler_thickness'])} − {mm(v['zero_error'])}",
               show(s.reach, "mm"))  # fmt: skip
    yield Step("The face", f"reading {sign} that, the way it moved", f"{mm(v['reading'])} {sign} {mm(s.reach)}",
               show(s.face, "mm"))  # fmt: skip
    if s.other is not None and s.centre is not None and s.width is not None:
        yield Step("The face opposite", f"its reading {back} that", f"{mm(v['second_reading'])} {back} {mm(s.reach)}",
                   show(s.other, "mm"))  # fmt: skip
        yield Step("The middle", "half the sum of the readings", f"({mm(v['reading'])} + {mm(v['second_reading'])})/2",
                   show(s.centre, "mm"))  # fmt: skip
        yield Step("Width", "between the two faces", f"{mm(s.face)} to {mm(s.other)}", show(s.width, "mm"))
    yield Step("Good to", "k × root of: scatter², (face/2√3)², (swing/2√3)², (lost motion/2√3)²",
               f"k = {number(s.k, '1')}", show(s.uncertainty, "mm"))  # fmt: skip


def _drawing(v: Mapping[str, Any], s: Sums) -> str:
    r = v["finder_diameter"] / 2
    span = 9 * r
    axis = v["approach"][1]
    d = Drawing(f"The finder at the face, seen from above; {axis} to the right", s.way * 0.5 * r, 0.0, span)
    side = sorted((s.way * s.reach, s.way * 8 * r))
    d.block(corners(side[0], -8 * r, side[1], 8 * r), "stock-left")
    d.circle((0, 0), r, "cutter")
    d.line((0, -1.6 * r), (0, 1.6 * r), "centre")
    d.line((-1.6 * r, 0), (1.6 * r, 0), "centre")
    d.heading((-s.way * 3.2 * r, 0), (-s.way * 1.4 * r, 0))
    d.leader((0, 1.5 * r), "nw", 0, f"axis {show(v['reading'], 'mm')}")
    d.leader((s.way * s.reach, -2.2 * r), "se", 0, f"face {show(s.face, 'mm')}")
    d.leader((-0.7 * r, -0.7 * r), "sw", 1, f"tip ⌀{show(2 * r, 'mm')}")
    if s.entered_error is not None and abs(s.entered_error) > RIGHT:
        x = max(-4 * r, min(4 * r, s.way * s.reach + s.entered_error))
        d.line((x, -2.6 * r), (x, 2.6 * r), "hidden-edge")
        d.leader((x, 2.5 * r), "nw", 1, f"entered {show(v['entered_zero'], 'mm')}")
    return d.svg()


EDGE_FIND = Calculator(
    name="edge-find",
    title="A face found with a finder",
    step="datum",
    question="Where is the face, and what do I enter?",
    inputs=INPUTS,
    outputs=OUTPUTS,
    headline="face_position",
    find=find,
    example={
        "approach": "+X",
        "reading": "-182.4 mm",
        "finder_diameter": "10 mm",
        "entered_zero": "-182.4 mm",
        "finder_kind": "kicking",
    },
    guard=Guard("entered_error", at_most="0.02 mm", at_least="-0.02 mm"),
    about=(
        "At the touch the spindle's axis stands half a tip away from the face. The sum adds it the right way round, "
        "says what the screen must then show, and which slip explains a wrong number.",
        "Two opposite faces give the middle whatever the tip measures, and a known width checks the tip. A raw sawn "
        "face is good enough to centre roughly, no more.",
    ),
    limits=(
        "X and Y only. The tip is round and the face is square to the axis.",
        "Run-out: a kicking finder keeps about a tenth of it (judgement); a stylus that is not turned shifts face and "
        "middle by up to half the swing; turned by 180° between two touches the middle is clean; a plain pin that "
        "turns touches early by half the swing, which is taken off.",
        "The tip's own size is taken as known.",
    ),
    sources=(
        "Uncertainty: JCGM 100:2008 (GUM), 4.3.7, 5.1.2, annex G. Positions: own geometry.",
        "Scatter of a finder and lost motion as assumed: from memory; measure your own.",
    ),
    bench_note="finding-a-datum",
)  # fmt: skip
