"""The find page's answer without a browser: Node ranks, by the very module that searches in the pages."""

import json
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from hooks.shop.read import Shop
from hooks.shop.words import read_words
from hooks.site.index import by_node, documents, find_node

SCRIPT = Path(__file__).with_name("find.mjs")


class NoSearch(RuntimeError):
    """Searching by words cannot be done here; the message says why, in one line."""


@dataclass(frozen=True)
class Found:
    """What was found: how many lessons in all, and the best of them as {id, title, score, why}, best first."""

    count: int
    best: tuple[dict[str, Any], ...]


def find(shop: Shop, question: str, at_most: int) -> Found | None:
    """The shop's lessons that answer the question; None where there is no word in it to look for."""
    if find_node() is None:
        raise NoSearch("Searching by words needs Node, and there is none here; the find page does without.")
    words, _ = read_words(shop.root)
    given = {"words": words, "documents": documents(shop, shop.lessons), "question": question, "atMost": at_most}
    answer = by_node(SCRIPT, given)
    if answer is None:
        raise NoSearch("Node is here, but it could not search: is the folder node_modules whole?")
    found = json.loads(answer)
    if found is None:
        return None
    titles = {one.id: one.title for one in shop.lessons}
    return Found(found["count"], tuple(_hit(one, titles) for one in found["hits"]))


def _hit(hit: dict[str, Any], titles: dict[str, str]) -> dict[str, Any]:
    return {"id": hit["id"], "title": titles[hit["id"]], "score": round(hit["score"], 3), "why": hit["why"]}
