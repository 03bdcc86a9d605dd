"""Rows of a form that come and go: set-ups and operations of a job, on a phone and on a desktop."""

from typing import Any

from playwright.sync_api import expect

from tests.browser.conftest import OpenTab

FINGER = 44  # CSS pixels


def test_rows_are_added_and_taken_away_and_put_back(device: Any, open_tab: OpenTab) -> None:
    """A new row has the focus in its first box; what held something can be put back, with all that was in it."""
    hand = open_tab(device, "jobs/edit/")
    page = hand.page
    hand.tap(page.get_by_role("button", name="Add: operation"))
    second = "setups.0.operations.1"
    expect(page.locator(f"[name='{second}.operation']")).to_be_focused()
    page.select_option(f"[name='{second}.operation']", "tap")
    hand.tap(page.get_by_role("button", name="Take away operation 1"))
    expect(page.get_by_role("button", name="Add: operation")).to_be_focused()
    assert page.get_by_text("is taken away").count() == 0, "an empty row leaves nothing behind"
    hand.tap(page.get_by_role("button", name="Take away operation 1"))
    expect(page.get_by_text("Operation 1 is taken away.")).to_be_visible()
    expect(page.locator(f"[name='{second}.operation']")).to_be_hidden()
    hand.tap(page.get_by_role("button", name="Put it back"))
    expect(page.locator(f"[name='{second}.operation']")).to_be_focused()
    expect(page.locator(f"[name='{second}.operation']")).to_have_value("tap")
    hand.tap(page.get_by_role("button", name="Add: set-up"))
    expect(page.locator("[name='setups.1.name']")).to_be_focused()


def test_everything_to_tap_in_the_form_is_as_large_as_a_finger(device: Any, open_tab: OpenTab) -> None:
    """Boxes, buttons and folds, all of them unfolded."""
    page = open_tab(device, "jobs/edit/").page
    page.evaluate("document.querySelectorAll('main details').forEach(fold => { fold.open = true; })")
    small = page.evaluate(
        "finger => [...document.querySelectorAll('main :is(button, input, select, textarea, summary, .chip)')]"
        ".filter(one => one.checkVisibility() && !one.closest('.chip')?.contains(one.parentElement))"
        ".filter(one => one.getBoundingClientRect().height < finger).map(one => one.outerHTML.slice(0, 80))",
        FINGER,
    )
    assert small == []


def test_a_problem_finds_its_row_after_others_were_taken_away(browsing: Any, desktop: Any, open_tab: OpenTab) -> None:
    """The server counts rows that hold something; empty ones and those taken away stand before them on the page."""
    page = open_tab(desktop, "jobs/edit/").page
    for _ in range(2):
        page.get_by_role("button", name="Add: operation").click()
    page.select_option("[name='setups.0.operations.1.operation']", "slot")
    page.get_by_role("button", name="Take away operation 2").click()
    wrong = "setups.0.operations.2.geometry.corner_radius"
    page.locator("summary", has_text="What is cut").last.click()
    page.fill(f"[name='{wrong}']", "6 kg")
    page.locator("summary", has_text="What is cut").last.click()
    page.get_by_role("button", name="Save the job").click()
    expect(page.locator(f"[data-for='{wrong}']")).to_contain_text("Inside corner radius is a length")
    expect(page.locator("[data-for='part']")).to_have_text("Part is missing.")
    expect(page.locator("[name=part]")).to_be_focused()
    browsing.forgive("status of 400")
