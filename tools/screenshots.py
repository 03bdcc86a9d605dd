"""Takes pictures of the running demo: those in the README, or of every type of page to look at.

python tools/screenshots.py pictures           # the README's
python tools/screenshots.py FOLDER --all       # every page, phone and desktop, light and dark
"""

import argparse
import sys
import tempfile
from collections.abc import Iterable, Iterator
from itertools import product
from pathlib import Path
from typing import Any, NamedTuple

ROOT = Path(__file__).resolve().parents[1]
sys.path.insert(0, str(ROOT))

from tests.site_under_test import start_site  # noqa: E402  (the project's root must be on the path first)
from tests.watched_page import find_chromium, launch  # noqa: E402

SIZES = {"phone": (390, 844), "desktop": (1280, 900)}
SCHEMES = ("light", "dark")


class Shot(NamedTuple):
    """One picture: the file's name, the page's address, the screen and the colours."""

    name: str
    address: str
    screen: str
    scheme: str
    whole: bool = False


README = (
    Shot("record-phone", "record/", "phone", "light"),
    Shot("corner-desktop", "calculators/corner-clearance/", "desktop", "light"),
)
PAGES = {
    "home": "",
    "record": "record/",
    "find": "find/",
    "calculators": "calculators/",
    "corner-clearance": "calculators/corner-clearance/",
    "chip-load": "calculators/chip-load/",
    "stock-allowance": "calculators/stock-allowance/",
    "notes": "notes/",
    "corners": "notes/corners/",
    "datum": "notes/finding-a-datum/",
    "holding": "notes/holding-work/",
    "sawn": "notes/sawn-stock/",
    "attention": "attention/",
    "about": "about/",
    "numbers": "about/numbers/",
}


def shots_of_all(lesson: str) -> Iterator[Shot]:
    """Every page on every screen in both schemes; `lesson` is the id of a lesson with a check."""
    pages = PAGES | {"lesson": f"lessons/{lesson}/", "edit": f"edit/#id={lesson}"}
    for (name, address), screen, scheme in product(pages.items(), SIZES, SCHEMES):
        yield Shot(f"{name}-{screen}-{scheme}", address, screen, scheme, whole=True)


def take(shots: Iterable[Shot], url: str, folder: Path, browser: Any) -> None:
    """Write one PNG for each shot."""
    folder.mkdir(parents=True, exist_ok=True)
    for shot in shots:
        width, height = SIZES[shot.screen]
        context = browser.new_context(
            viewport={"width": width, "height": height}, color_scheme=shot.scheme, reduced_motion="reduce"
        )
        page = context.new_page()
        page.goto(url + shot.address)
        page.wait_for_selector("html[data-ready=yes]")
        page.wait_for_timeout(500)  # lists that a script fills
        page.screenshot(path=folder / f"{shot.name}.png", full_page=shot.whole)
        context.close()


def lesson_with_check(shop: Path) -> str:
    """The id of the newest lesson that carries a check."""
    return max(path.stem for path in shop.glob("lessons/*/*.yaml") if "\ncheck:" in path.read_text("utf-8"))


def main() -> int:
    """Serve the demo, take the pictures asked for."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawTextHelpFormatter)
    parser.add_argument("folder", type=Path)
    parser.add_argument("--all", action="store_true", help="every page, phone and desktop, light and dark")
    asked = parser.parse_args()
    chromium = find_chromium()
    if chromium is None:
        print("There is no Chromium here; TWICE_SHY_CHROMIUM can name its path.", file=sys.stderr)
        return 1
    demo = ROOT / "content" / "demo"
    shots = shots_of_all(lesson_with_check(demo)) if asked.all else README
    with tempfile.TemporaryDirectory() as work, start_site(demo, Path(work)) as site:
        with launch(chromium) as browser:
            take(shots, site.url, asked.folder, browser)
    return 0


if __name__ == "__main__":
    sys.exit(main())
