"""The watch over pages sees what it must: each fault is planted once, in a real browser."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from tests.watched_page import Browsing

POLICY = "default-src 'none'; script-src 'self'; img-src *"
PLANTED = {
    "a request to another host": '<img src="http://elsewhere.invalid/x.png" alt="">',  # no host (RFC 2606)
    "policy violation": "<script>1</script>",
    "script error": '<script src="throws.js"></script>',
    "console error": '<script src="complains.js"></script>',
}
FILES = {"throws.js": "throw new Error('planted')", "complains.js": "console.error('planted')"}


@pytest.fixture
def browsing_alone(browser: Any) -> Iterator[Browsing]:
    """A watch whose faults the test itself judges."""
    found = Browsing(browser)
    yield found
    found.close()


def _serve(page: Any, folder: Path) -> None:
    """Answer for http://localhost/ from a folder, and for nothing else."""

    def answer(route: Any) -> None:
        name = route.request.url.rsplit("/", 1)[1] or "index.html"
        kind = "text/html" if name.endswith("html") else "text/javascript"
        headers = {"Content-Security-Policy": POLICY, "Content-Type": kind}
        route.fulfill(status=200, body=(folder / name).read_text(encoding="utf-8"), headers=headers)

    page.route("http://localhost/**", answer)
    page.route("http://elsewhere.invalid/**", lambda route: route.fulfill(status=200, body=""))


def _load(browsing: Browsing, folder: Path, body: str) -> None:
    for name, content in {**FILES, "index.html": f"<!doctype html><title>x</title>{body}"}.items():
        (folder / name).write_text(content, encoding="utf-8")
    page = browsing.open()
    _serve(page, folder)
    page.goto("http://localhost/")
    page.wait_for_timeout(200)


@pytest.mark.parametrize("fault", PLANTED)
def test_each_fault_is_seen(browsing_alone: Browsing, tmp_path: Path, fault: str) -> None:
    """A page with one planted fault is not passed."""
    _load(browsing_alone, tmp_path, PLANTED[fault])
    assert any(fault in seen for seen in browsing_alone.faults), browsing_alone.faults


def test_a_good_page_is_passed(browsing_alone: Browsing, tmp_path: Path) -> None:
    """A page without faults leaves none."""
    _load(browsing_alone, tmp_path, "<p>all well</p>")
    assert browsing_alone.faults == []
