"""Vice, table or spindle out of true: how much, over the face, and which way to tap."""

from collections.abc import Iterator, Mapping
from typing import Any

from calc.answer import Advice, Finding, Step, Value, judged
from calc.declare import Calculator, Guard
from calc.drawing import Drawing
from calc.formulas.squareness import slope
from calc.quantity import Quantity, Reading, at_most, values
from calc.show import mm, show

FAR = 100.0
PLACES = ("vice_jaw", "table_or_part", "spindle_swept")
NEAR = 0.5  # of the limit

INPUTS = (
    Quantity("what", "Indicated", choices=PLACES, kind="choice", default="vice_jaw", first=True),
    Quantity("reading_a", "Reading at A", "mm", "More: pushed in.", low=-FAR, high=FAR, required=True, first=True),
    Quantity("reading_b", "Reading at B", "mm", low=-FAR, high=FAR, required=True, first=True),
    Quantity("distance", "From A to B", "mm", "Of a swept spindle: the circle's diameter.", above=0, high=5000,
             required=True, first=True),
    Quantity("face_length", "Length that matters on the part", "mm", above=0, high=5000, required=True, first=True),
    Quantity("error_limit", "It may be out by, over that", "mm", above=0, high=10, default="0.02 mm", first=True),
    Quantity("bolt_distance", "From the pivot to where you tap", "mm", "Empty: A to B.", above=0, high=5000),
)  # fmt: skip
OUTPUTS = (
    Quantity("error_over_face", "Out over the part", "mm", "without its sign"),
    Quantity("taper", "Rise from A to B", "mm/100 mm"),
    Quantity("correction", "Move it where you tap by", "mm"),
    Quantity("which_way", "Which way"),
)


def find(readings: Mapping[str, Reading]) -> Finding:
    """What is found for two readings. Raises Refused."""
    v = values(readings)
    taper = slope(v["reading_a"], v["reading_b"], v["distance"])
    error = abs(taper) * v["face_length"] / 100
    move = abs(taper) * v.get("bolt_distance", v["distance"]) / 100
    way = _way(v, taper)
    verdict, reason = judged(_found(v, error, way), f"Out by {show(error, 'mm')} over the part.")
    return Finding(
        values={
            "error_over_face": error,
            "taper": taper,
            "correction": move,
            "which_way": Value(way or None, why="both readings are the same"),
        },
        verdict=verdict,
        reason=reason,
        advice=tuple(_advice(way, move)) if verdict != "ok" else (),
        cautions=("Spindle stopped and off while an indicator is in it. Tighten, then measure again: bolts pull.",),
        working=tuple(_working(v, taper, error, move)),
        drawing=_drawing(v, taper),
    )


def _way(v: Mapping[str, Any], taper: float) -> str:
    """An indicator reads more where the face comes towards it."""
    if not taper:
        return ""
    near, far = ("B", "A") if taper > 0 else ("A", "B")
    if v["what"] == "spindle_swept":
        return f"the swept circle comes down at {near}: turn the head so that it rises there"
    return f"{near} stands nearer to the indicator: tap {near} away from it, about {far}"


def _found(v: Mapping[str, Any], error: float, way: str) -> Iterator[tuple[str, str]]:
    limit = v["error_limit"]
    said = f"Out by {show(error, 'mm')} over the part: {way}."
    if not at_most(error, limit):
        yield "stop", said
    elif not at_most(error, NEAR * limit):
        yield "watch", said


def _advice(way: str, move: float) -> Iterator[Advice]:
    yield Advice(f"Move it by {show(move, 'mm')}: {way}")
    yield Advice("Then indicate again, from A to B and back")


def _working(v: Mapping[str, Any], taper: float, error: float, move: float) -> Iterator[Step]:
    yield Step(
        "Rise",
        "100 (B − A)/distance",
        f"100 × ({mm(v['reading_b'])} − ({mm(v['reading_a'])}))/{mm(v['distance'])}",
        show(taper, "mm/100 mm"),
    )
    yield Step(
        "Over the part", "rise × length/100", f"{mm(abs(taper))} × {mm(v['face_length'])}/100", show(error, "mm")
    )
    over = v.get("bolt_distance", v["distance"])
    yield Step("Where you tap", "rise × distance from the pivot/100", f"{mm(abs(taper))} × {mm(over)}/100",
               show(move, "mm"))  # fmt: skip


def _drawing(v: Mapping[str, Any], taper: float) -> str:
    d = Drawing("The face from A to B, its lean drawn large", 0.5, 0.0, 1.4, 200)
    lean = 0.12 if taper > 0 else -0.12 if taper < 0 else 0.0
    d.hatched([d.to((0, -lean / 2)), d.on((1, lean / 2)), d.on((1, -0.6)), d.on((0, -0.6)), "Z"], "stock-left")
    d.shape([d.to((0, -lean / 2)), d.on((1, lean / 2))], "edge")
    d.line((-0.1, 0), (1.1, 0), "centre")
    for at, name in ((0.04, "A"), (0.96, "B")):
        level = lean * (at - 0.5)
        d.heading((at, level + 0.2), (at, level))
        d.write((at, level + 0.22), f"{name} {show(v['reading_' + name.lower()], 'mm')}", "middle", (0, -4))
    d.write((0.5, -0.25), show(abs(taper), "mm/100 mm"))
    return d.svg()


TRAM = Calculator(
    name="tram",
    title="Out of true",
    step="datum",
    question="Is it true, and which way do I tap?",
    inputs=INPUTS,
    outputs=OUTPUTS,
    headline="error_over_face",
    find=find,
    example={
        "what": "vice_jaw",
        "reading_a": "0 mm",
        "reading_b": "0.06 mm",
        "distance": "120 mm",
        "face_length": "80 mm",
    },
    guard=Guard("error_over_face", at_most="0.02 mm"),
    about=(
        "Two readings along a jaw, a table or a swept circle say how far it leans. The sum says what that makes on the "
        "part, and which end to move.",
        "It cannot know a jaw that is dented or a stem that slips. Run the indicator back: A must read as before.",
    ),
    limits=(
        "The indicator moves straight along, its stem square to the face (a lever's angle reads too much).",
        "More means pushed in. Half the limit as a first warning is a judgement.",
    ),
    sources=("Own geometry: similar triangles.",),
    bench_note="finding-a-datum",
)  # fmt: skip
