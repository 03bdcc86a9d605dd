"""Bringing in a spreadsheet on its page: looked at, put right, taken in; by hand and by the keyboard alone."""

import re
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import SCREENS

EVENTS = Path(__file__).parents[1] / "shop" / "events.csv"
SMALL = "Date,Type,What happened\n03/04/2024,crash,it hit\n,misc,it was odd\n"


@pytest.fixture
def opened(own_site: Any, browsing: Any, screen: str) -> Page:
    """The page, on a phone and on a desktop, over a shop of its own."""
    page = browsing.context(**SCREENS[screen]).new_page()
    page.goto(f"{own_site.url}import/")
    page.wait_for_selector("html[data-ready=yes]")
    return page


def lessons(site: Any) -> int:
    """How many files the shop holds."""
    return len(list(site.shop.rglob("lessons/**/*.yaml")))


def choose(page: Page, text: str | bytes) -> None:
    """Choose a file of this content, and wait until it was looked at."""
    data = text if isinstance(text, bytes) else text.encode()
    page.set_input_files("#import-file", {"name": "sheet.csv", "mimeType": "text/csv", "buffer": data})
    expect(page.locator("#import-status")).to_contain_text("rows, parted by")


def test_foreign_events_are_looked_at_put_right_and_taken_in(own_site: Any, opened: Page) -> None:
    """Odd cells by row and column, columns and words said by hand, then all 120 at once."""
    before = lessons(own_site)
    choose(opened, EVENTS.read_bytes().replace(b"mid March", b"12.03.2024").replace(b"31.02.2024", b"29.02.2024"))
    expect(opened.locator("#import-odd-list")).to_contain_text('Row 89, column G "Tool": "the blue one"')
    expect(opened.get_by_label("H: Tool Ø (mm)")).to_have_value("cutter.cutter_diameter")
    expect(opened.get_by_label("S: Reported by")).to_have_value("")
    expect(opened.locator("#import-go")).to_be_disabled()
    opened.get_by_label("L: Step").select_option("operation")
    opened.get_by_label("A day such as 03/04/2024").select_option("dmy")
    opened.get_by_label("Misc.").select_option("worked_well")
    expect(opened.locator("#import-first")).to_contain_text("During which operation")
    opened.get_by_text("Leave these cells out").click()
    go = opened.get_by_role("button", name="Import 120 lessons")
    expect(go).to_be_enabled()
    assert opened.evaluate("document.documentElement.scrollWidth <= window.innerWidth")
    assert lessons(own_site) == before
    go.click()
    expect(opened.locator("#import-done")).to_contain_text("120 lessons imported.")
    assert lessons(own_site) == before + 120
    opened.get_by_role("link", name="Look at them").click()
    expect(opened.locator("#find-count")).to_contain_text(str(before + 120))


def test_what_was_answered_can_be_answered_otherwise(opened: Page) -> None:
    """A word that is known now keeps its box; another file forgets what was said of the first."""
    choose(opened, SMALL)
    word = opened.get_by_label("misc")
    word.select_option("crash")
    expect(opened.locator("#import-odd-list")).not_to_contain_text("misc")
    word.select_option("?")
    expect(opened.locator("#import-odd-list")).to_contain_text("misc")
    choose(opened, "What happened\nit hit\n")
    expect(opened.locator("#import-wrong")).to_contain_text("what kind of mishap")
    expect(word).to_have_count(0)
    opened.get_by_label("Kind of mishap of rows that name none").select_option("crash")
    expect(opened.get_by_role("button", name="Import 1 lesson")).to_be_enabled()


def test_a_file_that_is_no_sheet_is_told(browsing: Any, opened: Page) -> None:
    """In one line, and the next file is looked at as if nothing had been."""
    opened.set_input_files("#import-file", {"name": "a.xlsx", "mimeType": "", "buffer": b"PK\x03\x04"})
    expect(opened.locator("#import-status")).to_contain_text("a workbook, not CSV")
    expect(opened.locator("#import-told")).to_be_hidden()
    choose(opened, SMALL)
    expect(opened.locator("#import-told")).to_be_visible()
    browsing.forgive("400 (Bad Request)")


def test_everything_is_large_enough_and_in_reach_of_the_keyboard(opened: Page) -> None:
    """Controls of a file that was looked at: 48 px, named, and reached one after the other."""
    choose(opened, SMALL)
    controls = opened.locator(
        "#import select:visible, #import input:visible:not([type=checkbox]), #import button:visible"
    )
    boxes = [one.bounding_box() for one in controls.all()]
    assert len(boxes) > 8 and all(box and box["height"] >= 48 for box in boxes)
    opened.locator("#import-file").focus()
    seen = []
    for _ in range(8):
        opened.keyboard.press("Tab")
        seen.append(opened.evaluate("document.activeElement.id"))
    assert seen[0] == "import-column-0" and {"import-kind", "import-dates", "import-decimals"} <= set(seen)
    nameless = (
        "[...document.querySelectorAll('#import select, #import input')].filter((one) => !one.labels?.length).length"
    )
    assert opened.evaluate(nameless) == 0


def test_without_a_server_it_says_what_is_needed(site: Any, browsing: Any, page: Page) -> None:
    """On a static host: plainly, with the words for a terminal, and no form that leads nowhere."""
    page.route(re.compile("/api/"), lambda route: route.abort())
    page.goto(f"{site.url}import/")
    page.wait_for_selector("html[data-ready=yes]")
    expect(page.locator("#import-away")).to_contain_text("run.py import FILE.csv")
    expect(page.locator("#import")).to_be_hidden()
    browsing.forgive("net::ERR_FAILED")
