"""What the browser tests share: a phone and a desktop, a tab that a hand works on, and a plain file host."""

import functools
import shutil
import threading
from collections.abc import Callable, Iterator
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Route, expect

from tests.browser.hand import Hand

SCREENS: dict[str, dict[str, Any]] = {
    "phone": {"width": 390, "height": 844, "has_touch": True, "is_mobile": True},
    "desktop": {"width": 1280, "height": 900},
}
SLOWEST_MS = 30_000
expect.set_options(timeout=SLOWEST_MS)  # Python starts cold in the browser, on a busy machine

SUB_PATH = "fittings"

OpenTab = Callable[..., Hand]


@pytest.fixture(params=SCREENS)
def screen(request: pytest.FixtureRequest) -> str:
    """Every test that asks for it runs on the phone and on the desktop."""
    return str(request.param)


@pytest.fixture
def device(browsing: Any, screen: str) -> Any:
    """One watched device with a memory of its own, of the screen at hand."""
    context = browsing.context(**SCREENS[screen])
    context.set_default_timeout(SLOWEST_MS)
    return context


@pytest.fixture
def desktop(browsing: Any) -> Any:
    """One watched desktop with a memory of its own."""
    context = browsing.context(**SCREENS["desktop"])
    context.set_default_timeout(SLOWEST_MS)
    return context


@pytest.fixture
def open_tab(site: Any) -> OpenTab:
    """Opens an address of the site in a new tab of a device, and waits until its script is ready."""

    def opened(context: Any, address: str) -> Hand:
        page = context.new_page()
        page.goto(site.url + address)
        page.wait_for_selector("html[data-ready=yes]")
        return Hand(page, touch=page.evaluate("navigator.maxTouchPoints") > 0)

    return opened


def without_wasm(route: Route) -> None:
    """The worker under a policy that lacks 'wasm-unsafe-eval'."""
    answer = route.fetch()
    policy = "default-src 'none'; script-src 'self'; connect-src 'self'"
    route.fulfill(response=answer, headers={**answer.headers, "content-security-policy": policy})


class Quiet(SimpleHTTPRequestHandler):
    """A plain file host that does not talk."""

    extensions_map = {
        **SimpleHTTPRequestHandler.extensions_map,
        ".mjs": "text/javascript",
        ".js": "text/javascript",
    }

    def log_message(self, *_: Any) -> None:
        """Say nothing."""


@pytest.fixture
def hosted(site: Any, tmp_path: Path) -> Iterator[str]:
    """The built pages on a file host, below a sub-path; the address ends with a slash."""
    shutil.copytree(site.folder, tmp_path / SUB_PATH)
    handler = functools.partial(Quiet, directory=tmp_path)
    with ThreadingHTTPServer(("127.0.0.1", 0), handler) as server:
        threading.Thread(target=server.serve_forever, daemon=True).start()
        yield f"http://127.0.0.1:{server.server_port}/{SUB_PATH}/"
        server.shutdown()


@pytest.fixture
def visitor(browsing: Any) -> Any:
    """A watched device; that no server answers is what these tests are about."""
    context = browsing.context(**SCREENS["desktop"], accept_downloads=True)
    yield context
    context.close()  # the last question of a page may be on its way still
    browsing.forgive("status of 404")
    browsing.forgive("status of 501")
