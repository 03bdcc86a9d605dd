"""Lessons nobody would write, but which the declaration allows: any fields, any words, any parts left out."""

import random
from typing import Any

from hooks.shop.declaration import FIELDS
from hooks.shop.fields import Field
from hooks.shop.vocabulary import VOCABULARIES

TEXTS = ("x", "it **hit** `hard` & <b>", "a long one " * 9, "ünïcode 🔧 \u202e", "- a\n- b", "7:24", "[a](b)")
QUANTITIES = {"mm": "6 mm", "rpm": "1000 rpm", "mm/min": "30 in/min", "N*m": "3", "1": "80 %", "Hz": "350 Hz",
              "deg": "3 deg"}  # fmt: skip
NOT_MADE = {"id", "machine", "repeat_of", "check", "photos"}
CHECK = {"calculator": "corner-clearance", "inputs": {"cutter_diameter": "6 mm", "pocket_width": "6.8 mm"},
         "value": "removal_rate_rise", "at_most": "2"}  # fmt: skip


def random_lesson(chance: random.Random) -> dict[str, Any]:
    """Fields as typed; kind and said always."""
    often = chance.random()
    fields = {
        one.key: _value(one, chance)
        for one in FIELDS
        if one.key not in NOT_MADE and (one.required or chance.random() < often)
    }
    if chance.random() < 0.2:
        fields["check"] = CHECK
    return {key: value for key, value in fields.items() if value}


def _value(field: Field, chance: random.Random) -> Any:
    if field.type == "group":
        return {part.key: _value(part, chance) for part in field.parts if chance.random() < 0.5}
    if field.type == "list" and field.item:
        return [value for _ in range(chance.randint(1, 3)) if (value := _value(field.item, chance))]
    if field.type == "one_of":
        return chance.choice(VOCABULARIES[field.of].words).key
    if field.type in ("number", "quantity"):
        return "3" if field.quantity and field.quantity.kind == "whole" else QUANTITIES[field.unit]
    other = {"yes_no": "yes", "datetime": "2026-01-02T10:00:00+01:00", "date": "2026-01-05"}
    return other.get(field.type) or chance.choice(TEXTS)[: field.longest].strip()
