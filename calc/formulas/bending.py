"""Bending and ringing of a cutter. Forces in N, lengths in mm, stiffness in N/um, speeds in rpm."""

import math


def second_moment(diameter: float) -> float:
    """Second moment of area of a round bar (mm4): pi d^4/64.

    >>> round(second_moment(10), 3)
    490.874
    """
    return math.pi * diameter**4 / 64


def stepped_deflection(force: float, length: float, flutes: float, core: float, shank: float, modulus: float) -> float:
    """Deflection at the tip of a cantilever of two diameters (mm): F/(3E) (Lf^3/I1 + (L^3 - Lf^3)/I2).

    The fluted end, `flutes` long, bends like a round bar of diameter `core`; `modulus` in N/mm2.
    Source: beam theory (Euler and Bernoulli); a core of 0.8 diameters: Kops and Vo, CIRP Annals 39 (1990).

    >>> round(stepped_deflection(100, 40, 40, 8, 10, 600000), 5)
    0.01768
    """
    outer = second_moment(core)
    inner = second_moment(shank)
    return force / (3 * modulus) * (flutes**3 / outer + (length**3 - flutes**3) / inner)


def tooth_passing(speed: float, teeth: int) -> float:
    """Teeth passing a second (Hz): n z/60.

    >>> tooth_passing(7000, 3)
    350.0
    """
    return speed * teeth / 60


def best_speed(frequency: float, teeth: int, waves: int) -> float:
    """Speed at which whole waves of a ringing fit between two teeth (rpm): 60 f/(z k), k = 1, 2, ...

    Source: stability lobes, J. Tlusty; S. Smith and J. Tlusty, J. Eng. Ind. 113 (1991).

    >>> round(best_speed(1300, 3, 4))
    6500
    """
    return 60 * frequency / (teeth * waves)
