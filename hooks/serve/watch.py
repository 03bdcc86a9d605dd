"""Notices that files changed under a few folders, when asked; nothing polls while nobody asks."""

import os
from collections.abc import Iterable, Iterator
from pathlib import Path

Stamp = tuple[int, int]  # modified (ns), size (bytes)


class Watch:
    """What some folders and files looked like when last taken note of."""

    def __init__(self, paths: Iterable[Path]) -> None:
        self._paths = tuple(paths)
        self._seen: dict[str, Stamp] = {}

    def take(self) -> None:
        """Take note of everything as it is now."""
        self._seen = self._look()

    def note(self, path: Path) -> None:
        """Take note of one file that we wrote ourselves."""
        stamp = _stamp(path)
        if stamp:
            self._seen[str(path)] = stamp

    def changed(self) -> bool:
        """Whether anything differs from what was taken note of."""
        return self._look() != self._seen

    def _look(self) -> dict[str, Stamp]:
        return {str(path): stamp for top in self._paths for path in _files(top) if (stamp := _stamp(path))}


def _files(top: Path) -> Iterator[Path]:
    """The file itself, or every file below the folder; names with a leading dot are left out."""
    if top.is_file():
        yield top
    for folder, folders, names in os.walk(top):
        folders[:] = [name for name in folders if not name.startswith((".", "__"))]
        yield from (Path(folder, name) for name in names if not name.startswith("."))


def _stamp(path: Path) -> Stamp | None:
    try:
        told = path.stat()
    except OSError:  # gone since it was listed
        return None
    return told.st_mtime_ns, told.st_size
