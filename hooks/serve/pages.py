"""Serves the files of one built folder; which folder is a variable, changed while requests come in."""

import os
from collections.abc import Iterable
from pathlib import Path
from typing import Any
from wsgiref.headers import Headers

from whitenoise import WhiteNoise

from hooks.serve.headers import Environ, StartResponse

TYPES = {
    ".mjs": "text/javascript",
    ".wasm": "application/wasm",
    ".js": "text/javascript",
    ".atom": "application/atom+xml",
    "feed.json": "application/feed+json",
}
READ_WHOLE = 2_000_000  # bytes; a page that is replaced while it is sent must not change its length


class Pages:
    """A WSGI app over the current folder."""

    def __init__(self) -> None:
        self._files: Files | None = None

    def swap(self, folder: Path) -> None:
        """From the next request on, serve `folder`."""
        self._files = Files(_Missing(folder), root=str(folder), **_OPTIONS)

    def __call__(self, environ: Environ, start_response: StartResponse) -> Iterable[bytes]:
        """Answer from the folder that is current now; a file whose name starts with a dot is not there."""
        if self._files is None:
            return _plain("503 Service Unavailable", b"The pages are being built.\n", start_response)
        if "/." in environ.get("PATH_INFO", ""):
            return self._files.application(environ, start_response)
        return self._files(environ, start_response)


class Files(WhiteNoise):
    """WhiteNoise that sends a small file as it was read in one go, whatever happens to it meanwhile."""

    @staticmethod
    def serve(static_file: Any, environ: Environ, start_response: StartResponse) -> Iterable[bytes]:
        """Answer with one file; the length told is the length sent."""
        answer = static_file.get_response(environ["REQUEST_METHOD"], environ)
        headers = Headers(list(answer.headers))
        body: Iterable[bytes] = answer.file or ()
        if answer.file and answer.status == 200 and int(headers["Content-Length"]) <= READ_WHOLE:
            with answer.file:
                body = [answer.file.read()]
            headers["Content-Length"] = str(len(body[0]))
        start_response(f"{answer.status.value} {answer.status.phrase}", headers.items())
        return body


class _Missing:
    """Answers for what is not in the folder, with its 404 page where it has one."""

    def __init__(self, folder: Path) -> None:
        self._page = folder / "404.html"

    def __call__(self, environ: Environ, start_response: StartResponse) -> Iterable[bytes]:
        if environ["REQUEST_METHOD"] not in ("GET", "HEAD"):
            return _plain("405 Method Not Allowed", b"Only GET and HEAD here.\n", start_response)
        if not self._page.is_file():
            return _plain("404 Not Found", b"There is no such page.\n", start_response)
        body = self._page.read_bytes()
        start_response("404 Not Found", _text_headers(body, "text/html"))
        return [body]


def _plain(status: str, body: bytes, start_response: StartResponse) -> Iterable[bytes]:
    start_response(status, _text_headers(body, "text/plain"))
    return [body]


def _text_headers(body: bytes, kind: str) -> list[tuple[str, str]]:
    return [
        ("Content-Type", f"{kind}; charset=utf-8"),
        ("Content-Length", str(len(body))),
        ("Cache-Control", "no-cache"),
    ]


def _always_asked_again(headers: Headers, path: str, _url: str) -> None:
    """Let the browser keep a file but ask each time; the tag is fine enough for two saves in a second."""
    headers["Cache-Control"] = "no-cache"
    try:
        told = os.stat(path)
    except OSError:
        return
    headers["ETag"] = f'"{told.st_mtime_ns:x}-{told.st_size:x}"'


_OPTIONS: dict[str, Any] = {
    "autorefresh": True,  # pages are written while they are served
    "allow_all_origins": False,
    "max_age": None,
    "index_file": True,
    "mimetypes": TYPES,
    "add_headers_function": _always_asked_again,
}
