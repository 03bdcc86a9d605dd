"""A spreadsheet sent by a page: looked at, taken in, refused. No outside source: the rules are the project's own."""

from base64 import b64encode
from typing import Any

import pytest

from hooks.serve.guards import SHEET_LIMIT
from hooks.shop.read import read_shop
from hooks.shop.spreadsheet import LARGEST
from tests.serve.client import Reply
from tests.serve.conftest import Served

SHEET = (
    "Date;Type;What happened;Who\r\n05.03.2024;Collision;the tool hit the \xd8 8 pin;A.\r\n06.03.2024;misc;odd;B.\r\n"
)
SAID: dict[str, Any] = {
    "columns": None, "kind": "", "dates": "", "decimals": "", "means": {}, "without_odd": False,
}  # fmt: skip


def sent(served: Served, path: str, sheet: str | bytes = SHEET, **said: Any) -> Reply:
    """The request of a page."""
    data = sheet if isinstance(sheet, bytes) else sheet.encode("latin-1")
    return served.client.post(path, {"sheet": b64encode(data).decode(), **SAID, **said})


def lessons(served: Served) -> int:
    """How many files there are."""
    return len(list(served.shop.rglob("lessons/**/*.yaml")))


def test_looking_at_a_sheet_writes_nothing(served: Served) -> None:
    """Columns, odd cells by row and column, the words that are not known, the first rows."""
    told = sent(served, "/api/import/preview").json
    assert [one["field"] for one in told["columns"]] == ["when", "kind", "said", ""]
    assert [(one["row"], one["column"]) for one in told["odd"]] == [(3, "B")] and not told["ready"]
    assert told["unknown"][0]["word"] == "misc" and told["new"] == 1
    assert ["In one line", "the tool hit the Ø 8 pin"] in told["first"][0]["facts"]
    assert lessons(served) == 0


def test_odd_cells_stop_the_import(served: Served) -> None:
    """All or none: 400, and nothing is written."""
    reply = sent(served, "/api/import")
    assert reply.status == 400 and "nothing was imported" in reply.json["error"] and lessons(served) == 0


def test_a_sheet_is_taken_in_once(served: Served) -> None:
    """With what was said about it; its lessons are on disk and their pages there before the answer."""
    said = {"means": {"misc": "worked_well"}, "columns": {"0": "when", "1": "kind", "2": "said", "3": ""}}
    done = sent(served, "/api/import", **said)
    ids = done.json["imported"]
    assert done.status == 200 and len(ids) == lessons(served) == 2
    assert all(served.client.ask("GET", f"/lessons/{id_}/").status == 200 for id_ in ids)
    assert {one.get("kind") for one in read_shop(served.shop).lessons} == {"crash", "worked_well"}
    assert sent(served, "/api/import", **said).json == {"imported": []} and lessons(served) == 2


@pytest.mark.parametrize(
    "said",
    [
        {"columns": {"9": "said"}},
        {"columns": {"0": "nothing"}},
        {"columns": {"0": 7}},
        {"columns": []},
        {"dates": "dym"},
        {"decimals": "dot"},
        {"means": {"a": 1}},
        {"means": []},
        {"without_odd": "yes"},
        {"more": ""},
    ],
)
@pytest.mark.parametrize("path", ["/api/import", "/api/import/preview"])
def test_what_is_not_expected_is_refused(served: Served, path: str, said: dict[str, Any]) -> None:
    """400 and one line, nothing written."""
    for wrong in ("not base64!", 5):
        assert served.client.post(path, {**SAID, "sheet": wrong}).status == 400
    reply = sent(served, path, **said)
    assert reply.status == 400 and "Traceback" not in reply.json["error"] and lessons(served) == 0


@pytest.mark.parametrize(
    ("sheet", "part"),
    [(b"", "nothing"), (b"PK\x03\x04", "workbook"), (b'a,b\n"', "quote"), (b"x" * (LARGEST + 1), "too large")],
)
def test_what_is_no_sheet_is_told(served: Served, sheet: bytes, part: str) -> None:
    """In the reader's own words."""
    reply = sent(served, "/api/import/preview", sheet)
    assert reply.status == 400 and part in reply.json["error"]


def test_the_guards_are_those_of_a_save(served: Served) -> None:
    """Origin, token, type and length; only POST."""
    for path in ("/api/import", "/api/import/preview"):
        assert served.client.post(path, SAID, Origin="http://evil.example").status == 403
        assert served.client.post(path, SAID, X_Shop_Token="x" * 32).status == 403
        assert served.client.post(path, SAID, Content_Type="text/plain").status == 415
        assert served.client.post(path, b"x" * (SHEET_LIMIT + 1)).status == 413
        assert served.client.ask("GET", path).status == 405
    assert lessons(served) == 0


def test_the_largest_sheet_that_is_read_can_be_sent(served: Served) -> None:
    """The bound on the body leaves room for base64; the answer stays short."""
    rows, note = 300, "x" * 9_900
    sheet = "Date,Type,What happened,Who\n"
    sheet += "".join(f"2024-03-05,crash,it hit {n},{note}\n" for n in range(rows))
    assert LARGEST * 0.98 < len(sheet) < LARGEST
    reply = sent(served, "/api/import/preview", sheet)
    assert reply.status == 200 and reply.json["new"] == rows and len(reply.body) < 20_000
