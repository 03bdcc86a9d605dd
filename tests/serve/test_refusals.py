"""Everything the server must turn down. No outside source: the rules are the project's own."""

import json
import socket
import time

import pytest

from hooks.serve import server
from tests.serve.client import FIELDS, ID
from tests.serve.conftest import Served

BODY = {"id": ID, "fields": FIELDS}
BAD_IDS = (
    "",
    "..",
    "../../../etc/passwd",
    "20261125-063051-K7Q2D",
    "20261125-063051-k7q2",
    "con",
    "20261125-063051-k7q2d/../../x",
    "20261125-063051-k7q2d\n",
    "20261125-063051-k7ilo",
    "20261125-063051-k7q2d.yaml",
    "20261125-063051-k7q\u0000",
    "\u0661\u0662261125-063051-k7q2d",
    "a" * 5000,
)


@pytest.fixture(autouse=True)
def nothing_is_written(served: Served):
    """Whatever a test here sends, the shop holds what it held."""
    before = sorted(served.shop.rglob("*"))
    yield
    assert sorted(served.shop.rglob("*")) == before


@pytest.mark.parametrize("host", ["evil.example", "evil.example:{port}", "127.0.0.1", "127.0.0.1:1", "", "localhost."])
@pytest.mark.parametrize("path", ["/", "/api/hello"])
def test_another_host_name_gets_nothing(served: Served, host: str, path: str) -> None:
    """A name that somebody pointed at this machine reads neither pages nor the token."""
    reply = served.client.ask("GET", path, Host=host.format(port=served.client.port))
    assert reply.status == 421
    assert "token" not in reply.json


@pytest.mark.parametrize("name", ["localhost", "127.0.0.1", "[::1]", "LOCALHOST"])
def test_our_own_names_are_answered(served: Served, name: str) -> None:
    """The three names of the loopback address, with our port, in any case."""
    reply = served.client.ask("GET", "/api/hello", Host=f"{name}:{served.client.port}")
    assert reply.status == 200


def test_a_request_without_host_is_refused(served: Served) -> None:
    """HTTP/1.0 may leave it out; we do not take that."""
    assert b" 421 " in served.client.raw(b"GET / HTTP/1.0\r\n\r\n")


def test_two_hosts_are_refused(served: Served) -> None:
    """A second Host cannot slip past the first."""
    port = served.client.port
    sent = f"GET / HTTP/1.1\r\nHost: 127.0.0.1:{port}\r\nHost: evil.example\r\nConnection: close\r\n\r\n"
    assert b" 421 " in served.client.raw(sent.encode())


@pytest.mark.parametrize(
    "origin",
    [
        None,
        "null",
        "http://evil.example",
        "https://127.0.0.1:{port}",
        "http://localhost:{port}",
        "http://127.0.0.1:1",
        "http://127.0.0.1:{port}/",
    ],
)
def test_another_origin_may_not_save(served: Served, origin: str | None) -> None:
    """The origin must be there and be exactly the address that was asked."""
    told = origin and origin.format(port=served.client.port)
    reply = served.client.post("/api/lessons", BODY, Origin=told)
    assert reply.status == 403
    assert reply.json["error"]


@pytest.mark.parametrize("site", ["cross-site", "same-site"])
def test_a_page_elsewhere_is_not_told_the_token(served: Served, site: str) -> None:
    """Browsers say where a request comes from; a page of another origin learns nothing."""
    assert served.client.ask("GET", "/api/hello", Sec_Fetch_Site=site).status == 403
    assert served.client.ask("GET", "/api/hello", Origin="http://evil.example").status == 403


@pytest.mark.parametrize("token", [None, "", "x", "x" * 32, "\xe9"])
def test_a_wrong_token_may_not_save(served: Served, token: str | None) -> None:
    """Missing, empty, short, of the right length, not ASCII."""
    assert served.client.post("/api/lessons", BODY, X_Shop_Token=token).status == 403


@pytest.mark.parametrize(
    "kind",
    [
        None,
        "text/plain",
        "application/x-www-form-urlencoded",
        "multipart/form-data",
        "application/json; charset=latin-1",
        "application/jsonp",
    ],
)
def test_only_json_is_taken(served: Served, kind: str | None) -> None:
    """What a plain form of another page could send is not taken."""
    assert served.client.post("/api/lessons", BODY, Content_Type=kind).status == 415


@pytest.mark.parametrize("size", [64 * 1024 + 1, 300_000, 5_000_000])
def test_too_long_a_body_is_refused(served: Served, size: int) -> None:
    """Just over our bound, far over it, and over the one for a spreadsheet."""
    body = json.dumps({"id": ID, "fields": {"said": "a" * size}}).encode()
    assert served.client.post("/api/lessons", body).status == 413


def test_a_body_in_pieces_is_refused(served: Served) -> None:
    """A chunked body is refused plainly, not read as an empty one."""
    port, token = served.client.port, served.client.hello()["token"]
    head = (
        f"POST /api/lessons HTTP/1.1\r\nHost: 127.0.0.1:{port}\r\nOrigin: http://127.0.0.1:{port}\r\n"
        f"X-Shop-Token: {token}\r\nContent-Type: application/json\r\nTransfer-Encoding: chunked\r\n"
        "Connection: close\r\n\r\n2\r\n{}\r\n0\r\n\r\n"
    )
    got = served.client.raw(head.encode())
    assert b" 411 " in got.split(b"\r\n")[0]
    assert b"Send the body whole" in got


@pytest.mark.parametrize(
    "body",
    [
        b"",
        b"{",
        b"[]",
        b"null",
        b'"x"',
        b"\xff\xfe",
        b'{"id":1}',
        b'{"id":"a","id":"b","fields":{}}',
        b'{"id":"20261125-063051-k7q2d","fields":{"minutes":NaN}}',
        b"[" * 30_000,
        b'{"id":"20261125-063051-k7q2d","fields":[]}',
        b'{"id":"20261125-063051-k7q2d","fields":{},"x":1}',
        b'{"id":"20261125-063051-k7q2d","fields":{"kind":"crash","said":"\\ud800"}}',
    ],
)
def test_what_is_not_the_expected_json_is_refused(served: Served, body: bytes) -> None:
    """Broken, repeated, nested without end, half a character, or another shape: 400 and one line."""
    reply = served.client.post("/api/lessons", body)
    assert reply.status == 400
    assert "Traceback" not in reply.json["error"]


@pytest.mark.parametrize("id_", BAD_IDS)
def test_a_bad_id_is_refused(served: Served, id_: str) -> None:
    """The file's name is made from the id, so only the one shape is taken."""
    assert served.client.save(id_).status == 400


@pytest.mark.parametrize(
    "path",
    [
        "/api/lessons/..%2f..%2fx",
        "/api/lessons/" + ID + "%00",
        "/api/lessons/",
        "/api/lessons/%2e%2e",
        "/api/lessons/" + ID + "/x",
    ],
)
def test_a_bad_id_in_the_address_is_refused(served: Served, path: str) -> None:
    """The same for edits, where the id stands in the address."""
    assert served.client.post(path, {"base": "0" * 64, "changes": {}}).status == 400


@pytest.mark.parametrize(
    ("method", "path", "status"),
    [
        ("GET", "/api", 404),
        ("GET", "/api/", 404),
        ("GET", "/api/nothing", 404),
        ("GET", "/api/shop", 405),
        ("POST", "/api/hello", 405),
        ("GET", "/api/lessons", 405),
        ("PUT", "/api/lessons", 405),
        ("DELETE", f"/api/lessons/{ID}", 405),
        ("OPTIONS", "/api/lessons", 405),
        ("TRACE", "/api/hello", 405),
    ],
)
def test_unknown_paths_and_methods_get_json(served: Served, method: str, path: str, status: int) -> None:
    """Plain JSON errors, no page and no permission for other origins."""
    reply = served.client.ask(method, path)
    assert reply.status == status
    assert reply.json["error"]
    assert not [name for name in reply.headers if name.startswith("access-control")]


@pytest.mark.parametrize(
    "path",
    [
        "/../shop/shop.yaml",
        "/..%2fshop/shop.yaml",
        "/%2e%2e/shop/shop.yaml",
        "//etc/passwd",
        "/..\\shop\\shop.yaml",
        "/index.html%00.txt",
        "/.shell.html",
        "/a/.git/config",
    ],
)
def test_no_path_leads_out_of_the_folder(served: Served, path: str) -> None:
    """Neither up, nor to the root, nor to a file with a leading dot."""
    (served.keeper.folder / ".shell.html").write_text("not for you")
    reply = served.client.ask("GET", path)
    assert reply.status == 404
    assert b"A shop for tests" not in reply.body


def test_an_unknown_lesson_cannot_be_edited(served: Served) -> None:
    """404 and no file made."""
    assert served.client.post(f"/api/lessons/{ID}", {"base": "0" * 64, "changes": {"said": "x"}}).status == 404


@pytest.mark.parametrize(
    "fields",
    [
        {},
        {"kind": "explosion"},
        {"unheard_of": "x"},
        {"said": {"deep": "x"}},
        {"cutter": {"cutter_diameter": "six"}},
    ],
)
def test_bad_fields_name_the_field(served: Served, fields: dict) -> None:
    """The form can put each message beside its field."""
    whole = {**FIELDS, **fields} if fields else {}
    reply = served.client.post("/api/lessons", {"id": ID, "fields": whole})
    assert reply.status == 400
    assert all(problem["field"] and problem["text"] for problem in reply.json["problems"])
    assert {problem["field"].split(".")[0] for problem in reply.json["problems"]} >= set(fields)


def test_a_dripping_request_is_cut_off(served: Served, monkeypatch: pytest.MonkeyPatch) -> None:
    """A client that sends a byte now and then is closed; others are answered meanwhile."""
    monkeypatch.setattr(server, "REQUEST_SECONDS", 1)
    with socket.create_connection(("127.0.0.1", served.client.port)) as slow:
        slow.settimeout(15)
        with pytest.raises(OSError):  # noqa: PT012  (the line is cut at one of these)
            for _ in range(60):
                slow.sendall(b"G")
                assert served.client.ask("GET", "/").status == 200
                time.sleep(0.2)
            pytest.fail("the line was still open after twelve seconds")


def test_many_silent_clients_stop_nobody(served: Served) -> None:
    """Fifty open connections that say nothing hold no thread."""
    silent = [socket.create_connection(("127.0.0.1", served.client.port)) for _ in range(50)]
    try:
        assert served.client.ask("GET", "/").status == 200
    finally:
        for line in silent:
            line.close()


def test_only_the_loopback_address_is_bound(served: Served) -> None:
    """Nothing on the network can reach the server (seen from the socket itself)."""
    assert server.LOOPBACK == "127.0.0.1"
    with server.listen(0) as sock:
        assert sock.getsockname()[0] == "127.0.0.1"
