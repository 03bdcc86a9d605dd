"""What holds a part in a vice. Forces in N, lengths in mm, torque in N m."""

import math


def screw_force(torque: float, pitch: float, efficiency: float) -> float:
    """Force of a screw (N): 2 pi eta T/p. Source: work of one turn; the efficiency is the user's.

    >>> round(screw_force(60, 5, 0.2))
    15080
    """
    return 2000 * math.pi * efficiency * torque / pitch


def slip_limit(clamp_force: float, friction: float) -> float:
    """Force along the jaws, or upwards, at which a part slips between two of them (N): 2 mu F (Coulomb).

    >>> slip_limit(10000, 0.12)
    2400.0
    """
    return 2 * friction * clamp_force


def holding_moment(clamp_force: float, push: float, grip: float, width: float, friction: float) -> float:
    """Moment about the top edge of the jaw pushed against that keeps a part from tipping (N mm).

    The push leaves F - P on the other jaw. At the point of tipping that acts at the foot of the grip, g below
    the edge, and its friction mu (F - P) holds the lifting face down, one width w away: (F - P)(g + mu w).
    Limits: rigid, faces square, no help from the part's weight. Own derivation.

    >>> round(holding_moment(10000, 1000, 10, 50, 0.12))
    144000
    """
    return max(0.0, clamp_force - push) * (grip + friction * width)
