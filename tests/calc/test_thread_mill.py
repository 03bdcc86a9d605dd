"""Milled threads: the helix walked in steps, areas by a geometry library, verdicts from both sides."""

import itertools
import math
from typing import Any

import pytest
from shapely.geometry import Polygon

from calc.catalogue import work_out
from calc.formulas.thread_milling import (
    FLANK,
    equal_area_depths,
    form_growth,
    growth_constant,
    path_radius_for,
    pitch_diameter_cut,
    tip_reach,
)
from calc.quantity import Refused

M10 = {"thread": "M10x1.5", "cutter_diameter": "7.5 mm"}
FED = {**M10, "teeth": "3", "spindle_speed": "3000 rpm", "feed_per_tooth": "0.04 mm"}
BOLT = {"thread": "M10x1.5", "side": "external", "cutter_diameter": "10 mm"}


def values(base: dict[str, str], **changed: str) -> Any:
    """The values of an answer with some inputs changed."""
    return work_out("thread-mill", {**base, **changed}).values


def groove_width(pitch: float, cutter: float, path: float, rho: float, flat: float, steps: int = 4000) -> float:
    """Width of the groove at radius rho in a section through the axis, the ring walked along the helix in steps.

    At angle a before or after the section the ring stands P a/(2 pi) higher and reaches the section's point at
    its own radius s, where it is w + 2 (Dc/2 - s) tan 30 wide. The groove is all that any step has taken.
    """
    top = low = 0.0
    for step in range(-steps, steps + 1):
        a = math.pi / 2 * step / steps
        s = math.sqrt(rho**2 + path**2 - 2 * rho * path * math.cos(a))
        if s <= cutter / 2:
            half, up = flat / 2 + (cutter / 2 - s) * FLANK, pitch * a / (2 * math.pi)
            top, low = max(top, up + half), min(low, up - half)
    return top - low


def swept_pitch_diameter(pitch: float, cutter: float, path: float, flat: float, internal: bool) -> float:
    """Diameter at which the walked groove is half a pitch wide, by halving."""
    thin, wide = (2 * path, 2 * path + cutter) if internal else (2 * path - cutter, 2 * path)
    for _ in range(40):
        middle = (thin + wide) / 2
        narrow = groove_width(pitch, cutter, path, middle / 2, flat) < pitch / 2
        thin, wide = (thin, middle) if narrow == internal else (middle, wide)
    return (thin + wide) / 2


@pytest.mark.parametrize("share", [0.5, 0.7, 0.8, 0.85])
@pytest.mark.parametrize(("thread", "pitch"), [("M10", 1.5), ("M3", 0.5), ("M20", 2.5), ("1/4-36", 25.4 / 36)])
def test_the_helix_walked_inside(thread: str, pitch: float, share: float) -> None:
    """Second method: at both ends of the window the swept thread is where the sum says, within 5 % of the growth."""
    size = 6.35 if "/" in thread else float(thread[1:])
    base = {"thread": thread, "cutter_diameter": f"{share * size:.6g} mm"}
    found, flat = values(base), pitch / 8
    cutter, growth = share * size, found["form_growth"].value
    assert growth > 0.01 * pitch
    last = found["last_radius"].value
    if last is not None:
        swept = swept_pitch_diameter(pitch, cutter, last, flat, True)
        limit = found["pitch_diameter_max"].value
        assert limit - 0.05 * growth - 1e-5 <= swept <= limit + 1e-6  # never loose
    first = found["path_radius"].value
    bare = 2 * first + cutter - tip_reach(pitch, flat)
    assert swept_pitch_diameter(pitch, cutter, first, flat, True) - bare == pytest.approx(growth, rel=0.06)


@pytest.mark.parametrize(("cutter", "size"), [("6 mm", 6.0), ("10 mm", 10.0), ("30 mm", 30.0)])
def test_the_helix_walked_outside(cutter: str, size: float) -> None:
    """The same round a rod: at the first radius the largest pitch diameter, at the last the smallest."""
    found = values(BOLT, cutter_diameter=cutter)
    for path, limit in (("path_radius", "pitch_diameter_max"), ("last_radius", "pitch_diameter_min")):
        swept = swept_pitch_diameter(1.5, size, found[path].value, 1.5 / 6, False)
        assert swept == pytest.approx(found[limit].value, abs=0.05 * found["form_growth"].value + 1e-5)
        assert path == "path_radius" or swept >= found[limit].value - 1e-6  # never loose
    assert found["form_growth"].value > 0.005


def test_without_a_climb_nothing_grows() -> None:
    """The walk itself: a ring that goes round level cuts a groove as wide as its tooth; so no growth is the walk's."""
    flat, cutter, path = 0.2, 7.5, 1.25
    level = groove_width(1e-9, cutter, path, 4.5, flat)
    assert level == pytest.approx(flat + 2 * (5 - 4.5) * FLANK, abs=1e-6)
    assert form_growth(1.5, 2.0, 4.0) == 0


def test_tips_along_the_path() -> None:
    """Points of the path: the farthest tip is at half the diameter cut, a turn climbs one pitch, at the angle said."""
    found, cutter = values(M10), 7.5
    e, steps = found["path_radius"].value, 20000
    points = [
        (e * math.cos(2 * math.pi * n / steps), e * math.sin(2 * math.pi * n / steps), 1.5 * n / steps)
        for n in range(steps + 1)
    ]
    far = max(math.hypot(x, y) + cutter / 2 for x, y, _ in points)
    assert 2 * far == pytest.approx(found["cut_diameter"].value)
    way = sum(math.dist(a, b) for a, b in itertools.pairwise(points))
    assert math.sin(math.radians(found["helix_angle"].value)) == pytest.approx(1.5 / way, rel=1e-6)


@pytest.mark.parametrize("internal", [True, False])
def test_the_centre_goes_slower_inside_and_faster_outside(internal: bool) -> None:
    """Feed at the tips' circle is what was asked: the centre's turn rate times that circle's radius."""
    base = FED if internal else {**FED, **BOLT}
    found = values(base)
    rate = found["centre_feed"].value / found["path_radius"].value  # radians a minute
    assert rate * found["cut_diameter"].value / 2 == pytest.approx(0.04 * 3 * 3000)
    assert (found["centre_feed"].value < 360) == internal
    assert values(M10)["centre_feed"].value is None


def test_the_printed_formulas_where_nothing_else_rules() -> None:
    """Inside, tips of P/8: the first radius is (D - Dc)/2 and the feed (D - Dc)/D, as threading guides print it."""
    for thread, size, cutter in (("M10", 10, 7.5), ("M16", 16, 12), ("1/4-36 UNS", 6.35, 4.5), ("M3", 3, 2)):
        found = values(FED, thread=thread, cutter_diameter=f"{cutter} mm")
        assert found["path_radius"].value == pytest.approx((size - cutter) / 2)
        assert found["centre_feed"].value == pytest.approx(360 * (size - cutter) / size)


@pytest.mark.parametrize(("depth", "flat", "passes"), [(0.8, 0.19, 3), (0.1, 0.3, 5), (2.0, 0.0, 4), (0.5, 0.1, 1)])
def test_passes_take_equal_areas(depth: float, flat: float, passes: int) -> None:
    """Second method: the groove after each pass as a polygon (shapely); a sharp tip follows the square root."""
    each = equal_area_depths(depth, flat, passes)
    reached = list(itertools.accumulate(each))
    areas = [
        Polygon([(-flat / 2, 0), (flat / 2, 0), (flat / 2 + t * FLANK, t), (-flat / 2 - t * FLANK, t)]).area
        for t in reached
    ]
    for number, area in enumerate(areas, 1):
        assert area == pytest.approx(areas[-1] * number / passes)
    assert reached[-1] == pytest.approx(depth) and each == sorted(each, reverse=True)
    if flat == 0:
        assert reached == pytest.approx([depth * math.sqrt(n / passes) for n in range(1, passes + 1)])


def test_depths_add_up_to_what_is_between_hole_and_tips() -> None:
    """For any number of passes, inside and outside."""
    for passes in ("1", "3", "8"):
        found = values(M10, passes=passes)
        assert sum(found["radial_depths"].value) == pytest.approx((10 - 8.5) / 2)
        assert len(found["radial_depths"].value) == int(passes)
    found = values(BOLT, rod_diameter="9.9 mm")
    assert sum(found["radial_depths"].value) == pytest.approx((9.9 - found["cut_diameter"].value) / 2)


def test_path_and_pitch_diameter_undo_each_other() -> None:
    """Round trip over many cutters, the small difference being where the growth is taken; without growth exactly."""
    for cutter, internal in itertools.product((4.0, 6.0, 7.5), (True, False)):
        for constant in (0.0, growth_constant(1.5)):
            path = path_radius_for(9.1, cutter, 0.97, constant, internal)
            assert path is not None
            again = pitch_diameter_cut(path, cutter, 0.97, constant, internal)
            assert again == pytest.approx(9.1, abs=0.002 if constant else 1e-9)
    assert path_radius_for(9.1, 9.9, 0.97, growth_constant(1.5), True) is None


@pytest.mark.parametrize(
    ("base", "changed", "verdict", "part"),
    [
        (M10, {}, "ok", "Begin at a path radius of 1.25 mm"),
        (M10, {"cutter_diameter": "8.21 mm"}, "ok", "outwards"),
        (M10, {"cutter_diameter": "8.23 mm"}, "watch", "of path radius"),
        (M10, {"cutter_diameter": "8.32 mm"}, "watch", "between cutter and hole"),
        (M10, {"cutter_diameter": "8.5 mm"}, "stop", "does not go into"),
        (M10, {"cutter_diameter": "12 mm"}, "stop", "does not go into"),
        (M10, {"tip_flat": "0.23 mm"}, "watch", "between too tight and too loose"),
        (M10, {"tip_flat": "0.3 mm"}, "stop", "too large"),
        (M10, {"tip_flat": "0.3 mm", "cutter_form": "corrected"}, "stop", "wide"),
        (M10, {"drill_diameter": "8.68 mm"}, "stop", "over the largest minor"),
        (M10, {"drill_diameter": "8.67 mm"}, "ok", "Begin"),
        (M10, {"drill_diameter": "8.37 mm"}, "watch", "trims the crests"),
        (BOLT, {}, "ok", "inwards"),
        (BOLT, {"tip_flat": "0.5 mm"}, "stop", "too small"),
        (BOLT, {"rod_diameter": "9.7 mm"}, "stop", "under the smallest major"),
        (BOLT, {"rod_diameter": "10 mm"}, "watch", "trims the crests"),
    ],
)  # fmt: skip
def test_what_is_said(base: dict[str, str], changed: dict[str, str], verdict: str, part: str) -> None:
    """Both sides of each threshold, by hand from the limits of M10: 8.376 to 8.676, 9.732 to 9.968."""
    found = work_out("thread-mill", {**base, **changed})
    assert (found.verdict, part in found.reason) == (verdict, True), found.reason


@pytest.mark.parametrize(("thread", "hole"), [("M16", "14.2 mm"), ("M30", "26.7 mm"), ("M6x0.5", "5.59 mm")])
def test_the_largest_cutter_is_the_largest(thread: str, hole: str) -> None:
    """Second method: cutters tried in steps of 0.001 mm; the last one that is ok is the one said."""
    base = {"thread": thread, "cutter_diameter": "4 mm", "drill_diameter": hole}
    said = values(base)["largest_cutter"].value
    low = math.floor(said * 1000) - 30
    tried = [low / 1000 + step / 1000 for step in range(60)]
    fine = [
        one for one in tried if work_out("thread-mill", {**base, "cutter_diameter": f"{one:.3f} mm"}).verdict == "ok"
    ]
    assert max(fine) == pytest.approx(said, abs=0.0011) and len(fine) < 60


def test_a_nearer_cutter_leaves_less_room() -> None:
    """Growth rises and the window closes as the cutter comes up to the thread; corrected it stays as it is."""
    sizes = [f"{size / 10} mm" for size in range(50, 84, 3)]
    growth = [values(M10, cutter_diameter=one)["form_growth"].value for one in sizes]
    room = [values(M10, cutter_diameter=one)["path_room"].value for one in sizes]
    assert growth == sorted(growth) and room == sorted(room, reverse=True)
    even = [values(M10, cutter_diameter=one, cutter_form="corrected")["path_room"].value for one in sizes]
    assert even == pytest.approx([0.09] * len(even))


def test_a_post_scriptum_on_per_cent() -> None:
    """M6 with 5 mm is 92.4 % of 5/8 H and 77 % of an inch chart: one is the value, the other is in the working."""
    found = work_out("thread-mill", {"thread": "M6", "cutter_diameter": "4.5 mm"})
    assert found.values["thread_share"].value == pytest.approx(0.9238, abs=1e-4)
    assert any("77 %" in one.result for one in found.working)


@pytest.mark.parametrize(
    ("changed", "field"),
    [
        ({"thread": "banana"}, "thread"),
        ({"thread": "M500x6"}, "thread"),
        ({"thread": "M3x2"}, "thread"),
        ({"thread": "1/4-28 UNJF"}, "thread"),
        ({"thread_class": "6g"}, "thread_class"),
        ({"thread_class": "2B"}, "thread_class"),
        ({"rod_diameter": "10 mm"}, "rod_diameter"),
        ({"drill_diameter": "10 mm"}, "drill_diameter"),
        ({"side": "external", "drill_diameter": "8.5 mm"}, "drill_diameter"),
        ({"side": "external", "rod_diameter": "8 mm"}, "rod_diameter"),
        ({"tip_flat": "0.75 mm"}, "tip_flat"),
        ({"cutter_diameter": "1.5 mm"}, "cutter_diameter"),
    ],
)
def test_what_makes_no_sense_is_refused(changed: dict[str, str], field: str) -> None:
    """Each on its own field."""
    with pytest.raises(Refused) as refused:
        work_out("thread-mill", {**M10, **changed})
    assert refused.value.field == field


def test_classes_and_engagement() -> None:
    """The class is chosen by thread and side; 3B is tighter than 2B; UNS takes nine pitches where UNC takes D."""
    wide, tight = (
        values({"thread": "1/4-20", "cutter_diameter": "4 mm"}, thread_class=one)["pitch_diameter_max"].value
        for one in ("2B", "3B")
    )
    assert tight < wide == values({"thread": "1/4-20", "cutter_diameter": "4 mm"})["pitch_diameter_max"].value
    coarse, special = (
        values({"thread": f"1-8 {one}", "cutter_diameter": "15 mm"})["pitch_diameter_max"].value
        for one in ("UNC", "UNS")
    )
    assert special > coarse  # 9 P is 1.125 in, D is 1 in
    assert values({"thread": "1-8", "cutter_diameter": "15 mm"})["pitch_diameter_max"].value == coarse
