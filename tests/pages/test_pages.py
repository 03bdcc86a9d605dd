"""From a lesson's file to its page, whole: what is expected lies beside, read and agreed to. Needs no MkDocs.

`python -m tests.pages.test_pages` writes the expected pages anew; read the difference before you keep it.
"""

import random
import sys
import tempfile
from pathlib import Path

import pytest

from hooks.shop.read import read_shop
from hooks.shop.write import save_new
from hooks.site import pages
from hooks.site.shell import MAIN, Shell
from tests.pages.random_lessons import random_lesson

RANDOM = 300
HERE = Path(__file__).parent
EXPECTED = {
    "lesson.html": "lessons/20260102-100000-aaaaa/index.html",
    "home.html": "index.html",
    "attention.html": "attention/index.html",
}


def written(folder: Path) -> dict[str, str]:
    """The pages of the little shop, filled into a bare shell."""
    pages.write(read_shop(HERE / "shop"), Shell(MAIN), folder)
    return {name: (folder / path).read_text(encoding="utf-8") + "\n" for name, path in EXPECTED.items()}


@pytest.fixture(scope="module")
def found(tmp_path_factory: pytest.TempPathFactory) -> dict[str, str]:
    """Written once."""
    return written(tmp_path_factory.mktemp("pages"))


@pytest.mark.parametrize("name", EXPECTED)
def test_the_page_is_as_agreed(found: dict[str, str], name: str) -> None:
    """Letter by letter."""
    assert found[name] == (HERE / name).read_text(encoding="utf-8")


def test_the_first_lesson_came_back(found: dict[str, str]) -> None:
    """Its rule is shown as broken again, on its own page and at home."""
    assert "came back" in found["lesson.html"] and "It came back." in found["home.html"]


def test_no_lesson_that_may_be_written_breaks_a_page(tmp_path: Path) -> None:
    """Three hundred random lessons, any field left out: all are read, and every page is written."""
    shop, chance = tmp_path / "shop", random.Random(20261125)
    (shop / "lessons").mkdir(parents=True)
    (shop / "shop.yaml").write_text('name: "x"\nmachines: []\n')
    for n in range(RANDOM):
        save_new(shop, f"20260101-{n // 60:02}{n % 60:02}00-aaaaa", random_lesson(chance))
    read = read_shop(shop)
    assert len(read.lessons) == RANDOM and not read.problems
    pages.write(read, Shell(MAIN), tmp_path / "out")
    assert len(list(tmp_path.glob("out/lessons/*/index.html"))) == RANDOM


if __name__ == "__main__":
    with tempfile.TemporaryDirectory() as place:
        for file, html in written(Path(place)).items():
            (HERE / file).write_text(html, encoding="utf-8", newline="\n")
    sys.exit(0)
