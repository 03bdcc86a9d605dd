"""Compares the product's search with other static ones, in a real browser, and prints the table for DEVELOPERS.md.

python tools/compare_search.py                        # the demo's lessons, then 1,000 and 10,000 generated ones
python tools/compare_search.py --generated 500 2000
"""

import argparse
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path
from typing import Any, NamedTuple

import yaml

ROOT = Path(__file__).resolve().parents[1]
sys.path.insert(0, str(ROOT))

from hooks.shop.read import Shop, read_shop  # noqa: E402  (the project's root must be on the path first)
from tests.search.generated import generated  # noqa: E402
from tests.search.judging import ndcg, recall  # noqa: E402
from tests.watched_page import find_chromium, launch  # noqa: E402
from tools.search_compared.building import ENGINES, NAMES, folders, install, size  # noqa: E402
from tools.search_compared.serving import Served, serving  # noqa: E402

QUERIES = ROOT / "tests" / "search" / "queries.yaml"
FIRST = "cutter dug in at the corner"  # the question of the first result
PHONE = 0.06, 1.25e6  # seconds a request, bytes a second (10 Mbit/s)
OPENED, ASKED = 5, 5  # times, of which the median is told
EACH = 8  # of the judged questions every eighth is timed over generated lessons: some searches take seconds there
HEAD = ("search", "made in", "on the host", "to the first result", "requests", "first result", "on a phone's line",
        "warm query", "nDCG@10", "recall@5")  # fmt: skip


class Measured(NamedTuple):
    """What one search costs over one set of lessons. Seconds, bytes, milliseconds; `answers` are ids."""

    made: float
    host: int
    sent: int
    requests: int
    first: float
    phone: float
    warm: float
    answers: list[list[str]]


def measure(browser: Any, server: Served, name: str, folder: str, questions: Sequence[str]) -> list[Any]:
    """Time one engine whose data are served at `folder`: what is sent, first results, warm queries, answers."""
    times = [_first(browser, server, name, folder) for _ in range(OPENED)]
    sent, requests = server.bytes_sent, server.requests
    server.delay, server.rate = PHONE
    phone = [_first(browser, server, name, folder) for _ in range(OPENED)]
    server.delay, server.rate = 0.0, float("inf")
    told = _in_page(browser, server, "all", name, folder, list(questions), ASKED)
    medians = (statistics.median(one) for one in (times, phone, told["took"]))
    return [sent, requests, *medians, told["answers"]]


def _first(browser: Any, server: Served, name: str, folder: str) -> float:
    server.reset()
    return _in_page(browser, server, "first", name, folder, FIRST)["took"]


def _in_page(browser: Any, server: Served, what: str, *given: Any) -> Any:
    """Call a function of measure.js in a page with an empty cache."""
    context = browser.new_context()
    page = context.new_page()
    page.set_default_timeout(600_000)
    page.goto(server.url)
    page.evaluate("async () => { window.measure = await import('/engines/measure.js'); }")
    server.reset()
    told = page.evaluate(f"given => window.measure.{what}(...given)", list(given))
    context.close()
    return told


def compared(shop: Shop, questions: Sequence[str], modules: Path, browser: Any) -> Iterator[tuple[str, Measured]]:
    """Make, serve and time every engine over the lessons of one shop."""
    for name, make in ENGINES.items():
        with tempfile.TemporaryDirectory() as work:
            began = time.perf_counter()
            make(shop, Path(work), modules)
            made = time.perf_counter() - began
            with serving(folders(modules, Path(work), ROOT)) as server:
                yield name, Measured(made, size(Path(work)), *measure(browser, server, name, "/made/", questions))


def table(rows: Iterable[tuple[str, Measured]], judged: Sequence[dict[str, Any]] | None) -> str:
    """A table in Markdown; the ranking only where the lessons are those that were judged."""
    head = HEAD if judged else HEAD[:-2]
    lines = [f"| {' | '.join(head)} |", "|---" * len(head) + "|"]
    for name, one in rows:
        cells = [NAMES[name], f"{one.made:.1f} s", _kilo(one.host), _kilo(one.sent), f"{one.requests}"]
        cells += [f"{one.first:.0f} ms", f"{one.phone:.0f} ms", f"{one.warm:.1f} ms"]
        if judged:
            pairs = [(found, want["want"]) for found, want in zip(one.answers, judged, strict=True)]
            cells += [f"{statistics.fmean(score(*pair) for pair in pairs):.3f}" for score in (ndcg, recall)]
        lines.append(f"| {' | '.join(cells)} |")
        print(lines[-1], file=sys.stderr, flush=True)
    return "\n".join(lines)


def _kilo(count: int) -> str:
    return f"{count / 1000:,.0f} kB"


def read_judged() -> list[dict[str, Any]]:
    """The judged questions of the tests."""
    queries = yaml.load(QUERIES.read_text(encoding="utf-8"), Loader=yaml.BaseLoader)["queries"]
    return [{**one, "want": {id_: int(grade) for id_, grade in one["want"].items()}} for one in queries]


def main() -> int:
    """Install, make, time and print."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawTextHelpFormatter)
    parser.add_argument("--generated", type=int, nargs="*", default=(1000, 10_000), metavar="N", help="how many")
    asked = parser.parse_args()
    chromium = find_chromium()
    if chromium is None:
        print("There is no Chromium here; TWICE_SHY_CHROMIUM can name its path.", file=sys.stderr)
        return 1
    judged, demo = read_judged(), read_shop(ROOT / "content" / "demo", checks=False)
    many = [Shop(demo.root, "generated", True, {}, tuple(generated(count)), ()) for count in asked.generated]
    questions = [one["ask"] for one in judged]
    with tempfile.TemporaryDirectory() as scratch, launch(chromium) as browser:
        try:
            modules = install(Path(scratch))
        except (OSError, subprocess.CalledProcessError) as failure:
            print(f"The libraries to compare with could not be fetched: {failure}", file=sys.stderr)
            return 1
        for shop, asked_for, graded in ((demo, questions, judged), *((one, questions[::EACH], None) for one in many)):
            print(f"\n{len(shop.lessons):,} lessons\n\n{table(compared(shop, asked_for, modules, browser), graded)}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
