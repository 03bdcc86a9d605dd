"""Past lessons beside a note that is being typed, and a note found as soon as it is saved."""

import time
from typing import Any

from tests.search.conftest import note_id

WITHIN = 3.0  # seconds: one until the search knows it, two for a busy machine to load the page


def _ready(page: Any, address: str) -> Any:
    page.goto(address)
    page.wait_for_selector("html[data-ready=yes]")
    return page


def test_a_similar_lesson_shows_while_typing(page: Any, notes_site: Any) -> None:
    """Said in other words, it stands beside the line, links to its page and says why."""
    _ready(page, f"{notes_site.url}record/")
    page.type("#said", "the finisher dug in at the corners of a pocket", delay=10)
    page.wait_for_selector("#similar li")
    page.wait_for_function("document.querySelector('#similar a').textContent.startsWith('Corners of')")
    assert page.get_attribute("#similar a", "href").endswith(f"/lessons/{note_id('a1')}/")
    assert "matched" in page.inner_text("#similar .similar__why >> nth=0")
    assert page.locator("#similar li").count() <= 4


def test_unlike_words_show_nothing(page: Any, notes_site: Any) -> None:
    """Chance is no likeness: the list stays empty and its line of help stays."""
    _ready(page, f"{notes_site.url}record/")
    page.type("#said", "qwertz uiop zyx", delay=10)
    page.wait_for_timeout(300)
    assert page.locator("#similar li").count() == 0
    assert page.is_visible(".similar__none")


def test_a_saved_note_is_found_within_a_second(page: Any, notes_site: Any) -> None:
    """Recorded by hand, then asked for in other words on the find page."""
    _ready(page, f"{notes_site.url}record/")
    page.click(".kind-button:has(input[value=crash])")
    page.type("#said", "wobbly sproket colided with the tailstock")
    page.click("#record button[type=submit]")
    page.wait_for_url("**/lessons/*/*")
    saved = time.monotonic()
    _ready(page, f"{notes_site.url}find/#q=wobly+sprocket+crash")
    page.wait_for_selector("#found:not([aria-busy]) li", state="attached")
    assert time.monotonic() - saved < WITHIN
    assert "wobbly sproket" in page.inner_text("#found li >> nth=0")
