"""The door for a page: the memory once, then job after job as JSON in, brief and card as JSON out."""

import json

from calc.quantity import Refused
from hooks.brief.page import brief_html, card_html


class Desk:
    """A page's desk: the shop's memory lies on it (data/known.json), and jobs are asked about."""

    def __init__(self, known_json: str) -> None:
        self._known = json.loads(known_json)

    def answer(self, job_json: str, base: str) -> str:
        """JSON of {"ok", "brief", "card"}, or of {"ok": false, "message"}. Never raises."""
        settings = self._known["settings"]
        try:
            job = json.loads(job_json)
            html = {"brief": brief_html(self._known, job, settings, base), "card": card_html(job, settings)}
            return json.dumps({"ok": True, **html})
        except (Refused, ArithmeticError, ValueError, TypeError, AttributeError, KeyError) as error:
            return json.dumps({"ok": False, "message": f"This job cannot be read: {error}"})
