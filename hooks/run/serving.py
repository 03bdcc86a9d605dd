"""Puts the server together: how this site is built and refreshed, and what is watched for changes."""

from pathlib import Path
from typing import Any

from hooks.build import build_site
from hooks.run.places import ROOT
from hooks.serve.keeper import Keeper, Maker
from hooks.serve.pages import Pages
from hooks.serve.watch import Watch
from hooks.shop.read import Shop, read_shop
from hooks.site import pages as site_pages
from hooks.site import shell

CONFIG = ROOT / "mkdocs.yml"
PARTS = ("mkdocs.yml", "docs", "calc", "hooks/site/templates", "hooks/site/static", "hooks/site/theme")


def keep(shop: Path, work: Path, pages: Pages) -> Keeper:
    """A keeper of `shop` that builds below the folder `work`."""
    watch = Watch([shop, *(ROOT / part for part in PARTS)])
    return Keeper(shop, work, maker(shop), pages, watch)


def maker(shop: Path) -> Maker:
    """How the pages of `shop` are made. What was read is kept from one save to the next."""
    last: list[Shop] = []

    def read() -> Shop:
        last[:] = [read_shop(shop, last[0] if last else None)]
        return last[0]

    def build(folder: Path) -> dict[str, Any]:
        build_site(CONFIG, shop, folder)
        found = read()
        return {"shop": found.name, "demo": found.demo}

    def refresh(folder: Path) -> None:
        site_pages.write(read(), shell.load(folder), folder)

    return Maker(build, refresh)
