"""A calculator's page in the browser: first answer, the address, units, and where Python cannot run."""

import re
import time
from typing import Any

import pytest
from playwright.sync_api import Page, Route, expect

from tests.browser.conftest import OpenTab, without_wasm

CORNER = "calculators/corner-clearance/"
NUMBERS = "#cutter_diameter=6%20mm&pocket_width=6.8%20mm&radial_depth=0.4%20mm"
SHORT_PATIENCE = """addEventListener("DOMContentLoaded", () => { document.body.dataset.patience = 5000; });"""
FIRST_ANSWER_S = 15.0


def live(page: Page) -> None:
    """Wait until the answer shown was worked out in this browser."""
    page.wait_for_selector("#answer:not([data-baked])")


def test_the_first_live_answer_comes_in_seconds(desktop: Any, open_tab: OpenTab, record_property: Any) -> None:
    """Cold and warm seconds from the first key to the answer are measured and told."""
    for name in ("cold", "warm"):
        page = open_tab(desktop, CORNER).page
        began = time.monotonic()
        page.locator("[name=pocket_width]").fill("7.1")
        live(page)
        seconds = time.monotonic() - began
        record_property(f"first_answer_{name}_s", round(seconds, 2))
        print(f"first live answer, {name}: {seconds:.2f} s")
        assert seconds < FIRST_ANSWER_S
        page.close()


def test_an_address_brings_its_numbers_and_says_them_with_units(desktop: Any, open_tab: OpenTab) -> None:
    """A link fills the boxes and is worked out; a bare number typed goes into the address with its unit."""
    page = open_tab(desktop, CORNER + NUMBERS).page
    expect(page.locator("[name=pocket_width]")).to_have_value("6.8 mm")
    live(page)
    page.locator("[name=radial_depth]").fill("0.3")
    page.wait_for_url(re.compile(r"radial_depth=0\.3%20mm"))
    page.reload()
    expect(page.locator("[name=radial_depth]")).to_have_value("0.3 mm")


def test_inches_are_remembered_and_what_was_typed_stays_what_it_was(desktop: Any, open_tab: OpenTab) -> None:
    """Changing the units changes no length: 6 typed as millimetres stays 6 mm; the answer shows inches."""
    page = open_tab(desktop, CORNER).page
    page.locator("[name=cutter_diameter]").fill("6")
    page.locator("input[name=system][value=inch]").check()
    expect(page.locator("[name=cutter_diameter]")).to_have_value("6 mm")
    live(page)
    expect(page.locator("#answer")).to_contain_text(re.compile(r"\d\s?in"))
    page.reload()
    expect(page.locator("input[name=system][value=inch]")).to_be_checked()
    expect(page.locator("[data-unit-for=cutter_diameter]")).to_have_text("in")


def test_a_refusal_is_said_on_its_box(desktop: Any, open_tab: OpenTab) -> None:
    """An impossible number marks its box in words, and mending it clears the mark."""
    page = open_tab(desktop, CORNER).page
    box = page.locator("[name=cutter_diameter]")
    box.fill("-3")
    error = page.locator("[data-for=cutter_diameter]")
    expect(error).to_be_visible()
    assert box.get_attribute("aria-describedby") == error.get_attribute("id")
    box.fill("5")
    expect(error).to_be_hidden()
    expect(box).not_to_have_attribute("aria-invalid", "true")


def test_numbers_without_an_answer_are_not_attached(desktop: Any, open_tab: OpenTab) -> None:
    """An answer to other numbers than those in the boxes stands greyed, and is attached to nothing."""
    page = open_tab(desktop, CORNER).page
    page.locator("[name=radial_depth]").fill("0.3")
    live(page)
    answer, panel = page.locator("#answer"), page.locator("#attach")
    expect(panel).to_be_visible()
    page.locator("[name=cutter_diameter]").fill("banana")
    expect(answer).to_have_class(re.compile("answer--before"))
    panel.get_by_role("button", name="Attach to the lesson").click()
    expect(page.locator("#attach-status")).to_contain_text("give no answer yet")
    page.locator("[name=cutter_diameter]").fill("5")
    expect(answer).not_to_have_class(re.compile("answer--before"))


def test_a_page_that_is_not_there_still_finds_the_server(site: Any, browsing: Any, desktop: Any) -> None:
    """The page for what is gone asks at the site's root, so that a file put right is noticed."""
    page = desktop.new_page()
    with page.expect_request(lambda request: request.url.endswith("/api/hello")) as asked:
        page.goto(f"{site.url}lessons/20200101-000000-aaaaa/")
    assert asked.value.url == f"{site.url}api/hello"
    page.close()
    browsing.forgive("404")  # the browser tells that the page is not there


def test_only_the_newest_numbers_are_answered(desktop: Any, open_tab: OpenTab) -> None:
    """Numbers typed while Python starts are overtaken by the last ones."""
    page = open_tab(desktop, CORNER).page
    for width in ("6.8", "7", "8", "12"):
        page.locator("[name=pocket_width]").fill(width)
        page.wait_for_timeout(200)
    live(page)
    page.wait_for_timeout(500)
    fresh = open_tab(desktop, CORNER + page.url.split("/")[-1]).page
    live(fresh)
    assert fresh.locator("#answer").inner_html() == page.locator("#answer").inner_html()


def test_where_wasm_is_blocked_the_page_says_so(browsing: Any, desktop: Any, open_tab: OpenTab) -> None:
    """Under a policy without WebAssembly: a plain message with the command line, and the example stays."""
    desktop.route("**/worker.js", without_wasm)
    page = open_tab(desktop, CORNER).page
    baked = page.locator("#answer").inner_html()
    page.locator("[name=pocket_width]").fill("7")
    status = page.locator("#python-status")
    expect(status).to_contain_text("they need WebAssembly")
    expect(status).to_contain_text("python3 -m calc corner-clearance")
    assert page.locator("#answer").inner_html() == baked
    browsing.forgive("WebAssembly")  # the browser tells of the policy that this test set


@pytest.mark.parametrize("held", ["**/calc.zip", "**/pyodide.asm.wasm"])
def test_silence_ends_by_the_time_out(desktop: Any, open_tab: OpenTab, held: str) -> None:
    """A runtime that never arrives is given up after the time-out, and can be tried again."""
    hung: list[Route] = []
    desktop.route(held, lambda route: hung.append(route))
    desktop.add_init_script(SHORT_PATIENCE)
    page = open_tab(desktop, CORNER).page
    began = time.monotonic()
    page.locator("[name=pocket_width]").fill("7")
    expect(page.locator("#python-status")).to_contain_text("they need WebAssembly", timeout=15_000)
    assert 4.5 < time.monotonic() - began < 10
    desktop.unroute(held)
    again = page.get_by_role("button", name="Try again")
    answered = page.locator("#answer:not([data-baked])")
    for _ in range(4):  # each waits twice as long: a busy machine may want more than one
        again.click()
        expect(again.or_(answered).first).to_be_visible(timeout=90_000)
        if answered.count():
            break
    live(page)
