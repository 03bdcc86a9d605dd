"""What would mend a rapid: up first, a longer tool, the set-up moved. Each is worked out again before it is said."""

import math
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from calc.answer import Advice
from calc.calculators.travel_sums import AXES, FAR, LONGEST, SAME, Box, Leg, Nearest, Sums, legs, nearest, sums
from calc.quantity import at_least
from calc.show import plain, show

WAYS = (
    ("towards X+", "towards X−"),
    ("towards Y+", "towards Y−"),
    ("up, or take a longer tool", "down, or take a shorter tool"),
)


def advice(v: Mapping[str, Any], s: Sums) -> Iterator[Advice]:
    """Ways out, the best first."""
    near = s.nearest
    if near and not at_least(near.gap, v["clearance_wanted"]):
        yield from _clear(v, s, near)
    if s.least_travel is not None and s.least_travel < -SAME:
        yield from _within(v, s)


def _clear(v: Mapping[str, Any], s: Sums, near: Nearest) -> Iterator[Advice]:
    longer, bad = _longer(v, s, near), _point_itself(v, s)
    up = None if bad and longer is not None else _height(v, s, near)
    if up is not None:
        rises = all(up >= point[2] for point in v["move"])
        way = "Go up to Z" if rises else "Go to Z"
        rest = "down" if rises else "to the point"
        yield Advice(f"{way} {show(up, 'mm')} first, then across, then {rest}", "safe_height", up, "mm")
    if longer is not None:
        yield Advice(f"Let the tool stick out {show(longer, 'mm')}", "tool_length", longer, "mm")
    if bad is not None and longer is None:
        number, box = bad
        yield Advice(f"Point {number} itself is too near {box.name}: check its numbers, work zero and the obstacle")
    if up is None and longer is None and not (bad and _is_clear(v, s, near.leg, near.box)):
        yield Advice(f"No one height mends it: go round {near.box.name} by points of your own, or take it away")


def _height(v: Mapping[str, Any], s: Sums, near: Nearest) -> float | None:
    """The height over everything that mends the way; over less where a roof or the end of the travel is in the way."""
    if _is_clear(v, s, near.leg, near.box):
        return None  # what is told is a point that is too near by itself
    tops = sorted({_up(box.high[2] + v["clearance_wanted"]) for box in s.boxes}, reverse=True)
    for top in tops:
        other = {**v, "safe_height": top}
        after = sums(other, s.boxes)
        if top <= FAR and _way_is_clear(other, after) and _stays_within(after, s):
            return top
    return None


def _way_is_clear(v: Mapping[str, Any], s: Sums) -> bool:
    return all(_is_clear(v, s, leg, box) for box in s.boxes for leg in s.legs)


def _is_clear(v: Mapping[str, Any], s: Sums, leg: Leg, box: Box) -> bool:
    """Whether a rapid has the room wanted beside a box, or as much as its typed ends have there by themselves."""
    alone = [_gap((Leg(end, end, 1),), s, box, v) for end in {leg.start, leg.end} & set(v["move"])]
    return at_least(_gap((leg,), s, box, v) + SAME, min(v["clearance_wanted"], *alone, math.inf))


def _gap(way: tuple[Leg, ...], s: Sums, box: Box, v: Mapping[str, Any]) -> float:
    """Room beside one box."""
    near = nearest(way, s.bodies, (box,), v["rapid"] == "straight")
    return near.gap if near else math.inf


def _longer(v: Mapping[str, Any], s: Sums, near: Nearest) -> float | None:
    """How far the tool must stick out for the holder to stay over what it touches."""
    if near.body.name != "holder":
        return None
    lowest = min(min(leg.start[2], leg.end[2]) for leg in s.legs)
    length = _up(near.box.high[2] + v["clearance_wanted"] - lowest)
    if not v["tool_length"] < length <= LONGEST:
        return None
    return length if _mended({**v, "tool_length": length}, s) else None


def _up(length: float) -> float:
    """To a number that can be typed, rounded away from what stands in the way."""
    return math.ceil(round(1000 * length, 3)) / 1000


def _mended(v: Mapping[str, Any], before: Sums) -> bool:
    """Whether there is room enough with these numbers, and no end of travel is passed that was not passed before."""
    after = sums(v, before.boxes)
    roomy = after.nearest is not None and at_least(after.nearest.gap, v["clearance_wanted"])
    return roomy and _stays_within(after, before)


def _stays_within(after: Sums, before: Sums) -> bool:
    travel = zip(after.travel, before.travel, strict=True)
    return all(new is None or old is None or new >= min(-SAME, old) for new, old in travel)


def _point_itself(v: Mapping[str, Any], s: Sums) -> tuple[int, Box] | None:
    """The first typed point that has too little room all by itself, and beside what."""
    for number, point in enumerate(v["move"], 1):
        alone = nearest(legs((point,), None), s.bodies, s.boxes, True)
        if alone and not at_least(alone.gap, v["clearance_wanted"]):
            return number, alone.box
    return None


def _within(v: Mapping[str, Any], s: Sums) -> Iterator[Advice]:
    lower = _lower(v, s)
    if lower is not None:
        yield Advice(f"Go up only to Z {show(lower, 'mm')}", "safe_height", lower, "mm")
    shifts = [_shift(v, s, axis) for axis in range(3)]
    for axis, shift in enumerate(shifts):
        if shift is None:
            yield Advice(f"The move is longer than the travel in {AXES[axis]}: turn the job, or do it in two set-ups")
    known = [shift or 0.0 for shift in shifts]
    if not any(known):
        return
    zero = [one + shift for one, shift in zip(v["work_zero"], known, strict=True)]
    text = f"Move the set-up: {_moved(known)}"
    if None in shifts or max(map(abs, zero)) > FAR:
        yield Advice(text)
    else:
        yield Advice(text, "work_zero", ",".join(plain(one, "1") for one in zero) + " mm", "mm")


def _lower(v: Mapping[str, Any], s: Sums) -> float | None:
    """A lower safe height that keeps within the travel and still clears everything."""
    left = s.travel[2]
    if v.get("safe_height") is None or left is None or left >= -SAME:
        return None
    lower = {**v, "safe_height": v["safe_height"] + left}
    if not -FAR <= lower["safe_height"]:
        return None
    after = sums(lower, s.boxes)
    clear = after.nearest is None or at_least(after.nearest.gap, v["clearance_wanted"])
    inside = after.travel[2] is not None and after.travel[2] >= -SAME
    return lower["safe_height"] if clear and inside else None


def _shift(v: Mapping[str, Any], s: Sums, axis: int) -> float | None:
    """How far work zero must go along an axis; None where no place is long enough."""
    ends = s.reached[axis]
    if ends is None:
        return 0.0
    low, high = v[f"travel_{AXES[axis].lower()}"]
    if ends[1] - ends[0] > high - low + SAME:
        return None
    shift = max(low - ends[0], 0.0) or min(high - ends[1], 0.0)
    return shift if abs(shift) > SAME else 0.0


def _moved(shifts: Sequence[float]) -> str:
    return "; ".join(
        f"{show(abs(shift), 'mm')} {ways[shift < 0]}" for shift, ways in zip(shifts, WAYS, strict=True) if shift
    )
