"""The shell: one page rendered once by MkDocs, with marks where other pages are filled in."""

from dataclasses import dataclass
from html import escape
from pathlib import Path

FILE = ".shell.html"  # the server gives out nothing whose name starts with a dot
# Escaped text holds no "<", so nothing that somebody typed passes for a mark.
BASE, PAGE, TITLE, MAIN = "<@base@>", "<@page@>", "<@title@>", "<@main@>"


@dataclass(frozen=True)
class Shell:
    """The rendered page with its marks."""

    html: str

    def fill(self, title: str, page: str, main: str, depth: int) -> bytes:
        """One page: its title (plain text), kind, content (HTML), and how many folders deep it lies (-1: anywhere)."""
        base = "" if depth < 0 else "/".join([".."] * depth) or "."
        head, foot = self.html.split(MAIN)
        parts = (_filled(head, title, page, base), main.replace(BASE, base), _filled(foot, title, page, base))
        return "".join(parts).encode("utf-8")


def load(folder: Path) -> Shell:
    """The shell of a built folder."""
    return Shell((folder / FILE).read_text(encoding="utf-8"))


def _filled(html: str, title: str, page: str, base: str) -> str:
    return html.replace(BASE, base).replace(PAGE, page).replace(TITLE, escape(title))
