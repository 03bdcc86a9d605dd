"""Before you cut: three facts, the live brief, the saved job, ticks, and answers after it."""

import re
from pathlib import Path
from typing import Any

import yaml
from playwright.sync_api import Page, expect

from hooks.site.code import packed
from tests.browser.conftest import OpenTab, without_wasm
from tests.browser.hand import Hand

FIRST = "setups.0.operations.0"


def three_facts(page: Page, material: str = "316L") -> None:
    """Material, operation and cutter: what is enough to begin with."""
    page.fill("[name=material]", material)
    page.select_option(f"[name='{FIRST}.operation']", "slot")
    page.select_option(f"[name='{FIRST}.cutter.tool_kind']", "end_mill")


def saved(hand: Hand, part: str) -> str:
    """Save the job under a name; its id, from the address of its page."""
    hand.page.fill("[name=part]", part)
    hand.page.get_by_role("button", name="Save the job").click()
    hand.page.wait_for_url("**/jobs/2*/")
    expect(hand.page.locator("#job-after")).to_be_visible()
    return hand.page.url.rstrip("/").rsplit("/", 1)[1]


def sheet(site: Any, id_: str) -> dict[str, Any]:
    """The job's file, as texts."""
    return yaml.load((Path(site.shop) / "jobs" / f"{id_}.yaml").read_text(encoding="utf-8"), Loader=yaml.BaseLoader)


def test_three_facts_a_brief_and_a_job(site: Any, device: Any, screen: str, open_tab: OpenTab) -> None:
    """The brief comes while facts are put in; the saved page has the same lines; ticks stay on the device."""
    hand = open_tab(device, "jobs/edit/")
    three_facts(hand.page)
    rules = hand.page.locator("#brief .brief-line .tick span")
    expect(rules.first).to_be_visible()
    expect(hand.page.locator("#brief-status")).to_have_text("")
    live = rules.all_inner_texts()
    assert 0 < len(live) <= 7
    id_ = saved(hand, f"Chain plate, {screen}")
    baked = hand.page.locator("#job-brief .brief-line .tick span")
    assert baked.all_inner_texts() == live
    hand.tap(hand.page.locator("[data-tick]").first)
    hand.page.reload()
    hand.page.wait_for_selector("html[data-ready=yes]")
    expect(hand.page.locator("[data-tick]").first).to_be_checked()
    assert sheet(site, id_)["material"] == "316L"
    assert hand.page.evaluate("document.documentElement.scrollWidth <= innerWidth")


def test_did_it_hold_is_one_tap_a_line_and_stands_in_the_file(site: Any, desktop: Any, open_tab: OpenTab) -> None:
    """An answer is stored with its lesson and day; another tap changes it and adds nothing."""
    hand = open_tab(desktop, "jobs/edit/")
    three_facts(hand.page)
    id_ = saved(hand, "Hold or not")
    line = hand.page.locator(".after__line").first
    for word in ("held", "happened again"):
        hand.tap(line.get_by_text(word, exact=True))
        expect(hand.page.locator("#job-status")).to_have_text("Saved.")
        expect(line.get_by_role("radio", name=word)).to_be_checked()
    (answer,) = sheet(site, id_)["held"]
    assert answer["answer"] == "happened_again" and answer["lesson"] and answer["on"]


def test_a_half_described_job_survives_a_closed_tab(desktop: Any, open_tab: OpenTab) -> None:
    """What was typed is back, and said to be unsaved."""
    hand = open_tab(desktop, "jobs/edit/")
    three_facts(hand.page, "bronze, old lot")
    hand.page.close()
    page = open_tab(desktop, "jobs/edit/").page
    expect(page.locator("[name=material]")).to_have_value("bronze, old lot")
    expect(page.locator("#job-form-status")).to_contain_text("not saved yet")


def test_a_copy_at_another_size(site: Any, desktop: Any, open_tab: OpenTab) -> None:
    """The part's lengths grow, the cutter stays; the copy names its model."""
    hand = open_tab(desktop, "jobs/edit/")
    three_facts(hand.page)
    hand.page.fill(f"[name='{FIRST}.cutter.cutter_diameter']", "6 mm")
    hand.page.locator("summary", has_text="What is cut").click()
    hand.page.fill(f"[name='{FIRST}.geometry.corner_radius']", "4 mm")
    model = saved(hand, "Model")
    page = open_tab(desktop, f"jobs/edit/#copy={model}").page
    page.fill("#scale-by", "1,5")
    page.get_by_role("button", name="Scale", exact=True).click()
    expect(page.locator(f"[name='{FIRST}.geometry.corner_radius']")).to_have_value("6 mm")
    expect(page.locator(f"[name='{FIRST}.cutter.cutter_diameter']")).to_have_value("6 mm")
    copy = sheet(site, saved(Hand(page), "Larger"))
    assert copy["copied_from"] == model and "held" not in copy


def test_a_wrong_number_is_said_at_its_box(browsing: Any, desktop: Any, open_tab: OpenTab) -> None:
    """A diameter in kilograms is refused beside the box, and nothing typed is lost."""
    hand = open_tab(desktop, "jobs/edit/")
    three_facts(hand.page)
    hand.page.fill("[name=part]", "Wrong")
    hand.page.fill(f"[name='{FIRST}.cutter.cutter_diameter']", "6 kg")
    hand.page.get_by_role("button", name="Save the job").click()
    expect(hand.page.locator(f"[data-for='{FIRST}.cutter.cutter_diameter']")).to_contain_text("mass")
    expect(hand.page.locator("[name=material]")).to_have_value("316L")
    browsing.forgive("status of 400")


def test_the_code_on_the_sheet_opens_the_job_elsewhere(desktop: Any, device: Any, open_tab: OpenTab) -> None:
    """Where the shop has an address the sheet shows a code, still on one page; what it holds fills a form elsewhere."""
    page = open_tab(desktop, "shop/").page
    page.fill("[name=address]", "https://example.org/estuary")
    page.get_by_role("button", name="Save", exact=True).click()
    expect(page.locator("#shop-status")).to_have_text("Saved in shop.yaml.")
    page = open_tab(desktop, "jobs/").page
    page.locator(".job-strip a").first.click()
    page.wait_for_selector("html[data-ready=yes]")
    expect(page.locator(".job-code svg")).to_be_visible()
    for size in ("A4", "Letter"):
        assert page.pdf(format=size).count(b"/Type /Page\n") == 1, size
    job = {"part": "From paper", "material": "316L", "setups": [{"operations": [{"operation": "slot"}]}]}
    elsewhere = open_tab(device, f"jobs/edit/#sheet={packed(job)}").page
    expect(elsewhere.locator("[name=part]")).to_have_value("From paper")
    expect(elsewhere.locator(f"[name='{FIRST}.operation']")).to_have_value("slot")
    expect(elsewhere.locator("#brief .brief-line").first).to_be_visible()
    broken = open_tab(device, "jobs/edit/#sheet=nothing").page
    expect(broken.locator("#job-form-status")).to_contain_text("no job that can be read")


def test_the_shop_s_settings_are_edited_and_offered(site: Any, desktop: Any, open_tab: OpenTab) -> None:
    """A new cutter is written into shop.yaml, comments stay, and the job sheet offers it."""
    path = Path(site.shop) / "shop.yaml"
    before = path.read_text(encoding="utf-8")
    page = open_tab(desktop, "shop/").page
    count = page.locator("[name^='cutters.'][name$='.key']").count()
    page.get_by_role("button", name="Add: cutter").click()
    page.fill(f"[name='cutters.{count}.key']", "em4")
    page.fill(f"[name='cutters.{count}.name']", "4 mm for corners")
    page.get_by_role("button", name="Save", exact=True).click()
    expect(page.locator("#shop-status")).to_have_text("Saved in shop.yaml.")
    after = path.read_text(encoding="utf-8")
    assert "em4" in after and after.splitlines()[0] == before.splitlines()[0]
    form = open_tab(desktop, "jobs/edit/").page
    assert form.locator(f"[name='{FIRST}.cutter_of_shop'] option[value=em4]").count() == 1


def test_a_sum_takes_the_shop_s_cutter(desktop: Any, open_tab: OpenTab) -> None:
    """One choice fills the cutter's boxes, and the answer is for it."""
    page = open_tab(desktop, "calculators/corner-clearance/").page
    page.locator(".from-shop__choice", has_text="Cutter").locator("select").select_option(
        label="12 mm carbide, three flutes"
    )
    expect(page.locator("[name=cutter_diameter]")).to_have_value("12 mm")
    expect(page.locator("#python-status")).not_to_contain_text("some seconds")
    expect(page.locator("#answer")).to_contain_text("12 mm")


def test_the_table_takes_all_cutters_of_the_shop(desktop: Any, open_tab: OpenTab) -> None:
    """For the wall: every cutter with a diameter and teeth, in one choice."""
    page = open_tab(desktop, "calculators/cutting-speed-table/").page
    page.locator(".from-shop__choice", has_text="Cutter").locator("select").select_option(label="All of them")
    expect(page.locator("[name=cutters]")).to_have_value(re.compile("6 mm x 3; 12 mm x 3; 63 mm x 2"))
    expect(page.locator("#answer .rows tbody tr").nth(3)).to_be_visible()
    expect(page.locator("#python-status")).to_contain_text("cutters")


def test_a_wrong_number_is_told_when_its_box_is_left(desktop: Any, open_tab: OpenTab) -> None:
    """Not while typing; in the words of the save; it goes as soon as it is mended, and other boxes keep theirs."""
    page = open_tab(desktop, "jobs/edit/").page
    size, teeth = f"{FIRST}.cutter.cutter_diameter", f"{FIRST}.cutter.teeth"
    for name, text, said in ((size, "6 kg", "mass"), (teeth, "2.5", "not a whole number")):
        page.locator(f"[name='{name}']").press_sequentially(text)
        assert page.locator(f"[data-for='{name}']").is_hidden()
        page.keyboard.press("Tab")
        expect(page.locator(f"[data-for='{name}']")).to_contain_text(said)
        expect(page.locator(f"[name='{name}']")).to_have_value(text)
    page.fill(f"[name='{size}']", "6 mm")
    expect(page.locator(f"[data-for='{size}']")).to_be_hidden()
    expect(page.locator(f"[name='{size}']")).not_to_have_attribute("aria-invalid", "true")
    expect(page.locator(f"[data-for='{teeth}']")).to_be_visible()


def test_the_shop_s_form_tells_a_wrong_number_too(desktop: Any, open_tab: OpenTab) -> None:
    """A speed in millimetres, told at its box before any save."""
    page = open_tab(desktop, "shop/").page
    name = "machines.0.max_spindle_speed"
    page.fill(f"[name='{name}']", "8000 mm")
    page.keyboard.press("Tab")
    expect(page.locator(f"[data-for='{name}']")).to_contain_text("mm is a length")


def test_a_sheet_is_begun_empty_and_nothing_typed_is_lost(desktop: Any, open_tab: OpenTab) -> None:
    """What was brought back is put aside by one tap, and comes back by another, later as well."""
    hand = open_tab(desktop, "jobs/edit/")
    three_facts(hand.page, "bronze, old lot")
    hand.page.close()
    page = open_tab(desktop, "jobs/edit/").page
    material = page.locator("[name=material]")
    page.get_by_role("button", name="Begin empty").click()
    expect(material).to_have_value("")
    expect(page.locator("#brief-status")).to_contain_text("as soon as there is something")
    page.fill("[name=material]", "316L")
    page.reload()
    page.wait_for_selector("html[data-ready=yes]")
    back = page.get_by_role("button", name="Bring back")
    for text in ("bronze, old lot", "316L", "bronze, old lot"):
        back.click()
        expect(material).to_have_value(text)
    expect(page.locator(f"[name='{FIRST}.cutter.tool_kind']")).to_have_value("end_mill")


def test_where_python_did_not_start_the_form_says_so_and_can_try_again(
    browsing: Any, desktop: Any, open_tab: OpenTab
) -> None:
    """The sheet stays as typed; once Python can start, one tap brings the brief."""
    desktop.route("**/worker.js", without_wasm)
    page = open_tab(desktop, "jobs/edit/").page
    three_facts(page)
    status = page.locator("#brief-status")
    expect(status).to_contain_text("Saving works")
    browsing.forgive("WebAssembly")  # the browser tells of the policy that this test set
    desktop.unroute("**/worker.js")
    status.get_by_role("button", name="Try again").click()
    expect(page.locator("#brief .brief-line").first).to_be_visible()
    expect(status).to_have_text("")


def test_a_copy_is_not_hidden_by_a_half_typed_sheet(site: Any, desktop: Any, open_tab: OpenTab) -> None:
    """A new sheet's draft stays with the new sheet."""
    three_facts(open_tab(desktop, "jobs/edit/").page, "bronze, old lot")
    page = open_tab(desktop, "jobs/edit/#copy=20260508-081500-c4e7n").page
    expect(page.locator("[name=material]")).to_have_value("5083")
    expect(page.locator("#job-form-status")).to_have_text("")
