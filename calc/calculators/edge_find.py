"""A face found with a finder: where it is, what to enter, how good it is, and the usual slips."""

from collections.abc import Iterator, Mapping
from typing import Any

from calc.answer import Advice, Finding, Step, Value, judged
from calc.calculators.edge_sums import SIGNS, Sums, sums
from calc.declare import Calculator, Guard
from calc.drawing import Drawing, corners
from calc.quantity import Quantity, Reading, Refused, at_most, values
from calc.show import hundredths, mm, number, show

FAR = 10000.0
RIGHT = 0.02  # mm: an entered zero this near is right (judgement)
SAME = 0.03  # of the tip's radius: near enough to name a slip (judgement)
FINE, ROUGH = 0.05, 0.2  # mm of expanded uncertainty: from here on only good to centre roughly (judgement)
CUT_FACE = 0.01  # mm: what a light cut leaves of roughness and lean (judgement)
FULL = 1000  # degrees of freedom that need no number any more
WIDEST = 50.0  # mm: no tip is thicker (judgement)
ENOUGH = 10  # touches that know their own scatter well enough (judgement)

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
    Quantity("repeatability", "Scatter of touches (standard deviation)", "mm", "Touch five times. Empty: 0.005 mm, "
             "from memory.", low=0, high=5),
    Quantity("readings_taken", "Touches behind that scatter", "1", "Empty: many, well known.", kind="whole", low=2,
             high=1000),
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


def find(readings: Mapping[str, Reading]) -> Finding:
    """What is found for one face, or two. Raises Refused."""
    v = values(readings)
    if "readings_taken" in v and "repeatability" not in v:
        raise Refused("repeatability", "Scatter of touches (repeatability) is needed with readings_taken: theirs")
    s = sums(v)
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
        advice=() if verdict == "ok" else tuple(_advice(v, s)),
        cautions=("Take the finder out of the spindle before it turns fast.",),
        working=tuple(_working(v, s)),
        drawing=_drawing(v, s),
    )


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
        yield "watch", f"Good to {show(s.uncertainty, 'mm')} only: no datum yet."


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
    if not at_most(d + error, min(3 * d, WIDEST)):
        said = "No tip would fit: readings or sides are mixed up."
    return next((text for out, text in usual if abs(error - out) <= SAME * d), said)


def _advice(v: Mapping[str, Any], s: Sums) -> Iterator[Advice]:
    if s.entered_error is not None and abs(s.entered_error) > RIGHT:
        yield Advice(f"Enter {show(s.face, 'mm')}", "entered_zero", round(s.face, 6), "mm")
    if s.uncertainty > FINE:
        yield _better(v)


def _better(v: Mapping[str, Any]) -> Advice:
    """What makes it fine enough for a datum; a number to try only where that alone does."""
    if sums({**v, "surface_defect": CUT_FACE}).uncertainty <= FINE:
        return Advice("Take a light cut over the face and touch again", "surface_defect", CUT_FACE, "mm")
    if v.get("readings_taken", ENOUGH) < ENOUGH and sums({**v, "readings_taken": ENOUGH}).uncertainty <= FINE:
        return Advice("Touch ten times: few touches do not know their own scatter", "readings_taken", ENOUGH)
    return Advice("Look for what is loose or leans, take a light cut over the face and touch again")


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
    if "readings_taken" in v:
        yield Step("Coverage factor k", "Student's t at ν = u⁴/Σ(uᵢ⁴/νᵢ), cut off to a whole number",
                   f"scatter: ν = {v['readings_taken']} − 1; all together: ν = {_counted(s.freedom)}",
                   number(s.k, "1"))  # fmt: skip
    yield Step("Good to", "k × root of: scatter², (face/2√3)², (swing/2√3)², (lost motion/2√3)²",
               f"k = {number(s.k, '1')}", show(s.uncertainty, "mm"))  # fmt: skip


def _counted(freedom: float) -> str:
    return number(freedom, "1") if freedom < FULL else f"over {FULL}"


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
        "The tip's own size is taken as known. So is the scatter, unless the touches behind it are counted: then k is "
        "Student's, by the effective degrees of freedom, cut off to a whole number.",
    ),
    sources=(
        "Uncertainty: JCGM 100:2008 (GUM), 4.3.7, 5.1.2, G.3, G.4. Student's t: Abramowitz and Stegun 26.7. "
        "Positions: own geometry.",
        "Scatter of a finder and lost motion as assumed: from memory; measure your own.",
    ),
    bench_note="finding-a-datum",
)  # fmt: skip
