"""Uncertainty against SciPy, the uncertainties library, the standard's own example, and plain trials."""

import math
import random

import numpy
import pytest
from scipy import stats
from uncertainties import UFloat, ufloat

from calc.catalogue import work_out
from calc.formulas.uncertainty import combined, coverage_factor, effective_freedom, rectangular, student_factor
from calc.quantity import Refused
from calc.show import plain

EDGE = {"repeatability": "0.005 mm", "reading": "-182.4 mm", "finder_diameter": "10 mm"}
LEVELS = (0.5, 0.6827, 0.9, 0.95, 0.9545, 0.99, 0.999)
STANDARD = 50.000623  # mm: H.1's standard gauge
RAW = {
    "repeatability": (0.001, 0.05),
    "surface_defect": (0.001, 0.5),
    "run_out": (0.001, 0.2),
    "lost_motion": (0.001, 0.1),
}


def good_to(**changed: str) -> float:
    """The expanded uncertainty that edge-find says."""
    return work_out("edge-find", {**EDGE, **changed}).values["expanded_uncertainty"].value


@pytest.mark.parametrize("confidence", LEVELS)
def test_student_against_scipy(confidence: float) -> None:
    """scipy.stats.t over the grid, on both sides of where the method changes."""
    for freedom in (*range(1, 260), 1000, 10**6, 10**12):
        theirs = stats.t.ppf((1 + confidence) / 2, freedom)
        assert student_factor(confidence, freedom) == pytest.approx(theirs, rel=1e-9), freedom
    assert student_factor(confidence, math.inf) == coverage_factor(confidence)
    assert coverage_factor(confidence) == pytest.approx(stats.norm.ppf((1 + confidence) / 2), rel=1e-12)


@pytest.mark.parametrize(("freedom", "k95", "k99"), [(1, 12.71, 63.66), (4, 2.78, 4.60), (10, 2.23, 3.17),
                                                     (16, 2.12, 2.92), (50, 2.01, 2.68)])  # fmt: skip
def test_student_as_in_the_table(freedom: int, k95: float, k99: float) -> None:
    """JCGM 100:2008, table G.2, from memory."""
    assert student_factor(0.95, freedom) == pytest.approx(k95, abs=0.005)
    assert student_factor(0.99, freedom) == pytest.approx(k99, abs=0.005)


def test_freedom_is_cut_off_not_rounded() -> None:
    """16.9 counts as 16; what misses a whole number by a last digit is that number; more freedom, smaller k."""
    assert student_factor(0.99, 16.9) == student_factor(0.99, 16)
    assert student_factor(0.99, 3 * 0.1 / 0.3 + 2 - 4e-16) == student_factor(0.99, 3)
    factors = [student_factor(0.95, freedom) for freedom in range(1, 400)]
    assert factors == sorted(factors, reverse=True) and factors[-1] > coverage_factor(0.95)


def test_effective_freedom_at_its_limits() -> None:
    """Never under the least; equal parts add up; one alone is itself; nothing of limited freedom: infinite."""
    assert effective_freedom([(0.3, 4), (0.3, 4), (0.3, 4)]) == pytest.approx(12)
    assert effective_freedom([(0.3, 4), (1e-200, 2), (0.0, 1)]) == pytest.approx(4)
    assert effective_freedom([(1e-200, 7)]) == pytest.approx(7)
    assert effective_freedom([(0.3, math.inf)]) == effective_freedom([(0.0, 3)]) == effective_freedom([]) == math.inf
    chance = random.Random(3)
    for _ in range(200):
        parts = [(chance.expovariate(1), chance.randint(1, 30)) for _ in range(4)]
        found = effective_freedom(parts)
        assert min(v for _, v in parts) <= found * (1 + 1e-12) and found <= sum(v for _, v in parts) * (1 + 1e-12)


def _end_gauge() -> tuple[UFloat, dict[UFloat, float]]:
    """JCGM 100:2008, H.1: the length (mm) by its equation H.3, and the degrees of freedom of the parts."""
    standard = ufloat(STANDARD, 0.075e-3 / 3)
    observed = ufloat(215e-6, 13e-6 / math.sqrt(5))
    at_random = ufloat(0, 0.01e-3 / student_factor(0.95, 5))
    lasting = ufloat(0, 0.02e-3 / 3)
    expansion = ufloat(11.5e-6, rectangular(2 * 2e-6))
    bed = ufloat(-0.1, combined([0.2, 0.5 / math.sqrt(2)]))
    expand_apart = ufloat(0, rectangular(2 * 1e-6))
    warm_apart = ufloat(0, rectangular(2 * 0.05))
    difference = observed + at_random + lasting
    length = standard + difference - standard * (expand_apart * bed + expansion * warm_apart)
    freedom = {standard: 18, observed: 24, at_random: 5, lasting: 8, expand_apart: 50, warm_apart: 2}
    return length, freedom


def test_the_end_gauge_of_the_standard() -> None:
    """JCGM 100:2008, H.1, end to end: 50.000838 mm, 32 nm, 16.7 degrees cut to 16, k 2.92, 93 nm at 99 %.

    Numbers as several open texts quote them; the standard itself was not open to us. The slopes are taken by the
    uncertainties library; parts, sum, freedom and k are those of the product. The standard multiplies by the
    rounded 32: unrounded it is 92.5.
    """
    length, freedom = _end_gauge()
    assert length.nominal_value == pytest.approx(50.000838, abs=5e-7)
    parts = [(part, freedom.get(one, math.inf)) for one, part in length.error_components().items()]
    total = combined(part for part, _ in parts)
    assert total == pytest.approx(length.std_dev) and round(1e6 * total) == 32
    assert effective_freedom(parts) == pytest.approx(16.7, abs=0.05)
    k = student_factor(0.99, effective_freedom(parts))
    assert k == pytest.approx(2.92, abs=0.005)
    assert round(k * round(1e6 * total)) == 93 and 1e6 * k * total == pytest.approx(92.5, abs=0.05)


def test_the_parts_of_the_end_gauge() -> None:
    """Its table H.1: 25, 9.7, 2.9 and 16.6 nm (575 x 0.029 cut off); 25.6 degrees for 9.7 nm, a rounded 9.683."""
    length, _ = _end_gauge()
    found = sorted((1e6 * part for part in length.error_components().values() if part), reverse=True)
    assert found == pytest.approx([25, 16.6, 6.7, 5.8, 3.9, 2.9], abs=0.06)
    assert combined([5.8, 3.9, 6.7]) == pytest.approx(9.7, abs=0.05)
    found = effective_freedom([(5.8, 24), (3.9, 5), (6.7, 8)])
    assert found * (9.7 / combined([5.8, 3.9, 6.7])) ** 4 == pytest.approx(25.6, abs=0.05)


def _their_face(raw: dict[str, float], kind: str, both: bool, turned: bool) -> UFloat:
    """The face, or the middle of two, as an equation: shared errors are one variable, others one for each touch."""
    swing = {"kicking": 0.1, "plain_pin": 0.0}.get(kind, 1.0) * ufloat(0, raw["run_out"] / math.sqrt(12))
    lost = ufloat(0, raw["lost_motion"] / math.sqrt(12))
    touches = []
    for way in (1, -1) if both else (1,):
        scatter = ufloat(0, raw["repeatability"], tag="scatter")
        face = ufloat(0, raw["surface_defect"] / math.sqrt(12))
        touches.append(scatter + face + way * lost + (way if turned else 1) * swing)
    return sum(touches) / len(touches)


@pytest.mark.parametrize("kind", ["kicking", "fixed_stylus", "plain_pin"])
@pytest.mark.parametrize("both", [False, True], ids=["one face", "the middle of two"])
def test_edge_find_against_the_uncertainties_library(kind: str, both: bool) -> None:
    """Linear propagation with its correlations, Welch and Satterthwaite by hand, k by scipy.stats; 120 cases."""
    chance = random.Random(f"{kind} {both}")
    for n in range(20):
        raw = {key: chance.uniform(*ends) for key, ends in RAW.items()}
        turned, taken, confidence = both and n % 2 == 1, chance.randint(2, 12), chance.choice(LEVELS)
        typed = {key: f"{value!r} mm" for key, value in raw.items()} | {"finder_kind": kind}
        typed |= {"readings_taken": str(taken), "confidence": str(confidence), "turned_between": "no"}
        typed |= {"second_reading": "-100 mm"} if both else {}
        typed |= {"turned_between": "yes"} if turned else {}
        theirs = _their_face(raw, kind, both, turned)
        scatter = math.hypot(*(part for one, part in theirs.error_components().items() if one.tag == "scatter"))
        freedom = (taken - 1) * (theirs.std_dev / scatter) ** 4
        k = stats.t.ppf((1 + confidence) / 2, math.floor(freedom + 1e-9))
        found = work_out("edge-find", {**EDGE, **typed}).values
        assert found["coverage_factor"].value == pytest.approx(k, rel=1e-9)
        assert found["expanded_uncertainty"].value == pytest.approx(k * theirs.std_dev, rel=1e-9)
        del typed["readings_taken"]
        normal = stats.norm.ppf((1 + confidence) / 2)
        assert good_to(**typed) == pytest.approx(normal * theirs.std_dev, rel=1e-9)


def test_few_touches_by_trials() -> None:
    """Second method: 20,000 shops touch four times and once more. What is said covers 95 %, normal k only 86 %."""
    alone = {"surface_defect": "0", "lost_motion": "0", "run_out": "0", "repeatability": "0.01 mm"}
    said, known = good_to(**alone, readings_taken="4") / 0.01, good_to(**alone) / 0.01
    touches = numpy.random.default_rng(8).standard_normal((20000, 5))
    scatter, error = touches[:, :4].std(axis=1, ddof=1), abs(touches[:, 4])
    assert (error <= said * scatter).mean() == pytest.approx(0.95, abs=0.006)
    assert (error <= known * scatter).mean() == pytest.approx(0.86, abs=0.02)


@pytest.mark.parametrize(
    ("changed", "key"),
    [
        ({"surface_defect": "0.5 mm", "readings_taken": "5"}, "surface_defect"),
        ({"repeatability": "0.012 mm", "readings_taken": "2"}, "readings_taken"),
        ({"repeatability": "0.1 mm", "readings_taken": "50"}, None),
        ({"lost_motion": "0.5 mm"}, None),
    ],
)
def test_what_is_advised_for_a_doubtful_face_holds(changed: dict[str, str], key: str | None) -> None:
    """A number is offered only where it mends it."""
    found = work_out("edge-find", {**EDGE, **changed})
    (advice,) = found.advice
    assert found.verdict == "watch" and advice.input == key
    if advice.input:
        again = work_out("edge-find", {**EDGE, **changed, advice.input: plain(advice.value, advice.unit)})
        assert again.verdict == "ok", again.reason


def test_a_count_of_touches_needs_their_own_scatter() -> None:
    """The remembered 0.005 mm is not what those touches scattered by; without a count it holds."""
    alone = {key: value for key, value in EDGE.items() if key != "repeatability"}
    with pytest.raises(Refused, match="repeatability") as told:
        work_out("edge-find", alone | {"readings_taken": "5"})
    assert told.value.field == "repeatability"
    assert work_out("edge-find", alone).values["expanded_uncertainty"].value == good_to()


@pytest.mark.parametrize(
    ("tip", "second", "width", "said"),
    [
        (5, 217.38, 15.68, "mixed up"),  # a tip of 299.83
        (5, 1.87, 85, "It would fit a tip of 15 mm"),  # 100 less 85: exactly three times
        (5, 1.87, 84.9, "mixed up"),
        (30, 1.87, 50, "It would fit a tip of 50 mm"),
        (30, 1.87, 49.9, "mixed up"),
    ],
)
def test_no_tip_is_said_to_fit_that_nobody_has(tip: float, second: float, width: float, said: str) -> None:
    """Over three times the tip typed, or over 50 mm, it is the readings or the sides."""
    found = work_out("edge-find", {
        "approach": "+X", "reading": "-98.13", "finder_diameter": str(tip), "second_reading": str(second),
        "known_width": str(width)})  # fmt: skip
    assert found.verdict == "stop" and said in found.reason, found.reason


def test_one_touch_knows_no_scatter() -> None:
    """At least two; the count matters less and less, and not at all where there is no scatter."""
    with pytest.raises(Refused, match="readings_taken"):
        work_out("edge-find", {**EDGE, "readings_taken": "1"})
    fewer = [good_to(readings_taken=str(n)) for n in (2, 3, 5, 10, 100, 1000)]
    assert fewer == sorted(fewer, reverse=True) and fewer[-1] == pytest.approx(good_to(), rel=1e-3)
    assert good_to(repeatability="0", readings_taken="2") == good_to(repeatability="0")
