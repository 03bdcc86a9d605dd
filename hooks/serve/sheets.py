"""A spreadsheet that a page sends: first what it would bring, then all of it or nothing.

A request is {"sheet": base64 of the file, "columns": {place: field} or null for the suggestions, "kind",
"dates", "decimals", "means": {word: key}, "without_odd"}.
"""

import binascii
from base64 import b64decode
from dataclasses import dataclass
from typing import Any

from hooks.serve.guards import Refused, take
from hooks.serve.keeper import Keeper
from hooks.shop.cells import DECIMALS
from hooks.shop.dates import ORDERS
from hooks.shop.flat import leaf
from hooks.shop.preview import told
from hooks.shop.rows import Choices
from hooks.shop.spreadsheet import NotASheet, Sheet, read_sheet


@dataclass(frozen=True)
class Asked:
    """What a page asks: a sheet, and what is said about it."""

    sheet: Sheet
    choices: Choices


def read_asked(body: dict[str, Any]) -> Asked:
    """The request, checked. Raises Refused."""
    sent, columns, kind, dates, decimals, means, without_odd = take(
        body, sheet=str, columns=dict | None, kind=str, dates=str, decimals=str, means=dict, without_odd=bool
    )  # fmt: skip
    try:
        sheet = read_sheet(b64decode(sent, validate=True))
    except (binascii.Error, ValueError) as error:
        raise Refused(400, str(error) if isinstance(error, NotASheet) else "That is not a file in base64.") from None
    if dates not in ("", *ORDERS) or decimals not in ("", *DECIMALS):
        raise Refused(400, "Dates or decimals are not what was expected.")
    if not all(isinstance(key, str) for key in means.values()):
        raise Refused(400, "means is not what was expected.")
    return Asked(sheet, Choices(_columns(columns, sheet), kind, dates, decimals, means, without_odd))


def answer(keeper: Keeper, asked: Asked, write: bool) -> dict[str, Any]:
    """The preview, or what was imported. Raises Refused."""
    if not write:
        return told(keeper.look_at(asked.sheet, asked.choices))
    try:
        return {"imported": keeper.take_in(asked.sheet, asked.choices)}
    except OSError as error:
        raise Refused(500, f"The lessons could not be stored ({error.strerror}); none of them was.") from None
    except ValueError:
        raise Refused(400, "Some cells are still odd: nothing was imported.") from None


def _columns(columns: dict[str, Any] | None, sheet: Sheet) -> dict[int, str] | None:
    """Where columns go, by their place. Raises Refused."""
    if columns is None:
        return None
    places = {str(one.at): one.at for one in sheet.columns}
    for place, path in columns.items():
        if place not in places or not isinstance(path, str) or (path and leaf(path) is None):
            raise Refused(400, "columns is not what was expected.")
    return {places[place]: path for place, path in columns.items() if path}
