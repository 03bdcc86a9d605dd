"""What is wrong with a shop's files, as values: where, and what would be right."""

import difflib
from collections.abc import Iterable
from dataclasses import dataclass
from dataclasses import field as aside


@dataclass(frozen=True, order=True)
class Problem:
    """One thing wrong. `path` is relative to the shop's folder, line and column count from 1.

    `field` is the dotted path of the answer it is about ("cutter.cutter_diameter", "why.0"), or "". `told` is
    what a form says, which knows labels and no keys; "" where that is the same as `text`.
    """

    path: str
    line: int
    column: int
    text: str
    field: str = aside(default="", compare=False)
    told: str = aside(default="", compare=False)

    def __str__(self) -> str:
        return f"{self.path}:{self.line}:{self.column}: {self.text}"


def nearest(word: str, words: Iterable[str]) -> str:
    """`; did you mean X?` for the word nearest to `word`, or nothing."""
    found = difflib.get_close_matches(word, list(words), n=1, cutoff=0.6)
    return f"; did you mean {found[0]}?" if found else ""


def quoted(text: str) -> str:
    """What somebody wrote, short and on one line."""
    plain = "".join(char if char.isprintable() else "?" for char in text)
    return f'"{plain}"' if len(plain) <= 40 else f'"{plain[:39]}…"'
