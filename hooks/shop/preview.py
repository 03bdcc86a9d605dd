"""What an import would do, as plain JSON for the page and the terminal alike."""

from collections.abc import Iterator
from typing import Any

from hooks.shop.declaration import FIELDS, MACHINES
from hooks.shop.fields import Field
from hooks.shop.flat import flatten, leaf, paths, vocabulary_of
from hooks.shop.headings import unit_of
from hooks.shop.importing import Plan
from hooks.shop.rows import Event
from hooks.shop.vocabulary import VOCABULARIES

FIRST, MOST_ODD = 3, 500
GROUPS = {one.key: one.label.rstrip("?") for one in FIELDS if one.parts or (one.item and one.item.parts)}


def told(plan: Plan) -> dict[str, Any]:
    """The whole preview: columns, first lessons, counts, odd cells, unknown words, and whether it may go on."""
    there = [event for event in plan.events if event.there]
    return {
        "ready": plan.ready,
        "rows": len(plan.sheet.rows),
        "new": len(plan.new),
        "there": len(there),
        "changed": [event.row for event in there if event.there == "other"],
        "twice": [{"row": row, "of": of} for row, of in plan.twice],
        "letters": plan.sheet.letters,
        "parted": plan.sheet.parted,
        "wrong": list(plan.wrong),
        "columns": list(_columns(plan)),
        "first": [_lesson(event) for event in plan.events[:FIRST]],
        "odd": [
            {"row": odd.row, "column": odd.column.letter, "heading": odd.column.heading, "text": odd.text,
             "stops": odd.stops}
            for odd in plan.odd[:MOST_ODD]
        ],
        "odd_count": len(plan.odd),
        "unknown": _unknown(plan),
        "read_as": [
            {"field": label(path), "word": word, "means": shown(leaf(path), key), "count": count}
            for (path, word, key), count in sorted(plan.read_as.items())
        ],
    }  # fmt: skip


def choosable() -> list[dict[str, str]]:
    """Every field that a column may go to, with its words."""
    return [{"path": path, "label": label(path)} for path, _ in paths() if not path.startswith("check.")]


def label(path: str) -> str:
    """A field's words, with its group's before them."""
    found, group = leaf(path), GROUPS.get(path.split(".")[0], "")
    if path == "kind":
        return "Kind of mishap"  # its own label asks "What happened?", which is what the line tells
    name = found.label.rstrip("?") if found else path
    return f"{group}: {name}" if group and group.lower() not in name.lower() else name


def shown(field: Field | None, value: str) -> str:
    """A cell's value in words; a day without a time as a day."""
    if field and field.type == "datetime":
        return value[:10] if value[11:19] == "00:00:00" else value[:16].replace("T", " ")
    vocabulary = vocabulary_of(field) if field else ""
    return VOCABULARIES[vocabulary].word(value).label if vocabulary else value


def _columns(plan: Plan) -> Iterator[dict[str, Any]]:
    for column in plan.sheet.columns:
        cells = [row.cell(column.at) for row in plan.sheet.rows if row.cell(column.at)]
        path = plan.columns.get(column.at, "")
        yield {
            "at": column.at,
            "letter": column.letter,
            "heading": column.heading,
            "filled": len(cells),
            "example": cells[0][:80] if cells else "",
            "field": path,
            "label": label(path) if path else "",
            "unit": _unit(leaf(path), column.heading) if path else "",
        }


def _unit(field: Field | None, heading: str) -> str:
    """The unit that bare numbers of the column are taken in."""
    if field is None or field.type not in ("number", "quantity"):
        return ""
    own = "min" if field.key == "minutes" else field.unit.replace("1", "")
    return unit_of(heading) or own


def _lesson(event: Event) -> dict[str, Any]:
    cells = flatten({key: value for key, value in event.fields.items() if key != "id"})
    facts = [[label(path), shown(leaf(path), value)] for path, value in cells.items()]
    return {"row": event.row, "id": event.id, "facts": facts}


def _unknown(plan: Plan) -> list[dict[str, Any]]:
    """Each word that is not known, once, with the words it may mean."""
    counts: dict[tuple[str, str], int] = {}
    fields: dict[tuple[str, str], str] = {}
    for odd in plan.odd:
        if odd.word:
            key = (odd.of, odd.word)
            counts[key] = counts.get(key, 0) + 1
            fields.setdefault(key, label(plan.columns[odd.column.at]))
    return [{"of": of, "word": word, "count": count, "field": fields[of, word], "words": _words(of, plan)}
            for (of, word), count in counts.items()]  # fmt: skip


def _words(of: str, plan: Plan) -> list[dict[str, str]]:
    if of == MACHINES:
        return [{"key": key, "label": name} for key, name in plan.machines.items()]
    return [{"key": word.key, "label": word.label} for word in VOCABULARIES[of].words]
