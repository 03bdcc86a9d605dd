"""The first-run card: the trade's usual care made short. A shop can say its own lines in shop.yaml."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from hooks.brief.situations import named, setup_name

# Common practice, no source. The machine's manual comes first.
USUAL = (
    "Vice tight, its handle out; clamps tight, nothing loose on the table.",
    "Edge finder and indicator out of the spindle and off the table.",
    "Each tool in its place; number, length and stick-out as listed.",
    "Work offset: the one that the program calls, read aloud.",
    "Program: the right one, from its first line. Door or guard shut, glasses on.",
    "Rapids turned down to the lowest, single block on, a finger on hold.",
    "Stop above the part: does distance to go agree with a ruler?",
    "First cut heard and seen; only then rapids up, single block off.",
)


@dataclass(frozen=True)
class Tool:
    """A tool as the card lists it; "" where nobody said."""

    number: str
    name: str
    offset: str
    stick_out: str


def lines(settings: Mapping[str, Any]) -> tuple[str, ...]:
    """The card's lines: the shop's own, else the usual ones."""
    return tuple(settings.get("first_run", ())) or USUAL


def tools(job: Mapping[str, Any], settings: Mapping[str, Any]) -> list[Tool]:
    """Every cutter of a job once, in the order of use."""
    return list(dict.fromkeys(_tools(job, settings)))


def _tools(job: Mapping[str, Any], settings: Mapping[str, Any]) -> Iterator[Tool]:
    for setup in job.get("setups", ()):
        for operation in setup.get("operations", ()):
            of_shop = named(settings, "cutters", operation.get("cutter_of_shop"))
            cutter = {**of_shop, **operation.get("cutter", {})}
            if cutter:
                kind = str(cutter.get("tool_kind", "cutter")).replace("_", " ")
                name = of_shop.get("name") or " ".join(part for part in (cutter.get("cutter_diameter"), kind) if part)
                yield Tool(cutter.get("tool_number", ""), str(name), cutter.get("length_offset_number", ""),
                           cutter.get("stick_out", ""))  # fmt: skip


def datum_plan(job: Mapping[str, Any]) -> list[tuple[str, str]]:
    """(set-up, how its zero is found), one for each set-up; what was not said is said to be open."""
    return [(setup_name(one, n), _datum(one.get("datum", {}))) for n, one in enumerate(job.get("setups", ()), start=1)]


def _datum(datum: Mapping[str, str]) -> str:
    words = {"work_offset": "{}", "finder_kind": "with {}", "face": "on {}", "surface": "({})", "plan": "{}"}
    told = [form.format(datum[key].replace("_", " ")) for key, form in words.items() if datum.get(key)]
    return ", ".join(told) or "nobody has said how the zero is found"
