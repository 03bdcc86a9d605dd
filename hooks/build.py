"""A thin adapter to MkDocs: it makes the shell and the written pages; all else is hooks.site."""

import json
import logging
import shutil
import time
import zipfile
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from mkdocs.commands.build import build as mkdocs_build
from mkdocs.config import load_config

from hooks.shop.problems import Problem
from hooks.shop.read import Shop, read_shop
from hooks.site import pages
from hooks.site.notes import keep_written
from hooks.site.policy import META_POLICY
from hooks.site.publish import only_shared, take_kept_away
from hooks.site.shell import FILE, load

ROOT = Path(__file__).resolve().parents[1]
STATIC = ROOT / "hooks" / "site" / "static"
NODE_MODULES = ROOT / "node_modules"
PYODIDE = ("pyodide.mjs", "pyodide.asm.mjs", "pyodide.asm.wasm", "python_stdlib.zip", "pyodide-lock.json")
NAV = (
    ("record", "record/", "Record"),
    ("find", "find/", "Find"),
    ("jobs", "jobs/", "Jobs"),
    ("sums", "calculators/", "Sums"),
    ("notes", "notes/", "Notes"),
)
ALWAYS_THE_SAME = (1980, 1, 1, 0, 0, 0)  # the archive's bytes follow from what is in it


@dataclass(frozen=True)
class Built:
    """What a build gave."""

    problems: tuple[Problem, ...]
    pages: int
    seconds: float


def build_site(config_file: Path, shop_root: Path, out: Path, publish: bool = False, strict: bool = False) -> Built:
    """Build the whole site of a shop into `out`. With `publish` only lessons marked to be shared.

    `strict` also stops at a broken link between written pages.
    """
    began = time.monotonic()
    shop = read_shop(shop_root)
    shown = only_shared(shop) if publish else shop
    _written_pages(config_file, shown, out, strict)
    _assets(out)
    count = pages.write(shown, load(out), out)
    if publish:
        take_kept_away(out)
    return Built(shop.problems, count, time.monotonic() - began)


def _written_pages(config_file: Path, shop: Shop, out: Path, strict: bool) -> None:
    logging.getLogger("mkdocs").setLevel(logging.WARNING)
    config = load_config(str(config_file), site_dir=str(out), strict=strict)
    config.extra.update(shop_name=shop.name, demo=shop.demo, policy=META_POLICY, pages=NAV)
    mkdocs_build(config)
    shell = out / "shell" / "index.html"
    (out / FILE).write_text(shell.read_text(encoding="utf-8"), encoding="utf-8")
    for name in ("shell", "assets"):  # the theme's own scripts and styles are not used
        shutil.rmtree(out / name, ignore_errors=True)
    for name in ("sitemap.xml", "sitemap.xml.gz"):
        (out / name).unlink(missing_ok=True)
    keep_written(out)


def _assets(out: Path) -> None:
    shutil.copytree(STATIC, out / "assets")
    shutil.copyfile(NODE_MODULES / "minisearch/dist/es/index.js", out / "assets/js/minisearch.js")
    (out / "pyodide").mkdir()
    for name in PYODIDE:
        shutil.copyfile(NODE_MODULES / "pyodide" / name, out / "pyodide" / name)
    compiled = compiled_stdlib()
    if compiled.is_file():
        shutil.copyfile(compiled, out / "pyodide" / "python_stdlib.zip")
    _zip_calc(out / "calc.zip")


def compiled_stdlib() -> Path:
    """Where the standard library lies that hooks/site/stdlib.mjs compiled for this very Pyodide, if it did."""
    package = json.loads((NODE_MODULES / "pyodide" / "package.json").read_text(encoding="utf-8"))
    return NODE_MODULES / ".compiled" / f"python_stdlib-{package['version']}.zip"


def _zip_calc(path: Path) -> None:
    """Our source for the browser's Python."""
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as archive:
        for source in _sources():
            entry = zipfile.ZipInfo(source.relative_to(ROOT).as_posix(), ALWAYS_THE_SAME)
            entry.compress_type = zipfile.ZIP_DEFLATED
            archive.writestr(entry, source.read_bytes())


def _sources() -> Iterator[Path]:
    """What runs in the browser: the calculators, the brief, and the matching that it leans on."""
    yield from sorted((ROOT / "calc").rglob("*.py"))
    yield from sorted((ROOT / "hooks" / "brief").glob("*.py"))
    yield from sorted((ROOT / "hooks" / "shop" / "match").glob("*.py"))
    yield from (ROOT / "hooks" / name for name in ("__init__.py", "shop/__init__.py"))
