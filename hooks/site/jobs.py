"""What the pages of jobs show."""

from collections.abc import Mapping
from typing import Any

from markupsafe import Markup

from hooks.brief.card import tools
from hooks.brief.page import brief_html, card_html
from hooks.shop.job import Job
from hooks.shop.read import Shop
from hooks.shop.state import HELD_AFTER
from hooks.shop.vocabulary import VOCABULARIES
from hooks.site.code import code
from hooks.site.shell import BASE
from hooks.site.told import word

LARGE = 4  # set-ups; with more, the paper leaves out by what likeness each line was found


def jobs_context(shop: Shop) -> dict[str, Any]:
    """What templates/jobs.html shows: every job, newest first."""
    return {"jobs": [{"id": one.id, "part": one.get("part"), "facts": facts(one, shop)} for one in shop.jobs]}


def job_context(job: Job, known: Mapping[str, Any], shop: Shop) -> dict[str, Any]:
    """What templates/job.html shows: the brief and the card, made by what makes them in the browser too."""
    settings = shop.settings_typed
    return {
        "job": job,
        "facts": facts(job, shop),
        "brief": Markup(brief_html(known, job.typed, settings, BASE)),
        "code": Markup(code(job.typed, settings, shop.address)),
        "card": Markup(card_html(job.typed, settings)),
        "held_after": HELD_AFTER,
        "answers": VOCABULARIES["held"].words,
        "large": len(job.get("setups", ())) > LARGE,
    }


def facts(job: Job, shop: Shop) -> str:
    """Material, machine and operations of a job in a few words."""
    machines = {one["key"]: one["name"] for one in shop.settings.get("machines", ())}
    operations = [one["operation"] for setup in job.get("setups", ()) for one in setup.get("operations", ())
                  if "operation" in one]  # fmt: skip
    cutters = [one.name for one in tools(job.typed, shop.settings_typed)]
    parts = [
        job.get("material", ""),
        machines.get(job.get("machine"), ""),
        ", ".join(dict.fromkeys(word("operation", one) for one in operations)),
        ", ".join(cutters[:3]),
    ]
    return " · ".join(part for part in parts if part)


def job_data(job: Job) -> dict[str, Any]:
    """data/job/ID.json: what the form and the page's script need, as typed."""
    return {"id": job.id, "hash": job.hash, "fields": job.typed}
