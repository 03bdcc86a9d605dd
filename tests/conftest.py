"""A real browser, and the real server over a copy of the demo shop, for the tests that ask for them."""

import os
import shutil
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

from tests.watched_page import Browsing, find_chromium, launch

if TYPE_CHECKING:
    from tests.site_under_test import Site

REQUIRED = os.environ.get("TWICE_SHY_BROWSER") == "required"
BROWSER_FIXTURES = {"browser", "page", "open_page"}


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Mark what needs a browser and run it after everything else."""
    for item in items:
        if BROWSER_FIXTURES & set(getattr(item, "fixturenames", ())):
            item.add_marker(pytest.mark.browser)
    items.sort(key=lambda item: item.get_closest_marker("browser") is not None)


def pytest_terminal_summary(terminalreporter: Any) -> None:
    """Say loudly what was not tried on this machine."""
    reports = terminalreporter.stats.get("skipped", [])
    without = [report for report in reports if "Chromium" in str(report.longrepr)]
    if without:
        terminalreporter.section("NOT TESTED: the browser", sep="!", red=True)
        terminalreporter.line(f"{len(without)} tests need Chromium, and none was found on this machine.")
        terminalreporter.line("TWICE_SHY_CHROMIUM can name its path.")


@pytest.fixture(scope="session")
def chromium() -> str:
    """Path of a Chromium; skips, or fails where the run requires a browser."""
    found = find_chromium()
    if found is None and REQUIRED:
        pytest.fail("TWICE_SHY_BROWSER is 'required', and there is no Chromium")
    if found is None:
        pytest.skip("no Chromium on this machine")
    return found


@pytest.fixture(scope="session")
def browser(chromium: str) -> Iterator[Any]:
    """One headless Chromium for the whole run (a Playwright Browser)."""
    with launch(chromium) as started:
        yield started


@pytest.fixture(scope="session")
def demo_copy(tmp_path_factory: pytest.TempPathFactory) -> Callable[[], Path]:
    """Makes a fresh copy of the demo shop each time it is called."""
    demo = Path(__file__).parents[1] / "content" / "demo"

    def copy() -> Path:
        return Path(shutil.copytree(demo, tmp_path_factory.mktemp("shop") / "demo"))

    return copy


@pytest.fixture(scope="session")
def site(demo_copy: Callable[[], Path], tmp_path_factory: pytest.TempPathFactory) -> "Iterator[Site]":
    """The demo, built and served once for the whole run by the real server."""
    from tests.site_under_test import start_site  # the server: most tests do without

    with start_site(demo_copy(), tmp_path_factory.mktemp("pages")) as started:
        yield started


@pytest.fixture
def own_site(demo_copy: Callable[[], Path], tmp_path: Path) -> "Iterator[Site]":
    """A served copy of the demo for one test alone, which may break it."""
    from tests.site_under_test import start_site  # the server: most tests do without

    with start_site(demo_copy(), tmp_path / "pages") as started:
        yield started


@pytest.fixture
def browsing(browser: Any) -> Iterator[Browsing]:
    """Opens pages and records what none may do; the test fails at its end if one did."""
    found = Browsing(browser)
    yield found
    found.close()
    assert not found.faults, "\n".join(found.faults)


@pytest.fixture
def open_page(browsing: Browsing) -> Callable[..., Any]:
    """Opens a recorded page: `open_page(width=390, height=844, dark=False, **context_options)`."""
    return browsing.open


@pytest.fixture
def page(browsing: Browsing) -> Any:
    """One recorded desktop page."""
    return browsing.open()
