"""Which field a spreadsheet's column is likely to hold, by its heading; only a suggestion, shown before use.

Common practice of the trade, no source. A column with people's names is never suggested: a lesson names nobody.
"""

import re
from collections.abc import Iterator

from calc.units import named_unit
from hooks.shop.flat import leaf, paths
from hooks.shop.spreadsheet import Column

# Headings people use, as `plain` leaves them, for each field; the first named has the best claim.
USUAL: dict[str, str] = {
    "when": "date, when, day, date time, event date, date of event, occurred, occurred on, happened on, timestamp",
    "machine": "machine, mill, machine name, machine tool, equipment",
    "job": "job, job no, job number, part number, part no, work order, order no, order, part",
    "kind": "kind, type, category, event type, type of event, kind of event, failure type, class",
    "nearly": "near miss, nearly, close call",
    "said": "what happened, description, event, in one line, event description, incident, problem, issue, "
    "details, fault, defect, summary, story",
    "title": "title, subject, headline, short title",
    "stage": "stage, phase",
    "operation": "operation, op, process, process step, machining operation",
    "pass": "pass, rough or finish",
    "run_mode": "run mode, mode",
    "material": "material, stock, work material, workpiece material, metal, alloy",
    "iso513": "material group, iso group, iso 513, group",
    "hardness": "hardness, hrc",
    "cutter.tool_kind": "cutter, tool, tool type, cutter type, kind of tool, tool kind, type of tool",
    "cutter.cutter_diameter": "dia, diameter, cutter dia, tool dia, tool diameter, tool size, d, tool ø, cutter ø, ø",
    "cutter.teeth": "flutes, teeth, no of flutes, number of flutes, number of teeth, z",
    "cutter.stick_out": "stickout, stick out, tool stickout, tool overhang, protrusion",
    "cutter.tool_material": "tool material, cutter material",
    "cutter.tool_number": "tool no, tool number, t no",
    "cutter.holder": "holder, tool holder",
    "holding.holding_kind": "holding, workholding, work holding, fixture, clamping, how held",
    "cutting.spindle_speed": "rpm, spindle speed, speed, spindle rpm, revs",
    "cutting.feed_rate": "feed, feed rate, feedrate",
    "cutting.feed_per_tooth": "feed per tooth, chip load, chipload, fz",
    "cutting.axial_depth": "depth of cut, doc, ap, axial depth",
    "cutting.radial_depth": "width of cut, woc, ae, stepover, radial depth",
    "cutting.coolant": "coolant",
    "program.name": "program, programme, program name, program no, nc program",
    "outcome": "outcome, result, consequence, damage",
    "could_have": "could have been, worst case, potential",
    "noticed_by": "noticed by, found at, detected at",
    "minutes": "cost min, minutes, min lost, minutes lost, time lost, lost time, lost min, downtime, cost minutes",
    "parts_scrapped": "parts scrapped, scrapped, scrap, scrap qty, parts lost",
    "why": "root cause, why, cause, reason, causes",
    "now_do": "now do, rule, action, lesson, lesson learned, prevention, preventive action, fix, remedy, solution, "
    "corrective action, countermeasure, action taken",
    "changes.1.what": "change, what was changed, changed",
    "changes.1.done_on": "done on, fixed on, date fixed, action date, closed, closed on, completed",
}
# Where a sheet has two such columns, the one is the rule and the other what was changed.
SECOND = {
    "changes.1.what": "fix, corrective action, action taken, countermeasure, remedy, solution, action",
}
# Keys and labels of ours that stand for something else in most spreadsheets.
WEAK = {"note", "name", "line", "words", "what", "found", "face", "was", "value", "id", "depth", "direction"}
UNIT = re.compile(r"\s*[(\[]\s*([^()\[\]]+?)\s*[)\]]\s*$")
BARE_UNIT = re.compile(
    r"[ ,]+(mm|cm|in|inch|inches|thou|um|µm|rpm|mm/min|in/min|ipm|min|mins|minutes|h|hours)\s*$", re.I
)


def plain(heading: str) -> str:
    """A heading without marks and capitals."""
    return " ".join(re.sub(r"[^\w ]+", " ", heading.replace("_", " ").lower()).split())


def unit_of(heading: str) -> str:
    """The unit that a heading names at its end, "" where it names none that we know."""
    found = UNIT.search(heading) or BARE_UNIT.search(heading)
    return (named_unit(found[1].lower()) or named_unit(found[1]) or "") if found else ""


def suggested(columns: tuple[Column, ...]) -> dict[int, str]:
    """The field for each column that has a likely one, by its place; no field twice."""
    claims = sorted((rank, column.at, path) for column in columns for rank, path in _claims(column.heading))
    found: dict[int, str] = {}
    for _, at, path in claims:
        if at not in found and path not in found.values():
            found[at] = path
    return found


def _claims(heading: str) -> Iterator[tuple[int, str]]:
    """How well a heading claims each field, 0 best: its own path, the usual headings, labels and keys."""
    if leaf(heading.strip()):
        yield 0, heading.strip()
    forms = {plain(heading), plain(UNIT.sub("", heading)), plain(BARE_UNIT.sub("", heading))}
    for first, table in ((1, USUAL), (50, SECOND)):
        for path, usual in table.items():
            yield from ((first + rank, path) for rank, words in enumerate(usual.split(", ")) if words in forms)
    for path, field in paths():
        if (forms - WEAK) & {plain(field.label), plain(field.key), plain(path)}:
            yield 100, path
