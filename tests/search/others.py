"""Other rankings over the same texts: the theme's own search, and SQLite's full-text ranking.

The theme's search is the real one: MkDocs builds pages with the theme's plugin, its worker answers.
"""

import json
import re
import sqlite3
import subprocess
import tempfile
from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path
from typing import Any

import material
from mkdocs.commands.build import build
from mkdocs.config import load_config

HERE = Path(__file__).parent
# Weights as in words.js.
FIELDS = {"title": 2.0, "said": 2.0, "now_do": 1.0, "why": 1.0, "changed": 0.8, "facts": 1.5}
WORKERS = Path(material.__file__).parent / "templates" / "assets" / "javascripts" / "workers"
Doc = Mapping[str, str]
Answers = list[list[str]]  # for each query the ids, best first


def by_words(documents: Sequence[Doc], queries: Sequence[str], words: Any, node: str) -> Answers:
    """The ranking of this project."""
    return _by_node(node, "ranked.mjs", {"words": words, "documents": documents, "queries": queries})


def by_theme(documents: Sequence[Doc], queries: Sequence[str], node: str) -> Answers:
    """What the theme's search box would list, page by page."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        index = _theme_index(folder, documents)
    worker = next(WORKERS.glob("search.*.min.js"))
    found = _by_node(node, "themed.mjs", {"worker": str(worker), "index": index, "queries": queries})
    return [list(dict.fromkeys(place.split("/")[0] for place in places)) for places in found]


def _theme_index(folder: Path, documents: Iterable[Doc]) -> dict[str, Any]:
    docs = folder / "docs"
    docs.mkdir()
    for one in documents:
        texts = [one[name] for name in FIELDS if name != "title" and name in one]
        heading = one.get("title") or one["said"]
        (docs / f"{one['id']}.md").write_text("\n\n".join([f"# {heading}", *texts]) + "\n", encoding="utf-8")
    (docs / "index.md").write_text("# Start\n", encoding="utf-8")
    config = folder / "mkdocs.yml"
    config.write_text("site_name: Compared\ntheme: material\nplugins: [search]\n", encoding="utf-8")
    build(load_config(str(config), site_dir=str(folder / "site")))
    return json.loads((folder / "site" / "search" / "search_index.json").read_text(encoding="utf-8"))


def by_sqlite(documents: Sequence[Doc], queries: Sequence[str]) -> Answers:
    """SQLite's FTS5 with its Porter stemmer, any of the words, ranked by its bm25 with the same weights."""
    base = sqlite3.connect(":memory:")
    sqlite_base(base, documents)
    answers = [_asked(base, query) for query in queries]
    base.close()
    return answers


def sqlite_base(base: sqlite3.Connection, documents: Iterable[Doc]) -> None:
    """Fill an empty database with the full-text table `lessons`."""
    columns = ", ".join(FIELDS)
    table = f"fts5(id UNINDEXED, {columns}, tokenize='porter unicode61')"
    base.execute(f"CREATE VIRTUAL TABLE lessons USING {table}")
    rows = [[one["id"], *(one.get(name, "") for name in FIELDS)] for one in documents]
    base.executemany(f"INSERT INTO lessons VALUES ({', '.join('?' * (len(FIELDS) + 1))})", rows)


def sqlite_ranked() -> str:
    """The query for ids, best first, of what matches its one parameter."""
    weights = ", ".join(map(str, FIELDS.values()))
    return f"SELECT id FROM lessons WHERE lessons MATCH ? ORDER BY bm25(lessons, 0, {weights}), id DESC"


def _asked(base: sqlite3.Connection, query: str) -> list[str]:
    words = " OR ".join(f'"{word}"' for word in re.findall(r"\w+", query))
    found = base.execute(f"{sqlite_ranked()} LIMIT 10", [words or '""'])
    return [row[0] for row in found]


def _by_node(node: str, script: str, given: Mapping[str, Any]) -> Answers:
    run = [node, str(HERE / script)]
    done = subprocess.run(run, input=json.dumps(given), capture_output=True, text=True, timeout=120)
    assert done.returncode == 0, done.stderr
    return json.loads(done.stdout)
