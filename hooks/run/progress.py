"""A line that shows that something is going on: a dot every two seconds. Standard library only."""

import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager

TICK_SECONDS = 2


@contextmanager
def dots(what: str) -> Iterator[None]:
    """Print `what`, then a dot every two seconds, then how long it took, or FAILED."""
    print(what, end=" ", flush=True)
    began, over = time.monotonic(), threading.Event()
    ticker = threading.Thread(target=_tick, args=(over,), daemon=True)
    ticker.start()
    end = "FAILED"
    try:
        yield
        end = f"{time.monotonic() - began:.1f} s"
    finally:
        over.set()
        ticker.join()
        print(f" {end}", flush=True)


def _tick(over: threading.Event) -> None:
    while not over.wait(TICK_SECONDS):
        print(".", end="", flush=True)
