"""Feeds of new lessons (Atom, JSON Feed) and of changes (Atom). The same lessons give the same bytes.

Atom after RFC 4287, JSON Feed after version 1.1. An entry's id is a urn:uuid made from the lesson's id alone,
so that it stays when the pages move. Where shop.yaml says no address, links are relative: Atom allows that,
JSON Feed does not, so there they are left out.
"""

import json
import re
import uuid
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, date, datetime, time
from typing import Any
from xml.etree import ElementTree

from hooks.shop.read import Shop
from hooks.site.told import Told

ATOM = "http://www.w3.org/2005/Atom"
JSON_FEED = "https://jsonfeed.org/version/1.1"
OURS = uuid.UUID("5b1c5a0e-6c1f-4c58-9d5e-0d6e2f2b7a41")  # drawn once, so that the ids below are nobody else's
NEVER = datetime(1970, 1, 1, tzinfo=UTC)  # a feed must say when it last changed, also one with nothing in it
MOST = 50
NOT_XML = re.compile("[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


@dataclass(frozen=True)
class Entry:
    """One entry: what it is named by, when it was new, where it leads, what it says."""

    key: str
    title: str
    at: datetime
    path: str
    text: str
    kind: str


def feeds(shop: Shop, ones: tuple[Told, ...]) -> Iterator[tuple[str, bytes]]:
    """The feeds' files by name; `ones` are the shop's lessons, newest first."""
    new = [_new(one) for one in ones[:MOST]]
    yield "feed.atom", _atom(shop, "feed.atom", "New lessons", new)
    yield "feed.json", _json(shop, "New lessons", new)
    changed = sorted((one for one in ones if one.lesson.last_change), key=_changed_on, reverse=True)
    yield "changes.atom", _atom(shop, "changes.atom", "What was changed", [_change(one) for one in changed[:MOST]])


def _changed_on(one: Told) -> tuple[date, str]:
    return one.lesson.last_change or date.min, one.id


def _new(one: Told) -> Entry:
    why = [f"Because: {line}" for line in one.lesson.get("why", ())]
    return _entry(one, one.id, _utc(one.lesson.when), [one.lesson.get("said", ""), one.facts, *why, _rule(one)])


def _change(one: Told) -> Entry:
    """A lesson by its last change; another change is another entry."""
    day = _changed_on(one)[0]
    done = [change.get("what", "") for change in one.lesson.get("changes", ()) if change.get("done_on") == day]
    at = datetime.combine(day, time(), UTC)
    return _entry(one, f"{one.id} {day.isoformat()}", at, [*(f"Changed: {what}" for what in done if what), _rule(one)])


def _rule(one: Told) -> str:
    return f"Now: {one.now_do}" if one.now_do else ""


def _entry(one: Told, key: str, at: datetime, lines: list[str]) -> Entry:
    text = "\n".join(line for line in lines if line) or one.title
    return Entry(key, _clean(one.title), at, f"lessons/{one.id}/", _clean(text), one.kind_label)


def _atom(shop: Shop, name: str, what: str, entries: list[Entry]) -> bytes:
    feed = ElementTree.Element("feed", {"xmlns": ATOM, "xml:lang": "en"})
    _add(feed, "id", _urn(f"{name} of {shop.name}"))
    _add(feed, "title", _clean(f"{what}: {shop.name}"))
    _add(feed, "updated", _said(max((one.at for one in entries), default=NEVER)))
    _add(_add(feed, "author"), "name", _clean(shop.name))
    _add(feed, "link", rel="alternate", type="text/html", href=shop.address or "./")
    if shop.address:
        _add(feed, "link", rel="self", type="application/atom+xml", href=f"{shop.address}{name}")
    for one in entries:
        entry = _add(feed, "entry")
        _add(entry, "id", _urn(one.key))
        _add(entry, "title", one.title)
        _add(entry, "updated", _said(one.at))
        _add(entry, "link", rel="alternate", type="text/html", href=f"{shop.address}{one.path}")
        _add(entry, "category", term=one.kind)
        _add(entry, "content", one.text, type="text")
    ElementTree.indent(feed)
    return ElementTree.tostring(feed, encoding="utf-8", xml_declaration=True) + b"\n"


def _json(shop: Shop, what: str, entries: list[Entry]) -> bytes:
    here = shop.address
    feed: dict[str, Any] = {"version": JSON_FEED, "title": f"{what}: {shop.name}", "language": "en"}
    feed |= {"home_page_url": here, "feed_url": f"{here}feed.json"} if here else {}
    feed["authors"] = [{"name": shop.name}]
    feed["items"] = [_item(one, here) for one in entries]
    return (json.dumps(feed, ensure_ascii=False, indent=1) + "\n").encode("utf-8")


def _item(one: Entry, here: str) -> dict[str, Any]:
    place = {"url": f"{here}{one.path}"} if here else {}
    told = {"title": one.title, "content_text": one.text, "date_published": _said(one.at), "tags": [one.kind]}
    return {"id": _urn(one.key), **place, **told}


def _add(parent: ElementTree.Element, tag: str, text: str = "", **attributes: str) -> ElementTree.Element:
    child = ElementTree.SubElement(parent, tag, attributes)
    child.text = text or None
    return child


def _urn(key: str) -> str:
    return uuid.uuid5(OURS, key).urn


def _utc(when: datetime) -> datetime:
    try:
        return when.astimezone(UTC)
    except OverflowError:  # the first or last day that a date can be, in a zone beyond it
        return when.replace(tzinfo=UTC)


def _said(at: datetime) -> str:
    """A time after RFC 3339."""
    return at.replace(microsecond=0).isoformat().replace("+00:00", "Z")


def _clean(text: str) -> str:
    """The text without what may not stand in XML."""
    return NOT_XML.sub("\N{REPLACEMENT CHARACTER}", text)
