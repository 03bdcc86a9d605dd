"""The sums behind a face found with a finder: places, width, and how good they are."""

from collections.abc import Mapping
from dataclasses import dataclass
from math import inf
from typing import Any

from calc.formulas.setting import face_position
from calc.formulas.uncertainty import combined, effective_freedom, rectangular, student_factor

SIGNS = {"+X": 1, "-X": -1, "+Y": 1, "-Y": -1}
SCATTER = 0.005  # mm: of touches, where it was not measured (from memory)
LEFT_OF_SWING = 0.1  # of the swing that a kicking finder keeps (judgement)


@dataclass(frozen=True)
class Sums:
    """Positions in mm; None where no second face or no width was given. `freedom`: infinite where all is known."""

    way: int
    reach: float
    face: float
    other: float | None
    centre: float | None
    width: float | None
    width_error: float | None
    entered_error: float | None
    uncertainty: float
    freedom: float
    k: float


def sums(v: Mapping[str, Any]) -> Sums:
    """Everything that is worked out, from the values of the inputs."""
    way = SIGNS[v["approach"]]
    swing = v["run_out"] if v["finder_kind"] == "plain_pin" else 0.0  # a plain pin that turns touches with its swing
    radius = v["finder_diameter"] / 2 + swing / 2
    reach = radius + v["feeler_thickness"] - v["zero_error"]
    face = face_position(v["reading"], way, reach)
    second = v.get("second_reading")
    other = None if second is None else face_position(second, -way, reach)
    width = None if other is None or second is None else _width(v["reading"], second, way, face, other)
    known, entered = v.get("known_width"), v.get("entered_zero")
    parts = _parts(v, second is not None)
    freedom = effective_freedom(parts)
    k = student_factor(v["confidence"], freedom)
    return Sums(
        way=way,
        reach=reach,
        face=face,
        other=other,
        centre=None if second is None else (v["reading"] + second) / 2,
        width=width,
        width_error=None if width is None or known is None else width - known,
        entered_error=None if entered is None else entered - face,
        uncertainty=k * combined(part for part, _ in parts),
        freedom=freedom,
        k=k,
    )


def _width(one: float, two: float, way: int, face: float, other: float) -> float:
    """Outside, moving to the other reading leads away from the first face; inside it leads back over the hollow."""
    outside = (two - one) * way > 0
    return (other - face) * way if outside else (face - other) * way


def _parts(v: Mapping[str, Any], both: bool) -> tuple[tuple[float, float], ...]:
    """Standard uncertainties of the face, or of the middle of two, each with its degrees of freedom.

    Two touches of the same scatter halve its square in the middle; it is known from as many touches as before.
    """
    kind, swing = v["finder_kind"], v["run_out"]
    halved = 2**0.5 if both else 1.0
    lost = 0.0 if both else rectangular(v["lost_motion"])
    if kind == "plain_pin" or (both and v["turned_between"] == "yes"):
        swing = 0.0
    elif kind == "kicking":
        swing *= LEFT_OF_SWING
    return (
        (v.get("repeatability", SCATTER) / halved, v["readings_taken"] - 1 if "readings_taken" in v else inf),
        (rectangular(v["surface_defect"]) / halved, inf),
        (lost, inf),
        (rectangular(swing), inf),
    )
