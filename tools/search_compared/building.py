"""Makes each index that is compared, from the very texts the product searches."""

import html
import json
import os
import shutil
import sqlite3
import subprocess
from collections.abc import Mapping, Sequence
from pathlib import Path

from hooks.run.setup import PYTHON
from hooks.shop.read import Shop
from hooks.site import index
from tests.search.others import FIELDS, sqlite_base, sqlite_ranked

HERE = Path(__file__).parent
PACKAGES = ("pagefind@1.6.0", "lunr@2.3.9", "@sqlite.org/sqlite-wasm@3.41.2+build.1")
Doc = Mapping[str, str]


def install(folder: Path) -> Path:
    """Fetch the libraries that only this comparison needs into a folder of its own; its node_modules."""
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "package.json").write_text("{}", encoding="utf-8")
    npm = shutil.which("npm", path=f"{os.environ.get('PATH', '')}{os.pathsep}{PYTHON.parent}") or "npm"
    options = ["install", "--ignore-scripts", "--no-audit", "--no-fund", "--no-save"]
    subprocess.run([npm, *options, *PACKAGES], cwd=folder, check=True, stdout=subprocess.DEVNULL)
    return folder / "node_modules"


def present(shop: Shop, folder: Path, _modules: Path) -> None:
    """As the build does it."""
    index.write(shop, folder)


def chunked(shop: Shop, folder: Path, modules: Path) -> None:
    """Pagefind over one page a lesson, each text with its weight."""
    for one in index.documents(shop, shop.lessons):
        page = folder / "pages" / one["id"] / "index.html"
        page.parent.mkdir(parents=True)
        page.write_text(_page(one), encoding="utf-8")
    output = ["--output-path", str(folder / "pagefind")]
    command = ["node", str(modules / "pagefind/lib/runner/bin.cjs"), "--site", str(folder / "pages"), *output]
    subprocess.run(command, check=True, stdout=subprocess.DEVNULL)


def _page(one: Doc) -> str:
    texts = "".join(
        f'<p data-pagefind-weight="{weight}">{html.escape(one[name])}</p>'
        for name, weight in FIELDS.items()
        if name in one
    )
    return f'<!doctype html><html lang="en"><title>{one["id"]}</title><body data-pagefind-body>{texts}</body></html>'


def lunr(shop: Shop, folder: Path, modules: Path) -> None:
    """One file, fields weighed alike."""
    given = json.dumps({"fields": FIELDS, "documents": index.documents(shop, shop.lessons)})
    command = ["node", str(HERE / "lunr_build.mjs")]
    done = subprocess.run(command, input=given.encode(), cwd=modules.parent, check=True, stdout=subprocess.PIPE)
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "lunr.json").write_bytes(done.stdout)


def sqlite(shop: Shop, folder: Path, _modules: Path) -> None:
    """A database with the full-text table that the tests compare with."""
    folder.mkdir(parents=True, exist_ok=True)
    base = sqlite3.connect(folder / "lessons.db")
    sqlite_base(base, index.documents(shop, shop.lessons))
    base.execute("CREATE TABLE ranked (sql)")
    base.execute("INSERT INTO ranked VALUES (?)", [sqlite_ranked()])
    base.execute("INSERT INTO lessons(lessons) VALUES ('optimize')")
    base.commit()
    base.execute("VACUUM")
    base.close()


ENGINES = {"present": present, "chunked": chunked, "chunked_any": chunked, "lunr": lunr, "sqlite": sqlite}
NAMES = {
    "present": "present (MiniSearch, `words.js`)",
    "chunked": "Pagefind, in chunks",
    "chunked_any": "Pagefind, word by word",
    "lunr": "Lunr, one typing error",
    "sqlite": "SQLite FTS5 in the browser",
}


def folders(modules: Path, work: Path, root: Path) -> dict[str, Path]:
    """What is served where."""
    return {
        "/engines/": HERE,
        "/made/": work,
        "/js/": root / "hooks/site/static/js",
        "/minisearch.js": root / "node_modules/minisearch/dist/es/index.js",
        "/lunr.js": modules / "lunr/lunr.min.js",
        "/sqlite/": modules / "@sqlite.org/sqlite-wasm/sqlite-wasm/jswasm",
    }


def size(folder: Path, but: Sequence[str] = ("pages",)) -> int:
    """Bytes of all files an engine needs on the host."""
    files = (path for path in folder.rglob("*") if path.is_file())
    return sum(path.stat().st_size for path in files if path.relative_to(folder).parts[0] not in but)
