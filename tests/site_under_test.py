"""The real server over a shop's folder, in a thread, for tests."""

import threading
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from hooks.serve.keeper import Keeper
from hooks.serve.pages import Pages
from hooks.serve.server import listen, make_server


@dataclass(frozen=True)
class Site:
    """A running server: its address (ends with a slash), its shop's folder, and what keeps it."""

    url: str
    shop: Path
    keeper: Keeper

    @property
    def folder(self) -> Path:
        """The folder being served now."""
        return self.keeper.folder


@contextmanager
def start_site(shop: Path, work: Path) -> Iterator[Site]:
    """Build `shop` into `work` and serve it on a free port until the block ends."""
    from hooks.run.serving import keep  # loads MkDocs, which most tests do without

    pages, sock = Pages(), listen(0)
    keeper = keep(shop, work, pages)
    assert keeper.build(), "the site could not be built; the log says why"
    with running(make_server(sock, keeper, pages)):
        yield Site(f"http://127.0.0.1:{sock.getsockname()[1]}/", shop, keeper)


@contextmanager
def running(server: object) -> Iterator[None]:
    """Run a server in a thread until the block ends."""
    thread = threading.Thread(target=server.run, daemon=True)
    thread.start()
    try:
        yield
    finally:
        server.stop()
        thread.join(timeout=10)
