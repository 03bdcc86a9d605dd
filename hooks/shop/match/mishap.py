"""Whether two lessons tell one mishap that came in two shapes: a brief then has one line for both."""

from collections.abc import Mapping
from typing import Any

from calc.material_names import group_from_words
from hooks.shop.match.dangers import BY_KEY, told, turns_on

Mishap = Mapping[str, Any]
# Stainless and titanium: what one teaches holds for the other (common practice, no source).
WORK_HARDENING = {"M", "S"}


def mishap(fields: Mapping[str, Any], sorts: list[str]) -> dict[str, Any] | None:
    """What tells a lesson's mishap from others, as JSON; None where it tells of no danger that has known causes.

    `sorts` are those of its operation; its sum is the calculator that would have caught it; its metal is told where the
    danger turns on it.
    """
    danger = next((BY_KEY[key] for key in told(fields) if BY_KEY[key].causes), None)
    if danger is None:
        return None
    causes = [one for one in fields.get("contributing") or () if one in danger.causes.split()]
    kind, sum_ = str(fields.get("kind")), str((fields.get("check") or {}).get("calculator", ""))
    return {
        "danger": danger.key, "kind": kind, "sorts": sorts, "sum": sum_, "metal": metal_of(fields), "causes": causes,
    }  # fmt: skip


def metal_of(fields: Mapping[str, Any]) -> str:
    """The ISO 513 group that a lesson is of, "" for any: where its danger turns on the metal, or its rule names it."""
    group = str(fields.get("iso513") or "")
    named = group_from_words(str(fields.get("now_do") or "")) == group
    return group if named or "iso513" in (turns_on(told(fields)) or ()) else ""


def akin(metal: str, other: str) -> bool:
    """Whether two ISO 513 groups, "" where one is not known, may teach of each other.

    >>> akin("N", "M"), akin("S", "M"), akin("N", "")
    (False, True, True)
    """
    return metal == other or not metal or not other or {metal, other} <= WORK_HARDENING


def same_mishap(one: Mishap | None, other: Mishap | None) -> bool:
    """One danger, one kind of mishap at one sort of operation; what only one of them says tells them not apart.

    >>> drilled = {"danger": "way", "kind": "crash", "sorts": ["holes"], "sum": "heights", "metal": "", "causes": []}
    >>> same_mishap(drilled, {**drilled, "sum": ""}), same_mishap(drilled, {**drilled, "sum": "travel-clearance"})
    (True, False)
    """
    if one is None or other is None or one["danger"] != other["danger"] or one["kind"] != other["kind"]:
        return False
    if one["sorts"] != other["sorts"] and not set(one["sorts"]) & set(other["sorts"]):
        return False
    if len({one["sum"], other["sum"]} - {""}) > 1 or not akin(one["metal"], other["metal"]):
        return False
    causes = [set(told["causes"]) for told in (one, other) if told["causes"]]
    return len(causes) < 2 or bool(causes[0] & causes[1])
