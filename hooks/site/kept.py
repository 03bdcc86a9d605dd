"""What one writing of the pages leaves for the next, in files of the built folder whose names begin with a dot."""

import json
import os
from collections.abc import Mapping
from pathlib import Path
from typing import Any


def read_kept(path: Path) -> dict[str, Any]:
    """What was kept; nothing where there is no such file, or none that can be read."""
    try:
        return json.loads(path.read_text(encoding="utf-8"))  # type: ignore[no-any-return]
    except (OSError, ValueError):
        return {}


def write_kept(path: Path, kept: Mapping[str, Any]) -> None:
    """Keep it, whole or not at all."""
    path.parent.mkdir(parents=True, exist_ok=True)
    beside = path.with_name(f"{path.name}.new")
    beside.write_text(json.dumps(kept), encoding="utf-8")
    os.replace(beside, path)
