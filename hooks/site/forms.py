"""The lesson's declaration as the forms of the site need it: one declaration, no second list of fields."""

from typing import Any

from calc.catalogue import CALCULATORS
from calc.declare import Calculator
from calc.quantity import Quantity
from hooks.shop.declaration import FIELDS, field
from hooks.shop.fields import Field
from hooks.shop.job_sheet import JOB_FIELDS
from hooks.shop.read import Shop
from hooks.shop.settings import SHOP_FIELDS
from hooks.shop.vocabulary import VOCABULARIES

JOBS_OFFERED = 50  # the newest: a list longer than that is no help at a machine
QUICK = ("kind", "nearly", "said", "when", "machine", "job")
SECTIONS = (
    ("What happened", ("quick", "auto")),
    ("Three taps", ("soon",)),
    ("The facts", ("facts",)),
    ("Why, and what we do now", ("later",)),
)


def declaration_data(shop: Shop) -> dict[str, Any]:
    """What the pages' scripts read as data/declaration.json: fields, vocabularies, calculators."""
    return {
        "fields": [field_data(one) for one in FIELDS],
        "shop_fields": [field_data(one) for one in SHOP_FIELDS],
        "job_fields": [field_data(one) for one in JOB_FIELDS],
        "vocabularies": _vocabularies() | _of_the_shop(shop),
        "calculators": [calculator_data(one) for one in CALCULATORS],
    }


def record_context(shop: Shop) -> dict[str, Any]:
    """What templates/record.html shows: the words of its six fields, the kinds, machines and jobs."""
    words = _of_the_shop(shop)
    return {
        "ask": {key: field_data(field(key)) for key in QUICK},
        "kinds": VOCABULARIES["kind"].words,
        "machines": words["machines"]["words"],
        "jobs": [word["key"] for word in words["jobs"]["words"]],
    }


def edit_context(_shop: Shop) -> dict[str, Any]:
    """What templates/edit.html shows: the sections of the full editor, by when their fields are asked."""
    return {"sections": [{"title": title, "asks": asks} for title, asks in SECTIONS]}


def field_data(declared: Field) -> dict[str, Any]:
    """One field as JSON: its words, its type, and what it holds (`parts` of a group, `item` of a list)."""
    return {
        "key": declared.key,
        "ask": declared.ask,
        "type": declared.type,
        "of": declared.of,
        "required": declared.required,
        "label": declared.label,
        "help": declared.help,
        "longest": declared.longest,
        "unit": declared.unit,
        "by": declared.by,
        "quantity": _quantity_data(declared.quantity) if declared.quantity else None,
        "item": field_data(declared.item) if declared.item else None,
        "parts": [field_data(part) for part in declared.parts],
    }


def _quantity_data(quantity: Quantity) -> dict[str, Any]:
    """What `calc.page.fault` must know to look at a number before it is saved."""
    return {key: getattr(quantity, key) for key in ("name", "label", "unit", "kind", "low", "high", "above")}


def calculator_data(calculator: Calculator) -> dict[str, Any]:
    """What a page must know to offer a calculator and to hold one of its values."""
    guard = calculator.guard
    return {
        "name": calculator.name,
        "title": calculator.title,
        "inputs": [{"name": one.name} for one in calculator.inputs],
        "outputs": [_output_data(one) for one in calculator.outputs],
        "guard": {"value": guard.value, "at_most": guard.at_most, "at_least": guard.at_least},
    }


def _output_data(output: Quantity) -> dict[str, str]:
    return {"name": output.name, "label": output.label, "unit": output.unit}


def _vocabularies() -> dict[str, Any]:
    return {name: {"words": [_word(word) for word in one.words]} for name, one in VOCABULARIES.items()}


def _word(word: Any) -> dict[str, str]:
    return {"key": word.key, "label": word.label, "help": word.help}


def _of_the_shop(shop: Shop) -> dict[str, Any]:
    """The shop's own words, offered as a vocabulary is: its machines and its newest jobs."""
    named = [str(one.get("part")) for one in shop.jobs]
    jobs = dict.fromkeys([*named, *(str(lesson.get("job")) for lesson in shop.lessons if lesson.get("job"))])
    return {
        **{kind: {"words": _keyed(shop, kind)} for kind in ("machines", "cutters", "vices")},
        "jobs": {"words": [{"key": job, "label": job, "help": ""} for job in list(jobs)[:JOBS_OFFERED]]},
    }


def _keyed(shop: Shop, kind: str) -> list[dict[str, str]]:
    return [{"key": one["key"], "label": one["name"], "help": ""} for one in shop.settings.get(kind, ())]
