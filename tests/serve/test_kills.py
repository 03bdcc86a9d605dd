"""The server is killed at a hundred random moments while lessons are saved and edited."""

import hashlib
import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from hooks.shop.read import read_lesson
from tests.serve.conftest import SHOP_YAML

ROUNDS = 100
SEED = 20261125
ROOT = Path(__file__).parents[2]


@pytest.mark.skipif(not hasattr(os, "fork"), reason="this system cannot fork: kills during a save NOT tested")
def test_nothing_acknowledged_is_lost_and_nothing_is_torn(tmp_path: Path) -> None:
    """After 100 kills every acknowledged lesson is there, as acknowledged or edited since, and reads well."""
    shop = tmp_path / "shop"
    (shop / "lessons").mkdir(parents=True)
    (shop / "shop.yaml").write_text(SHOP_YAML, encoding="utf-8")
    command = [sys.executable, "-m", "tests.serve.killed_server", str(shop), str(ROUNDS), str(SEED)]
    run = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, timeout=300)
    assert run.returncode == 0, run.stderr
    told = [json.loads(line) for line in run.stdout.splitlines()]
    assert len(told) >= ROUNDS, "too few saves to mean anything"
    last = {saved["id"]: saved["hash"] for saved in told}
    for id_, hash_ in last.items():
        _check(shop / "lessons" / "2026" / f"{id_}.yaml", hash_)
    for path in (shop / "lessons").rglob("[!.]*.yaml"):
        _check(path, None)


def _check(path: Path, hash_: str | None) -> None:
    """The file reads without a problem, and is what was acknowledged, or a whole edit of it."""
    text = path.read_bytes()
    lesson, problems = read_lesson(text, f"lessons/2026/{path.name}")
    assert lesson is not None and not problems, (path, problems)
    said = lesson.fields["said"]
    assert said in ("x" * 200, "y" * 250)
    if hash_ is not None and said == "x" * 200:
        assert hashlib.sha256(text).hexdigest() == hash_
