"""The numbers of a pocket in soft jaws, and what is found in them."""

import math
from collections.abc import Iterator
from dataclasses import dataclass

from calc.answer import VERDICTS
from calc.calculators.corner_given import Given as CornerGiven
from calc.calculators.corner_given import given as corner_given
from calc.calculators.corner_sums import Sums as CornerSums
from calc.calculators.corner_sums import sums as corner_sums
from calc.calculators.corner_sums import verdict as corner_verdict
from calc.calculators.soft_given import Given
from calc.formulas.reliefs import relief_bite, relief_offset, smallest_relief, wall_eaten
from calc.quantity import SLACK, Reading, at_least, at_most
from calc.show import number, plain, rough, show

PLAY = 0.2  # mm along the jaws (judgement)
NEAR = 1.0  # mm between the jaws, and of the part above them (judgement)
END_WALL = 2.0  # mm (judgement)
FLAT_SHARE = 0.5  # of the part's own flat (judgement)


@dataclass(frozen=True)
class Relief:
    """One corner's relief, mm: `radius` of its cutter; `offset` from the corner on the bisector."""

    radius: float
    offset: float

    @property
    def aside(self) -> float:
        """Its middle from each wall."""
        return self.offset / math.sqrt(2)

    @property
    def bite(self) -> float:
        """Into the jaw beyond the wall."""
        return relief_bite(self.radius, self.offset)


@dataclass(frozen=True)
class Sums:
    """Results in mm. `relief` None: none is cut, or it would not clear. `left` are (mm of jaw, where)."""

    needed: bool
    smallest: float | None
    relief: Relief | None
    corner_radius: float
    eaten: float
    margin: float
    depth: float
    long_wall: float
    end_wall: float
    gap_held: float
    left: tuple[tuple[float, str], ...]
    fit: int | None
    stands_out: float | None
    corner_given: CornerGiven
    corner: CornerSums

    @property
    def nests(self) -> bool:
        """Whether the pocket's corner is the part's own."""
        return not self.needed and self.eaten == 0

    @property
    def bite(self) -> float:
        """Of a relief into the jaw; 0 without one."""
        return self.relief.bite if self.relief else 0.0

    @property
    def thinnest(self) -> tuple[float, str] | None:
        """The least jaw left, and where; None where nothing of the jaw is known."""
        return min(self.left, default=None)


def sums(g: Given) -> Sums:
    """All numbers of the pocket `g`."""
    r = g.cutter / 2
    needed = not at_most(r, g.radius + g.clearance / 2)
    smallest = smallest_relief(r, g.radius, g.room) if needed else None
    relief = _relief(g, smallest) if smallest is not None and g.reliefs else None
    nests = at_most(r, g.radius)
    eaten = wall_eaten(relief.radius, relief.offset) if relief else 0.0 if nests else r
    depth = (g.pocket_width - g.gap) / 2
    bite = relief.bite if relief else 0.0
    around = _corner(g, max(r, g.radius))
    return Sums(
        needed=needed,
        smallest=smallest,
        relief=relief,
        corner_radius=max(r, g.radius),
        eaten=eaten,
        margin=g.clearance / 2 - (0.0 if relief or nests else r - g.radius),
        depth=depth,
        long_wall=max(0.0, g.pocket_length - 2 * max(eaten, g.radius)),
        end_wall=max(0.0, depth - eaten),
        gap_held=g.gap - g.across,
        left=tuple(_left(g, depth, bite)),
        fit=None if g.jaw_length is None else along(g, bite),
        stands_out=None if g.part_height is None or g.step is None else g.part_height - g.step,
        corner_given=around,
        corner=corner_sums(around),
    )


def _relief(g: Given, smallest: float) -> Relief | None:
    radius = (g.cutter if g.relief is None else g.relief) / 2
    if not at_least(radius, smallest):
        return None
    return Relief(radius, relief_offset(g.cutter / 2, radius, g.radius, g.room))


def _corner(g: Given, radius: float) -> CornerGiven:
    """The pocket's corner as the corner's own calculator reads it, without reliefs."""
    lengths = {"cutter_diameter": g.cutter, "corner_radius": radius, "pocket_width": g.narrow, "radial_depth": g.stock}
    readings = {name: Reading(value, "mm", plain(value, "mm")) for name, value in lengths.items()}
    return corner_given(readings | {"corner_angle": Reading(90.0, "deg", "90"), "rise_limit": Reading(4.0, "1", "4")})


def along(g: Given, bite: float) -> int:
    """How many pockets fit along the jaw, with the wall wanted between them and at both ends."""
    places = ((g.jaw_length or 0.0) - g.wall) / pitch(g, bite)
    return max(0, math.floor(places * (1 + SLACK)))


def pitch(g: Given, bite: float) -> float:
    """From one pocket to the next (mm): reliefs and the wall wanted included."""
    return g.pocket_length + 2 * bite + g.wall


def length_needed(g: Given, bite: float) -> float:
    """Of jaw for all the pockets wanted (mm)."""
    return g.wanted * pitch(g, bite) + g.wall


def _left(g: Given, depth: float, bite: float) -> Iterator[tuple[float, str]]:
    if g.jaw_thickness is not None:
        yield g.jaw_thickness - depth - bite, "behind the pocket"
    if g.jaw_height is not None and g.step is not None:
        yield g.jaw_height - g.step, "under the pocket"
    if g.jaw_length is not None:
        yield (g.jaw_length - length_needed(g, bite)) / 2 + g.wall, "at the jaw's end"


def findings(g: Given, s: Sums) -> tuple[tuple[str, str, str], ...]:
    """(what, verdict, sentence) of everything that is not as it should be."""
    every = (*_seat(g, s), *_walls(g, s), *_jaws(g, s), *_cut(g, s))
    return tuple(one for one in every if one[1] != "ok")


def worst(found: tuple[tuple[str, str, str], ...]) -> int:
    """The worst verdict among findings, as its place in VERDICTS."""
    return max((VERDICTS.index(one[1]) for one in found), default=0)


def _seat(g: Given, s: Sums) -> Iterator[tuple[str, str, str]]:
    unseated = s.needed and s.relief is None
    if unseated and g.reliefs:
        yield ("seat", "stop", f"It does not seat: a relief of {show(g.relief or g.cutter, 'mm')} leaves metal under "
               f"the part's corner.")  # fmt: skip
    elif unseated:
        yield ("seat", "stop", f"It does not seat: the pocket's corners have a radius of {show(g.cutter / 2, 'mm')}, "
               f"the part's {show(g.radius, 'mm')}.")  # fmt: skip
    if g.clearance == 0:
        yield "play", "watch", "No clearance along the jaws: the part must be pressed in."
    elif not at_most(g.clearance, PLAY):
        yield "play", "watch", f"The part can lie anywhere within {show(g.clearance, 'mm')} along the jaws."


def _walls(g: Given, s: Sums) -> Iterator[tuple[str, str, str]]:
    if not s.nests and s.end_wall <= SLACK:
        yield "end", "stop", "Nothing is left of the end walls: nothing locates the part along the jaws."
    elif not at_least(s.end_wall, END_WALL):
        yield "end", "watch", f"Only {show(s.end_wall, 'mm')} of end wall left in each jaw."
    flat = g.length - 2 * g.radius
    if not s.nests and s.long_wall <= SLACK:
        yield "long", "stop", "Nothing is left of the long walls: the jaws hold on nothing."
    elif not s.nests and not at_least(s.long_wall, FLAT_SHARE * flat):
        yield "long", "watch", f"Only {show(s.long_wall, 'mm')} of long wall left in each jaw."


def _jaws(g: Given, s: Sums) -> Iterator[tuple[str, str, str]]:
    if s.gap_held <= SLACK:
        yield "gap", "stop", "The jaws meet before they hold the part."
    elif not at_least(s.gap_held, NEAR):
        yield "gap", "watch", f"Only {show(s.gap_held, 'mm')} between the jaws when they hold the part."
    if s.fit is not None and s.fit < g.wanted:
        yield "fit", "stop", f"{s.fit or 'None'} of {g.wanted} fit along the jaw."
    elif s.thinnest is not None and s.thinnest[0] <= SLACK:
        yield "thin", "stop", f"Nothing of the jaw is left {s.thinnest[1]}."
    elif s.thinnest is not None and not at_least(s.thinnest[0], g.wall):
        yield "thin", "watch", f"Only {show(s.thinnest[0], 'mm')} of jaw left {s.thinnest[1]}."
    if s.stands_out is not None and s.stands_out <= SLACK:
        yield "top", "watch", "The part is no higher than the jaws: a cut on its top goes into them."
    elif s.stands_out is not None and not at_least(s.stands_out, NEAR):
        yield "top", "watch", f"The part stands only {show(s.stands_out, 'mm')} above the jaws."


def _cut(_g: Given, s: Sums) -> Iterator[tuple[str, str, str]]:
    """The corner's own verdict, where no relief plunged before takes the metal away."""
    if s.relief is None:
        word = corner_verdict(s.corner_given, s.corner)
        yield ("corner", word, f"In the pocket's corners the cutter takes {rough(s.corner.removal_rise or 0, '1')} "
               f"times the metal, with {number(s.corner.corner or 0, 'deg')}° of it in.")  # fmt: skip
