"""Who may import whom: the table in DEVELOPERS.md, held over the syntax trees."""

import ast
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
FIRST_STEPS = (
    "hooks.run.words",
    "hooks.run.setup",
    "hooks.run.progress",
    "hooks.run.places",
    "hooks.run.shops",
)

# The longest room that a module's name begins with decides. The standard library is always allowed.
TABLE: dict[str, tuple[str, ...]] = {
    "calc": ("calc",),
    "hooks.shop": ("hooks.shop", "calc", "yaml"),
    "hooks.shop.match": ("hooks.shop.match", "calc"),  # runs in the browser too
    "hooks.brief": ("hooks.brief", "hooks.shop.match", "calc"),  # so does this
    "hooks.site": ("hooks.brief", "hooks.site", "hooks.shop", "calc", "jinja2", "markupsafe", "segno"),
    "hooks.serve": ("hooks.serve", "hooks.shop", "waitress", "whitenoise"),
    "hooks.build": ("hooks.shop", "hooks.site", "mkdocs"),
    "hooks.run": ("hooks", "calc"),
    "run": ("hooks.run.words",),
    **dict.fromkeys(FIRST_STEPS, (*FIRST_STEPS, "hooks.run.commands")),  # before anything is installed
}


def _module(path: Path) -> str:
    parts = path.relative_to(ROOT).with_suffix("").parts
    return ".".join(parts[:-1] if parts[-1] == "__init__" else parts)


def _files() -> list[Path]:
    return [ROOT / "run.py", *sorted(ROOT.glob("calc/**/*.py")), *sorted(ROOT.glob("hooks/**/*.py"))]


def imports(tree: ast.AST, module: str) -> Iterator[str]:
    """Full names of everything imported anywhere in the tree, relative imports resolved."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            base = ".".join(module.split(".")[: -node.level]) if node.level else ""
            source = ".".join(part for part in (base, node.module) if part)
            yield from (f"{source}.{alias.name}" for alias in node.names)


def forbidden(source: str, module: str) -> list[str]:
    """What `module` imports and may not."""
    room = max((room for room in TABLE if _within(module, room)), key=len, default="")
    allowed = TABLE.get(room, ())
    return [
        name
        for name in imports(ast.parse(source), module)
        if name.split(".")[0] not in sys.stdlib_module_names and not any(_within(name, part) for part in allowed)
    ]


def _within(name: str, room: str) -> bool:
    return name == room or name.startswith(room + ".")


@pytest.mark.parametrize("path", _files(), ids=_module)
def test_a_module_imports_only_what_its_room_may(path: Path) -> None:
    """Every module of the project, against the table."""
    assert forbidden(path.read_text(encoding="utf-8"), _module(path)) == []


def test_nobody_but_the_first_room_imports_the_adapter_to_mkdocs() -> None:
    """`hooks.build` is used by the words of run.py alone, so that MkDocs stays replaceable."""
    users = {
        _module(path)
        for path in _files()
        for name in imports(ast.parse(path.read_text(encoding="utf-8")), _module(path))
        if _within(name, "hooks.build")
    }
    assert {user for user in users if not user.startswith("hooks.run.")} == set()


@pytest.mark.parametrize(
    ("module", "line"),
    [
        ("calc.formulas.milling", "import numpy"),
        ("calc.page", "from hooks.shop import read"),
        ("hooks.shop.match", "from hooks.shop.words import fold"),
        ("hooks.shop.read", "from mkdocs.config import load_config"),
        ("hooks.shop.read", "from ..site import pages"),
        ("hooks.site.pages", "def f():\n    import mkdocs"),
        ("hooks.serve.api", "from hooks.site import pages"),
        ("hooks.run.setup", "import yaml"),
    ],
)
def test_a_planted_violation_is_found(module: str, line: str) -> None:
    """The test above can fail: each of these is caught."""
    assert forbidden(line, module)
