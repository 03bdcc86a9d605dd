"""What was given for a blank and what follows: sizes, clean-up, bars and cuts."""

import math
import re
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from calc.formulas.stock import blank_size, blanks_per_bar, cleanup, cuts_in_bar, exact, lean, offcut
from calc.quantity import SLACK, Quantity, Reading, Refused, at_least, values
from calc.show import show
from calc.typed import read

AXES = ("length", "width", "height")
ENOUGH = 0.2  # mm certainly left over: judgement
SECTION = re.compile(r"(?P<w>[^x×]+)[x×](?P<h>[^x×]+)|(?:round|ø|⌀|dia(?:meter)?)\s*(?P<d>.+)", re.IGNORECASE)


@dataclass(frozen=True)
class Bar:
    """What a bar gives."""

    length: float
    per_bar: int
    bars: int | None
    offcut: float
    share: float | None
    cuts: int | None
    section_area: float


@dataclass(frozen=True)
class Sums:
    """Three values an axis (length, width, height) in mm, and the bar where one was given."""

    finished: tuple[float, ...]
    sawn: tuple[int, ...]
    blank: tuple[float, ...]
    lean: tuple[float, ...]
    cleanup: tuple[float, ...]
    first_cut: tuple[float, ...]
    bar: Bar | None
    fits: bool = True  # width and height of the blank into the bar's section

    @property
    def worst(self) -> int:
        """The axis with least left over."""
        return min(range(3), key=lambda axis: self.cleanup[axis])

    @property
    def drawn(self) -> int:
        """The axis worth a picture: of those sawn the one with least left over, else the worst."""
        return min(range(3), key=lambda axis: (not self.sawn[axis], self.cleanup[axis]))


def sums(readings: Mapping[str, Reading]) -> Sums:
    """All numbers of the blank. Raises Refused."""
    v = values(readings)
    s = sized(v)
    area, fits = _section(str(v.get("bar_section") or ""), s.blank)
    return replace(s, bar=_bar(v, s.blank, s.finished, area), fits=fits)


def sized(v: Mapping[str, Any]) -> Sums:
    """The numbers of the blank without its bar. Raises Refused."""
    sawn = _faces(v["sawn_faces"])
    finished = tuple(v[f"finished_{axis}"] for axis in AXES)
    machining, safety, holding = v["machining_allowance"], v["safety_allowance"], v["holding_stock"]
    blank = tuple(
        blank_size(finished[axis], machining, safety, sawn[axis], holding if axis == 2 else 0.0) for axis in range(3)
    )
    leaning = tuple(_lean(v["saw_out_of_square"], blank, sawn, axis) for axis in range(3))
    defect, scatter = v["surface_defect"], v["saw_length_scatter"]
    return Sums(
        finished=finished,
        sawn=sawn,
        blank=blank,
        lean=leaning,
        cleanup=tuple(
            cleanup(2 * machining + sawn[n] * safety, defect, leaning[n], sawn[n], scatter) for n in range(3)
        ),
        first_cut=tuple(defect + leaning[n] for n in range(3)),
        bar=None,
    )


def verdict(s: Sums) -> str:
    """stop where it will not clean up or cannot be cut from the bar; watch under 0.2 mm left over."""
    left = s.cleanup[s.worst]
    if left < -SLACK or not s.fits or (s.bar and s.bar.per_bar == 0):
        return "stop"
    return "ok" if at_least(left, ENOUGH) else "watch"


def _lean(out: float, blank: tuple[float, ...], sawn: tuple[int, ...], axis: int) -> float:
    """A saw leans on the faces that it made: over the section at right angles to the axis."""
    if not sawn[axis]:
        return 0.0
    one, other = (blank[n] for n in range(3) if n != axis)
    return lean(out, one, other)


def _faces(values: tuple[float, ...]) -> tuple[int, ...]:
    if len(values) != 3 or any(value not in (0, 1, 2) for value in values):
        raise Refused("sawn_faces", "Sawn faces (sawn_faces) takes three of 0, 1 or 2: along length, width, height")
    return tuple(int(value) for value in values)


def _bar(v: Mapping[str, object], blank: tuple[float, ...], finished: tuple[float, ...], area: float) -> Bar | None:
    length = v.get("bar_length")
    if not isinstance(length, float):
        return None
    kerf, stub = exact(v["saw_kerf"]), exact(v["stub"])
    piece, bar = exact(blank[0]), exact(length)
    quantity = int(str(v["quantity"]))
    per_bar = blanks_per_bar(bar, piece, kerf, stub)
    if not per_bar:
        return Bar(length, 0, None, length, None, None, area)
    bars = -(-quantity // per_bar)
    full, rest = divmod(quantity, per_bar)
    cuts = full * cuts_in_bar(bar, piece, kerf, per_bar) + cuts_in_bar(bar, piece, kerf, rest)
    used = quantity * math.prod(finished) / (bars * length * area)
    return Bar(length, per_bar, bars, float(offcut(bar, piece, kerf, per_bar)), used, cuts, area)


def _section(text: str, blank: tuple[float, ...]) -> tuple[float, bool]:
    """Area of the bar's section (mm2), and whether the blank's width and height fit into it."""
    width, height = blank[1], blank[2]
    if not text:
        return width * height, True
    found = SECTION.fullmatch(text.strip())
    if not found:
        raise Refused("bar_section", 'Bar section (bar_section) takes "60 x 40" or "round 80", with units if not mm')
    if found["d"]:
        d = _side(found["d"])
        return math.pi * d * d / 4, at_least(d, math.hypot(width, height))
    w, h = _side(found["w"]), _side(found["h"])
    lies = at_least(w, width) and at_least(h, height)
    stands = at_least(h, width) and at_least(w, height)
    return w * h, lies or stands


def _side(text: str) -> float:
    side = Quantity("bar_section", "Bar section", "mm", above=0, high=5000)
    return float(read(text, side).value)


def said_short(s: Sums) -> str:
    """What is certainly left over on the worst axis, as a sentence."""
    left, axis = s.cleanup[s.worst], AXES[s.worst]
    if left < -SLACK:
        return f"the {axis} can be {show(-left, 'mm')} short of cleaning up"
    return f"at least {show(left, 'mm')} is left over along the {axis} when both faces have cleaned up"
