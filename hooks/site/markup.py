"""Text that somebody typed, as HTML: escaped, then bold, code, lists and plain links, and nothing else."""

import re
from collections.abc import Iterator
from html import escape

from markupsafe import Markup

BOLD = re.compile(r"\*\*(?=\S)(.+?)(?<=\S)\*\*")
LINK = re.compile(r"\[([^\[\]]{1,200})\]\((https?://[^\s()<>\"']{1,500}|(?:\.\./)*[a-z0-9][a-z0-9/#=_-]{0,200})\)")
CODE = re.compile(r"`([^`]+)`")
ITEM = re.compile(r"\s*[-*] +(.+)")


def inline(text: str) -> Markup:
    """One line: bold, code and links."""
    pieces = CODE.split(text)
    return Markup("".join(_code(part) if n % 2 else _marked(part) for n, part in enumerate(pieces)))


def block(text: str) -> Markup:
    """Several lines: paragraphs, and lists of lines that begin with a dash."""
    return Markup("".join(_blocks(text.splitlines())))


def unmarked(text: str) -> str:
    """One line without its marks, for places that are a link already."""
    return LINK.sub(r"\1", BOLD.sub(r"\1", CODE.sub(r"\1", text)))


def _blocks(lines: list[str]) -> Iterator[str]:
    items: list[str] = []
    words: list[str] = []
    for line in [*lines, ""]:
        item = ITEM.fullmatch(line)
        if items and not item:
            yield "<ul>" + "".join(f"<li>{inline(one)}</li>" for one in items) + "</ul>"
            items = []
        if words and (item or not line.strip()):
            yield f"<p>{inline(' '.join(words))}</p>"
            words = []
        if item:
            items.append(item[1])
        elif line.strip():
            words.append(line.strip())


def _code(text: str) -> str:
    return f"<code>{escape(text)}</code>"


def _marked(text: str) -> str:
    linked = LINK.split(text)
    found = []
    for n in range(0, len(linked), 3):
        found.append(BOLD.sub(r"<strong>\1</strong>", escape(linked[n])))
        if n + 2 < len(linked):
            found.append(f'<a href="{escape(linked[n + 2])}" rel="noreferrer">{escape(linked[n + 1])}</a>')
    return "".join(found)
