"""Without a server: jobs, answers after them and the shop's settings carried home as files, and met there."""

import json
from pathlib import Path
from typing import Any

import yaml
from playwright.sync_api import Page, expect

from hooks.shop.read import read_shop
from hooks.shop.receive import TAKEN, THERE, receive_files
from tests.browser.conftest import SCREENS, OpenTab
from tests.browser.test_handover import download, visit
from tests.browser.test_jobs import saved, sheet, three_facts

DEMO_JOB = "20260508-081500-c4e7n"
PART = "Chain plate, told on the quay"
KEPT = "JSON.stringify(localStorage)"


def save_job(page: Page) -> None:
    """Save as far as it goes without a server."""
    page.get_by_role("button", name="Save the job").click()
    expect(page.locator(".handover")).to_be_focused()


def became(shop: Path, *files: Path) -> list[str]:
    """What receiving them says."""
    return [line.became for line in receive_files(shop, files)]


def test_a_job_is_handed_over_kept_and_received(hosted: str, visitor: Any, demo_copy: Any, tmp_path: Path) -> None:
    """The file is that job at home, once; the draft stays on the device until its writer says that it arrived."""
    page = visit(visitor, f"{hosted}jobs/edit/")
    three_facts(page)
    page.fill("[name=part]", PART)
    save_job(page)
    file = download(page, tmp_path)
    told = json.loads(file.read_text(encoding="utf-8"))
    assert (told["kind"], told["fields"]["part"], file.name) == ("job", PART, f"job-{told['id']}.json")

    shop = demo_copy()
    assert became(shop, file, file) == [TAKEN, THERE]
    (job,) = [one for one in read_shop(shop).jobs if one.id == told["id"]]
    assert job.typed == {"id": told["id"], **told["fields"]} and job.get("material") == "316L"

    page = visit(visitor, f"{hosted}jobs/")
    line = page.locator(".kept__line")
    expect(line).to_contain_text(PART)
    line.get_by_role("button", name="Give it out again").click()
    assert json.loads(download(page, tmp_path).read_text(encoding="utf-8")) == told
    page.get_by_role("button", name="It has arrived").last.click()
    assert PART not in page.evaluate(KEPT)


def test_what_changes_after_the_file_was_given_out_is_not_forgotten(hosted: str, visitor: Any, tmp_path: Path) -> None:
    """The word that it arrived is about the file; what was typed since is still there, and back on the next visit."""
    page = visit(visitor, f"{hosted}jobs/edit/")
    page.fill("[name=part]", PART)
    save_job(page)
    download(page, tmp_path)
    page.fill("[name=material]", "bronze, the old lot")
    page.get_by_role("button", name="It has arrived").click()
    expect(page.locator(".handover__told")).to_contain_text("changed after")
    page.reload()
    expect(page.locator("[name=material]")).to_have_value("bronze, the old lot")


def test_facts_and_answers_of_a_job_meet_at_home(hosted: str, visitor: Any, demo_copy: Any, tmp_path: Path) -> None:
    """Changed facts and two answers are two files; at home another note was written: all of it holds."""
    page = visit(visitor, f"{hosted}jobs/edit/#id={DEMO_JOB}")
    page.fill("[name=material]", "5083, new bar")
    save_job(page)
    facts = download(page, tmp_path)

    page = visit(visitor, f"{hosted}jobs/{DEMO_JOB}/")
    for place, word in ((0, "held"), (1, "not met"), (1, "happened again")):
        line = page.locator(".after__line").nth(place)
        line.get_by_role("radio", name=word).check()
        expect(page.locator("#job-status")).to_have_text("No server took it. It is kept on this device.")
        expect(line.get_by_role("radio", name=word)).to_be_checked()
    answers = download(page, tmp_path)
    page.reload()
    expect(page.locator(".after__line").nth(1).get_by_role("radio", name="happened again")).to_be_checked()
    expect(page.locator(".handover")).to_be_visible()

    shop = demo_copy()
    path = shop / "jobs" / f"{DEMO_JOB}.yaml"
    path.write_text(path.read_text(encoding="utf-8") + 'note: "two clamps"\n', encoding="utf-8")
    assert became(shop, facts, answers, facts, answers) == [TAKEN, TAKEN, THERE, THERE]
    stored = yaml.load(path.read_text(encoding="utf-8"), Loader=yaml.BaseLoader)
    assert (stored["material"], stored["note"]) == ("5083, new bar", "two clamps")
    assert [one["answer"] for one in stored["held"]] == ["held", "happened_again"]


def test_the_settings_are_handed_over(hosted: str, visitor: Any, demo_copy: Any, tmp_path: Path) -> None:
    """A cutter added here and one added at home are both in shop.yaml, each once, comments and all."""
    page = visit(visitor, f"{hosted}shop/")
    count = page.locator("[name^='cutters.'][name$='.key']").count()
    page.get_by_role("button", name="Add: cutter").click()
    page.fill(f"[name='cutters.{count}.key']", "em4")
    page.fill(f"[name='cutters.{count}.name']", "4 mm for corners")
    page.get_by_role("button", name="Save", exact=True).click()
    file = download(page, tmp_path)
    shop = demo_copy()
    path = shop / "shop.yaml"
    text = path.read_text(encoding="utf-8").replace("vices:\n", '  - {key: "em3", name: "3 mm"}\nvices:\n')
    path.write_text(text, encoding="utf-8")
    assert became(shop, file, file) == [TAKEN, THERE]
    keys = [one["key"] for one in read_shop(shop).settings_typed["cutters"]]
    assert keys[count:] == ["em3", "em4"] and path.read_text(encoding="utf-8").startswith(text[:40])


def test_a_later_visit_with_a_server_sends_what_was_kept(
    site: Any, browsing: Any, open_tab: OpenTab, tmp_path: Path
) -> None:
    """The server was away at the save; on the next visit the job is offered and stored, an answer goes by itself."""
    context = browsing.context(**SCREENS["desktop"], accept_downloads=True)
    hand = open_tab(context, "jobs/edit/")
    context.route("**/api/**", lambda route: route.abort())
    three_facts(hand.page)
    hand.page.fill("[name=part]", PART)
    save_job(hand.page)
    id_ = json.loads(download(hand.page, tmp_path).read_text(encoding="utf-8"))["id"]
    context.unroute("**/api/**")
    hand.page.close()
    later = open_tab(context, "jobs/")
    expect(later.page.locator(".kept__line")).to_contain_text(PART)
    later.tap(later.page.get_by_role("button", name="Send it now"))
    later.page.wait_for_url(f"**/jobs/{id_}/")
    assert sheet(site, id_)["part"] == PART

    context.route("**/api/**", lambda route: route.abort())
    later.page.locator(".after__line").first.get_by_role("radio", name="held").check()
    expect(later.page.locator(".handover")).to_be_visible()
    context.unroute("**/api/**")
    page = open_tab(context, f"jobs/{id_}/").page  # the first tab is open still, and keeps what it has
    expect(page.locator(".after__answers :checked")).to_have_count(0)
    later.page.reload()
    expect(later.page.locator("#job-status")).to_have_text("Saved.")
    assert [one["answer"] for one in sheet(site, id_)["held"]] == ["held"]
    browsing.forgive("ERR_FAILED")


def test_two_tabs_change_one_job(site: Any, browsing: Any, desktop: Any, open_tab: OpenTab) -> None:
    """Another fact in each: both hold. The same fact in both: both are shown until one is chosen."""
    first = open_tab(desktop, "jobs/edit/")
    id_ = saved(first, "For two tabs")
    for words, choose in (({"material": "304"}, False), ({"part": "Of the second tab"}, True)):
        mine, theirs = (open_tab(desktop, f"jobs/edit/#id={id_}").page for _ in range(2))
        theirs.fill("[name=part]", f"Of the first tab {choose}")
        save_and_look(theirs, id_)
        for name, text in words.items():
            mine.fill(f"[name={name}]", text)
        if choose:
            mine.get_by_role("button", name="Save the job").click()
            conflict = mine.locator(".conflict")
            expect(conflict).to_contain_text("Of the first tab True")
            conflict.get_by_label("Yours").check()
            conflict.get_by_role("button", name="Save my choice").click()
            mine.wait_for_url(f"**/jobs/{id_}/")
        else:
            save_and_look(mine, id_)
            assert sheet(site, id_)["part"] == "Of the first tab False"
    assert (sheet(site, id_)["part"], sheet(site, id_)["material"]) == ("Of the second tab", "304")
    browsing.forgive("status of 409")


def save_and_look(page: Page, id_: str) -> None:
    """Save a change, and be on the job's page."""
    page.get_by_role("button", name="Save the job").click()
    page.wait_for_url(f"**/jobs/{id_}/")


def test_two_jobs_half_described_are_both_kept(desktop: Any, open_tab: OpenTab) -> None:
    """The newest is back in the form, the other is offered, and a copy of a job begins as that copy."""
    for part in ("The older", "The newer"):  # the first tab is open still when the second begins
        open_tab(desktop, "jobs/edit/").page.fill("[name=part]", part)
    for page in desktop.pages:
        page.close()
    page = open_tab(desktop, "jobs/edit/").page
    expect(page.locator("[name=part]")).to_have_value("The newer")
    page.get_by_role("button", name="Go on with it").click()
    expect(page.locator("[name=part]")).to_have_value("The older")
    copy = open_tab(desktop, f"jobs/edit/#copy={DEMO_JOB}").page
    expect(copy.locator("[name=part]")).to_have_value("Rudder head plate, 5083")


def test_a_save_whose_answer_was_lost_is_not_doubled(site: Any, browsing: Any, desktop: Any, open_tab: OpenTab) -> None:
    """Saved again as it is, it is that job; changed since, the form shows the stored one and offers to keep both."""
    part = "Answer lost"

    def lose(route: Any) -> None:
        route.fetch()
        route.abort()

    for changed, count in (("", 1), (", then changed", 3)):
        page = open_tab(desktop, "jobs/edit/").page
        page.fill("[name=part]", part)
        desktop.route("**/api/jobs", lose)
        save_job(page)
        desktop.unroute("**/api/jobs")
        page.fill("[name=part]", part + changed)
        page.get_by_role("button", name="Save the job").click()
        if changed:
            expect(page.get_by_role("link", name="look at it")).to_be_visible()
            page.get_by_role("button", name="Save this as a second one").click()
        page.wait_for_url("**/jobs/2*/")
        assert len([one for one in read_shop(site.shop).jobs if one.get("part").startswith(part)]) == count
    browsing.forgive("ERR_FAILED")
    browsing.forgive("status of 409")
