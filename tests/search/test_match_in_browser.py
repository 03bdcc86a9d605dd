"""The ranking by facts in the browser's own Python: the same answers as here, and fast enough."""

import dataclasses
import json
import subprocess
from pathlib import Path

import pytest

from hooks.shop import match
from hooks.site.index import find_node
from tests.search.generated import generated

ROOT = Path(__file__).parents[2]
NODE = find_node()
FILES = ("hooks/__init__.py", "hooks/shop/__init__.py")


@pytest.mark.skipif(NODE is None, reason="no Node: ranking by facts in the browser's Python is NOT tested")
def test_the_browsers_python_ranks_alike() -> None:
    """Ten thousand lessons, twenty situations: equal lessons, scores and reasons; the fastest under 100 ms."""
    lessons = generated(10_000)
    known = match.columns(lessons, {})
    asked = [match.facts_of(one.fields) for one in lessons[:: len(lessons) // 20]]
    answer = _in_the_browsers_python(known, asked)
    here = [[dataclasses.astuple(one) for one in match.rank(known, facts, 7)] for facts in asked]
    assert answer["found"] == json.loads(json.dumps(here))
    assert answer["fastest"] < 0.1


def _in_the_browsers_python(known: match.Columns, asked: list[match.Facts]) -> dict:
    ours = (*ROOT.glob("calc/**/*.py"), *ROOT.glob("hooks/shop/match/*.py"))
    paths = [*FILES, *(path.relative_to(ROOT).as_posix() for path in ours)]
    files = {path: (ROOT / path).read_text(encoding="utf-8") for path in paths}
    given = json.dumps({"files": files, "columns": known, "asked": asked, "atMost": 7})
    run = [NODE or "node", str(Path(__file__).with_name("matched.mjs"))]
    done = subprocess.run(run, input=given, capture_output=True, text=True, timeout=120)
    assert done.returncode == 0, done.stderr
    return json.loads(done.stdout)
