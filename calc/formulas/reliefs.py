"""Corner reliefs: holes plunged into a pocket's corners so that a part with sharper corners sits on its walls.

The picture. Two walls meet at right angles in the pocket's theoretical corner; the cutter of radius r leaves a
fillet of r there. The part lies against both walls, its own corner rounded to p (0: sharp). The relief of radius
q has its middle on the bisector, k inwards from the corner, a = k/sqrt(2) from each wall. All lengths in mm.
"""

import math

CROWN = math.sqrt(2) - 1  # how far a fillet's crown is from its square corner, in fillet radii


def relief_offset(cutter_radius: float, relief_radius: float, part_radius: float, room: float) -> float:
    """From the corner to the relief's middle (mm), the largest that clears: it cuts least into the walls.

    k = q + (sqrt(2) - 1) p - room: the relief's rim comes to the part's crown, or `room` beyond it. A small relief
    must also reach the fillet's ends (r, 0) and (0, r): k at most (r + sqrt(2 q^2 - r^2))/sqrt(2).
    Limits: square corner, p < r, relief at least `smallest_relief`. Source: own derivation, checked by areas.

    >>> relief_offset(3, 3, 0, 0)
    3.0
    >>> round(relief_offset(3, 3, 3, 0), 4)
    4.2426
    """
    crown = relief_radius + CROWN * part_radius - room
    ends = cutter_radius + math.sqrt(max(0.0, 2 * relief_radius**2 - cutter_radius**2))
    return min(crown, ends / math.sqrt(2))


def smallest_relief(cutter_radius: float, part_radius: float, room: float) -> float:
    """The smallest relief's radius (mm) that takes all of the fillet out of the part's way.

    r/sqrt(2), the circle over the fillet's ends (r, 0) and (0, r): it runs through the corner itself. Where more
    room is wanted than that gives, with s = (sqrt(2) - 1) p - room < 0, the circle through both ends that lies
    `room` beyond the part's crown: q = (r^2 - sqrt(2) r s + s^2)/(sqrt(2) r - 2 s).
    Limits: p < r, room at most r. Source: own derivation, checked by trying.

    >>> round(smallest_relief(3, 0, 0) / 3, 4)
    0.7071
    >>> round(smallest_relief(3, 0, 0.5), 4)
    2.169
    """
    r, s = cutter_radius, min(0.0, CROWN * part_radius - room)
    return (r * r - math.sqrt(2) * r * s + s * s) / (math.sqrt(2) * r - 2 * s)


def wall_eaten(relief_radius: float, offset: float) -> float:
    """From the corner to where the wall begins again behind a relief (mm): a + sqrt(q^2 - a^2), a = k/sqrt(2).

    >>> round(wall_eaten(3, 3) / 3, 4)
    1.4142
    """
    aside = offset / math.sqrt(2)
    return aside + math.sqrt(max(0.0, relief_radius**2 - aside**2))


def relief_bite(relief_radius: float, offset: float) -> float:
    """How far a relief goes into the jaw beyond the wall (mm): q - k/sqrt(2).

    >>> round(relief_bite(3, 3), 4)
    0.8787
    """
    return relief_radius - offset / math.sqrt(2)
