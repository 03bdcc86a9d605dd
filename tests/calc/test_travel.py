"""Rapids against vice, guard and travel ends, by hand: nothing is published for it.

test_travel_sampled.py checks the geometry by a second method.
"""

import random
import time

import pytest

from calc.answer import Answer
from calc.catalogue import named, work_out
from calc.quantity import Refused
from calc.show import plain
from tests.calc.random_inputs import random_inputs
from tests.calc.travel_cases import BASE, NAME, typed, value

VICE = {**BASE, "obstacles": "0,0,-40,100,60,0", "obstacle_names": "vice"}
ENDS = {"work_zero": "-300,-200,-250", "travel_x": "-600,0", "travel_y": "-400,0", "travel_z": "-400,0"}


def test_the_example_touches_only_off_the_line() -> None:
    """What the page shows: a line on paper passes the clamp, the machine does not."""
    example = dict(named(NAME).example)
    assert work_out(NAME, example).verdict == "stop"
    assert "A straight line would miss it" in work_out(NAME, example).reason
    assert value("clearance", example, rapid="straight") > 2


@pytest.mark.parametrize(
    ("move", "verdict", "part"),
    [
        ("-50,20,2; 50,20,2", "ok", "2 mm at least between the tool and the vice"),
        ("-50,20,1.99; 50,20,1.99", "watch", "Only 1.99 mm"),
        ("-50,20,0; 50,20,0", "stop", "runs into the vice"),
        ("-50,20,-3; 50,20,2", "stop", "3 mm below its top, on the way from point 1 to 2, with the tip at X -5 mm"),
        ("-19,20,-39; -19,80,-39", "watch", "between the holder"),
        ("-17,20,-41; -17,80,-41", "stop", "The holder runs into"),
        ("-6.5,20,5; -6.5,20,-35", "watch", "between the tool"),
        ("50,20,-5", "stop", "at point 1"),
    ],
)
def test_both_sides_of_each_verdict(move: str, verdict: str, part: str) -> None:
    """A tool of 10 mm, 40 mm out of a holder of 36 mm, beside and over a vice whose top is work zero."""
    found = work_out(NAME, {**VICE, "move": move})
    assert found.verdict == verdict and part in found.reason, found.reason


@pytest.mark.parametrize(
    ("x", "verdict", "left"), [("300", "ok", 0), ("300.01", "stop", -0.01), ("-300", "ok", 0), ("-301", "stop", -1)]
)
def test_both_ends_of_the_travel(x: str, verdict: str, left: float) -> None:
    """Work zero at -300 of -600 to 0: as far as the end and no farther."""
    found = work_out(NAME, {**BASE, **ENDS, "move": f"0,0,10; {x},0,10"})
    assert found.verdict == verdict and found.values["least_travel_margin"].value == pytest.approx(left, abs=1e-9)
    assert found.values["travel_margin"].value == pytest.approx([left, 200, 160])
    if verdict == "stop":
        assert f"past the {'upper' if float(x) > 0 else 'lower'} end" in found.reason


def test_where_work_zero_was_read_from() -> None:
    """With the bare nose the whole tool is added: 40 + 50 mm; both ways of reading it say the same."""
    move = {**BASE, **ENDS, "move": "0,0,10", "safe_height": "30"}
    tip = value("travel_margin", move, work_zero="-300,-200,-250")
    assert value("travel_margin", move, work_zero="-300,-200,-340", zero_taken_with="spindle_nose") == tip
    assert value("travel_margin", move, zero_taken_with="spindle_nose")[2] == pytest.approx(250 - 90 - 10)


def test_up_across_and_down() -> None:
    """The move goes to the height typed, up or down, and across there; the height counts in the travel of Z."""
    low = {**VICE, **ENDS, "move": "-60,20,-30; 160,20,-30"}
    assert work_out(NAME, low).verdict == "stop"
    assert value("clearance", low, safe_height="6") == pytest.approx(6)
    assert value("safe_height_margin", low, safe_height="6") == pytest.approx(6)
    assert value("clearance", low, safe_height="-10") == 0
    high = {**VICE, **ENDS, "move": "-60,20,70; 160,20,70"}
    assert value("clearance", high, safe_height="6") == pytest.approx(6)
    assert value("clearance", high, safe_height="1") == pytest.approx(1)
    assert value("travel_margin", low, safe_height="251")[2] == pytest.approx(-1)


def test_every_advice_mends_what_it_was_given_for() -> None:
    """Put back into 350 random cases: room enough, no end of travel passed that was not passed before."""
    tried: dict[str, int] = {}
    for case in random_inputs(NAME, 21, 350):
        try:
            found = work_out(NAME, case)
        except Refused:
            continue
        assert found.verdict == "ok" or found.advice, case
        for one in found.advice:
            if one.input:
                tried[one.input] = tried.get(one.input, 0) + 1
                text = plain(one.value, one.unit) if isinstance(one.value, float) else one.value
                _mends(case, found, one.input, one.text, work_out(NAME, {**case, one.input: text}))
    assert set(tried) == {"safe_height", "tool_length", "work_zero"} and min(tried.values()) > 3, tried


def _mends(case: dict[str, str], before: Answer, name: str, text: str, after: Answer) -> None:
    travel = after.values["least_travel_margin"].value
    if name == "work_zero" or text.startswith("Go up only"):
        assert travel >= -1e-6, (case, text)
        return
    wanted = before.inputs["clearance_wanted"].value
    if any(one.text.startswith("Point") for one in before.advice):
        wanted = min(wanted, *_points_alone(case))
    assert after.values["clearance"].value >= wanted * (1 - 1e-9), (case, text)
    past = before.values["least_travel_margin"].value
    assert travel is None or travel >= min(past, -1e-6), (case, text)


def _points_alone(case: dict[str, str]) -> list[float]:
    """Room at each typed point, without any way to it."""
    without = {key: text for key, text in case.items() if key != "safe_height"}
    rows, (*_, last) = [row.strip() for row in case["move"].split(";")], case["move"].split()
    unit = f" {last}" if last.isalpha() else ""
    points = [row if row.endswith(unit) else row + unit for row in rows]
    return [work_out(NAME, {**without, "move": one}).values["clearance"].value for one in points]


def test_the_height_advised_is_the_least_over_all() -> None:
    """2 mm over the highest box; a tenth lower is too low; where a roof hangs over it, only over what is below."""
    two = {**VICE, "obstacles": "0,0,-40,100,60,0; 40,0,0,60,20,25", "move": "-60,10,-30; 160,10,-30"}
    (up,) = work_out(NAME, two).advice
    assert (up.input, up.value) == ("safe_height", 27)
    assert work_out(NAME, {**two, "safe_height": "26.9"}).verdict == "watch"
    roof = {**two, "obstacles": two["obstacles"] + "; -100,-100,150,200,200,160", "holder_length": "50"}
    assert work_out(NAME, roof).advice[0].value == 27
    none = work_out(NAME, {**roof, "obstacles": two["obstacles"] + "; -100,-100,110,200,200,160"})
    assert none.advice[0].input is None and "go round" in none.advice[0].text
    both = work_out(
        NAME, {**roof, "obstacles": roof["obstacles"] + "; 155,5,-40,165,15,-20; -100,-100,110,200,200,160"}
    )
    assert [text.split(" ")[0] for text in (one.text for one in both.advice)] == ["Point", "No"]
    inside = work_out(NAME, {**two, "move": "-60,10,-30; 50,50,-30"})
    assert [one.input for one in inside.advice] == [None]
    assert "Point 2 itself is too near the vice" in inside.advice[0].text


def test_a_safe_height_under_a_clamp_runs_into_it() -> None:
    """Z 2, then X 100, from 50 over a clamp 30 high: just that is looked at. Every height over the clamp mends it."""
    low = {**BASE, "obstacles": "40,-10,0,60,10,30", "obstacle_names": "clamp", "move": "0,0,50; 100,0,50"}
    found = work_out(NAME, {**low, "safe_height": "2"})
    assert found.verdict == "stop" and "The tool runs into the clamp, 28 mm below its top" in found.reason
    assert found.values["safe_height_margin"].value == -28
    assert (found.advice[0].value, found.advice[0].text[:10]) == (32, "Go to Z 32")
    for height, verdict in (("31", "watch"), ("32", "ok"), ("50", "ok"), ("60", "ok")):
        assert work_out(NAME, {**low, "safe_height": height}).verdict == verdict


def test_a_point_too_near_does_not_hide_the_way_out() -> None:
    """The clamp is on the way and point 2 is too near the part: up first mends the way, the point is told as well."""
    case = {"tool_diameter": "10", "tool_length": "45", "holder_diameter": "40", "move": "-80,60,5; 40,25,5",
            "obstacles": "0,0,-25,80,50,0; -60,0,-10,-25,30,18", "obstacle_names": "part; clamp",
            "clearance_wanted": "8"}  # fmt: skip
    up, point = work_out(NAME, case).advice
    assert (up.input, up.value) == ("safe_height", 26) and "Point 2 itself is too near the part" in point.text
    assert work_out(NAME, {**case, "safe_height": "26"}).reason.startswith("Only 5 mm between the tool and the part")


def test_corners_in_any_order_and_names() -> None:
    """Two opposite corners are enough; what has no name is counted; a name keeps its numbers in inches."""
    move = {**VICE, "move": "-60,20,-3; 160,20,-3"}
    for corners in ("0,0,-40,100,60,0", "100,60,0,0,0,-40", "100,0,-40,0,60,0"):
        assert value("first_contact", move, obstacles=corners) == pytest.approx([-5, 20, -3])
    assert value("contact_with", move) == "tool with the vice"
    assert value("contact_with", move, obstacle_names="") == "tool with obstacle 1"
    assert value("contact_with", move, obstacle_names="a 12 mm bolt") == "tool with a 12\u00a0mm bolt"
    assert value("contact_with", move, move="-60,20,3; 160,20,3") is None


@pytest.mark.parametrize(
    ("changed", "field"),
    [
        ({"obstacles": ""}, "obstacles"),
        ({"travel_x": "-600,0"}, "work_zero"),
        ({"travel_x": "0,-600", "work_zero": "0,0,0"}, "travel_x"),
        ({"travel_y": "400", "work_zero": "0,0,0"}, "travel_y"),
        ({**ENDS, "zero_taken_with": "spindle_nose", "holder_length": ""}, "holder_length"),
        ({"obstacle_names": "vice; clamp"}, "obstacle_names"),
        ({"move": ";".join(["0,0,0"] * 21)}, "move"),
        ({"move": ";"}, "move"),
        ({"obstacles": ";".join(["0,0,0,1,1,1"] * 13)}, "obstacles"),
    ],
)
def test_what_is_refused(changed: dict[str, str], field: str) -> None:
    """One plain line that names the field."""
    with pytest.raises(Refused) as refused:
        work_out(NAME, {**VICE, "obstacle_names": "", "move": "0,0,50; 50,0,50", **changed})
    assert refused.value.field == field and "\n" not in refused.value.message


def test_the_most_that_is_taken_is_soon_answered() -> None:
    """20 points, 12 boxes, in straight lines that all slope: a page must not hang."""
    chance = random.Random(2)
    points = [[chance.randint(-99, 99) for _ in range(3)] for _ in range(20)]
    boxes = [[n * 9, -60, -200, n * 9 + 4, 60, -150] for n in range(-6, 6)]
    begin = time.perf_counter()
    work_out(NAME, {**BASE, "move": typed(points), "obstacles": typed(boxes), "rapid": "straight"})
    assert time.perf_counter() - begin < 5
