"""The rules of size and manner, held over the sources, so that a file is read in one sitting."""

import ast
import re
import statistics
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
LONGEST_FUNCTION, LONGEST_MODULE, LONGEST_SCRIPT, USUAL_FUNCTION = 40, 300, 150, 7
FORBIDDEN_IN_PAGES = (r"<script(?![^>]*\bsrc=)", r"<style", r"\sstyle=", r"\son[a-z]+=\"")
Function = ast.FunctionDef | ast.AsyncFunctionDef


def _python(*folders: str) -> list[Path]:
    return [path for folder in folders for path in sorted((ROOT / folder).rglob("*.py"))]


def _functions(paths: list[Path]) -> Iterator[tuple[str, Function]]:
    for path in paths:
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, Function):
                yield f"{path.relative_to(ROOT)}:{node.lineno} {node.name}", node


def _lines(node: Function) -> int:
    """Lines of the body without its docstring."""
    first = node.body[1] if ast.get_docstring(node) and len(node.body) > 1 else node.body[0]
    return node.end_lineno - first.lineno + 1


def test_no_function_is_long() -> None:
    """At most 40 lines of body, tests included."""
    long = {name: _lines(node) for name, node in _functions(_python("calc", "hooks", "tests"))}
    assert {name: lines for name, lines in long.items() if lines > LONGEST_FUNCTION} == {}


def test_functions_are_short_as_a_rule() -> None:
    """The median body of the product has at most seven lines."""
    assert statistics.median(_lines(node) for _, node in _functions(_python("calc", "hooks"))) <= USUAL_FUNCTION


def test_no_file_is_long() -> None:
    """300 lines of Python, 150 of a script."""
    scripts = sorted((ROOT / "hooks/site/static/js").rglob("*.js"))
    limits = [(path, LONGEST_MODULE) for path in _python("calc", "hooks", "tests")]
    limits += [(path, LONGEST_SCRIPT) for path in scripts]
    counts = {path: (len(path.read_text(encoding="utf-8").splitlines()), limit) for path, limit in limits}
    assert {str(path): count for path, (count, limit) in counts.items() if count > limit} == {}


def test_every_test_says_what_it_holds() -> None:
    """A docstring on each test, its first line complete."""
    tests = [(name, node) for name, node in _functions(_python("tests")) if node.name.startswith("test_")]
    assert [name for name, node in tests if not ast.get_docstring(node)] == []


def test_every_public_function_is_described() -> None:
    """A docstring on each public module, class and function of the product."""
    bare = []
    for path in _python("calc", "hooks"):
        tree = ast.parse(path.read_text(encoding="utf-8"))
        public = [node for node in tree.body if isinstance(node, Function | ast.ClassDef) and node.name[0] != "_"]
        bare += [
            f"{path.relative_to(ROOT)} {getattr(node, 'name', '')}"
            for node in (tree, *public)
            if not ast.get_docstring(node)
        ]
    assert bare == []


@pytest.mark.parametrize("pattern", FORBIDDEN_IN_PAGES)
def test_no_template_holds_script_or_style(pattern: str) -> None:
    """What the policy would block is in no template, and in no text that code makes into a page."""
    paths = [
        *(ROOT / "hooks/site/templates").rglob("*.html"),
        *(ROOT / "hooks/site/theme").rglob("*.html"),
        *(ROOT / "calc").glob("*.py"),
    ]
    assert [str(path) for path in paths if re.search(pattern, path.read_text(encoding="utf-8"))] == []


def test_the_linter_has_nothing_to_say() -> None:
    """The rules of pyproject.toml, on everything."""
    command = [sys.executable, "-m", "ruff", "check", "--no-cache", "--output-format", "concise", "."]
    run = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, timeout=60)
    assert run.returncode == 0, run.stdout
