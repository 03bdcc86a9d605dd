"""Writing that survives a cut: a file is there whole or not at all, and is on the disk before we say so.

POSIX: a temporary file beside, flushed, then a hard link (which never overwrites) or a rename, then the
folder flushed. Elsewhere the folder cannot be flushed, and that step is left out.
"""

import os
import secrets
from collections.abc import Iterator, Mapping
from contextlib import contextmanager, suppress
from pathlib import Path

try:
    import fcntl
except ImportError:  # Windows
    fcntl = None  # type: ignore[assignment]


def create(path: Path, content: bytes) -> bool:
    """Write a file that is not there yet; False, and nothing changed, where it is."""
    if path.exists():
        return False
    _make_folder(path.parent)
    beside = _written_beside(path, content)
    try:
        os.link(beside, path)
    except FileExistsError:
        return False
    finally:
        beside.unlink(missing_ok=True)
    _flush_folder(path.parent)
    return True


def create_all(files: Mapping[Path, bytes]) -> None:
    """Write files that are not there yet, all or none. Raises OSError, and none of them is there then.

    Every byte is on the disk before the first file shows; only a cut between two links could leave some.
    """
    beside: dict[Path, Path] = {}
    shown: list[Path] = []
    try:
        for path, content in files.items():
            _make_folder(path.parent)
            beside[path] = _written_beside(path, content)
        for path, written in beside.items():
            os.link(written, path)
            shown.append(path)
    except OSError:
        for path in shown:
            path.unlink(missing_ok=True)
        raise
    finally:
        for written in beside.values():
            written.unlink(missing_ok=True)
    for folder in dict.fromkeys(path.parent for path in files):
        _flush_folder(folder)


def replace(path: Path, content: bytes) -> None:
    """Put new content in the place of a file, whole."""
    beside = _written_beside(path, content)
    try:
        os.replace(beside, path)
    except OSError:
        beside.unlink(missing_ok=True)
        raise
    _flush_folder(path.parent)


@contextmanager
def locked(root: Path) -> Iterator[None]:
    """One writer at a time in a shop's folder, threads and programs alike (programs: POSIX only)."""
    if fcntl is None:
        yield
        return
    folder = os.open(root, os.O_RDONLY)
    try:
        fcntl.flock(folder, fcntl.LOCK_EX)
        yield
    finally:
        os.close(folder)


def _written_beside(path: Path, content: bytes) -> Path:
    beside = path.with_name(f".{path.name}.{secrets.token_hex(4)}.new")
    try:
        with open(beside, "xb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
    except OSError:
        beside.unlink(missing_ok=True)
        raise
    return beside


def _make_folder(folder: Path) -> None:
    """Make a folder and its parents, each entry flushed."""
    if folder.is_dir():
        return
    _make_folder(folder.parent)
    with suppress(FileExistsError):
        folder.mkdir()
    _flush_folder(folder.parent)


def _flush_folder(folder: Path) -> None:
    if os.name != "posix":
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
