"""A shop full of mistakes: every problem is told, with its place, and nothing good is hidden.

The problems expected are in tests/invalid/problems.txt, read and agreed to line by line. The rules are our own.
"""

import subprocess
import sys
from pathlib import Path

import pytest
import yaml

from hooks.shop.nodes import Group, NotStrict, decode, parse
from hooks.shop.read import read_lesson, read_shop
from hooks.shop.typed import plain

ROOT = Path(__file__).parents[2]
INVALID = ROOT / "tests" / "invalid"
EXPECTED = (INVALID / "problems.txt").read_text(encoding="utf-8").splitlines()
FILES = sorted([*INVALID.glob("lessons/*/*.yaml"), *(ROOT / "content" / "demo").glob("lessons/*/*.yaml")])


def test_every_problem_of_every_file_is_told() -> None:
    """All of them, sorted, with path, line, column and what would be right."""
    assert [str(problem) for problem in read_shop(INVALID).problems] == EXPECTED


def test_a_bad_file_hides_no_other() -> None:
    """What can be read is read: the good one, and those whose names or checks lead nowhere."""
    read = {lesson.id.rsplit("-")[-1] for lesson in read_shop(INVALID).lessons}
    assert read == {"gd000", "names", "check", "chekx", "mendx"}


def test_the_check_word_prints_them_and_a_count() -> None:
    """`run.py check` on the folder: each problem, then how many, and status 1."""
    done = subprocess.run(
        [sys.executable, str(ROOT / "run.py"), "check", str(INVALID)], capture_output=True, text=True, timeout=300
    )
    assert done.stdout.splitlines()[-len(EXPECTED) - 1 :] == [*EXPECTED, f"{len(EXPECTED)} problems"]
    assert done.returncode == 1


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_both_loaders_read_alike(path: Path) -> None:
    """PyYAML in C and in Python: the same tree with the same places, or a problem in both."""
    trees = [_tree(path.read_bytes(), loader) for loader in (yaml.SafeLoader, yaml.CSafeLoader)]
    assert trees[0] == trees[1]


def _tree(text: bytes, loader: object) -> object:
    try:
        found = parse(text, "x.yaml", loader)
    except NotStrict as broken:
        return "a problem" if "not YAML" in broken.problem.text else str(broken.problem)
    return plain(found), {key: (node.line, node.column) for key, node in found.keys.items()}


def test_scalars_stay_what_they_are() -> None:
    """What plain YAML turns into other things: sexagesimals, booleans, versions, leading zeros, dates, nulls."""
    odd = b"a: 7:24\nb: NO\nc: 1.4310\nd: 0012345\ne: 2026-01-01\nf: ~\ng: 1e3\nh: 0x10\n"
    tree = parse(odd, "x.yaml")
    assert plain(tree) == {
        "a": "7:24", "b": "NO", "c": "1.4310", "d": "0012345", "e": "2026-01-01", "f": "~", "g": "1e3", "h": "0x10",
    }  # fmt: skip


@pytest.mark.parametrize(
    ("text", "part"),
    [
        (b"a: " + b"x" * 200_000, "too large"),
        (b"a: [" + b"x, " * 3000 + b"]", "too many"),
        (b"a: " + b"[" * 60 + b"]" * 60, "nested too deep"),
        (b"%YAML 1.1\n---\na: b\n", "directives"),
        (b"- a\n- b\n", "expected keys"),
        (b"? [a, b]\n: c\n", "a key must be plain text"),
        (b"a: \x01\n", "U+0001"),
        (b"a: b\n<<: c\n<<: d\n", "stands twice"),
    ],
)
def test_bounds_and_forms(text: bytes, part: str) -> None:
    """Each bound and each forbidden form has its message."""
    with pytest.raises(NotStrict) as broken:
        parse(text, "x.yaml")
    assert part in broken.value.problem.text


def test_a_byte_order_mark_is_no_problem() -> None:
    """Some editors write one."""
    assert decode(b"\xef\xbb\xbfkind: x\n", "x.yaml") == "kind: x\n"
    lesson, problems = read_lesson(b'\xef\xbb\xbfkind: "crash"\nsaid: "x"\n', "20260101-000000-gd000.yaml")
    assert lesson and not problems


def test_an_empty_folder_is_a_shop_with_one_problem(tmp_path: Path) -> None:
    """No shop.yaml: said once; nothing else fails."""
    shop = read_shop(tmp_path)
    assert not shop.lessons and [problem.path for problem in shop.problems] == ["shop.yaml"]
    assert isinstance(parse(b"a: b\n", "x"), Group)
