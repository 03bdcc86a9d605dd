"""Sawn stock: what a blank must measure, what is left when it has cleaned up, and how many a bar gives."""

from decimal import ROUND_FLOOR, Decimal


def blank_size(finished: float, machining: float, safety: float, sawn_faces: int, holding: float = 0.0) -> float:
    """Size of the blank along one axis (mm): finished + two machining allowances + safety for each sawn face.

    Source: own definition; a safety of about 1 mm a sawn face is common practice, no source.

    >>> blank_size(80, 0.5, 1, 2)
    83.0
    """
    return finished + 2 * machining + sawn_faces * safety + holding


def lean(out_of_square: float, one: float, other: float) -> float:
    """How far a saw that is out by `out_of_square` (mm per 100 mm) leans over a section (mm).

    It leans in two planes, so both sides of the section count: out (one + other)/100.

    >>> lean(0.5, 60, 40)
    0.5
    """
    return out_of_square * (one + other) / 100


def cleanup(allowances: float, defect: float, leaning: float, sawn_faces: int, scatter: float) -> float:
    """What is certainly left over when both faces have just cleaned up (mm); negative: it will not clean up.

    Both faces' allowances, less a surface defect a face, less the lean of each sawn face, less scatter once.

    >>> round(cleanup(3, 0.1, 0.5, 2, 0.2), 12)
    1.6
    """
    return allowances - 2 * defect - sawn_faces * leaning - (scatter if sawn_faces else 0.0)


def exact(value: float | str) -> Decimal:
    """The decimal that a person would write for this float: its shortest digits, to a nanometre where it is in mm.

    >>> exact(0.1 + 0.2)
    Decimal('0.3')
    """
    return Decimal(repr(round(float(value), 6)))


def blanks_per_bar(bar: Decimal, blank: Decimal, kerf: Decimal, stub: Decimal) -> int:
    """How many blanks a bar gives, counted exactly.

    With a stub every blank is cut off: floor((L - e)/(b + k)). Without one the last needs no cut:
    floor((L + k)/(b + k)). In binary floats floor(0.3/0.1) is 2; hence decimals.

    >>> blanks_per_bar(Decimal("101.6"), Decimal("50"), Decimal("1.6"), Decimal("0"))
    2
    """
    room = bar - stub if stub else bar + kerf
    return max(0, int((room / (blank + kerf)).to_integral_value(ROUND_FLOOR)))


def offcut(bar: Decimal, blank: Decimal, kerf: Decimal, count: int) -> Decimal:
    """What is left of a bar after `count` blanks, each cut off (mm); a sliver thinner than the cut is nothing.

    >>> offcut(Decimal("3000"), Decimal("83"), Decimal("1.5"), 35)
    Decimal('42.5')
    """
    return max(Decimal(0), bar - count * (blank + kerf))


def cuts_in_bar(bar: Decimal, blank: Decimal, kerf: Decimal, count: int) -> int:
    """Cuts for `count` blanks of one bar: one each, and one fewer where the last one ends with the bar.

    >>> cuts_in_bar(Decimal("101.5"), Decimal("50"), Decimal("1.5"), 2)
    1
    """
    return count - int(count > 0 and bar == count * blank + (count - 1) * kerf)
