"""A client that sends exactly what it is told, right or wrong."""

import http.client
import json
import socket
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

ID = "20261125-063051-k7q2d"
FIELDS = {
    "when": "2026-11-25T07:30:51+01:00",
    "kind": "bad_surface",
    "said": "The finishing pass dug in at the corners of a small pocket.",
}


@dataclass(frozen=True)
class Reply:
    """Status, headers (lower-case names) and body of one answer."""

    status: int
    headers: Mapping[str, str]
    body: bytes

    @property
    def json(self) -> Any:
        """The body as JSON."""
        return json.loads(self.body)


@dataclass(frozen=True)
class Client:
    """Speaks to the server on `port` as a page of ours would, unless told otherwise."""

    port: int

    def ask(self, method: str, path: str, body: bytes | None = None, **headers: str | None) -> Reply:
        """One request; a header given as None is left out, underscores stand for dashes."""
        given = {name.replace("_", "-"): value for name, value in headers.items() if value is not None}
        line = http.client.HTTPConnection("127.0.0.1", self.port, timeout=20)
        try:
            line.putrequest(method, path, skip_host="Host" in headers, skip_accept_encoding=True)
            for name, value in given.items():
                line.putheader(name, value)
            if body is not None and "Content-Length" not in given:
                line.putheader("Content-Length", str(len(body)))
            line.endheaders(body)
            answer = line.getresponse()
            names = {name.lower(): value for name, value in answer.getheaders()}
            return Reply(answer.status, names, answer.read())
        finally:
            line.close()

    def hello(self) -> Any:
        """What the server tells a page that asks."""
        return self.ask("GET", "/api/hello").json

    def post(self, path: str, body: Any, **headers: str | None) -> Reply:
        """A save as a page of ours sends it; keyword arguments replace headers."""
        sent = body if isinstance(body, bytes) else json.dumps(body).encode()
        usual: dict[str, str | None] = {
            "Origin": f"http://127.0.0.1:{self.port}",
            "Content_Type": "application/json",
        }
        if "X_Shop_Token" not in headers:
            usual["X_Shop_Token"] = self.hello()["token"]
        return self.ask("POST", path, sent, **{**usual, **headers})

    def save(self, id_: str = ID, **changed: Any) -> Reply:
        """Save one new lesson; keyword arguments replace fields."""
        return self.post("/api/lessons", {"id": id_, "fields": {**FIELDS, **changed}})

    def raw(self, sent: bytes, patience: float = 10) -> bytes:
        """Send bytes over a socket and return whatever comes back until the other side closes."""
        with socket.create_connection(("127.0.0.1", self.port), timeout=patience) as line:
            line.sendall(sent)
            got = b""
            while more := line.recv(65536):
                got += more
            return got
