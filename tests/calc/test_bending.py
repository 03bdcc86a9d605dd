"""Bending of the cutter against the beam's differential equation and against finite elements, random stepped cases."""

import math
import random

import numpy
import pytest
from scipy.integrate import solve_ivp
from scipy.linalg import solve

from calc.catalogue import work_out
from calc.formulas.bending import stepped_deflection

CARBIDE = 600000.0  # N/mm2, as assumed by the calculator


def _cases(seed: int, count: int) -> list[tuple[float, float, float, float, float]]:
    """Force, length, flutes, core and shank (N, mm); the flutes end short of the holder, at it, or next to the tip."""
    chance = random.Random(seed)
    made = []
    for n in range(count):
        length = chance.uniform(5, 200)
        share = (chance.uniform(0.05, 0.95), 1.0, 0.01)[n % 3]
        shank = chance.uniform(1, 30)
        made.append((chance.uniform(1, 3000), length, share * length, chance.uniform(0.3, 1.3) * shank, shank))
    return made


def _by_equation(force: float, length: float, flutes: float, core: float, shank: float) -> float:
    """(E I w'')'' = 0 as four equations of the first order, walked from the holder to the tip piece by piece.

    Clamped: w = w' = 0; the moment F L and the shear F at the holder come from equilibrium, those at the tip (none,
    and F) must come out.
    """
    state = numpy.array([0.0, 0.0, force * length, -force])
    for start, end, diameter in ((0, length - flutes, shank), (length - flutes, length, core)):
        stiffness = CARBIDE * math.pi * (diameter / 2) ** 4 / 4
        walk = solve_ivp(lambda _, y, ei=stiffness: [y[1], y[2] / ei, y[3], 0.0], (start, end), state,
                         rtol=1e-10, atol=1e-14)  # fmt: skip
        state = walk.y[:, -1]
    assert abs(state[2]) < 1e-6 * force * length
    return float(state[0])


def _by_elements(force: float, length: float, flutes: float, core: float, shank: float) -> float:
    """Stiffness matrix of straight beam elements (two shifts and two turns each), clamped at the holder."""
    step = length - flutes
    stations = numpy.unique([*numpy.linspace(0, step, 4), *numpy.linspace(step, length, 4)])
    matrix = numpy.zeros((2 * len(stations), 2 * len(stations)))
    for n, span in enumerate(numpy.diff(stations)):
        diameter = shank if stations[n] + span / 2 < step else core
        ei = CARBIDE * math.pi * diameter**4 / 64
        matrix[2 * n : 2 * n + 4, 2 * n : 2 * n + 4] += (ei / span**3) * numpy.array([
            [12, 6 * span, -12, 6 * span],
            [6 * span, 4 * span**2, -6 * span, 2 * span**2],
            [-12, -6 * span, 12, -6 * span],
            [6 * span, 2 * span**2, -6 * span, 4 * span**2],
        ])  # fmt: skip
    scale = 1 / numpy.sqrt(numpy.diag(matrix)[2:])  # shifts and turns brought to one size, for the solver's sake
    load = numpy.zeros(len(scale))
    load[-2] = force * scale[-2]
    return float((scale * solve(matrix[2:, 2:] * numpy.outer(scale, scale), load))[-2])


@pytest.mark.parametrize("method", [_by_equation, _by_elements], ids=["equation", "elements"])
def test_stepped_beams_against_scipy(method) -> None:
    """60 random cutters, thick shanks and thin ones; Euler and Bernoulli's beam, two ways that know no closed form."""
    for case in _cases(5, 60):
        assert stepped_deflection(*case, CARBIDE) == pytest.approx(method(*case), rel=1e-6), case


def test_the_calculator_against_finite_elements() -> None:
    """Through the typed inputs: the core is 0.8 of the cutter, flutes longer than what sticks out end at the holder."""
    for force, length, flutes, core, shank in _cases(6, 30):
        typed = {
            "cutter_diameter": f"{core / 0.8!r} mm",
            "stick_out": f"{length!r} mm",
            "flute_length": f"{flutes * 1.5!r} mm",
            "shank_diameter": f"{shank!r} mm",
            "wall_force": f"{force!r} N",
        }
        theirs = _by_elements(force, length, min(flutes * 1.5, length), core, shank)
        found = work_out("stick-out", typed).values
        assert found["deflection"].value == pytest.approx(theirs, rel=1e-6)
        assert found["stiffness"].value == pytest.approx(force / theirs / 1000, rel=1e-6)


def test_a_beam_of_one_diameter() -> None:
    """A textbook cantilever: F L^3/(3 E I), by both other methods too; a step hardly there changes hardly anything."""
    plain = 100 * 40**3 / (3 * CARBIDE * math.pi * 8**4 / 64)
    for share in (0.01, 0.5, 1.0):
        for method in (_by_equation, _by_elements):
            assert method(100, 40, share * 40, 8, 8) == pytest.approx(plain, rel=1e-6)
        assert stepped_deflection(100, 40, share * 40, 8, 8, CARBIDE) == pytest.approx(plain, rel=1e-12)
