"""Milling a thread with a ringed cutter on a helix: where it must run, and what the helix does to the form. mm.

The cutter's axis is parallel to the thread's; its teeth are rings of 60 degrees with a flat tip. Every `internal`
is True for a thread in a hole, False for one on a rod.
"""

import math

FLANK = math.tan(math.radians(30))


def tip_reach(pitch: float, tip_flat: float) -> float:
    """From the pitch diameter to the diameter that the tips reach: sqrt(3) (P/2 - w), on the diameter.

    A groove of 60 degrees, w wide at its bottom, is P/2 wide at the pitch diameter.

    Limits: w from 0 to P/2. Source: own geometry; w = P/8 gives 3/4 H, ISO 68-1's own root.

    >>> round(tip_reach(1.0, 1 / 8), 6)
    0.649519
    """
    return math.sqrt(3) * (pitch / 2 - tip_flat)


def growth_constant(pitch: float) -> float:
    """What the helix adds to a pitch diameter is this times the difference of two curvatures: 3 P^2/(4 pi^2). mm2.

    Source: own derivation, see `form_growth`.

    >>> round(growth_constant(1.5), 4)
    0.171
    """
    return 3 * pitch**2 / (4 * math.pi**2)


def form_growth(pitch: float, path_radius: float, pitch_diameter: float) -> float:
    """How far a plain 60 degree ring cuts the pitch diameter beyond its mark because it climbs while it turns. mm.

    K |1/e - 1/rho|, K = 3 P^2/(4 pi^2), rho = D2/2. In a section through the axis the flank is cut not where the
    ring reaches deepest but an angle a before and after: there the ring stands P a/(2 pi) higher or lower, and is
    thinner by tan 30 rho e a^2/(2 |rho - e|). Their difference is largest, a flank, at
    (P/(2 pi))^2 |rho - e|/(2 tan 30 rho e); two flanks over tan 30 make it a diameter.

    Limits: small angles a. Low, by up to 5 % down to a path radius of P/2 (swept in steps in the tests).
    Source: own derivation.

    >>> round(form_growth(1.5, 1.25, 9.026), 3)
    0.099
    """
    return growth_constant(pitch) * abs(1 / path_radius - 2 / pitch_diameter)


def path_radius_for(
    pitch_diameter: float, cutter: float, reach: float, constant: float, internal: bool
) -> float | None:
    """Path radius of the tool's centre that leaves a pitch diameter, the helix's growth included. None: there is none.

    Inside D2 = 2 e + Dc - a + K (1/e - 2/D2), outside D2 = 2 e - Dc + a - K (2/D2 - 1/e), a the reach: both are
    2 e^2 - B e + K = 0, B = D2 +- (a - Dc) + 2 K/D2. The larger root is the path.

    Limits: as for `form_growth`; `constant` 0 for a cutter whose form is corrected. Source: own derivation.

    >>> round(path_radius_for(9.026, 7.5, 0.974, 0.0, True), 3)
    1.25
    """
    side = reach - cutter if internal else cutter - reach
    middle = pitch_diameter + side + 2 * constant / pitch_diameter
    under = middle**2 - 8 * constant
    if under < 0 or middle <= 0:
        return None
    return (middle + math.sqrt(under)) / 4


def pitch_diameter_cut(path_radius: float, cutter: float, reach: float, constant: float, internal: bool) -> float:
    """Pitch diameter that a path leaves: `path_radius_for` the other way round, its growth at the D2 without growth.

    >>> round(pitch_diameter_cut(1.25, 7.5, 0.974, 0.0, True), 3)
    9.026
    """
    bare = 2 * path_radius + (cutter - reach if internal else reach - cutter)
    return bare + constant * (1 / path_radius - 2 / bare)


def centre_feed_share(path_radius: float, tips: float) -> float:
    """Feed of the tool's centre over the feed at the tips' circle of diameter `tips`: 2 e/D = (D -+ Dc)/D.

    Source: printed in tool makers' threading guides; geometry.

    >>> centre_feed_share(2, 16)
    0.25
    """
    return 2 * path_radius / tips


def helix_angle(pitch: float, path_radius: float) -> float:
    """How steeply the tool's centre climbs: atan(P/(2 pi e)), degrees.

    >>> round(helix_angle(1.5, 1.25), 2)
    10.81
    """
    return math.degrees(math.atan(pitch / (2 * math.pi * path_radius)))


def equal_area_depths(depth: float, tip_flat: float, passes: int) -> list[float]:
    """Depth of each pass so that all remove the same area of a groove w wide at its bottom, 60 degrees. mm.

    After i of n passes w t + t^2 tan 30 is i/n of the whole; with a sharp tip t goes with the root of i/n.

    Limits: depth over 0. Source: own geometry; the square-root rule is common practice.

    >>> [round(one, 3) for one in equal_area_depths(1.0, 0.0, 4)]
    [0.5, 0.207, 0.159, 0.134]
    """
    whole = tip_flat * depth + FLANK * depth**2
    reached = [
        (math.sqrt(tip_flat**2 + 4 * FLANK * whole * one / passes) - tip_flat) / (2 * FLANK)
        for one in range(passes + 1)
    ]
    return [below - above for above, below in zip(reached, reached[1:], strict=False)]
