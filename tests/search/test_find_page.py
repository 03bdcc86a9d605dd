"""The find page in a real browser: words, facets, the address, keyboard, a narrow screen, no script."""

import re
from typing import Any

import pytest

from tests.search.conftest import note_id

TEXTS = "all => all.map(one => one.textContent)"
BOX, COUNT, FOUND = "#find-words", "#find-count", "#found > li"


def _open(page: Any, site: Any, fragment: str = "") -> Any:
    page.goto(f"{site.url}find/{fragment}")
    page.wait_for_selector("html[data-ready=yes]")
    return page


def _ask(page: Any, words: str) -> list[str]:
    """Type as a hand does and wait for the answer; the ids shown, best first."""
    page.type(BOX, words, delay=15)
    return _shown(page)


def _shown(page: Any) -> list[str]:
    page.wait_for_selector("#found:not([aria-busy])", state="attached")
    return page.eval_on_selector_all(FOUND, "items => items.map(item => item.dataset.lesson)")


def _choose(page: Any, facet: str, key: str) -> None:
    page.evaluate("document.querySelector('.find__narrow').open = true")
    page.select_option(f"#find-{facet}", key)
    _shown(page)


def _count(page: Any) -> int:
    return int(re.match(r"(\d+) ", page.inner_text(COUNT))[1])


def test_other_words_find_it_and_the_page_says_why(page: Any, notes_site: Any) -> None:
    """ "dug in" comes first to the lesson that says "gouged", with the reason in its words."""
    shown = _ask(_open(page, notes_site), "dug in at the corner of a pocket")
    assert shown[0] == note_id("a1")
    reason = page.inner_text(f'[data-lesson="{shown[0]}"] .lesson-strip__reason')
    assert "matched “corner”" in reason and "“dug in” as “gouged”" in reason


def test_a_quarter_inch_finds_millimetres(page: Any, notes_site: Any) -> None:
    """`1/4"` finds the note that says 6.35 mm, and only notes with that size."""
    assert note_id("d5") in _ask(_open(page, notes_site), '1/4"')
    reasons = page.eval_on_selector_all(".lesson-strip__reason:not([hidden])", TEXTS)
    assert reasons and all("6.35 mm" in one or '1/4"' in one for one in reasons)


def test_facets_combine_with_words_and_count(page: Any, notes_site: Any) -> None:
    """Each facet narrows what is left, and the numbers behind the choices tell what they would leave."""
    _open(page, notes_site)
    everything = _count(page)
    _choose(page, "operation", "finish_wall")
    of_the_wall = _count(page)
    assert 0 < of_the_wall < everything
    told = page.inner_text('#find-nearly option[value="yes"]')
    _choose(page, "nearly", "yes")
    assert told == f"it nearly happened ({_count(page)})"
    assert len(_shown(page)) == _count(page) < of_the_wall


def test_a_choice_that_would_leave_nothing_is_shut(page: Any, notes_site: Any) -> None:
    """What no lesson has together cannot be chosen together."""
    _open(page, notes_site)
    _choose(page, "kind", "worked_well")
    texts = page.eval_on_selector_all("#find-operation option:disabled", TEXTS)
    assert texts and all(text.endswith("(0)") for text in texts)


def test_the_question_is_in_the_address(page: Any, notes_site: Any) -> None:
    """What was asked comes back from the address, in a new tab and when it is changed by hand."""
    shown = _ask(_open(page, notes_site), "vise handel")
    _choose(page, "kind", "bad_surface")
    page.wait_for_function("location.hash.includes('kind=bad_surface')")
    assert "q=vise+handel" in page.url
    address = page.url
    page.goto("about:blank")
    page.goto(address)
    page.wait_for_selector("html[data-ready=yes]")
    assert page.input_value(BOX) == "vise handel"
    assert page.input_value("#find-kind") == "bad_surface"
    page.evaluate("location.hash = 'q=vise+handel'")
    page.wait_for_function("document.querySelector('#find-kind').value === ''")
    assert _shown(page) == shown


def test_where_nothing_fits_the_page_says_what_to_try(page: Any, notes_site: Any) -> None:
    """No bare emptiness: what to try, and the way to record it."""
    assert _ask(_open(page, notes_site), "xqzwv") == []
    assert page.is_visible("#find-nothing")
    assert page.get_attribute("#find-nothing a", "href").endswith("/record/")


def test_words_that_tell_nothing_leave_every_lesson(page: Any, notes_site: Any) -> None:
    """Only "the a": the page says so and lists all."""
    _open(page, notes_site)
    everything = page.inner_text(COUNT)
    shown = _ask(page, "the a")
    assert page.inner_text(COUNT) == f"There is no word to look for in “the a”: {everything}"
    assert shown and not page.is_visible("#find-nothing")


def test_it_works_by_keyboard_alone(page: Any, notes_site: Any) -> None:
    """Tab to the box, type, Enter goes to the best answer, Enter opens it."""
    _open(page, notes_site)
    page.focus(BOX)
    page.keyboard.type("handle left on", delay=15)
    assert _shown(page)[0] == note_id("a5")
    page.keyboard.press("Enter")
    assert page.evaluate("document.activeElement.closest('li').dataset.lesson") == note_id("a5")
    page.keyboard.press("Enter")
    page.wait_for_url(f"**/lessons/{note_id('a5')}/")


def test_start_over_brings_everything_back(page: Any, notes_site: Any) -> None:
    """One button empties box, facets and address."""
    _open(page, notes_site, "#q=tap&kind=crash")
    page.click("button[type=reset]")
    page.wait_for_function("document.querySelector('#find-words').value === ''")
    _shown(page)
    assert "q=" not in page.url
    everything = _count(page)
    assert page.inner_text(COUNT) == f"{everything} of {everything} lessons"


def test_more_are_shown_when_asked_for(page: Any, notes_site: Any) -> None:
    """The list begins short; the button shows the rest and moves on to it."""
    _open(page, notes_site)
    first = len(_shown(page))
    assert first < _count(page)
    page.click("#find-more")
    assert len(_shown(page)) == _count(page)
    at = page.evaluate("[...document.querySelectorAll('#found a')].indexOf(document.activeElement)")
    assert at == first


@pytest.mark.parametrize("width", [360, 768])
def test_nothing_sticks_out_of_a_narrow_screen(open_page: Any, notes_site: Any, width: int) -> None:
    """No sideways scrolling with all facets open, and every control is high enough for a finger."""
    page = _open(open_page(width=width, height=740), notes_site, "#q=corner&kind=crash")
    _shown(page)
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    heights = page.eval_on_selector_all(
        ".find input, .find select, .find button", "all => all.map(one => one.getBoundingClientRect().height)"
    )
    assert min(heights) >= 40


def test_without_script_every_lesson_is_listed(open_page: Any, notes_site: Any) -> None:
    """The page is a plain list of links then."""
    page = open_page(java_script_enabled=False)
    page.goto(f"{notes_site.url}find/")
    assert page.locator(f"{FOUND} a").count() == len(list(notes_site.shop.glob("lessons/*/*.yaml")))
    assert page.locator("noscript p").count() == 1
