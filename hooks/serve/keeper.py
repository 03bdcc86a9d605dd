"""Keeps lessons and pages in step: saves, writes pages at once, builds anew in the background.

A save is safe on disk before it is acknowledged. A build goes into a fresh folder; what is saved
meanwhile is written into that folder too, then the folder is swapped in. A build that fails leaves
the pages as they were.
"""

import logging
import shutil
import threading
import time
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Any

from hooks.serve.pages import Pages
from hooks.serve.watch import Watch
from hooks.shop import spreadsheet, write
from hooks.shop.importing import Plan, carry_out, make_plan
from hooks.shop.rows import Choices
from hooks.shop.sheet import LESSON, Sheet

LOG = logging.getLogger("twice_shy.serve")
LOOK_SECONDS = 1.0  # how often at most the folders are looked through for changes by hand


@dataclass(frozen=True)
class Maker:
    """How pages are made, handed in from outside.

    `build` makes the whole site in an empty folder and returns what pages are told of the shop;
    `refresh` writes everything that comes from lessons into a folder that was built before.
    """

    build: Callable[[Path], Mapping[str, Any]]
    refresh: Callable[[Path], None]


class Keeper:
    """One shop being served."""

    def __init__(self, shop: Path, work: Path, maker: Maker, pages: Pages, watch: Watch) -> None:
        self._shop, self._work, self._maker, self._pages, self._watch = shop, work, maker, pages, watch
        self._saving = threading.Lock()  # held while a lesson and its pages are written, and at the swap
        self._building = threading.Lock()  # held by the one build there may be
        self._started = f"{time.time_ns():x}"
        self.folder: Path | None = None
        self._builds = self._saves = self._shown = 0
        self._about: Mapping[str, Any] = {}
        self._trouble: str | None = None
        self._looked = 0.0

    def hello(self) -> dict[str, Any]:
        """What a page that asks is told; a change by hand, seen now, starts a build."""
        self._look()
        return {
            "build": f"{self._started}-{self._shown}",
            "writable": True,
            "building": self._building.locked(),
            "trouble": self._trouble,
            **self._about,
        }

    def save_new(self, id_: str, fields: Mapping[str, Any], sheet: Sheet = LESSON) -> write.Saved:
        """Store a new lesson or job, then write its pages. Raises what `hooks.shop.write` raises."""
        with self._saving:
            return self._stored(write.save_new(self._shop, id_, fields, sheet))

    def save_edit(self, id_: str, base: str, changes: Mapping[str, Any], sheet: Sheet = LESSON) -> write.Saved:
        """Store an edit, then write its pages. Raises what `hooks.shop.write` raises."""
        with self._saving:
            return self._stored(write.save_edit(self._shop, id_, base, changes, sheet))

    def save_settings(self, base: str, changes: Mapping[str, Any]) -> write.Saved:
        """Store changes of shop.yaml, then write the pages. Raises what `hooks.shop.write` raises."""
        with self._saving:
            return self._stored(write.save_settings(self._shop, base, changes))

    def look_at(self, sheet: spreadsheet.Sheet, choices: Choices) -> Plan:
        """What importing a spreadsheet would do; nothing is written."""
        return make_plan(self._shop, sheet, choices, datetime.now().astimezone())

    def take_in(self, sheet: spreadsheet.Sheet, choices: Choices) -> list[str]:
        """Import a spreadsheet, then write the pages; the ids that are new. Raises ValueError, OSError."""
        with self._saving:
            added = carry_out(self._shop, self.look_at(sheet, choices))
            self._show([LESSON.path(id_) for id_ in added], f"{len(added)} lessons")
            return added

    def build(self) -> bool:
        """Build everything into a fresh folder and swap it in; False where that failed."""
        with self._building:
            self._watch.take()
            try:
                self._build_and_swap()
            except (Exception, SystemExit) as error:  # MkDocs ends the program on a bad setting
                LOG.exception("the build failed; the pages stay as they were")
                self._trouble = f"The last build failed: {error}"
                return False
            self._trouble = None
            return True

    def _build_and_swap(self) -> None:
        saves, folder = self._saves, self._fresh_folder()
        about = self._maker.build(folder)
        with self._saving:
            if self._saves != saves:
                self._maker.refresh(folder)
            self._swap(folder)
            self._about = about

    def _fresh_folder(self) -> Path:
        self._builds += 1
        folder = self._work / str(self._builds)
        shutil.rmtree(folder, ignore_errors=True)
        folder.mkdir(parents=True)
        return folder

    def _swap(self, folder: Path) -> None:
        """Show the new folder. The one before stays for answers under way; older ones go."""
        self._pages.swap(folder)
        for old in self._work.iterdir():
            if old not in (folder, self.folder):
                shutil.rmtree(old, ignore_errors=True)
        self.folder = folder
        self._shown += 1

    def _stored(self, saved: write.Saved) -> write.Saved:
        self._show([saved.path], saved.id)
        return saved

    def _show(self, paths: Iterable[str], what: str) -> None:
        """The lessons are safe by now: what goes wrong with pages must not tell the writer otherwise."""
        self._saves += 1
        for path in paths:
            self._watch.note(self._shop / path)
        if self.folder:
            try:
                self._maker.refresh(self.folder)
                self._shown += 1
            except Exception:
                LOG.exception("%s saved, but the pages could not be written", what)
                self._trouble = f"{what} saved, but the pages could not be written."

    def _look(self) -> None:
        if time.monotonic() - self._looked < LOOK_SECONDS or self._building.locked():
            return
        self._looked = time.monotonic()
        if self._watch.changed():
            threading.Thread(target=self.build, name="build", daemon=True).start()
