"""What the page that brings in a spreadsheet shows before a file is chosen."""

from typing import Any

from hooks.shop.declaration import FIELDS
from hooks.shop.preview import choosable
from hooks.shop.spreadsheet import LARGEST, MOST_ROWS
from hooks.shop.vocabulary import VOCABULARIES

PLAIN = "The event"


def import_context() -> dict[str, Any]:
    """What templates/import.html shows: the fields a column may go to, by group, the kinds, the bounds."""
    return {"groups": _groups(), "kinds": VOCABULARIES["kind"].words, "largest": LARGEST, "rows": MOST_ROWS}


def _groups() -> list[dict[str, Any]]:
    titles = {one.key: one.label.rstrip("?") for one in FIELDS}
    found: dict[str, list[dict[str, str]]] = {PLAIN: []}
    for one in choosable():
        title = titles[one["path"].split(".")[0]] if "." in one["path"] else PLAIN
        found.setdefault(title, []).append({**one, "label": one["label"].removeprefix(f"{title}: ")})
    return [{"label": title, "fields": fields} for title, fields in found.items()]
