"""The part turned over: against SciPy's rotations, by walking a marked block through every turn, and the usual slip."""

import random
from math import dist
from typing import Any

import numpy as np
import pytest
from scipy.spatial.transform import Rotation

from calc.answer import Answer
from calc.calculators.second_setup import TURNS
from calc.catalogue import work_out
from calc.formulas.placing import FACES, carried, placed, tilt_shift, turn
from calc.quantity import Refused

PLATE = {
    "turn": "X_180", "part_length": "120 mm", "part_width": "60 mm", "part_thickness": "12 mm",
    "features": "10,-8,0; 100,-8,0 mm",
}  # fmt: skip
SIDES = {"left": -1, "right": 1}
JAWS = {"back": 1, "front": -1}


def turned(**changed: str) -> Answer:
    """The Answer for a plate of 120 x 60 x 12 with some inputs changed."""
    return work_out("second-setup", PLATE | changed)


def value(name: str, **changed: str) -> Any:
    """One value of it."""
    return turned(**changed).values[name].value


@pytest.mark.parametrize("name", TURNS)
def test_against_a_general_library(name: str) -> None:
    """SciPy turns the block's eight corners and the features; pushed into the corner again they lie where we say."""
    chance = random.Random(name)
    for _ in range(20):
        size = [round(chance.uniform(5, 200), 2) for _ in range(3)]
        points = [[round(chance.uniform(-50, 50), 2) for _ in range(3)] for _ in range(4)]
        stop, jaw = chance.choice(list(SIDES)), chance.choice(list(JAWS))
        found = value("features_turned", turn=name, stop_side=stop, fixed_jaw=jaw, part_length=str(size[0]),
                      part_width=str(size[1]), part_thickness=str(size[2]), datum="0,0,0", new_datum="0,0,0",
                      features="; ".join(",".join(map(str, one)) for one in points))  # fmt: skip
        signs = np.array([-SIDES[stop], -JAWS[jaw], 1])
        block = np.array([[x, y, z] for x in (0, 1) for y in (0, 1) for z in (0, 1)]) * size * signs
        spin = Rotation.from_euler(name[0].lower(), int(name[2:]), degrees=True)
        after = spin.apply(block)
        low, high = after.min(axis=0), after.max(axis=0)
        touching = np.where(signs > 0, low, high)  # what comes to stop, jaw and seat
        assert np.allclose(spin.apply(points) - touching, found, atol=1e-9)


def test_distances_are_kept_and_nothing_is_mirrored() -> None:
    """Rigid motion: all distances stay, and the sense of three directions stays right-handed."""
    points = [(0.0, 0.0, 0.0), (30.0, 0.0, 0.0), (0.0, -20.0, 0.0), (0.0, 0.0, 7.0)]
    text = "; ".join(",".join(map(str, one)) for one in points)
    for name in TURNS:
        found = value("features_turned", turn=name, features=text)
        for one, two in ((0, 1), (1, 2), (2, 3), (0, 3)):
            assert dist(found[one], found[two]) == pytest.approx(dist(points[one], points[two]))
        arms = np.array(found[1:]) - np.array(found[0])
        assert np.linalg.det(arms) == pytest.approx(np.linalg.det(np.array(points[1:])))


@pytest.mark.parametrize("axis", ["X", "Y", "Z"])
def test_there_and_back(axis: str) -> None:
    """Turned by 90 and then by 270 degrees about the same axis everything is where it was."""
    size, point = (80.0, 50.0, 20.0), (13.0, -7.0, 4.0)
    sides = (-1, 0, 0), (0, 1, 0)
    there = placed(turn(axis, 90), *sides, size, point)
    after = tuple(abs(sum(row)) for row in np.array(turn(axis, 90)) * size)
    assert placed(turn(axis, 270), *sides, after, there) == pytest.approx(point)


@pytest.mark.parametrize(
    "changed",
    [
        {"features": "10,8,0"}, {"features": "200,300,400"}, {"features": "10,-70,0"}, {"features": "10,-8,5"},
        {"features": "10,-8,0", "stop_side": "right"}, {"features": "10,-8,0; 10,-8,-12.001"},
        {"features": "10,-8,0", "datum": "115,0,12"},
    ],
)  # fmt: skip
def test_a_feature_outside_the_block_is_watched(changed: dict[str, str]) -> None:
    """Watch with the first such point; the corners of the block themselves are fine."""
    assert turned(**changed).verdict == "watch" and "lies outside the block" in turned(**changed).reason
    assert turned(features="0,0,0; 120,-60,-12; 0.1,-0.2,-0.3").verdict == "ok"
    assert turned(features="-10,-8,0", stop_side="right").verdict == "ok"
    assert "10 mm, -8 mm, -12.001 mm" in turned(features="10,-8,0; 10,-8,-12.001").reason


def test_a_turn_may_be_written_without_its_gap() -> None:
    """X180 is X_180; what the help says of quarter turns is so."""
    assert value("face_up", turn="x180") == "underside"
    assert value("face_up", turn="X_90") == "back edge" and value("face_up", turn="Y_90") == "left end"


def test_the_drawing_says_what_is_what() -> None:
    """Two holes are numbered and dashed once underneath; on stop the second view is what should be."""
    drawn = turned().drawing
    assert drawn.count(">2</text>") == 2 and "fixed-jaw edge" in drawn
    assert drawn.count('<circle class="hidden-edge"') == 2 and drawn.count('<circle class="edge"') == 2
    assert ">turned<" in drawn and ">1</text>" not in turned(features="10,-8,0").drawing
    assert "as it should lie" in turned(edge_against_fixed_jaw="back_edge").drawing


def test_the_wrong_edge_is_named() -> None:
    """A plate turned about Y in place of X: the same edge lies against the jaw, and the ends have changed places."""
    wrong = turned(edge_against_fixed_jaw="back_edge")
    assert wrong.verdict == "stop" and "turned about Y by 180" in wrong.reason
    about_y = np.array(value("features_turned", turn="Y_180"))
    planned = np.array(value("features_turned"))
    assert wrong.values["misplaced"].value == pytest.approx(np.linalg.norm(about_y - planned, axis=1).max())
    tried = [one for one in wrong.advice if one.input]
    assert len(tried) == 2
    for one in tried:
        after = turned(**{"edge_against_fixed_jaw": "back_edge", one.input: one.value})
        assert after.verdict == "ok" and after.values["misplaced"].value == 0


def test_right_and_not_said() -> None:
    """The right edge: ok. None said: ok as well, but without a number, and told to mark it."""
    assert turned(edge_against_fixed_jaw="front_edge").verdict == "ok"
    unsaid = turned()
    assert unsaid.values["misplaced"].value is None and "arrow" in unsaid.cautions[0]


def test_every_way_a_block_can_lie_is_told_apart() -> None:
    """The 24 ways: exactly one pair of faces fits each planned turn; 9 need one turn, 14 need two, 1 none."""
    told = []
    for edge in FACES:
        for end in FACES:
            if np.dot(FACES[edge], FACES[end]):
                with pytest.raises(Refused):
                    turned(edge_against_fixed_jaw=edge, stop_face=end)
                continue
            found = turned(edge_against_fixed_jaw=edge, stop_face=end)
            matrix = carried((FACES[edge], (0, 1, 0)), (FACES[end], (-1, 0, 0)))
            assert np.linalg.det(np.array(matrix)) == pytest.approx(1)
            told.append((found.verdict, "more than one" in found.reason, "not turned at all" in found.reason))
    assert len(told) == 24
    assert sum(verdict == "ok" for verdict, _, _ in told) == 1
    assert sum(many for _, many, _ in told) == 14 and sum(none for *_, none in told) == 1


def test_an_edge_that_is_up_cannot_be_at_the_jaw() -> None:
    """Turned about X by 180 the underside is up: it is refused, with its field."""
    with pytest.raises(Refused) as told:
        turned(edge_against_fixed_jaw="underside")
    assert told.value.field == "edge_against_fixed_jaw"


def test_the_offset_follows_thickness_and_seat() -> None:
    """Zero on top both times: skimmed from 12 to 11.4 nothing changes but by the new top; higher parallels add."""
    assert value("offset_to_enter") == pytest.approx([0, 0, 0])
    assert value("offset_to_enter", seat_height="5 mm", work_zero="-300,-200,-150") == pytest.approx([-300, -200, -145])
    assert value("offset_to_enter", turn="X_90") == pytest.approx([0, 0, 60 - 12])
    assert value("offset_to_enter", new_datum="0,0,0") == pytest.approx([0, 0, -12])


def test_a_chip_by_construction() -> None:
    """A block 50 wide and 20 high on a chip of 0.1 under one side: its top corner moves 0.04 sideways."""
    lean = np.arcsin(0.1 / 50)
    moved = Rotation.from_euler("x", lean).apply([0, 50, 20]) - Rotation.from_euler("x", lean).apply([0, 50, 0])
    assert abs(moved[1]) == pytest.approx(tilt_shift(0.1, 50, 20), rel=1e-5)
    clean, dirty = value("error_budget"), value("error_budget", chip_under="0.1 mm")
    assert dirty[1] - clean[1] == pytest.approx(0.1 * 12 / 60) and dirty[2] - clean[2] == pytest.approx(0.1)


def test_the_tolerance_is_held_on_both_sides() -> None:
    """Watch where the worst cases add up to more than the features may be off by."""
    assert turned(tolerance="0.02 mm").verdict == "ok"
    assert turned(tolerance="0.0199 mm").verdict == "watch"
