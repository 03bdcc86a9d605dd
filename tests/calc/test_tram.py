"""Which way something leans, by turning a box in a geometry library."""

import math

import pytest
from shapely import affinity
from shapely.geometry import box

from calc.catalogue import work_out


@pytest.mark.parametrize(
    ("a", "b", "what", "part"),
    [("0", "0.06", "vice_jaw", "tap B away"), ("0.06", "0", "vice_jaw", "tap A away"),
     ("0", "0.06", "spindle_swept", "comes down at B")],
)  # fmt: skip
def test_which_way_to_tap(a: str, b: str, what: str, part: str) -> None:
    """More is nearer. 0.06 over 120 mm is 0.04 over 80; a face turned by what is said reads the same at both ends."""
    base = {"reading_a": a, "reading_b": b, "distance": "120 mm", "face_length": "80 mm", "what": what}
    found = work_out("tram", base)
    assert found.verdict == "stop" and part in found.reason
    assert found.values["error_over_face"].value == pytest.approx(0.04)
    angle = math.atan(float(found.values["taper"].value) / 100)
    jaw = affinity.rotate(box(0, -20, 120, 0), math.degrees(angle), origin=(0, 0))
    heights = [max(y for x, y in jaw.exterior.coords if abs(x - at) < 1) for at in (0, 120)]
    assert heights[1] - heights[0] == pytest.approx(float(b) - float(a), abs=1e-4)
    even = work_out("tram", {**base, "reading_b": a})
    assert even.verdict == "ok" and even.values["which_way"].value is None
