"""What a job looks like on paper, counted in the PDF that the browser makes."""

from typing import Any

import pytest

from hooks.shop.sheet import JOB
from tests.brief.large import large_job
from tests.browser.conftest import OpenTab

LARGE = "20260601-080000-brg8s"
SETUPS = 8


@pytest.mark.parametrize("size", ["A4", "Letter"])
def test_the_demo_s_job_prints_on_one_page(desktop: Any, open_tab: OpenTab, size: str) -> None:
    """With all its sums and all reasons."""
    page = open_tab(desktop, "jobs/").page
    page.locator(".job-strip a", has_text="Rudder").first.click()
    page.wait_for_selector("html[data-ready=yes]")
    assert page.pdf(format=size).count(b"/Type /Page\n") == 1


@pytest.mark.parametrize("size", ["A4", "Letter"])
def test_a_very_large_job_prints_on_one_page(site: Any, desktop: Any, open_tab: OpenTab, size: str) -> None:
    """Eight set-ups and 39 operations: sums without a fault are counted, and nothing of the card is left out."""
    site.keeper.save_new(LARGE, large_job(), JOB)
    page = open_tab(desktop, f"jobs/{LARGE}/").page
    assert page.locator("#job-brief .brief-line").count() == 7
    assert page.locator(".datum-plan dt").count() == SETUPS
    page.emulate_media(media="print")
    assert page.locator(".job-sums-ok .job-sum").first.is_hidden()
    assert page.locator(".job-sums-ok summary").is_visible()
    assert page.pdf(format=size).count(b"/Type /Page\n") == 1
