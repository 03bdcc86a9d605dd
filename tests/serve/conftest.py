"""A server over an empty shop whose pages are two plain files, so that a test takes milliseconds."""

import os
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

import pytest

from hooks.serve.keeper import Keeper, Maker
from hooks.serve.pages import Pages
from hooks.serve.server import listen, make_server
from hooks.serve.watch import Watch
from tests.serve.client import Client
from tests.site_under_test import running

SHOP_YAML = "name: A shop for tests\nmachines: []\n"


@dataclass
class PlainMaker:
    """Makes a site of an index and one page a lesson, and counts how often; `during` runs in a build."""

    shop: Path
    builds: int = 0
    during: list = field(default_factory=list)

    def build(self, folder: Path) -> dict[str, object]:
        """Read the shop, then do what the test wants done meanwhile, then write."""
        self.builds += 1
        seen = self._lessons()
        for act in self.during:
            act()
        self._write(folder, seen)
        return {"shop": "A shop for tests", "demo": False}

    def refresh(self, folder: Path) -> None:
        """Write everything from the lessons that are on disk now."""
        self._write(folder, self._lessons())

    def _lessons(self) -> dict[str, bytes]:
        return {path.stem: path.read_bytes() for path in self.shop.glob("lessons/*/*.yaml")}

    def _write(self, folder: Path, lessons: dict[str, bytes]) -> None:
        _put(folder / "index.html", b"<h1>index</h1>" + b"x" * 20_000 + b"end")
        for id_, text in lessons.items():
            _put(folder / "lessons" / id_ / "index.html", text)


def _put(path: Path, content: bytes) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    beside = path.with_name(f".{path.name}.new")
    beside.write_bytes(content)
    os.replace(beside, path)


@dataclass(frozen=True)
class Served:
    """One running server and its parts."""

    client: Client
    keeper: Keeper
    maker: PlainMaker
    shop: Path

    def lesson(self, id_: str) -> bytes:
        """The bytes of a lesson's file."""
        return (self.shop / "lessons" / id_[:4] / f"{id_}.yaml").read_bytes()


@pytest.fixture
def served(tmp_path: Path) -> Iterator[Served]:
    """The real server, guards and writer over a shop with no lesson."""
    shop = tmp_path / "shop"
    (shop / "lessons").mkdir(parents=True)
    (shop / "shop.yaml").write_text(SHOP_YAML, encoding="utf-8")
    maker, pages, sock = PlainMaker(shop), Pages(), listen(0)
    keeper = Keeper(shop, tmp_path / "pages", Maker(maker.build, maker.refresh), pages, Watch([shop]))
    assert keeper.build()
    with running(make_server(sock, keeper, pages)):
        yield Served(Client(sock.getsockname()[1]), keeper, maker, shop)
