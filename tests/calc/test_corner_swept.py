"""Corner engagement and rises against an independent swept-area simulation (Shapely)."""

import pytest

from calc.catalogue import work_out
from tests.calc.swept import peaks

# (interior angle, finished radius, cutter radius, wall stock, roughing radius or None)
CASES = (
    (90, 6.0, 5.0, 0.5, None),
    (90, 8.0, 5.0, 1.0, None),
    (90, 5.25, 5.0, 0.5, None),
    (60, 6.0, 5.0, 0.5, None),
    (120, 6.0, 5.0, 0.5, None),
    (90, 6.0, 5.0, 0.5, 6.0),
    (90, 6.0, 5.0, 0.5, 8.0),
    (120, 4.0, 3.0, 0.3, 6.0),
    (60, 5.0, 4.0, 0.4, 5.0),
)


@pytest.mark.parametrize(("angle", "finished", "cutter", "stock", "rougher"), CASES)
def test_engagement_and_removal(
    angle: float, finished: float, cutter: float, stock: float, rougher: float | None
) -> None:
    """The peak angle within an eighth of a degree, the depth within 0.5 %: what polygons and steps can tell."""
    typed = {
        "cutter_diameter": f"{2 * cutter} mm",
        "corner_radius": f"{finished} mm",
        "radial_depth": f"{stock} mm",
        "corner_angle": str(angle),
    }
    if rougher:
        typed["roughing_cutter_diameter"] = f"{2 * rougher} mm"
    values = work_out("corner-clearance", typed).values
    engagement, depth = peaks(180 - angle, finished, cutter, stock, rougher or 0.0)
    assert values["corner_engagement"].value == pytest.approx(engagement, abs=0.125)
    assert values["like_straight_depth"].value == pytest.approx(depth, rel=0.005)
    assert values["removal_rate_rise"].value == pytest.approx(depth / stock, rel=0.005)
