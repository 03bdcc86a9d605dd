"""Runs the tests of the browser's pure helpers with Node's own runner."""

import shutil
import subprocess
from pathlib import Path

import pytest

HERE = Path(__file__).parent


@pytest.mark.skipif(shutil.which("node") is None, reason="Node is not installed: browser helpers NOT tested")
def test_node_runs_every_helper_test() -> None:
    """Every `*.test.js` in this folder passes under Node's runner."""
    files = sorted(str(path) for path in HERE.glob("*.test.js"))
    run = subprocess.run(["node", "--test", *files], capture_output=True, text=True, timeout=120)
    assert run.returncode == 0, run.stdout + run.stderr
    assert len(files) >= 5
