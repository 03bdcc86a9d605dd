"""The story the whole project exists for, from a dig-in to the sum that would have caught it."""

import re
from typing import Any

from playwright.sync_api import expect

from tests.browser.conftest import SCREENS, OpenTab
from tests.browser.hand import Hand
from tests.browser.test_record import MOST_TAPS_BESIDE_THE_SENTENCE, record

SAID = "finishing pass dug in at the corners of the small pocket"
OTHER_WORDS = "cutter grabbed inside corner pocket"
FETCHED = "performance.getEntriesByType('resource').map((one) => one.name)"
CORNER = "calculators/corner-clearance/"
LIKE_STRAIGHT = re.compile(r"like taking ([\d.]+) mm off a straight wall", re.IGNORECASE)


def like_straight(hand: Hand) -> float:
    """The number of the sentence a machinist remembers, as the page shows it."""
    said = LIKE_STRAIGHT.search(hand.page.locator("#answer").inner_text())
    assert said, hand.page.locator("#answer").inner_text()
    return float(said.group(1))


def test_from_a_dig_in_to_the_sum_that_would_have_caught_it(
    site: Any, browser: Any, device: Any, screen: str, open_tab: OpenTab
) -> None:
    """Record, look, find in other words, work it out, change a number, attach, and read it without Python."""
    hand = open_tab(device, "record/")
    lesson = record(hand, SAID)
    assert hand.taps <= MOST_TAPS_BESIDE_THE_SENTENCE
    expect(hand.page.get_by_text(SAID).first).to_be_visible()

    find(open_tab(device, "find/"), lesson)
    sum_page = open_tab(device, f"{CORNER}#lesson={lesson}")
    work_out(sum_page)
    attach(sum_page, lesson)
    shows_answer_without_python(site, browser, screen, lesson)


def find(hand: Hand, lesson: str) -> None:
    """The lesson is among the first found by words that its writer did not use."""
    hand.tap(hand.page.get_by_role("searchbox").first)
    hand.type(OTHER_WORDS)
    expect(hand.page.locator(f"main a[href*='{lesson}']").first).to_be_visible()


def work_out(hand: Hand) -> None:
    """The example comes before Python; the pocket's numbers give the sentence; a change moves the drawing."""
    page = hand.page
    assert LIKE_STRAIGHT.search(page.locator("#answer").inner_text())
    assert not any("pyodide" in address for address in page.evaluate(FETCHED))
    hand.fill(page.locator("[name=cutter_diameter]"), "6")
    hand.fill(page.locator("[name=pocket_width]"), "6.8")
    hand.fill(page.locator("[name=radial_depth]"), "0.4")
    expect(page.locator("#answer:not([data-baked])")).to_have_count(1)
    expect(page.locator("#answer .answer")).to_have_class(re.compile("answer--(watch|stop)"))
    dug_in = like_straight(hand)
    assert dug_in > 2.5  # 0.4 mm asked for; swept geometry says about 3 mm of a 6 mm cutter is engaged
    drawn = page.locator("#answer .drawing svg").inner_html()
    hand.tap(page.locator("#answer [data-try-input=cutter_diameter]").first)
    expect(page.locator("#answer [data-try-input=cutter_diameter]")).to_have_count(0, timeout=5000)
    assert page.locator("#answer .drawing svg").inner_html() != drawn
    assert like_straight(hand) < dug_in


def attach(hand: Hand, lesson: str) -> None:
    """The numbers that went wrong, and those that mend it, become the lesson's check."""
    panel = hand.page.locator("#attach")
    expect(panel).to_be_visible()
    expect(panel.locator("[name=lesson]")).to_have_value(lesson)
    expect(panel.locator("#attach-tried")).to_be_visible()
    hand.tap(panel.get_by_role("button", name="Attach to the lesson"))
    hand.page.wait_for_url(re.compile(rf"/lessons/{lesson}/"))


def shows_answer_without_python(site: Any, browser: Any, screen: str, lesson: str) -> None:
    """With scripts off, the lesson's page holds the sentence and the working."""
    size = {side: SCREENS[screen][side] for side in ("width", "height")}
    context = browser.new_context(viewport=size, java_script_enabled=False)
    page = context.new_page()
    page.goto(f"{site.url}lessons/{lesson}/")
    text = page.locator("main").text_content() or ""
    assert LIKE_STRAIGHT.search(text)
    assert page.locator("details.working, .working").count()
    assert SAID in text
    assert "would have caught it" in text
    assert not page.locator("main button:visible").count()  # nothing to tap that does nothing without scripts
    context.close()
