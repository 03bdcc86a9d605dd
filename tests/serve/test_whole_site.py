"""The real site over a copy of the demo: saving, broken files, every page and every link. Our own rules."""

import json
import re
import time
from collections.abc import Callable
from html.parser import HTMLParser
from urllib.parse import unquote, urljoin, urlsplit

import pytest

from hooks.serve.headers import POLICY
from tests.serve.client import ID, Client
from tests.site_under_test import Site

BROKEN = {
    "20261125-070000-brkn1.yaml": b"kind: [crash\n",
    "20261125-070001-brkn2.yaml": b"kind: explosion\nsaid: 7\n",
    "20261125-070002-brkn3.yaml": b"\xff\xfe\x00",
    "20261125-070003-brkn4.yaml": b"a: &x [*x, *x]\n",
}
LINKED = {"a": "href", "link": "href", "script": "src", "img": "src", "source": "src"}


class _Links(HTMLParser):
    """Collects what a page points at, and its policy."""

    def __init__(self) -> None:
        super().__init__()
        self.links: list[str] = []
        self.policy: str | None = None
        self.inline: list[str] = []
        self._script = False

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Note links, the policy, and what the policy would forbid."""
        given = dict(attrs)
        if given.get(LINKED.get(tag, "")):
            self.links.append(given[LINKED[tag]])
        if tag == "meta" and (given.get("http-equiv") or "").lower() == "content-security-policy":
            self.policy = given["content"]
        if tag == "style" or (tag == "script" and not given.get("src")):
            self.inline.append(tag)
        self.inline += [name for name in given if name == "style" or name.startswith("on")]


def _client(site: Site) -> Client:
    return Client(urlsplit(site.url).port)


def _pages(site: Site) -> list[str]:
    return [
        "/" + path.parent.relative_to(site.folder).as_posix() + "/"
        for path in site.folder.rglob("index.html")
        if ".written" not in path.parts  # laid by for filling again; not served
    ]


@pytest.fixture(scope="module")
def parsed(site: Site) -> dict[str, _Links]:
    """Every page of the site by its path, parsed."""
    found = {}
    for path in _pages(site):
        reply = _client(site).ask("GET", path.replace("/./", "/"))
        assert reply.status == 200, path
        found[path.replace("/./", "/")] = _Links()
        found[path.replace("/./", "/")].feed(reply.body.decode("utf-8"))
    return found


def test_every_link_of_every_page_answers(site: Site, parsed: dict[str, _Links]) -> None:
    """No link, script, style or picture of any page leads nowhere; none leads to another host by itself."""
    targets = {urljoin(path, link).split("#")[0] for path, page in parsed.items() for link in page.links}
    local = {target for target in targets if not urlsplit(target).scheme}
    assert len(local) > 10
    statuses = {target: _client(site).ask("HEAD", target).status for target in local}
    assert {target: status for target, status in statuses.items() if status != 200} == {}


def test_every_page_carries_the_policy_and_nothing_inline(parsed: dict[str, _Links]) -> None:
    """On a static host the page itself must say what our server says; framing needs a header."""
    said = re.sub(r"; frame-ancestors 'none'", "", POLICY)
    for path, page in parsed.items():
        assert page.policy is not None, path
        assert page.policy.rstrip("; ") == said, path
        assert page.inline == [], path


def test_addresses_are_relative(parsed: dict[str, _Links]) -> None:
    """The site works under a sub-path: no link begins at the root of the host."""
    rooted = {(path, link) for path, page in parsed.items() for link in page.links if link.startswith("/")}
    assert rooted == set()


def test_a_saved_lesson_is_on_its_page_and_in_the_lists(own_site: Site) -> None:
    """Its page, the list and the index know it within a second of the answer."""
    client = _client(own_site)
    began = time.monotonic()
    assert client.save(said="The corner bit hard: wobblethorpe.").status == 201
    answered = time.monotonic() - began
    _within(1.0, lambda: b"wobblethorpe" in client.ask("GET", f"/lessons/{ID}/").body)
    _within(1.0, lambda: any(row["id"] == ID for row in json.loads(client.ask("GET", "/data/lessons.json").body)))
    _within(1.0, lambda: b"wobblethorpe" in client.ask("GET", "/data/index-recent.json").body)
    assert answered < 5, "the answer itself must not keep a hand waiting"


def test_a_broken_lesson_hides_no_page(own_site: Site) -> None:
    """Four kinds of broken file, saved by hand while serving: each is listed, every other page answers."""
    client, before = _client(own_site), _pages(own_site)
    build = client.hello()["build"]
    folder = own_site.shop / "lessons" / "2026"
    for name, content in BROKEN.items():
        (folder / name).write_bytes(content)
    _within(60, lambda: client.hello()["build"] != build)
    attention = client.ask("GET", "/attention/").body.decode("utf-8")
    assert [name for name in BROKEN if name not in attention] == []
    assert [path for path in before if client.ask("GET", path.replace("/./", "/")).status != 200] == []


def test_a_page_that_is_not_there_says_so(site: Site) -> None:
    """404, as a page."""
    reply = _client(site).ask("GET", "/no/such/page/")
    assert reply.status == 404
    assert reply.headers["content-type"].startswith("text/html")


@pytest.mark.parametrize(("path", "kind"), [
    ("/pyodide/pyodide.mjs", "text/javascript"),
    ("/pyodide/pyodide.asm.wasm", "application/wasm"),
    ("/assets/js/page.js", "text/javascript"),
    ("/assets/css/shop.css", "text/css"),
    ("/data/lessons.json", "application/json"),
])  # fmt: skip
def test_files_have_the_types_that_browsers_insist_on(site: Site, path: str, kind: str) -> None:
    """A module or a program of another type is not run by a browser."""
    reply = _client(site).ask("HEAD", unquote(path))
    assert (reply.status, reply.headers["content-type"].split(";")[0]) == (200, kind)


def _within(seconds: float, true: Callable[[], bool]) -> None:
    end = time.monotonic() + seconds
    while not true():
        assert time.monotonic() < end, f"it did not happen within {seconds} s"
        time.sleep(0.1)
