"""A lesson or job whose file cannot be read: its page says which file, which line and what to do, with its text."""

import shutil
from pathlib import Path

import pytest

from hooks.shop.read import Shop, read_shop
from hooks.site import pages
from hooks.site.broken import broken_files
from hooks.site.publish import only_shared
from hooks.site.shell import MAIN, Shell

INVALID = Path(__file__).parents[1] / "invalid"
ID = "20260101-000007-yamlx"
GOOD = 'kind: "crash"\nsaid: "whole again"\n'


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    """A copy of the shop full of mistakes, with a broken job beside its lessons."""
    folder = Path(shutil.copytree(INVALID, tmp_path / "shop"))
    (folder / "jobs").mkdir()
    (folder / "jobs" / f"{ID}.yaml").write_text('part: "<b>x</b>"\nmaterial: [\n', encoding="utf-8")
    return folder


def written(shop: Shop, out: Path) -> Path:
    """The pages of a shop in a bare shell."""
    pages.write(shop, Shell(MAIN), out)
    return out


def test_the_page_of_a_broken_lesson_says_where_and_shows_its_text(shop: Path, tmp_path: Path) -> None:
    """File, line, column, what is wrong, and every line as it stands; needs attention leads there."""
    out = written(read_shop(shop), tmp_path / "out")
    text = (out / "lessons" / ID / "index.html").read_text(encoding="utf-8")
    assert (
        f"lessons/2026/{ID}.yaml" in text
        and "Line 3, column 1: not YAML that can be read" in text
        and "began in line 2" in text
    )
    first, *_ = (shop / "lessons" / "2026" / f"{ID}.yaml").read_text(encoding="utf-8").splitlines()
    assert first.replace('"', "&#34;") in text and 'class="file__wrong"' in text and "double quotes" in text
    assert f'href="../lessons/{ID}/"' in (out / "attention" / "index.html").read_text(encoding="utf-8")
    job = (out / "jobs" / ID / "index.html").read_text(encoding="utf-8")
    assert "&lt;b&gt;" in job and "<b>x" not in job and "the job again" in job


def test_every_file_that_was_not_read_has_a_page_and_no_other(shop: Path) -> None:
    """Where names or checks alone are wrong, the lesson has its own page; a file without an id has none."""
    read = read_shop(shop)
    ids = {one.id for one in broken_files(read) if one.address.startswith("lessons/")}
    files = {path.stem for path in shop.glob("lessons/*/*.yaml")}
    assert ids == files - {one.id for one in read.lessons} - {"not-an-id"}
    assert broken_files(only_shared(read)) == [], "none of it is published"


def test_a_mended_file_is_the_lesson_s_page_again(shop: Path, tmp_path: Path) -> None:
    """And a file that is taken away takes its page with it."""
    out = written(read_shop(shop), tmp_path / "out")
    (shop / "lessons" / "2026" / f"{ID}.yaml").write_text(GOOD, encoding="utf-8")
    (shop / "jobs" / f"{ID}.yaml").unlink()
    written(read_shop(shop), out)
    assert "whole again" in (out / "lessons" / ID / "index.html").read_text(encoding="utf-8")
    assert not (out / "jobs" / ID).exists()
