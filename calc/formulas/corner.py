"""The cutter in an inside corner: closed form where the stock lies evenly, marching where it does not.

The picture. The finished corner is an arc of radius R round O; the cutter of radius r runs along
one wall, turns by T round O (its centre on an arc of radius R - r) and leaves along the other wall.
The wall to its right is met at right angles to where it is heading, so only the leading half of the
cutter can be in metal: an engagement never exceeds 180 degrees. All lengths in mm, angles in degrees.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

SAMPLES = 120
REFINEMENTS = 40
GRID = 65536
FLAT = 1e-6  # degrees: where it stays the same for a while, the first place of the worst stands for all
GOLDEN = (math.sqrt(5) - 1) / 2


@dataclass(frozen=True)
class Corner:
    """One inside corner: finished radius R, cutter radius r, even wall stock, turn of the walls.

    `rougher` is the radius of the cutter before where it left more in the corner, else None.
    Needs r <= R, 0 < stock <= R, 0 < turn <= 180 (180: a pocket or slot with a round end).
    """

    radius: float
    cutter: float
    stock: float
    turn: float
    rougher: float | None = None

    @cached_property
    def fillet(self) -> tuple[float, float]:
        """Centre of the fillet that the rougher left, asked for thousands of times on one way round."""
        bisector = math.radians(self.turn / 2 - 90)
        return -_fillet(self) * math.cos(bisector), -_fillet(self) * math.sin(bisector)

    @cached_property
    def walls(self) -> tuple[tuple[float, float, float], ...]:
        """Both walls' normals: the angle in degrees, its cosine, its sine."""
        angles = (-90.0, self.turn - 90)
        return tuple((angle, math.cos(math.radians(angle)), math.sin(math.radians(angle))) for angle in angles)

    @cached_property
    def ahead(self) -> tuple[float, float]:
        """Cosine and sine of the turn."""
        return math.cos(math.radians(self.turn)), math.sin(math.radians(self.turn))


@dataclass(frozen=True)
class Place:
    """Where the cutter is: its centre, its heading, and which part of its rim is in metal.

    `arcs` are (from, to) in degrees, counted anticlockwise from +x, each within the leading half.
    """

    x: float
    y: float
    heading: float
    arcs: tuple[tuple[float, float], ...]

    @property
    def engagement(self) -> float:
        """Degrees of the rim in metal."""
        return sum(end - begin for begin, end in self.arcs)


def even_stock_engagement(corner: Corner) -> float:
    """Peak engagement where the stock is concentric with the finished corner.

    Steady, once the turn is long enough: cos(phi) = 1 - ae (2R - ae)/(2 r (R - r)), from the triangle
    of the centres and the point where the rim leaves the old wall. In a shorter turn the peak is at
    its beginning: phi = T + acos(((R - ae) - (R - r) cos T)/r).

    Source: the steady case is the internal-engagement formula printed in a cutting-tool maker's
    thread-milling guide (Sandvik Coromant, threading application guide, p. 117); the short turn is
    our own derivation, confirmed by swept areas in tests/calc.

    >>> round(even_stock_engagement(Corner(6, 5, 0.5, 90)), 2)
    64.85
    >>> round(even_stock_engagement(Corner(5, 5, 0.5, 90)), 2)
    115.84
    """
    big, r, inner = corner.radius, corner.cutter, corner.radius - corner.stock
    offset = big - r
    if _lead(corner) <= corner.turn:
        cosine = 1 - corner.stock * (big + inner) / (2 * r * offset) if offset > 0 else -1.0
        return math.degrees(math.acos(max(-1.0, min(1.0, cosine))))
    ahead = (inner - offset * math.cos(math.radians(corner.turn))) / r
    return min(180.0, corner.turn + math.degrees(math.acos(max(-1.0, min(1.0, ahead)))))


def _lead(corner: Corner) -> float:
    """How far ahead of the cutter's centre, seen from O, the rim leaves the old wall (degrees)."""
    inner, offset = corner.radius - corner.stock, corner.radius - corner.cutter
    if inner <= 0:
        return 0.0  # nothing was roughed here: the cutter is as deep in as it ever gets
    if offset <= 0:
        return math.inf  # it turns on the spot
    cosine = (offset**2 + inner**2 - corner.cutter**2) / (2 * offset * inner)
    return math.degrees(math.acos(max(-1.0, min(1.0, cosine))))


def worst_place(corner: Corner) -> Place:
    """The place of the greatest engagement on the way round.

    By closed form with even stock; against a larger rougher's outline by trying the whole way, then
    narrowing down to 1/65,536 of a trial step: the angle is then within 0.001 degrees of the peak. The
    grid makes every Python choose the very same place, whatever the last digit of its sines.

    >>> [round(worst_place(Corner(6, 5, 0.5, 90, r1)).engagement, 2) for r1 in (5.5, 6, 8)]
    [64.85, 75.92, 97.07]
    """
    if corner.rougher is None or corner.rougher <= corner.radius - corner.stock:
        return _even_place(corner)
    begin, end = _way(corner)
    step = (end - begin) / SAMPLES
    tried = [place_at(corner, begin + step * n) for n in range(SAMPLES + 1)]
    most = max(range(SAMPLES + 1), key=lambda n: tried[n].engagement)
    best = place_at(corner, begin + step * (most - 1 + _narrowed(corner, begin + step * (most - 1), step)))
    flat = (place for place in tried if place.engagement >= best.engagement - FLAT)
    return next(flat, best)


def _narrowed(corner: Corner, begin: float, step: float) -> float:
    """Where in the two steps from `begin` on the engagement is greatest, in steps, by golden section."""
    low, high = 0.0, 2.0
    for _ in range(REFINEMENTS):
        one, two = high - GOLDEN * (high - low), low + GOLDEN * (high - low)
        engaged = [place_at(corner, begin + step * share).engagement for share in (one, two)]
        if engaged[0] >= engaged[1]:
            high = two
        else:
            low = one
    return round((low + high) / 2 * GRID) / GRID


def leftover(interior_angle: float, rougher: float, finished: float, stock: float) -> float:
    """What a larger rougher leaves in the corner beyond the wall stock, along the bisector (mm).

    (1/sin(b/2) - 1)(r1 - (R - ae)), from the distance of a fillet's crown to its sharp corner.

    >>> round(leftover(90, 8, 6, 0.5), 4)
    1.0355
    """
    share = 1 / math.sin(math.radians(interior_angle / 2)) - 1
    return max(0.0, share * (rougher - (finished - stock)))


def _even_place(corner: Corner) -> Place:
    phi = even_stock_engagement(corner)
    lead = _lead(corner)
    turned = (corner.turn - lead) / 2 if lead <= corner.turn else 0.0
    wall = turned - 90
    offset = corner.radius - corner.cutter
    x, y = offset * math.cos(math.radians(wall)), offset * math.sin(math.radians(wall))
    return Place(x, y, turned, ((wall, wall + phi),))


def _way(corner: Corner) -> tuple[float, float]:
    """Where on the way (mm; 0 at the start of the turn) the fillet's metal can be met."""
    past = _fillet(corner) * math.sin(math.radians(corner.turn / 2))
    return -(past + corner.cutter), math.radians(corner.turn) * (corner.radius - corner.cutter) + past


def _fillet(corner: Corner) -> float:
    """Distance from O of the centre of the fillet that the rougher left (mm)."""
    rougher = corner.rougher or 0.0
    return (rougher - (corner.radius - corner.stock)) / math.cos(math.radians(corner.turn / 2))


def place_at(corner: Corner, along: float) -> Place:
    """The place at `along` mm of the way, 0 where the turn begins; needs a larger rougher."""
    offset = corner.radius - corner.cutter
    turning = math.radians(corner.turn) * offset
    over = max(0.0, along - turning)
    turned = corner.turn * min(1.0, along / turning) if along > 0 and turning else 0.0
    turned = corner.turn if over else max(0.0, turned)
    straight = over or min(0.0, along)
    wall, ahead = math.radians(turned - 90), math.radians(turned)
    x = offset * math.cos(wall) + straight * math.cos(ahead)
    y = offset * math.sin(wall) + straight * math.sin(ahead)
    return Place(x, y, turned, tuple(_arcs(corner, x, y, turned)))


def _arcs(corner: Corner, x: float, y: float, heading: float) -> Iterator[tuple[float, float]]:
    """The parts of the leading half of the rim that are outside the roughed outline."""
    begin, end = heading - 90, heading + 90
    marks = sorted({begin, end, *(m for m in _crossings(corner, x, y, begin) if begin < m < end)})
    open_at = None
    for one, two in zip(marks, marks[1:], strict=False):
        middle = math.radians((one + two) / 2)
        inside = _roughed(corner, x + corner.cutter * math.cos(middle), y + corner.cutter * math.sin(middle))
        if not inside and open_at is None:
            open_at = one
        if inside and open_at is not None:
            yield open_at, one
            open_at = None
    if open_at is not None:
        yield open_at, end


def _crossings(corner: Corner, x: float, y: float, begin: float) -> Iterator[float]:
    """Angles, from `begin` on, at which the rim crosses the roughed lines and the fillet's circle."""
    inner, r, rougher = corner.radius - corner.stock, corner.cutter, corner.rougher or 0.0
    for normal, cosine, sine in corner.walls:
        yield from _either(normal, (inner - x * cosine - y * sine) / r, begin)
    dx, dy = corner.fillet[0] - x, corner.fillet[1] - y
    apart = math.hypot(dx, dy)
    if apart > 0:
        cosine = (apart**2 + r**2 - rougher**2) / (2 * apart * r)
        yield from _either(math.degrees(math.atan2(dy, dx)), cosine, begin)


def _either(middle: float, cosine: float, begin: float) -> Iterator[float]:
    if abs(cosine) <= 1:
        half = math.degrees(math.acos(cosine))
        yield from ((angle - begin) % 360 + begin for angle in (middle - half, middle + half))


def _roughed(corner: Corner, x: float, y: float) -> bool:
    """Whether the rougher had been at this point."""
    inner = corner.radius - corner.stock
    cosine, sine = corner.ahead
    if -y > inner or x * sine - y * cosine > inner:
        return False
    dx, dy = x - corner.fillet[0], y - corner.fillet[1]
    towards = math.degrees(math.atan2(dy, dx)) + 90  # 0 towards the first wall, T towards the second
    return not 0 < towards < corner.turn or math.hypot(dx, dy) <= (corner.rougher or 0.0)
