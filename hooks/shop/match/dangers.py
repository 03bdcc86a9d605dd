"""The sorts of danger: what tells of one in a lesson, which facts it turns on, and what brings it into a job.

Common practice of the trade, no source. A lesson is compared only by the facts that its danger turns on: a stick-out
says nothing about a zero that was set wrong, nor the metal about a clamp in the way.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any

from hooks.shop.match.table import FAMILIES

Brings = Mapping[str, str]  # {fact: its keys}
CUT = "operation pass tool_kind"  # what every danger of the cut turns on


@dataclass(frozen=True)
class Danger:
    """A lesson tells of it by `causes`, `sums` (a calculator, or calculator:value) or `kinds`; it turns on `facts`.

    A job has it by one of the keys that `brings` names, by a number within `limits` (name, from, up to), or, where
    none of those numbers is known, by one of the keys in `perhaps`.
    """

    key: str
    said: str
    facts: str
    causes: str = ""
    sums: str = ""
    kinds: str = ""
    brings: Brings = field(default_factory=dict)
    limits: tuple[tuple[str, float, float], ...] = ()
    perhaps: Brings = field(default_factory=dict)


DANGERS = (
    Danger(
        "corner", "no room to turn",
        f"{CUT} feature corner_to_cutter width_to_cutter engagement depth_to_cutter",
        causes="corner_too_tight", sums="corner-clearance", brings={"feature": "inside_corner"},
        limits=(("corner_to_cutter", 0.9, 1.5), ("width_to_cutter", 1.02, 1.6)),
        perhaps={"feature": "slot closed_pocket"},
    ),
    Danger(
        "rubbing", "a chip too thin",
        f"{CUT} iso513 material cutter_diameter engagement feed_per_tooth",
        causes="too_slow_rubbing", sums="chip-load:chip_thickness_max", limits=(("feed_per_tooth", 0.0, 0.01),),
    ),
    Danger(
        "load", "more than cutter or spindle can take",
        f"{CUT} iso513 material cutter_diameter engagement depth_to_cutter feed_per_tooth cutting_speed hardness",
        causes="too_fast", sums="chip-load:torque_use chip-load:power_use chip-load:feed_reserve",
        limits=(("engagement", 0.9, 1.1),),
    ),
    Danger(
        "bending", "a cutter or a wall that gives way",
        f"{CUT} feature iso513 stick_out_to_cutter depth_to_cutter engagement wall_thickness floor_thickness "
        "cutting_speed",
        causes="stick_out_too_long", sums="chatter-speed stick-out", brings={"feature": "thin_wall thin_floor"},
        limits=(("stick_out_to_cutter", 3.5, 20.0), ("depth_to_cutter", 1.5, 20.0)),
    ),
    Danger(
        "grip", "held too weakly",
        f"{CUT} holding_kind feature cutter_diameter engagement grip_to_cutter",
        causes="holding_too_weak not_tightened", sums="clamping magnet-hold",
        brings={"tool_kind": "face_mill fly_cutter"}, limits=(("grip_to_cutter", 0.0, 0.15),),
    ),
    Danger(
        "seat", "not lying true", "operation holding_kind feature",
        causes="not_seated chip_under_part", sums="soft-jaw", brings={"stage": "turn_part_over"},
    ),
    Danger(
        "way", "something in the way", "operation tool_kind holding_kind feature",
        causes="holding_in_the_way left_in_spindle handle_left_on", sums="travel-clearance heights drill-point",
        brings={"stage": "jog_by_hand tram_vice", "feature": "through_hole", "holding_kind": "strap_clamps toe_clamps"},
    ),
    Danger(
        "zero", "a wrong zero", "operation finder_kind feature",
        causes="wrong_offset finder_sign_or_radius", sums="edge-find second-setup",
        brings={"operation": "find_edge", "stage": "set_work_offset turn_part_over"},
    ),
    Danger(
        "length", "a wrong tool length", "",
        causes="tool_length_wrong offset_not_updated dirt_in_taper", sums="tool-length",
        brings={"stage": "set_tool_length"},
    ),
    Danger(
        "tool", "a wrong or worn cutter", f"{CUT} feature width_to_cutter",
        causes="wrong_tool_called tool_worn", brings={"stage": "load_tools tool_change"},
    ),
    Danger(
        "blank", "a blank too small", "operation feature",
        causes="stock_not_as_planned material_not_as_marked", sums="stock-allowance bar-cutting",
        brings={"operation": "saw", "stage": "saw square_blank"},
    ),
    Danger(
        "gauge", "a size gauged wrong", "operation pass feature iso513 material hole_diameter",
        causes="gauge_or_method burr_left warmed_up", sums="thermal-growth fit",
        brings={"operation": "bore ream", "stage": "measure_in_machine inspect"},
    ),
    Danger(
        "program", "not the right program", "operation holding_kind",
        causes="unit_mixup post_or_control_setting wrong_program_version",
        brings={"stage": "program dry_run first_part"},
    ),
    Danger(
        "hands", "hands near what turns, cuts or falls", "operation iso513 material",
        kinds="person_at_risk", brings={"operation": "hand_deburr", "stage": "unload deburr clean_and_maintain"},
    ),
)  # fmt: skip
# What a lesson of any danger is compared by.
ALWAYS = frozenset("danger stage kind machine contributing surface tool_state words".split())
BY_KEY = {one.key: one for one in DANGERS}


def told(fields: Mapping[str, Any]) -> list[str]:
    """The dangers that a lesson's fields tell of for certain."""
    check = fields.get("check") or {}
    sums = {str(check.get("calculator")), f"{check.get('calculator')}:{check.get('value')}"}
    causes, kind = set(fields.get("contributing") or ()), fields.get("kind")
    return [
        one.key
        for one in DANGERS
        if causes & set(one.causes.split()) or sums & set(one.sums.split()) or kind in one.kinds.split()
    ]


def brought(facts: Mapping[str, Any]) -> list[str]:
    """The dangers that a job's facts bring with them.

    >>> brought({"operation": "saw"}), brought({"feature": "slot"}), brought({"feature": "slot", "width_to_cutter": 2})
    (['blank'], ['corner'], [])
    """
    return [one.key for one in DANGERS if _brings(one, facts)]


def likely(facts: Mapping[str, Any]) -> list[str]:
    """The dangers that a lesson is likely about where it tells of none; a number alone makes none likely."""
    return [one.key for one in DANGERS if _any(one.brings, facts)]


def _brings(one: Danger, facts: Mapping[str, Any]) -> bool:
    numbers = [(facts[name], low, high) for name, low, high in one.limits if name in facts]
    return (
        _any(one.brings, facts)
        or any(low <= number <= high for number, low, high in numbers)
        or (not numbers and _any(one.perhaps, facts))
    )


def _any(brings: Brings, facts: Mapping[str, Any]) -> bool:
    return any(set(keys_of(facts.get(name))) & set(keys.split()) for name, keys in brings.items())


def keys_of(value: Any) -> list[str]:
    """The keys of a fact that has one, several or none."""
    if isinstance(value, list):
        return value
    return [value] if isinstance(value, str) else []


def turns_on(dangers: Iterable[str]) -> frozenset[str] | None:
    """The facts by which a lesson with these dangers is compared, with their sorts; None for all there are."""
    facts = [BY_KEY[key].facts.split() for key in dangers]
    if not facts:
        return None
    named = ALWAYS.union(*facts)
    return named | {name for name, (of, _) in FAMILIES.items() if of in named}
