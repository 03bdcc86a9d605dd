"""The ranking by words: its tests under Node, its list of words, lengths beside a units library."""

import json
import os
import subprocess
from pathlib import Path

import pint
import pytest

from hooks.shop.words import OWN, read_words
from hooks.site.index import find_node

HERE = Path(__file__).parent
JS = HERE.parents[1] / "hooks" / "site" / "static" / "js"
NODE = find_node()
needs_node = pytest.mark.skipif(NODE is None, reason="Node is not installed: the search is NOT tested")


def _node(*arguments: str, given: str = "", **environment: str) -> str:
    command = [NODE or "node", *arguments]
    run = subprocess.run(
        command, input=given, capture_output=True, text=True, timeout=120, env={**os.environ, **environment}
    )
    assert run.returncode == 0, run.stdout + run.stderr
    return run.stdout


@needs_node
def test_node_runs_every_test_of_the_search(tmp_path: Path) -> None:
    """Every `*.test.js` in this folder passes under Node's runner, with the words a browser gets."""
    words = tmp_path / "words.json"
    words.write_text(json.dumps(read_words(tmp_path)[0]), encoding="utf-8")
    files = sorted(str(path) for path in HERE.glob("*.test.js"))
    assert len(files) >= 4
    _node("--test", *files, TWICE_SHY_WORDS=str(words))


LENGTHS = (
    ("1/2 in", "0.5 inch"), ('3/8"', "0.375 inch"), ("5/16 inch", "0.3125 inch"), ("1 1/2 in", "1.5 inch"),
    ("2-3/4 in", "2.75 inch"), ("0.0005 in", "0.0005 inch"), ("12 mm", "12 mm"), ("1.2 cm", "1.2 cm"),
    ("25 µm", "25 micrometer"), ("5 thou", "0.005 inch"), ("half an inch", "0.5 inch"),
    ("three quarters of an inch", "0.75 inch"), ("1/64 in", "0.015625 inch"),
)  # fmt: skip


@needs_node
def test_lengths_agree_with_a_units_library() -> None:
    """Lengths in words and fractions, in mm, beside pint (a general units library) to six digits."""
    code = (
        f"import {{ readAmount }} from {json.dumps((JS / 'amounts.js').as_uri())};"
        "const given = JSON.parse((await import('node:fs')).readFileSync(0, 'utf8'));"
        "console.log(JSON.stringify(given.map(readAmount)))"
    )
    given = json.dumps([written for written, _ in LENGTHS])
    read = json.loads(_node("--input-type=module", "-e", code, given=given))
    units = pint.UnitRegistry()
    for found, (written, meant) in zip(read, LENGTHS, strict=True):
        assert found["unit"] == "mm", written
        assert found["value"] == pytest.approx(units(meant).to("mm").magnitude, rel=1e-5), written


def test_the_words_of_a_shop_are_added_to_the_tools_own(tmp_path: Path) -> None:
    """Both lists are in the result, and its mark changes with them."""
    alone, _ = read_words(tmp_path)
    text = "same:\n  - [bertha, the bed mill]\nspellings: {jawz: jaws}\n"
    (tmp_path / "words.yaml").write_text(text, encoding="utf-8")
    joined, problems = read_words(tmp_path)
    assert problems == ()
    assert joined["same"] == [*alone["same"], ["bertha", "the bed mill"]]
    assert joined["spellings"] == {**alone["spellings"], "jawz": "jaws"}
    assert joined["mark"] != alone["mark"]


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("same: [a, b", "not YAML"),
        ("- a\n- b", "expected the parts spellings, forms, idle, same"),
        ("sames: []", 'unknown part "sames"'),
        ("same: [vice, vise]", '"same" is left out (expected a list of lists of words)'),
        ("spellings: [a]", '"spellings" is left out (expected pairs of words)'),
        ("idle: {a: b}", '"idle" is left out (expected a list of words)'),
        ("same: [[{a: b}]]", '"same" is left out'),
        ("\x00", "not YAML"),
    ],
)
def test_what_is_wrong_with_a_shops_words_is_told(tmp_path: Path, text: str, told: str) -> None:
    """A bad list is a problem with a place, and the tool's own words still work."""
    (tmp_path / "words.yaml").write_text(text, encoding="utf-8")
    words, problems = read_words(tmp_path)
    assert len(problems) == 1 and told in str(problems[0])
    assert str(problems[0]).startswith("words.yaml:")
    assert words["same"] == read_words(tmp_path / "none")[0]["same"]


def test_words_that_look_like_numbers_or_switches_stay_words(tmp_path: Path) -> None:
    """`no`, `1.4404` and `12:30` are words here; common YAML readers turn them into something else."""
    (tmp_path / "words.yaml").write_text("same: [[no, 1.4404, 12:30]]", encoding="utf-8")
    assert read_words(tmp_path)[0]["same"][-1] == ["no", "1.4404", "12:30"]


def test_the_tools_own_words_have_nothing_wrong(tmp_path: Path) -> None:
    """The list that ships is read whole, without a problem, and no line has a single word."""
    (tmp_path / "words.yaml").write_bytes(OWN.read_bytes())
    words, problems = read_words(tmp_path)
    assert problems == ()
    assert [group for group in words["same"] if len(group) < 2] == []
