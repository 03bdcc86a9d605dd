"""The endpoint under /api: hello, a lesson, a job, the settings, a spreadsheet. Answers JSON, whatever is asked."""

import json
import logging
from collections.abc import Iterable
from http import HTTPStatus
from typing import Any

from hooks.serve import guards, sheets
from hooks.serve.guards import Refused
from hooks.serve.headers import App, Environ, StartResponse
from hooks.serve.keeper import Keeper
from hooks.shop import write
from hooks.shop.sheet import JOB, LESSON, Sheet

LOG = logging.getLogger("twice_shy.serve")
SHEETS = {"/api/lessons": LESSON, "/api/jobs": JOB}
IMPORT, PREVIEW = "/api/import", "/api/import/preview"


class Api:
    """A WSGI app for /api; every other path goes on to `pages`."""

    def __init__(self, keeper: Keeper, pages: App, token: str, port: int) -> None:
        self._keeper, self._pages, self._token, self._port = keeper, pages, token, port

    def __call__(self, environ: Environ, start_response: StartResponse) -> Iterable[bytes]:
        """Answer one request; what goes wrong inside is logged here and told plainly there."""
        try:
            guards.check_host(environ, self._port)
            path = environ.get("PATH_INFO", "")
            if path != "/api" and not path.startswith("/api/"):
                return self._pages(environ, start_response)
            status, answer = self._answer(environ, path)
        except Refused as refused:
            status, answer = refused.status, refused.answer
        except Exception:
            LOG.exception("a request failed")
            status, answer = 500, {"error": "Something went wrong here; the console says what."}
        return _send(status, answer, start_response)

    def _answer(self, environ: Environ, path: str) -> tuple[int, dict[str, Any]]:
        method = environ["REQUEST_METHOD"]
        if path == "/api/hello":
            _only(method, "GET")
            guards.check_not_elsewhere(environ)
            return 200, {"token": self._token, **self._keeper.hello()}
        if path in SHEETS:
            _only(method, "POST")
            return self._new(self._read(environ), SHEETS[path])
        if path == "/api/shop":
            _only(method, "POST")
            return self._settings(self._read(environ))
        for place, sheet in SHEETS.items():
            if path.startswith(place + "/"):
                _only(method, "POST")
                return self._edit(path.removeprefix(place + "/"), self._read(environ), sheet)
        if path in (IMPORT, PREVIEW):
            _only(method, "POST")
            asked = sheets.read_asked(self._read(environ, guards.SHEET_LIMIT))
            return 200, sheets.answer(self._keeper, asked, write=path == IMPORT)
        raise Refused(404, "There is nothing here.")

    def _read(self, environ: Environ, limit: int = guards.BODY_LIMIT) -> dict[str, Any]:
        guards.check_origin(environ)
        guards.check_token(environ, self._token)
        return guards.read_json(environ, limit)

    def _new(self, body: dict[str, Any], sheet: Sheet) -> tuple[int, dict[str, Any]]:
        id_, fields = guards.take(body, id=str, fields=dict)
        guards.check_id(id_)
        with _Told(sheet.name):
            saved = self._keeper.save_new(id_, fields, sheet)
        return (201 if saved.written else 200), _saved(saved, sheet)

    def _edit(self, id_: str, body: dict[str, Any], sheet: Sheet) -> tuple[int, dict[str, Any]]:
        guards.check_id(id_)
        base, changes = guards.take(body, base=str, changes=dict)
        with _Told(sheet.name):
            saved = self._keeper.save_edit(id_, base, changes, sheet)
        return 200, _saved(saved, sheet)

    def _settings(self, body: dict[str, Any]) -> tuple[int, dict[str, Any]]:
        base, changes = guards.take(body, base=str, changes=dict)
        with _Told("shop.yaml"):
            saved = self._keeper.save_settings(base, changes)
        return 200, {"id": saved.id, "hash": saved.hash, "url": "shop/"}


class _Told:
    """Turns what the writer raises into what is said to the client."""

    def __init__(self, name: str) -> None:
        self._name = name

    def __enter__(self) -> None:
        return None

    def __exit__(self, _kind: object, error: BaseException | None, _trace: object) -> None:
        if isinstance(error, write.Conflict):
            raise Refused(409, f"The {self._name} on disk is another by now.", hash=error.hash) from None
        if isinstance(error, write.NotFound):
            raise Refused(404, f"There is no such {self._name}.") from None
        if isinstance(error, write.Invalid):
            problems = [{"field": problem.field, "text": problem.told or problem.text} for problem in error.problems]
            raise Refused(400, "Some answers cannot be taken as they are.", problems=problems) from None


def _only(method: str, allowed: str) -> None:
    if method != allowed:
        raise Refused(405, f"Only {allowed} here.")


def _saved(saved: write.Saved, sheet: Sheet) -> dict[str, str]:
    return {"id": saved.id, "hash": saved.hash, "url": f"{sheet.name}s/{saved.id}/"}


def _send(status: int, answer: dict[str, Any], start_response: StartResponse) -> Iterable[bytes]:
    body = json.dumps(answer).encode("ascii")
    headers = [
        ("Content-Type", "application/json"),
        ("Content-Length", str(len(body))),
        ("Cache-Control", "no-store"),
    ]
    start_response(f"{status} {HTTPStatus(status).phrase}", headers)
    return [body]
