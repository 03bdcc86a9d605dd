"""What a module of the pages takes from another is there: a name that is not stops a whole page."""

import re
from pathlib import Path

import pytest

STATIC = Path(__file__).parents[2] / "hooks" / "site" / "static" / "js"
TAKEN = re.compile(r'^import \{([^}]+)\} from "\./([\w.]+)";', re.MULTILINE)
GIVEN = re.compile(r"^export (?:async )?(?:function|class|const|let) (\w+)", re.MULTILINE)
NOT_OURS = {"minisearch.js"}  # copied beside ours when the site is built


@pytest.mark.parametrize("path", sorted(STATIC.glob("*.js")), ids=lambda path: path.name)
def test_every_name_that_is_imported_is_exported(path: Path) -> None:
    """By what the two files say."""
    for names, other in TAKEN.findall(path.read_text(encoding="utf-8")):
        if other in NOT_OURS:
            continue
        given = set(GIVEN.findall((STATIC / other).read_text(encoding="utf-8")))
        wanted = {name.split(" as ")[0].strip() for name in names.split(",") if name.strip()}
        assert wanted <= given, f"{path.name} takes {wanted - given} from {other}"
