"""A missing fact is asked for, then offered to be kept in the shop's list: beside a job's sums and on a sum's page."""

from pathlib import Path
from typing import Any

import yaml
from playwright.sync_api import Page, expect

from tests.browser.conftest import OpenTab
from tests.browser.hand import Hand

FIRST = "setups.0.operations.0"


def of_shop(site: Any, kind: str, key: str) -> dict[str, str]:
    """The machine, cutter or vice as shop.yaml has it."""
    shop = yaml.load((Path(site.shop) / "shop.yaml").read_text(encoding="utf-8"), Loader=yaml.BaseLoader)
    return next(one for one in shop[kind] if one["key"] == key)


def a_ramp(page: Page, cutter: str) -> None:
    """A helix into a pocket with a cutter of the shop: only its steepest ramp is missing."""
    page.select_option(f"[name='{FIRST}.operation']", "ramp_or_helix_entry")
    page.select_option(f"[name='{FIRST}.cutter_of_shop']", cutter)
    page.locator("summary", has_text="What is cut").click()
    page.fill(f"[name='{FIRST}.geometry.depth']", "5 mm")
    page.fill("[name=material]", "5083")


def test_a_fact_of_the_shop_is_asked_for_beside_the_sum_and_kept(
    site: Any, browsing: Any, device: Any, screen: str, open_tab: OpenTab
) -> None:
    """The steepest ramp of a cutter: asked once, then the sum is done, here and for every job after."""
    hand = open_tab(device, "jobs/edit/")
    cutter, name = {"phone": ("em6", "6 mm"), "desktop": ("em12", "12 mm")}[screen]
    a_ramp(hand.page, cutter)
    asked = hand.page.locator(".job-sum", has_text="needs: Steepest ramp")
    expect(asked.locator(".lack__what")).to_have_text(f"Steepest ramp it allows, {name} carbide, three flutes")
    hand.fill(asked.locator("input"), "steep")
    hand.tap(asked.get_by_role("button", name="Keep in the shop's list"))
    expect(asked.locator(".to-keep__told")).to_contain_text("Not kept")
    hand.fill(asked.locator("input"), "3 deg")
    hand.tap(asked.get_by_role("button", name="Keep in the shop's list"))
    expect(hand.page.locator(".job-sum", has_text="3 degrees")).to_be_visible()
    expect(asked).to_have_count(0)
    assert of_shop(site, "cutters", cutter)["max_ramp_angle"] == "3 deg"
    browsing.forgive("status of 400")
    assert hand.page.evaluate("document.documentElement.scrollWidth <= innerWidth")


def test_a_fact_of_the_job_is_asked_for_in_its_own_box(desktop: Any, open_tab: OpenTab) -> None:
    """Heights want the lowest cut: one tap opens the fold it lies in and stands in the box."""
    page = open_tab(desktop, "jobs/edit/").page
    page.select_option(f"[name='{FIRST}.operation']", "face")
    page.locator("summary", has_text="Holding").click()
    page.fill("[name='setups.0.holding.part_height']", "20 mm")
    page.fill("[name='setups.0.holding.parallel_height']", "30 mm")
    page.locator("summary", has_text="Holding").click()
    page.locator(".job-sum", has_text="needs: Lowest cut").get_by_role("button", name="Fill it in").click()
    expect(page.locator("[name='setups.0.holding.lowest_cut']")).to_be_focused()


def test_a_cutter_that_the_shop_s_list_lacks_is_offered_to_be_kept(site: Any, desktop: Any, open_tab: OpenTab) -> None:
    """Its numbers were typed once; the next sheet takes it from the list."""
    page = open_tab(desktop, "jobs/edit/").page
    page.select_option(f"[name='{FIRST}.operation']", "slot")
    page.select_option(f"[name='{FIRST}.cutter.tool_kind']", "slot_drill")
    page.fill(f"[name='{FIRST}.cutter.cutter_diameter']", "5 mm")
    page.locator("[name=material]").focus()
    offer = page.locator(".to-keep__line", has_text="New: 5 mm slot drill")
    expect(offer).to_be_visible()
    page.evaluate("for (const fold of document.querySelectorAll('#job-form details')) fold.open = true")
    page.fill(f"[name='{FIRST}.cutter.stick_out']", "25 mm")
    offer.get_by_role("button", name="Keep").click()  # straight from the box
    expect(page.locator(f"[name='{FIRST}.cutter_of_shop'] option[value='5-mm-slot-drill']")).to_have_count(1)
    kept = of_shop(site, "cutters", "5-mm-slot-drill")
    assert (kept["cutter_diameter"], kept["stick_out"]) == ("5 mm", "25 mm")
    form = open_tab(desktop, "jobs/edit/").page
    assert form.locator(f"[name='{FIRST}.cutter_of_shop'] option[value='5-mm-slot-drill']").count() == 1


def test_what_a_sum_was_told_of_a_vice_is_offered_to_be_kept(site: Any, desktop: Any, open_tab: OpenTab) -> None:
    """Only what was typed, never the worked example's numbers, and only what the vice has a place for."""
    hand = Hand(open_tab(desktop, "calculators/clamping/").page)
    hand.page.locator(".from-shop__choice", has_text="Vice").locator("select").select_option(label="The 125 vice")
    expect(hand.page.locator("#python-status")).not_to_contain_text("some seconds")
    expect(hand.page.locator("#to-keep")).to_be_hidden()
    hand.fill(hand.page.locator("[name=handle_torque]"), "45 N*m")
    offer = hand.page.locator(".to-keep__line")
    expect(offer.locator(".to-keep__what")).to_have_text("The 125 vice: usual torque on the handle 45 N*m")
    hand.tap(offer.get_by_role("button", name="Keep"))
    expect(offer.locator(".to-keep__told")).to_have_text("Kept in the shop's list.")
    assert of_shop(site, "vices", "vice")["handle_torque"] == "45 N*m"
