"""Without a server: the site on a plain file host under a sub-path, and the lesson carried home as a file."""

import json
from pathlib import Path
from typing import Any

from playwright.sync_api import Page, expect

from hooks.shop.receive import TAKEN, THERE, receive_files
from tests.browser.conftest import SCREENS
from tests.browser.hand import Hand
from tests.browser.test_record import kind, stored

SAID = "the drill went through into the parallel"


def visit(visitor: Any, address: str) -> Page:
    """A page of the file host, ready to be used."""
    page: Page = visitor.new_page()
    page.goto(address)
    page.wait_for_selector("html[data-ready=yes]")
    return page


def write_and_save(page: Page) -> None:
    """Record as far as it goes without a server."""
    hand = Hand(page)
    hand.tap(kind(page, "tool_failed"))
    hand.tap(page.locator("#said"))
    hand.type(SAID)
    hand.tap(page.get_by_role("button", name="Save lesson"))


def download(page: Page, folder: Path) -> Path:
    """The file that the page gives out."""
    with page.expect_download() as coming:
        page.get_by_role("button", name="Download the file").click()
    path = folder / coming.value.suggested_filename
    coming.value.save_as(path)
    return path


def test_a_lesson_is_handed_over_kept_and_received(hosted: str, visitor: Any, demo_copy: Any, tmp_path: Path) -> None:
    """The file is taken in at home as the same lesson; the draft stays until its writer says it is safe."""
    page = visit(visitor, f"{hosted}record/")
    write_and_save(page)
    file = download(page, tmp_path)
    told = json.loads(file.read_text(encoding="utf-8"))
    assert (told["twice_shy"], told["kind"], told["fields"]["said"]) == (1, "lesson", SAID)

    page.reload()
    page.wait_for_selector("html[data-ready=yes]")
    kept = page.evaluate("JSON.stringify(localStorage)")
    assert SAID in kept

    shop = demo_copy()
    assert [line.became for line in receive_files(shop, [file, file])] == [TAKEN, THERE]
    [lesson] = [path for path in shop.rglob("lessons/**/*.yaml") if SAID in path.read_text(encoding="utf-8")]
    assert lesson.stem == told["id"]


def test_it_is_forgotten_only_when_its_writer_says_so(hosted: str, visitor: Any, tmp_path: Path) -> None:
    """After the download the draft is still there; told that it arrived, the page forgets it."""
    page = visit(visitor, f"{hosted}record/")
    write_and_save(page)
    download(page, tmp_path)
    assert SAID in page.evaluate("JSON.stringify(localStorage)")
    page.get_by_role("button", name="It has arrived").click()
    page.wait_for_load_state("networkidle")
    assert SAID not in page.evaluate("JSON.stringify(localStorage)")


def test_a_later_visit_with_a_server_sends_what_was_kept(
    site: Any, browsing: Any, open_tab: Any, tmp_path: Path
) -> None:
    """The server was away when it was saved; on the next visit it is offered and stored."""
    context = browsing.context(**SCREENS["desktop"], accept_downloads=True)
    hand = open_tab(context, "record/")
    context.route("**/api/**", lambda route: route.abort())
    write_and_save(hand.page)
    download(hand.page, tmp_path)
    context.unroute("**/api/**")
    hand.page.close()
    later = open_tab(context, "record/")
    expect(later.page.locator(".kept__line")).to_contain_text(SAID)
    later.tap(later.page.get_by_role("button", name="Send it now"))
    later.page.wait_for_url("**/lessons/**")
    assert len(stored(site, SAID)) == 1
    browsing.forgive("ERR_FAILED")


def test_the_published_site_calculates(hosted: str, visitor: Any) -> None:
    """Under a sub-path and without a server the sums still run in the browser."""
    page = visit(visitor, f"{hosted}calculators/corner-clearance/")
    page.locator("[name=pocket_width]").fill("7")
    page.wait_for_selector("#answer:not([data-baked])", timeout=30_000)
