"""A job's situations: one for each operation and named stage, with what is known there, as a lesson's fields are."""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

WHOLE_JOB = ("material", "iso513", "machine", "hardness")
IN_SETUP, IN_OPERATION = ("holding", "datum"), ("operation", "pass", "cutting", "geometry")
# A set-up that is called so is the second side, even where the sheet holds only that one.
TURNED = re.compile(r"\b(second|2nd|other|back|under)[ -]?side\b|\bturned\b|\bflip", re.IGNORECASE)
# What a sheet's notes call a stage that most jobs have not (common practice, no source).
NOTED = {
    "restart": r"power (cut|went|was cut|failed|failure|loss)|re-?start(ed|ing)?|carry(ing)? on (from|after|at)"
    r"|pick(ed|ing)? up (from|after|again|at)|taken up again|resum(e|ed|ing)",
    "tram_vice": r"vi[cs]e (is |was |goes )?back on|tram(med|ming)?|clock(ed|ing)? the vi[cs]e",
    "set_tool_length": r"(new|fresh) (tools|cutters|tool lengths?)|lengths? (all )?(touched|measured) (off|anew)",
}
Fields = Mapping[str, Any]


@dataclass(frozen=True)
class Situation:
    """One operation, one stage that the sheet names, or the job itself where it names neither.

    `setup` and `operation` or `stage` are how it is called; `at` is where an operation stands, from nought.
    """

    setup: str
    operation: str
    fields: Fields
    stage: str = ""
    at: tuple[int, int] = (0, 0)

    @property
    def called(self) -> str:
        """How it is named to a person: "tap (First side)"."""
        name = (self.operation or self.stage).replace("_", " ")
        return f"{name} ({self.setup})" if self.setup else name


def situations(job: Fields, settings: Fields) -> list[Situation]:
    """The situations of a job's fields (typed or as texts); cutters come from the shop where the job names them."""
    whole = _some(job, WHOLE_JOB)
    found = [
        Situation(setup_name(setup, number), str(operation.get("operation", "")),
                  whole | _some(setup, IN_SETUP) | _cut(operation, settings) | _told(job, setup, operation)
                  | {"stage": _stages(job, setup, number, operation)}, at=(number - 1, place))
        for number, setup in enumerate(job.get("setups", ()), start=1)
        for place, operation in enumerate(setup.get("operations") or ({},))
    ]  # fmt: skip
    found += [
        Situation(setup_name(setup, number), "",
                  whole | _some(setup, IN_SETUP) | _told(job, setup, {}) | {"stage": [stage]}, stage)
        for number, setup in enumerate(job.get("setups", ()), start=1)
        for stage in named_stages(job, setup, number)
    ]  # fmt: skip
    return found or [Situation("", "", whole)]


def setup_name(setup: Fields, number: int) -> str:
    """What a set-up is called."""
    return str(setup.get("name") or f"Set-up {number}")


def named(settings: Fields, kind: str, key: str | None) -> Fields:
    """The machine, cutter or vice of that key (`kind`: machines, cutters, vices); empty where there is none."""
    return next((one for one in settings.get(kind, ()) if key and one.get("key") == key), {})


def _some(fields: Fields, keys: tuple[str, ...]) -> dict[str, Any]:
    return {key: fields[key] for key in keys if key in fields}


def named_stages(job: Fields, setup: Fields, number: int) -> list[str]:
    """The stages that a set-up names by a tick, and those that its notes name (the job's notes are of the first)."""
    texts = [_words(job, setup, operation, number == 1) for operation in setup.get("operations") or ({},)]
    noted = [stage for stage, words in NOTED.items() if re.search(rf"\b({words})\b", " ".join(texts), re.IGNORECASE)]
    return list(dict.fromkeys([*setup.get("stages", ()), *noted]))


def _told(job: Fields, setup: Fields, operation: Fields) -> dict[str, str]:
    """What the sheet says in words, where a lesson has what was said."""
    return {"said": _words(job, setup, operation)}


def _words(job: Fields, setup: Fields, operation: Fields, whole: bool = True) -> str:
    """The notes of an operation and its set-up, and (`whole`) those of the job."""
    of_job = (job.get("note"), job.get("stock", {}).get("note")) if whole else ()
    texts = (*of_job, setup.get("name"), setup.get("holding", {}).get("note"), setup.get("datum", {}).get("plan"),
             operation.get("note"))  # fmt: skip
    return " ".join(str(text) for text in texts if text)


def _stages(job: Fields, setup: Fields, number: int, operation: Fields) -> list[str]:
    """The stages that this set-up goes through for certain and that not every job goes through."""
    stock, cut = job.get("stock", {}), operation.get("operation")
    found = {
        "saw": cut == "saw" or "sawn_faces" in stock or "bar_length" in stock,
        "turn_part_over": number > 1 or bool(TURNED.search(str(setup.get("name")))),
        "set_work_offset": cut == "find_edge" or "datum" in setup,
        "deburr": cut == "hand_deburr",
    }
    return list(dict.fromkeys([*named_stages(job, setup, number), *(stage for stage, goes in found.items() if goes)]))


def cutter_of(operation: Fields, settings: Fields) -> dict[str, Any]:
    """The numbers of an operation's cutter: the shop's, under what the operation says itself."""
    of_shop = named(settings, "cutters", operation.get("cutter_of_shop"))
    return {key: value for key, value in of_shop.items() if key not in ("key", "name")} | operation.get("cutter", {})


def _cut(operation: Fields, settings: Fields) -> dict[str, Any]:
    cutter = cutter_of(operation, settings)
    return _some(operation, IN_OPERATION) | ({"cutter": cutter} if cutter else {})
