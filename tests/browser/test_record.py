"""The record card: three controls, drafts that survive, two tabs, the keyboard alone."""

import re
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import OpenTab
from tests.browser.hand import Hand

SAID = "finishing pass dug in at both ends of the little pocket"
MOST_TAPS_BESIDE_THE_SENTENCE = 3
KIND_BUTTON_PX = 96
OTHER_CONTROL_PX = 48


def kind(page: Page, word: str) -> Any:
    """The button of one kind."""
    return page.locator(f"label.kind-button:has(input[value={word}])")


def record(hand: Hand, said: str, word: str = "bad_surface") -> str:
    """Record a lesson as a hand does; the id of what was saved."""
    hand.tap(kind(hand.page, word))
    hand.tap(hand.page.locator("#said"))
    hand.type(said)
    hand.tap(hand.page.get_by_role("button", name="Save lesson"))
    hand.page.wait_for_url(re.compile(r"/lessons/[0-9a-z-]+/"))
    return hand.page.url.split("/lessons/")[1].split("/")[0]


def stored(site: Any, said: str) -> list[Any]:
    """Files of the shop that hold a sentence."""
    return [path for path in site.shop.rglob("lessons/**/*.yaml") if said in path.read_text(encoding="utf-8")]


def test_a_lesson_takes_three_taps_beside_its_sentence(site: Any, device: Any, screen: str, open_tab: OpenTab) -> None:
    """Kind, line, Save: the lesson is in the shop's folder and its page is open."""
    said = f"{SAID}, seen on the {screen}"
    hand = open_tab(device, "record/")
    lesson = record(hand, said)
    assert hand.taps <= MOST_TAPS_BESIDE_THE_SENTENCE
    assert hand.letters == len(said)
    assert [path.stem for path in stored(site, said)] == [lesson]
    expect(hand.page.get_by_text(said).first).to_be_visible()


def test_controls_are_large_enough_for_a_thumb(device: Any, open_tab: OpenTab) -> None:
    """Kind buttons are at least 96 px high, the other controls 48 px, and the page never scrolls sideways."""
    page = open_tab(device, "record/").page
    boxes = [button.bounding_box() for button in page.locator(".kind-button").all()]
    heights = [box["height"] for box in boxes if box]
    assert len(heights) == page.locator("input[name=kind]").count() > 0
    assert min(heights) >= KIND_BUTTON_PX
    save = page.get_by_role("button", name="Save lesson").bounding_box()
    assert save and save["height"] >= OTHER_CONTROL_PX
    assert page.evaluate("document.documentElement.scrollWidth <= window.innerWidth")


def test_three_questions_follow_and_each_is_one_tap(site: Any, device: Any, screen: str, open_tab: OpenTab) -> None:
    """Stage, operation and what it could have come to are asked on the new lesson's page, then stored."""
    said = f"chatter on the long wall, {screen}"
    hand = open_tab(device, "record/")
    lesson = record(hand, said)
    before = hand.taps
    for word in ("running", "finish_wall", "broken_tool"):
        hand.tap(hand.page.locator(f"#next-questions .chip[data-word={word}]"))
    expect(hand.page.locator("#next-questions")).to_contain_text("Stored")
    assert hand.taps - before == 3
    text = stored(site, said)[0].read_text(encoding="utf-8")
    assert all(
        f'{key}: "{word}"' in text
        for key, word in (("stage", "running"), ("operation", "finish_wall"), ("could_have", "broken_tool"))
    )
    assert lesson in text
    hand.tap(hand.page.get_by_role("button", name="Show the lesson"))
    expect(hand.page.locator("#next-questions")).to_be_hidden()
    expect(hand.page.locator(".facts")).to_contain_text("finish wall")


def test_a_wrong_tap_is_taken_back(site: Any, device: Any, screen: str, open_tab: OpenTab) -> None:
    """Back asks the question before again and stores no answer to it until there is one; the last tap too."""
    said = f"tapped the wrong one, {screen}"
    hand = open_tab(device, "record/")
    record(hand, said)
    cards = hand.page.locator("#next-questions .card")

    def tap(word: str) -> None:
        hand.tap(cards.locator(f".chip[data-word={word}]"))

    def text() -> str:
        return stored(site, said)[0].read_text(encoding="utf-8")

    expect(cards).to_contain_text("At which stage?")
    expect(hand.page.get_by_role("button", name="Back")).to_be_hidden()
    tap("saw")
    expect(cards).to_contain_text("During which operation?")
    assert 'stage: "saw"' in text()
    hand.tap(hand.page.get_by_role("button", name="Back"))
    expect(cards).to_contain_text("At which stage?")
    assert "stage:" not in text()
    tap("running")
    tap("slot")
    tap("nothing")
    expect(cards).to_contain_text("Stored")
    hand.tap(hand.page.get_by_role("button", name="Back"))
    tap("broken_tool")
    expect(cards).to_contain_text("What could it have come to? broken tool.")
    assert 'could_have: "broken_tool"' in text() and 'stage: "running"' in text()


def test_a_lesson_is_recorded_by_the_keyboard_alone(site: Any, desktop: Any, open_tab: OpenTab) -> None:
    """Tab, arrows, space and Enter are enough, near miss included."""
    page = open_tab(desktop, "record/").page
    press = page.keyboard.press
    for _ in range(60):
        press("Tab")
        if page.evaluate("document.activeElement.name") == "kind":
            break
    press("Space")
    press("ArrowDown")
    chosen = page.evaluate("document.querySelector('input[name=kind]:checked').value")
    press("Tab")
    press("Space")
    press("Tab")
    page.keyboard.type("nearly left the key in the spindle")
    press("Enter")
    page.wait_for_url("**/lessons/**")
    text = stored(site, "nearly left the key in the spindle")[0].read_text(encoding="utf-8")
    assert f'kind: "{chosen}"' in text
    assert 'nearly: "yes"' in text


def test_what_is_missing_is_said_on_its_field(browsing: Any, desktop: Any, open_tab: OpenTab) -> None:
    """Saving an empty card marks the field, tells it to a screen reader and keeps the page."""
    page = open_tab(desktop, "record/").page
    page.get_by_role("button", name="Save lesson").click()
    error = page.locator(".field__error:visible").first
    expect(error).to_be_visible()
    marked = page.locator("[aria-invalid=true]").first
    assert marked.get_attribute("aria-describedby") == page.locator("#kind-error, #said-error").locator(
        "visible=true"
    ).first.get_attribute("id")
    browsing.forgive("status of 400")


@pytest.mark.parametrize("leave", ["reload", "close"])
def test_a_draft_survives(desktop: Any, open_tab: OpenTab, leave: str) -> None:
    """A half-typed note is back after a reload, and in a new tab after its tab was closed."""
    hand = open_tab(desktop, "record/")
    hand.tap(kind(hand.page, "crash"))
    hand.tap(hand.page.locator(".switch"))
    hand.tap(hand.page.locator("#said"))
    hand.type("half a sen")
    if leave == "reload":
        hand.page.reload()
        page = hand.page
    else:
        hand.page.close()
        page = open_tab(desktop, "record/").page
    expect(page.locator("#said")).to_have_value("half a sen")
    expect(page.locator("input[value=crash]")).to_be_checked()
    expect(page.locator("input[name=nearly]")).to_be_checked()


def test_two_open_tabs_keep_two_drafts(desktop: Any, open_tab: OpenTab) -> None:
    """A second tab begins empty, and neither tab's words end up in the other."""
    one = open_tab(desktop, "record/")
    one.tap(one.page.locator("#said"))
    one.type("the first note")
    other = open_tab(desktop, "record/")
    expect(other.page.locator("#said")).to_have_value("")
    other.tap(other.page.locator("#said"))
    other.type("the second note")
    for tab, said in ((one, "the first note"), (other, "the second note")):
        tab.page.reload()
        expect(tab.page.locator("#said")).to_have_value(said)


def test_two_tabs_save_while_a_third_types(site: Any, desktop: Any, open_tab: OpenTab) -> None:
    """Saves from two tabs rebuild the pages; the third tab's form is not reset and every word is kept."""
    typing = open_tab(desktop, "record/")
    typing.tap(typing.page.locator("#said"))
    words = "the vice crept while I was at the saw".split()
    for number, word in enumerate(words):
        typing.page.bring_to_front()
        typing.page.locator("#said").focus()
        typing.type(f"{word} ")
        if number in (1, 3):
            record(open_tab(desktop, "record/"), f"saved meanwhile, number {number}")
        typing.page.wait_for_timeout(800)
    expect(typing.page.locator("#said")).to_have_value(" ".join(words) + " ")
    expect(typing.page.locator(".notice--newer")).to_be_visible()
    for number in (1, 3):
        assert len(stored(site, f"saved meanwhile, number {number}")) == 1
    typing.tap(kind(typing.page, "part_moved"))
    typing.tap(typing.page.get_by_role("button", name="Save lesson"))
    typing.page.wait_for_url("**/lessons/**")
    assert len(stored(site, " ".join(words))) == 1


def test_sending_twice_stores_once(site: Any, browsing: Any, desktop: Any, open_tab: OpenTab) -> None:
    """Stored, but the answer was lost: the draft stays, and saving again makes no second lesson."""
    hand = open_tab(desktop, "record/")
    lost = []

    def lose_first_answer(route: Any) -> None:
        route.fetch() if not lost else None
        (route.continue_ if lost else route.abort)()
        lost.append(route)

    hand.page.route("**/api/lessons", lose_first_answer)
    hand.tap(kind(hand.page, "tool_failed"))
    hand.tap(hand.page.locator("#said"))
    hand.type("broke the little drill at the bottom")
    hand.tap(hand.page.get_by_role("button", name="Save lesson"))
    expect(hand.page.locator(".handover")).to_be_visible()
    expect(hand.page.locator("#said")).to_have_value("broke the little drill at the bottom")
    hand.tap(hand.page.get_by_role("button", name="Save lesson"))
    hand.page.wait_for_url("**/lessons/**")
    assert len(stored(site, "broke the little drill")) == 1
    browsing.forgive("ERR_FAILED")
