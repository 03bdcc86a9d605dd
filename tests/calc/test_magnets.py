"""Pull of magnets: by adding up rings, in the limits, and what is advised."""

import math

import pytest

from calc.catalogue import named, work_out
from calc.formulas.magnets import MU0, bound, pull
from calc.show import plain

HELD = dict(named("magnet-hold").example)


def by_rings(remanence: float, diameter: float, thickness: float, gap: float, rings: int = 24) -> float:
    """Second method: both ends of both magnets as charged points on rings, Coulomb's law between them (N).

    One disc needs its points on one radius only, by symmetry; rings lie at their mean radius and are offset
    against each other, so that no two points meet.
    """
    radius = diameter / 2000
    charge = remanence / MU0

    def discs(apart: float) -> float:
        around, total = 180, 0.0
        for i in range(rings):
            one = radius * (i + 0.5) / rings
            share = 2 * math.pi * one * radius / rings
            for j in range(2 * rings):
                other = radius * (j + 0.5) / (2 * rings)
                piece = 2 * math.pi * other * radius / (2 * rings) / around
                for k in range(around):
                    away = one**2 + other**2 - 2 * one * other * math.cos(2 * math.pi * (k + 0.5) / around)
                    total += share * piece * apart / (away + apart * apart) ** 1.5
        return MU0 * charge**2 / (4 * math.pi) * total

    g, length = gap / 1000, thickness / 1000
    return discs(g) - 2 * discs(g + length) + discs(g + 2 * length)


@pytest.mark.parametrize(("remanence", "diameter", "thickness", "gap"), [(1.3, 6, 3, 1.5), (1.2, 10, 5, 3)])
def test_pull_by_adding_up_rings(remanence: float, diameter: float, thickness: float, gap: float) -> None:
    """Within 1 %, which is what the rings are good for."""
    assert pull(remanence, diameter, thickness, gap) == pytest.approx(
        by_rings(remanence, diameter, thickness, gap), rel=0.01
    )


def test_limits() -> None:
    """Endless magnets reach the bound; it falls with the gap; far away like dipoles, 16 times for two."""
    assert pull(1.3, 6, 3000, 0) == pytest.approx(bound(1.3, 6), rel=1e-3)
    pulls = [pull(1.3, 6, 3, gap) for gap in (0, 0.2, 1, 3, 10)]
    assert pulls == sorted(pulls, reverse=True) and pulls[0] < bound(1.3, 6)
    assert pull(1.3, 1, 0.5, 20) / pull(1.3, 1, 0.5, 40) == pytest.approx(16, rel=0.06)


def test_iron_is_a_magnet_twice_as_far() -> None:
    """The mirror image."""
    iron = work_out("magnet-hold", {**HELD, "gap": "0.5 mm"}).values["pull_force_gap"].value
    mirror = work_out("magnet-hold", {**HELD, "gap": "1 mm", "target": "magnet"}).values["pull_force_gap"].value
    assert iron == pytest.approx(mirror)


def test_a_heavy_jaw_falls_and_what_is_advised_holds_it() -> None:
    """3 kg on four small ones."""
    heavy = {**HELD, "jaw_mass": "3 kg"}
    found = work_out("magnet-hold", heavy)
    assert found.verdict == "stop"
    more = next(one for one in found.advice if one.input == "count")
    assert work_out("magnet-hold", {**heavy, "count": plain(more.value, "1")}).verdict == "ok"
    assert work_out("magnet-hold", {**HELD, "pattern": "same"}).values["neighbour"].value == "repel"
