"""Completing a lesson: cards, the full editor, drafts, and two versions met without loss."""

from typing import Any

from playwright.sync_api import Page, expect

from tests.browser.conftest import OpenTab
from tests.browser.hand import Hand
from tests.browser.test_record import record, stored


def begun(open_tab: OpenTab, device: Any, said: str) -> tuple[Hand, str]:
    """A new lesson, its id, and its edit page open in a tab of its own."""
    first = open_tab(device, "record/")
    lesson = record(first, said)
    first.page.close()
    return open_tab(device, f"edit/#id={lesson}"), lesson


def answer(page: Page, words: str) -> None:
    """Type into the one box of the card that is open, and go on."""
    page.locator("#edit-cards [data-box]").first.fill(words)
    page.get_by_role("button", name="Save and go on").click()


def skip_to(page: Page, question: str) -> None:
    """Skip cards until the one of a field is open."""
    for _ in range(40):
        if page.locator(f"#edit-cards [data-for='{question}']").count():
            return
        page.get_by_role("button", name="Skip").click()
    raise AssertionError(f"no card asks for {question}")


def test_one_question_a_card_from_the_first_tap_to_the_reason(
    site: Any, device: Any, screen: str, open_tab: OpenTab
) -> None:
    """A tapped word is stored at once and the next question comes; a typed reason is stored as a list."""
    said = f"the tap pulled out of the collet, {screen}"
    hand, _ = begun(open_tab, device, said)
    hand.tap(hand.page.locator("#edit-cards .chip").first)
    expect(hand.page.locator("#edit-status")).to_have_text("Saved")
    skip_to(hand.page, "why")
    answer(hand.page, "the collet was oily")
    expect(hand.page.locator("#edit-cards [data-for='now_do']")).to_have_count(1)
    text = stored(site, said)[0].read_text(encoding="utf-8")
    assert "the collet was oily" in text
    assert "stage: " in text


def test_an_edit_half_typed_survives_a_closed_tab(desktop: Any, open_tab: OpenTab) -> None:
    """What was typed on a card is back, in the full editor, when the lesson is edited again."""
    hand, lesson = begun(open_tab, desktop, "scratch on the datum face")
    skip_to(hand.page, "now_do")
    hand.page.locator("#edit-cards [data-box]").press_sequentially("Wipe the jaws bef")
    hand.page.close()
    page = open_tab(desktop, f"edit/#id={lesson}").page
    expect(page.locator("#edit-all [name=now_do]")).to_have_value("Wipe the jaws bef")


def test_the_full_editor_changes_one_key_and_leaves_every_other_byte(
    site: Any, desktop: Any, open_tab: OpenTab
) -> None:
    """An edit of the cutter adds its lines; every line that was there stays as it was."""
    hand, lesson = begun(open_tab, desktop, "burr on the far side")
    path = stored(site, "burr on the far side")[0]
    before = path.read_text(encoding="utf-8").splitlines()
    hand.page.get_by_role("button", name="All fields").click()
    hand.page.locator("#edit-all [name='cutter.cutter_diameter']").fill("1/4 in")
    hand.page.get_by_role("button", name="Save changes").click()
    hand.page.wait_for_url(f"**/lessons/{lesson}/")
    after = path.read_text(encoding="utf-8").splitlines()
    assert any('cutter_diameter: "1/4 in"' in line for line in after)
    assert [line for line in after if line in before] == before


def test_a_problem_is_shown_on_the_field_that_has_it(browsing: Any, desktop: Any, open_tab: OpenTab) -> None:
    """A length in kilograms is refused by the server and said beside the box it stands in."""
    hand, _ = begun(open_tab, desktop, "wrong unit tried")
    hand.page.get_by_role("button", name="All fields").click()
    box = hand.page.locator("#edit-all [name='cutter.cutter_diameter']")
    box.fill("6 kg")
    hand.page.get_by_role("button", name="Save changes").click()
    expect(box).to_have_attribute("aria-invalid", "true")
    error = hand.page.locator("[data-for='cutter.cutter_diameter']")
    expect(error).to_be_visible()
    expect(box).to_have_value("6 kg")
    browsing.forgive("status of 400")


def test_two_versions_of_one_key_are_both_shown_and_none_is_lost(
    site: Any, browsing: Any, desktop: Any, open_tab: OpenTab
) -> None:
    """Edited here and elsewhere: both stand side by side until one is chosen."""
    mine, lesson = begun(open_tab, desktop, "both of us wrote this up")
    theirs = open_tab(desktop, f"edit/#id={lesson}")
    skip_to(mine.page, "now_do")
    skip_to(theirs.page, "now_do")
    answer(theirs.page, "Stop and measure.")
    expect(theirs.page.locator("#edit-status")).to_have_text("Saved")
    answer(mine.page, "Measure before the last cut.")
    conflict = mine.page.locator(".conflict")
    expect(conflict).to_contain_text("Stop and measure.")
    expect(conflict).to_contain_text("Measure before the last cut.")
    conflict.get_by_label("Yours").check()
    conflict.get_by_role("button", name="Save my choice").click()
    expect(mine.page.locator("#edit-status")).to_have_text("Saved")
    assert "Measure before the last cut." in stored(site, "both of us wrote")[0].read_text(encoding="utf-8")
    browsing.forgive("status of 409")


def test_edits_of_different_keys_both_hold(site: Any, browsing: Any, desktop: Any, open_tab: OpenTab) -> None:
    """Two tabs answer two questions of one lesson: nobody is asked to choose."""
    mine, lesson = begun(open_tab, desktop, "two answers at once")
    theirs = open_tab(desktop, f"edit/#id={lesson}")
    skip_to(mine.page, "why")
    skip_to(theirs.page, "now_do")
    answer(theirs.page, "Check the spring.")
    expect(theirs.page.locator("#edit-status")).to_have_text("Saved")
    answer(mine.page, "the spring was tired")
    expect(mine.page.locator("#edit-status")).to_have_text("Saved")
    text = stored(site, "two answers at once")[0].read_text(encoding="utf-8")
    assert "Check the spring." in text and "the spring was tired" in text
    browsing.forgive("status of 409")


def test_a_lesson_broken_on_the_disk_is_told_with_its_text(own_site: Any, browsing: Any, page: Any) -> None:
    """Asked to be edited, its page says file, line and what to do; mended in an editor, it is the lesson again."""
    path = next(own_site.shop.glob("lessons/*/*.yaml"))
    whole = path.read_text(encoding="utf-8")
    path.write_text(f'{whole}now_do: "half a sent\n', encoding="utf-8")
    assert own_site.keeper.build()
    page.goto(f"{own_site.url}edit/#id={path.stem}")
    page.wait_for_url(f"**/lessons/{path.stem}/")
    expect(page.get_by_role("heading", level=1)).to_have_text("This file cannot be read just now")
    expect(page.locator(".problems")).to_contain_text(f"(it began in line {len(whole.splitlines()) + 1})")
    expect(page.locator(".file")).to_contain_text("half a sent")
    path.write_text(whole, encoding="utf-8")
    assert own_site.keeper.build()
    page.reload()
    expect(page.locator(".lesson__said")).to_be_visible()
    browsing.forgive("status of 404")
