"""How large and how fast the search is at 60, 1,000 and 10,000 generated lessons.

`python -m tests.search.measure [COUNT...]` prints a table; the decision it led to is in DEVELOPERS.md.
"""

import gzip
import json
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

from hooks.shop.read import Shop
from hooks.site import index
from tests.search.generated import generated

SCRIPT = Path(__file__).with_name("measure.mjs")


def measure(count: int) -> None:
    """Print what a shop of that many lessons costs."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        shop = Shop(folder, "generated", True, {}, tuple(generated(count)), ())
        print(f"\n{count} lessons")
        print(f"  build with Node        {_seconds(lambda: index.write(shop, folder)):8.0f} ms")
        print(f"  refresh after a save   {_seconds(lambda: index.write(shop, folder)):8.0f} ms")
        documents = json.dumps(index.documents(shop, shop.lessons)).encode()
        _size("documents", documents)
        _size("prebuilt index", (folder / index.INDEX).read_bytes())
        run = [index.find_node() or "node", str(SCRIPT), str(folder / "data")]
        done = subprocess.run(run, input=documents, capture_output=True, check=True)
        sys.stdout.write(done.stdout.decode())


def _seconds(work: Callable[[], None]) -> float:
    start = time.perf_counter()
    work()
    return (time.perf_counter() - start) * 1000


def _size(what: str, data: bytes) -> None:
    print(f"  {what:20} {len(data) / 1000:10.0f} kB, {len(gzip.compress(data, 6)) / 1000:.0f} kB gzipped")


if __name__ == "__main__":
    for wanted in sys.argv[1:] or ("60", "1000", "10000"):
        measure(int(wanted))
