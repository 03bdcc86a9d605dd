"""The one door for a page: what was typed, as JSON, in; HTML and the answer, as JSON, out."""

import json
from typing import Any

from calc.catalogue import named, work_out
from calc.present import answer_html
from calc.quantity import Quantity, Refused, plainly
from calc.typed import read


def respond(name: str, typed_json: str, system: str) -> str:
    """JSON of {"ok", "html", "answer"}, or of {"ok": false, "field", "message"}. Never raises."""
    try:
        answer = work_out(name, _typed(typed_json)).to_dict()
        return json.dumps({"ok": True, "html": answer_html(answer, system), "answer": answer}, allow_nan=False)
    except Refused as refusal:
        return _refusal(refusal.field, _plainly(name, refusal.message))
    except (ArithmeticError, ValueError):
        return _refusal("", "These numbers are too far apart to be worked out.")


def fault(text: str, quantity_json: str) -> str:
    """What is wrong with `text` as one number of a form, JSON of the line to say; "" where nothing is.

    `quantity_json` holds arguments of a Quantity. An empty box is no fault: whether it may be is the form's affair.

    >>> fault("6 kg", '{"name": "stub", "label": "Stub", "unit": "mm"}')
    '"Stub is a length in mm or in, and kg is a mass"'
    >>> fault("6 mm", '{"name": "stub", "label": "Stub", "unit": "mm"}')
    '""'
    """
    quantity = Quantity(**json.loads(quantity_json))
    try:
        if text.strip():
            read(text, quantity)
    except Refused as refusal:
        return json.dumps(plainly(refusal.message, [quantity]))
    return json.dumps("")


def _plainly(name: str, message: str) -> str:
    """With the labels of that calculator; there may be none of that name."""
    try:
        return plainly(message, named(name).inputs)
    except Refused:
        return message


def _typed(typed_json: str) -> dict[str, str]:
    typed: Any = json.loads(typed_json)
    if not isinstance(typed, dict) or not all(isinstance(value, str) for value in typed.values()):
        raise Refused("", "The inputs must be names and texts.")
    return typed


def _refusal(field: str, message: str) -> str:
    return json.dumps({"ok": False, "field": field, "message": message})
