"""The comparable facts of a lesson or a job: keys, ratios, and the rare words of what was said."""

import math
import re
from collections.abc import Mapping
from typing import Any

from calc.material_names import group_from_words, hrc
from calc.quantity import Quantity, Refused
from calc.typed import read
from hooks.shop.match.dangers import brought, keys_of, likely, told, turns_on
from hooks.shop.match.table import FAMILIES, ROWS

Facts = Mapping[str, Any]
# Where the facts are in a lesson's fields; a ratio is the first over the second, times the number.
TOLD = ("title", "said", "now_do")
COUNTED = ("operation", "feature", "tool_kind", "material")  # a word of these has counted already
SINGLE = tuple("operation pass material iso513 stage kind machine contributing surface tool_state".split())
GROUPS = ("cutter", "holding", "cutting", "geometry")
RATIOS = (
    ("corner_to_cutter", "corner_radius", "cutter_diameter", 2.0),
    ("width_to_cutter", "pocket_width", "cutter_diameter", 1.0),
    ("stick_out_to_cutter", "stick_out", "cutter_diameter", 1.0),
    ("depth_to_cutter", "axial_depth", "cutter_diameter", 1.0),
    ("engagement", "radial_depth", "cutter_diameter", 1.0),
    ("grip_to_cutter", "grip_height", "cutter_diameter", 1.0),
)
LENGTH = Quantity("length", "Length", "mm")
FEED, SPEED = Quantity("feed_rate", "Feed rate", "mm/min"), Quantity("spindle_speed", "Spindle speed", "rpm")
TEETH = Quantity("teeth", "Teeth", "1")
WORD = re.compile(r"[a-z]{4,}")
ENDING = re.compile(r"(?<=[a-z]{3})(?:ings?|ers?|ed|es|s)$")
NAMED = re.compile(r"\w[\w-]+")  # the words of a material's name
SHAPES = frozenset("bar plate sheet round flat square block billet casting stock off cut the and".split())
COMMON = frozenset(
    "about after again always another back because been before being both came could does done down each ever every "
    "first from gave goes gone half have here into just kept last like made make more most much must never once only "
    "other over part same should side some take than that their them then there they this through till took turn under "
    "until upon very went were what when where which while with within without would".split()
)


def facts_of(fields: Mapping[str, Any]) -> dict[str, Any]:
    """The facts that a lesson turns on (fields typed: quantities have `.value` in their usual unit)."""
    facts, dangers = _facts(fields), told(fields)
    bears = turns_on(dangers)  # a danger that is but likely leaves no fact out
    facts = _with(dangers or likely(facts), facts)
    return {name: fact for name, fact in facts.items() if bears is None or name in bears}


def facts_of_job(fields: Mapping[str, Any]) -> dict[str, Any]:
    """All comparable facts of a job's situation (fields typed or as texts), and the dangers that they bring."""
    facts = _facts(fields)
    return _with(brought(facts), facts)


def _with(dangers: list[str], facts: dict[str, Any]) -> dict[str, Any]:
    return {**facts, "danger": dangers} if dangers else facts


def _facts(fields: Mapping[str, Any]) -> dict[str, Any]:
    parts = {key: value for group in GROUPS for key, value in (fields.get(group) or {}).items()}
    known = {**{key: fields.get(key) for key in SINGLE}, **parts}
    known["finder_kind"] = (fields.get("datum") or {}).get("finder_kind")
    facts = {row.name: known.get(row.name) for row in ROWS}
    facts |= {name: _ratio(known, over, under, times) for name, over, under, times in RATIOS}
    facts |= {row.name: _value(facts[row.name]) for row in ROWS if row.how == "near"}
    facts["hardness"] = _hardness(fields.get("hardness"))
    facts["feed_per_tooth"] = facts["feed_per_tooth"] or _feed_per_tooth(known)
    facts["cutting_speed"] = _cutting_speed(known)
    facts |= {name: _family(name, known) for name in FAMILIES}
    said = rare_words(" ".join(str(fields.get(key, "")) for key in TOLD))
    counted = rare_words(" ".join(str(facts[key] or "").replace("_", " ") for key in COUNTED))
    facts["words"] = [word for word in said if word not in counted]
    material = str(known.get("material") or "")
    facts["iso513"] = facts["iso513"] or group_from_words(material, str(fields.get("hardness") or ""))
    facts["material"] = [word for word in NAMED.findall(material.casefold()) if word not in SHAPES]
    return {key: _plain(value) for key, value in facts.items() if value}


def _family(name: str, known: Mapping[str, Any]) -> list[str]:
    of, families = FAMILIES[name]
    words = set(keys_of(_plain(known.get(of))))
    return [family for family, keys in families.items() if words & set(keys.split())]


def _feed_per_tooth(known: Mapping[str, Any]) -> float | None:
    """In mm, from feed, speed and teeth where nobody said it."""
    feed, speed, teeth = _value(known.get("feed_rate"), FEED), _speed(known), _value(known.get("teeth"), TEETH)
    return feed / speed / teeth if feed and speed and teeth else None


def _cutting_speed(known: Mapping[str, Any]) -> float | None:
    """Of the cutter's edge, in m/min."""
    speed, diameter = _speed(known), _value(known.get("cutter_diameter"))
    return math.pi * diameter * speed / 1000 if speed and diameter else None


def _speed(known: Mapping[str, Any]) -> float | None:
    return _value(known.get("spindle_speed"), SPEED)


def rare_words(text: str) -> list[str]:
    """The words of a text that may tell something, without their endings, each once.

    >>> rare_words("Reaming the holes again, then the clamps")
    ['ream', 'hole', 'clamp']
    """
    found = (ENDING.sub("", word) for word in WORD.findall(text.casefold()) if word not in COMMON)
    return list(dict.fromkeys(found))


def _plain(value: Any) -> Any:
    """Each key of a list once, as JSON has it."""
    return list(dict.fromkeys(value)) if isinstance(value, list | tuple) else value


def _ratio(known: Mapping[str, Any], over: str, under: str, times: float) -> float | None:
    top, bottom = _value(known.get(over)), _value(known.get(under))
    return times * top / bottom if top and bottom else None


def _value(reading: Any, of: Quantity = LENGTH) -> float | None:
    """A positive number of a reading, a number or a text as typed; None where there is none to compare."""
    number = _read(reading, of) if isinstance(reading, str) else getattr(reading, "value", reading)
    return float(number) if isinstance(number, int | float) and number > 0 else None


def _read(text: str, of: Quantity) -> float | None:
    try:
        return read(text, of).value
    except Refused:
        return None


def _hardness(text: str | None) -> float | None:
    return hrc(text or "")
