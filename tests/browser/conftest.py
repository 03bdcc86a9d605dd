"""What the browser tests share: a phone and a desktop, and a watch over everything a page does."""

from collections.abc import Callable, Iterator
from typing import Any

import pytest
from playwright.sync_api import Browser, BrowserContext

from tests.browser.hand import Hand, Watch

SCREENS = {
    "phone": {"viewport": {"width": 390, "height": 844}, "has_touch": True, "is_mobile": True},
    "desktop": {"viewport": {"width": 1280, "height": 900}},
}
SLOWEST_MS = 30_000

Open = Callable[..., Hand]


@pytest.fixture
def watch(site: Any) -> Watch:
    """Whatever the pages of this test ask for and complain about."""
    return Watch(home=site.url)


@pytest.fixture(params=SCREENS)
def screen(request: pytest.FixtureRequest) -> str:
    """Every test that asks for it runs on the phone and on the desktop."""
    return str(request.param)


@pytest.fixture
def device(browser: Browser, screen: str) -> Iterator[BrowserContext]:
    """One device with its own memory, of the screen at hand."""
    context = browser.new_context(**SCREENS[screen])
    context.set_default_timeout(SLOWEST_MS)
    yield context
    context.close()


@pytest.fixture
def desktop(browser: Browser) -> Iterator[BrowserContext]:
    """One desktop device with its own memory."""
    context = browser.new_context(**SCREENS["desktop"])
    context.set_default_timeout(SLOWEST_MS)
    yield context
    context.close()


@pytest.fixture
def open_page(site: Any, watch: Watch) -> Open:
    """Opens an address of the site in a new tab of a device, watched."""

    def opened(context: BrowserContext, address: str) -> Hand:
        page = context.new_page()
        watch.follow(page)
        page.goto(site.url + address)
        page.wait_for_selector("html[data-ready=yes]")
        return Hand(page, touch=page.evaluate("navigator.maxTouchPoints") > 0)

    return opened
