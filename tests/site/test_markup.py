"""What somebody typed, as HTML: nothing of it is HTML but what the tiny mark-up makes. The rules are our own."""

from html.parser import HTMLParser

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hooks.site.markup import block, inline

ALLOWED = {"strong", "code", "a", "ul", "li", "p"}


class _Tags(HTMLParser):
    """Collects tags and attributes."""

    def __init__(self) -> None:
        super().__init__()
        self.tags: list[tuple[str, dict[str, str | None]]] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Note one."""
        self.tags.append((tag, dict(attrs)))


def tags(html: str) -> list[tuple[str, dict[str, str | None]]]:
    """The tags in some HTML."""
    parser = _Tags()
    parser.feed(html)
    return parser.tags


@pytest.mark.parametrize(
    ("text", "html"),
    [
        ("plain & <b>", "plain &amp; &lt;b&gt;"),
        ("**bold** not*", "<strong>bold</strong> not*"),
        ("`a<b`", "<code>a&lt;b</code>"),
        ("[the note](notes/corners/)", '<a href="notes/corners/" rel="noreferrer">the note</a>'),
        ("[x](https://example.org/a?b=1)", '<a href="https://example.org/a?b=1" rel="noreferrer">x</a>'),
        ("[x](javascript:alert(1))", "[x](javascript:alert(1))"),
        ("[x](//evil.example)", "[x](//evil.example)"),
        ("[x](data:text/html,1)", "[x](data:text/html,1)"),
        ("[`code` in a link](a)", "[<code>code</code> in a link](a)"),
    ],
)
def test_inline(text: str, html: str) -> None:
    """Bold, code and plain links; everything else is text."""
    assert str(inline(text)) == html


def test_blocks() -> None:
    """Paragraphs, and lists of lines that begin with a dash."""
    assert str(block("one\ntwo\n\n- a\n- **b**\nthree")) == (
        "<p>one two</p><ul><li>a</li><li><strong>b</strong></li></ul><p>three</p>"
    )


@given(st.text(alphabet="<>&\"'[]()`*-/:ahrefjscripton=# \n", max_size=120))
def test_hostile_text_makes_no_other_tag(text: str) -> None:
    """Whatever is typed, only the mark-up's own tags come out, and links lead to http or below this site."""
    for tag, given_ in tags(str(block(text))):
        assert tag in ALLOWED
        assert set(given_) <= {"href", "rel"}
        link = given_.get("href") or ""
        assert not link.lower().startswith(("javascript:", "data:", "//", "/"))
