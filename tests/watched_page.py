"""A real Chromium whose pages are watched: other hosts, script errors, console errors, policy violations."""

import os
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any
from urllib.parse import urlsplit

NAMES = ("chromium", "chromium-browser", "google-chrome", "chrome")
QUIET = (
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)
LOCAL = ("127.0.0.1", "localhost", "[::1]", "::1")
TELL_VIOLATIONS = """
addEventListener('securitypolicyviolation', event =>
  console.error(`policy violation: ${event.violatedDirective} ${event.blockedURI}`));
"""


def find_chromium() -> str | None:
    """Path of a Chromium: the one named in TWICE_SHY_CHROMIUM, else the first on the path."""
    named = os.environ.get("TWICE_SHY_CHROMIUM")
    return named or next((found for name in NAMES if (found := shutil.which(name))), None)


@contextmanager
def launch(path: str) -> Iterator[Any]:
    """A headless browser with an empty profile (a Playwright Browser)."""
    from playwright.sync_api import sync_playwright  # only where there is a browser to drive

    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=path, args=list(QUIET))
        yield browser
        browser.close()


class Browsing:
    """The pages of one test, and what they did that no page may do."""

    def __init__(self, browser: Any) -> None:
        self.faults: list[str] = []
        self._browser = browser
        self._contexts: list[Any] = []

    def open(self, width: int = 1280, height: int = 900, dark: bool = False, **options: Any) -> Any:
        """A new page in a profile of its own; sizes in CSS pixels."""
        context = self.context(width, height, dark, **options)
        return context.new_page()

    def context(self, width: int = 1280, height: int = 900, dark: bool = False, **options: Any) -> Any:
        """A new profile, for tests with several tabs of one; every page of it is watched."""
        context = self._browser.new_context(
            viewport={"width": width, "height": height},
            color_scheme="dark" if dark else "light",
            **options,
        )
        context.add_init_script(TELL_VIOLATIONS)
        context.on("request", self._check_host)
        context.on("page", self._watch)
        self._contexts.append(context)
        return context

    def forgive(self, part: str) -> None:
        """Take away faults that hold `part`: for tests that provoke one on purpose."""
        self.faults[:] = [fault for fault in self.faults if part not in fault]

    def close(self) -> None:
        """Close every page."""
        for context in self._contexts:
            context.close()

    def _watch(self, page: Any) -> None:
        page.on("pageerror", lambda error: self.faults.append(f"script error on {page.url}: {error}"))
        page.on("console", lambda message: self._hear(page, message))

    def _hear(self, page: Any, message: Any) -> None:
        if message.type == "error":
            self.faults.append(f"console error on {page.url}: {message.text}")

    def _check_host(self, request: Any) -> None:
        address = urlsplit(request.url)
        if address.scheme not in ("data", "blob") and address.hostname not in LOCAL:
            self.faults.append(f"a request to another host: {request.url}")
