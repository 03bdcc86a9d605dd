"""A small server for the comparison: sends gzipped, counts the bytes, and can be as slow as a phone's line."""

import gzip
import mimetypes
import threading
import time
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from urllib.parse import unquote, urlsplit

PAGE = b"<!doctype html><meta charset=utf-8><link rel=icon href=data:,><title>Compared</title>"
TYPES = {".js": "text/javascript", ".mjs": "text/javascript", ".wasm": "application/wasm"}


class Served(ThreadingHTTPServer):
    """Files by the beginning of their address. `bytes_sent` and `requests` count what went out."""

    daemon_threads = True

    def __init__(self, folders: Mapping[str, Path]) -> None:
        super().__init__(("127.0.0.1", 0), _Handler)
        self.folders = dict(sorted(folders.items(), key=lambda one: -len(one[0])))
        self.line = threading.Lock()
        self.delay, self.rate = 0.0, float("inf")  # seconds a request, bytes a second
        self.packed: dict[Path, tuple[bytes, bool]] = {}
        self.reset()

    @property
    def url(self) -> str:
        """The address, with a slash at the end."""
        return f"http://127.0.0.1:{self.server_address[1]}/"

    def reset(self) -> None:
        """Count from nothing."""
        self.bytes_sent = self.requests = 0

    def body(self, address: str) -> tuple[bytes, bool, str] | None:
        """What is at an address, whether it is gzipped, and its type."""
        path = unquote(urlsplit(address).path)
        for start, place in self.folders.items():
            file = place if place.is_file() and path == start else place / path[len(start) :]
            if path.startswith(start) and file.is_file():
                if file not in self.packed:
                    self.packed[file] = _packed(file.read_bytes())
                kind = TYPES.get(file.suffix) or mimetypes.guess_type(file.name)[0]
                return (*self.packed[file], kind or "application/octet-stream")
        return None


def _packed(plain: bytes) -> tuple[bytes, bool]:
    """Gzipped where that makes it smaller."""
    packed = gzip.compress(plain, 6)
    return (packed, True) if len(packed) < len(plain) else (plain, False)


class _Handler(BaseHTTPRequestHandler):
    protocol_version = "HTTP/1.1"
    server: Served

    def do_GET(self) -> None:
        found = (PAGE, False, "text/html") if self.path == "/" else self.server.body(self.path)
        body, packed, kind = found or (b"", False, "text/plain")
        time.sleep(self.server.delay)
        with self.server.line:
            time.sleep(len(body) / self.server.rate)
            if self.path != "/":
                self.server.bytes_sent += len(body)
                self.server.requests += 1
        self.send_response(200 if found else 404)
        self.send_header("Content-Type", kind)
        self.send_header("Content-Length", str(len(body)))
        self.send_header("Cache-Control", "no-store")
        if packed:
            self.send_header("Content-Encoding", "gzip")
        self.end_headers()
        self.wfile.write(body)

    def log_message(self, *_: object) -> None:
        pass


@contextmanager
def serving(folders: Mapping[str, Path]) -> Iterator[Served]:
    """Serve until the block ends."""
    server = Served(folders)
    thread = threading.Thread(target=server.serve_forever, daemon=True)
    thread.start()
    try:
        yield server
    finally:
        server.shutdown()
        server.server_close()
