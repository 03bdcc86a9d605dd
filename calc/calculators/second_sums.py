"""The sums behind the second set-up: where the block and its features lie, before and after."""

from collections.abc import Mapping
from dataclasses import dataclass
from math import dist
from typing import Any

from calc.formulas.placing import (
    FACES,
    Matrix,
    Vector,
    carried,
    corner_of,
    face_at,
    placed,
    size_after,
    tilt_shift,
    turn,
)
from calc.quantity import Refused

STOPS, JAWS = {"left": (-1, 0, 0), "right": (1, 0, 0)}, {"back": (0, 1, 0), "front": (0, -1, 0)}
UP: Vector = (0, 0, 1)
NEAR = 1e-6  # mm: a sum of decimals this near to a face lies on it


@dataclass(frozen=True)
class Placed:
    """The block as it should lie and as it is said to lie; points in mm from the corner of stop, jaw and seat.

    `outside` is the first feature, as typed, that lies outside the block.
    """

    matrix: Matrix
    lies: Matrix | None
    stop: Vector
    jaw: Vector
    size: Vector
    datum: Vector
    new_datum: Vector
    first: tuple[Vector, ...]
    outside: Vector | None
    now: tuple[Vector, ...]
    misplaced: float | None
    budget: Vector

    def features(self) -> list[list[float]]:
        """The features in the new offset."""
        return [[a - b for a, b in zip(one, self.new_datum, strict=True)] for one in self.now]


def placing(v: Mapping[str, Any]) -> Placed:
    """Where everything lies, from the values of the inputs. Raises Refused."""
    axis, angle = v["turn"].split("_")
    matrix = turn(axis, int(angle))
    stop, jaw = STOPS[v["stop_side"]], JAWS[v["fixed_jaw"]]
    size = (v["part_length"], v["part_width"], v["part_thickness"])
    after = size_after(matrix, size)
    datum = v.get("datum", (0.0, 0.0, size[2]))
    lies = _lies(v, matrix, stop, jaw)
    points = tuple((x + datum[0], y + datum[1], z + datum[2]) for x, y, z in v["features"])
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
        first=points,
        outside=next((a for a, b in zip(v["features"], points, strict=True) if not inside(b, stop, jaw, size)), None),
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


def inside(point: Vector, stop: Vector, jaw: Vector, size: Vector) -> bool:
    """Whether a point from the corner of stop, jaw and seat lies in the block or on it."""
    low, high = corner_of(stop, jaw, size)
    return all(a - NEAR <= at <= b + NEAR for a, at, b in zip(low, point, high, strict=True))
