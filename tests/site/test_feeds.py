"""The feeds against their specifications: Atom by RFC 4287, times by RFC 3339, URIs by RFC 3986, JSON Feed by 1.1."""

import json
import re
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import pytest

from hooks.shop.read import Shop, read_settings, read_shop
from hooks.shop.write import save_new
from hooks.site import pages
from hooks.site.feeds import MOST, feeds
from hooks.site.publish import only_shared
from hooks.site.shell import MAIN, Shell
from hooks.site.told import told

ROOT = Path(__file__).parents[2]
ADDRESS = "https://shop.example/mill"
ATOM = "{http://www.w3.org/2005/Atom}"
RFC_3339 = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?(Z|[+-]\d\d:\d\d)")
NAMES = ("feed.atom", "feed.json", "changes.atom")
CHANGES = [
    {"what": "hook", "done_on": "2026-02-01"},
    {"what": "spring", "done_on": "2026-03-01"},
    {"what": "later"},
]
LESSONS: tuple[dict[str, Any], ...] = (
    {"kind": "crash", "said": "it <b>hit</b> & \u0085 broke", "when": "2026-01-05T10:00:00+01:00", "changes": CHANGES},
    {"kind": "tool_failed", "said": "odd \ufffe\uffff letters", "when": "0001-01-01T00:00:00+14:00", "shared": "yes"},
    {"kind": "worked_well", "said": "said without a day", "now_do": "Do it again.", "why": ["it held"]},
)


def shop_of(folder: Path, address: str = "", lessons: tuple[dict[str, Any], ...] = LESSONS) -> Shop:
    """A shop with these lessons, published at an address or nowhere."""
    folder.mkdir(exist_ok=True)
    told_address = f'address: "{address}"\n' if address else ""
    (folder / "shop.yaml").write_text(f'name: "Here & there"\n{told_address}', encoding="utf-8")
    for number, fields in enumerate(lessons):
        save_new(folder, f"20260{number + 1}01-100000-aaaaa", fields)
    return read_shop(folder)


def made(shop: Shop) -> dict[str, bytes]:
    """The feeds by name."""
    return dict(feeds(shop, tuple(told(one, shop) for one in shop.lessons)))


def one_text(element: ElementTree.Element, tag: str) -> str:
    """The text of the one child there may be of a tag."""
    (found,) = element.findall(ATOM + tag)
    assert found.text
    return found.text


def check_link(link: ElementTree.Element, absolute: bool) -> None:
    """A link has an address; a relative one leads nowhere but below the feed's own folder (RFC 3986, 4.2)."""
    href = link.get("href") or ""
    assert href.startswith(f"{ADDRESS}/") if absolute else re.fullmatch(r"\./|lessons/[0-9a-z-]+/", href)


def check_atom(data: bytes, absolute: bool) -> ElementTree.Element:
    """Every element that RFC 4287 requires (4.1.1 and 4.1.2), once, and of the right form."""
    feed = ElementTree.fromstring(data)
    assert feed.tag == f"{ATOM}feed" and one_text(feed.find(f"{ATOM}author"), "name")  # type: ignore[arg-type]
    for element in (feed, *feed.findall(f"{ATOM}entry")):
        assert re.fullmatch(r"urn:uuid:[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}", one_text(element, "id"))
        assert one_text(element, "title") and RFC_3339.fullmatch(one_text(element, "updated"))
        alternate = [link for link in element.findall(f"{ATOM}link") if link.get("rel") == "alternate"]
        assert len(alternate) == 1
        for link in element.findall(f"{ATOM}link"):
            check_link(link, absolute)
    for entry in feed.findall(f"{ATOM}entry"):
        (content,) = entry.findall(f"{ATOM}content")
        assert content.get("type") == "text" and content.text and not list(content)
    times = [one_text(entry, "updated") for entry in feed.findall(f"{ATOM}entry")]
    assert times == sorted(times, reverse=True) and one_text(feed, "updated") == max(
        times, default="1970-01-01T00:00:00Z"
    )
    ids = [one_text(entry, "id") for entry in feed.findall(f"{ATOM}entry")]
    assert len(ids) == len(set(ids))
    return feed


def check_json(data: bytes, absolute: bool) -> dict[str, Any]:
    """Version, title and items; of each item its id and its text. Addresses are whole or not there."""
    feed = json.loads(data)
    assert feed["version"] == "https://jsonfeed.org/version/1.1" and feed["title"] and isinstance(feed["items"], list)
    assert ("feed_url" in feed) == ("home_page_url" in feed) == absolute
    for item in feed["items"]:
        assert isinstance(item["id"], str) and item["content_text"] and RFC_3339.fullmatch(item["date_published"])
        assert ("url" in item) == absolute and item.get("url", ADDRESS).startswith(ADDRESS)
    return feed


@pytest.mark.parametrize("address", ["", ADDRESS, f"{ADDRESS}/"])
def test_the_feeds_keep_their_specifications(tmp_path: Path, address: str) -> None:
    """With an address and without one, whatever stands in the lessons."""
    found = made(shop_of(tmp_path, address))
    assert tuple(found) == NAMES
    new, changes = (check_atom(found[name], bool(address)) for name in ("feed.atom", "changes.atom"))
    items = check_json(found["feed.json"], bool(address))["items"]
    assert [one_text(entry, "id") for entry in new.findall(f"{ATOM}entry")] == [one["id"] for one in items]
    assert len(items) == 3 and len(changes.findall(f"{ATOM}entry")) == 1
    assert any(one["content_text"].startswith("it <b>hit</b> & ") for one in items)


def test_a_change_is_told_by_its_last_day(tmp_path: Path) -> None:
    """What was done on that day, not before and not planned; another change is another entry."""
    first = shop_of(tmp_path / "one")
    (entry,) = check_atom(made(first)["changes.atom"], False).findall(f"{ATOM}entry")
    assert one_text(entry, "content") == "Changed: spring"
    assert one_text(entry, "updated") == "2026-03-01T00:00:00Z"
    later = ({**LESSONS[0], "changes": [{"what": "a door", "done_on": "2026-04-01"}]}, *LESSONS[1:])
    (other,) = check_atom(made(shop_of(tmp_path / "two", lessons=later))["changes.atom"], False).findall(f"{ATOM}entry")
    assert one_text(other, "id") != one_text(entry, "id")


def test_ids_stay_when_the_pages_move(tmp_path: Path) -> None:
    """The same with an address and without."""
    both = [made(shop_of(tmp_path / name, address))["feed.json"] for name, address in (("a", ""), ("b", ADDRESS))]
    ids = [[one["id"] for one in json.loads(data)["items"]] for data in both]
    assert ids[0] == ids[1]


def test_an_empty_shop_has_feeds_too(tmp_path: Path) -> None:
    """With nothing in them, and valid."""
    found = made(shop_of(tmp_path, lessons=()))
    assert not check_atom(found["feed.atom"], False).findall(f"{ATOM}entry")
    assert check_json(found["feed.json"], False)["items"] == []
    assert check_atom(found["changes.atom"], False) is not None


def test_a_feed_holds_the_newest(tmp_path: Path) -> None:
    """Of many lessons the newest fifty, and the same bytes each time."""
    shop = shop_of(tmp_path, lessons=())
    for n in range(MOST + 5):
        save_new(tmp_path, f"20260101-10{n:02}00-aaaaa", {"kind": "crash", "said": f"number {n}"})
    shop = read_shop(tmp_path)
    items = json.loads(made(shop)["feed.json"])["items"]
    assert [one["title"] for one in items] == [f"number {n}" for n in range(MOST + 4, 4, -1)]
    assert made(shop) == made(read_shop(tmp_path))


def test_every_file_is_written_and_a_published_one_holds_only_what_is_shared(tmp_path: Path) -> None:
    """Feeds, the table and the one JSON, in the built folder."""
    shop = shop_of(tmp_path / "shop")
    for shown, there in ((shop, 3), (only_shared(shop), 1)):
        out = tmp_path / f"out{there}"
        pages.write(shown, Shell(MAIN), out)
        assert len(json.loads((out / "feed.json").read_bytes())["items"]) == there
        handed = json.loads((out / "data/lessons-all.json").read_bytes())
        assert len(handed) == there and all(one["fields"]["said"] for one in handed)
        assert (out / "lessons.csv").read_text("utf-8").count("\n2026") == there
        assert ("without a day" in (out / "feed.atom").read_text("utf-8")) is (there == 3)


@pytest.mark.parametrize(
    "address", ["shop.example", "javascript:alert(1)", "https://", "https://a b/", "ftp://a/", "https://a/?x"]
)
def test_an_address_that_is_none_is_a_problem(tmp_path: Path, address: str) -> None:
    """Told with its line, and the feeds do without."""
    (tmp_path / "shop.yaml").write_text(f'name: "x"\naddress: "{address}"\n', encoding="utf-8")
    settings, problems = read_settings(tmp_path)
    assert "address" not in settings and [(one.line, one.field) for one in problems] == [(2, "address")]
