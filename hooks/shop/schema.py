"""The JSON Schema that editors complete and check lessons with, made from the declaration."""

import json
from pathlib import Path
from typing import Any

from hooks.shop.declaration import FIELDS
from hooks.shop.fields import Field
from hooks.shop.vocabulary import VOCABULARIES

NAME = "lesson.schema.json"
TIME = r"^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}(:\d{2})?(\.\d+)?(Z|[+-]\d{2}:\d{2})$"
DAY = r"^\d{4}-\d{2}-\d{2}$"


def schema() -> dict[str, Any]:
    """The schema of one lesson. Every scalar is a text: write it in quotes."""
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "A lesson",
        **_group(FIELDS),
    }


def write_schema(folder: Path) -> None:
    """Write it into a shop's folder, where each lesson's first line names it."""
    text = json.dumps(schema(), indent=1, ensure_ascii=False) + "\n"
    (folder / NAME).write_text(text, encoding="utf-8", newline="\n")


def _group(fields: tuple[Field, ...]) -> dict[str, Any]:
    return {
        "type": "object",
        "additionalProperties": False,
        "required": [one.key for one in fields if one.required],
        "properties": {one.key: _field(one) for one in fields},
    }


def _field(declared: Field) -> dict[str, Any]:
    words = " ".join(part for part in (declared.label, declared.help) if part)
    return {"description": words, **_type(declared)}


def _type(declared: Field) -> dict[str, Any]:
    if declared.type == "list" and declared.item:
        return {"type": "array", "items": _field(declared.item)}
    if declared.type == "group":
        return _group(declared.parts)
    if declared.type == "map":
        return {"type": "object", "additionalProperties": {"type": "string"}}
    if declared.type == "one_of":
        return {"type": "string", "enum": [word.key for word in VOCABULARIES[declared.of].words]}
    if declared.type == "yes_no":
        return {"type": "string", "enum": ["yes", "no"]}
    if declared.type in ("datetime", "date"):
        return {"type": "string", "pattern": TIME if declared.type == "datetime" else DAY}
    bounds = {"maxLength": declared.longest} if declared.longest else {}
    return {"type": "string", "minLength": 1, **bounds}
