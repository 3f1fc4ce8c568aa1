"""What a text is made of by CommonMark, kept from run to run.

The library that reads it takes long to load, and most texts are the same in every pattern.
"""

from functools import cache
from typing import TYPE_CHECKING, Any

from bindoff.kept import Shelf
from bindoff.records import Record

if TYPE_CHECKING:
    from markdown_it import MarkdownIt

_Plain = tuple[str, str, str, tuple[int, int] | None, int, str, "tuple[_Plain, ...]"]

SHELF: Shelf[tuple[Any, ...]] = Shelf(__file__, 1000, libraries=("markdown-it-py", "mdurl"))


class Node(Record):
    """A part of a text. ``kind`` is what the library calls it, ``tag`` its element in HTML.

    ``lines`` are the first line and the one after the last, from 0, of the part or of what it is
    in. ``start`` is the first number of a list, ``href`` the target of a link.
    """

    kind: str
    tag: str
    content: str
    lines: tuple[int, int] | None
    start: int
    href: str
    children: "tuple[Node, ...]"


def blocks_of(text: str) -> tuple[Node, ...]:
    """The paragraphs, lists and other blocks of a text."""
    return tuple(map(_node, SHELF.get(("blocks", text), lambda: _read(text, inline=False))))


def words_of(text: str) -> tuple[Node, ...]:
    """The running text of a single paragraph, whatever mark it begins with."""
    return tuple(map(_node, SHELF.get(("words", text), lambda: _read(text, inline=True))))


def link(url: str) -> str:
    """The target of a link as it stands in a file: what no address may hold is encoded."""
    return str(SHELF.get(("link", url), lambda: (_normal(url),))[0])


def _node(plain: _Plain) -> Node:
    kind, tag, content, lines, start, href, children = plain
    return Node(kind, tag, content, lines, start, href, tuple(map(_node, children)))


def _read(text: str, inline: bool) -> tuple[_Plain, ...]:
    from markdown_it.tree import SyntaxTreeNode

    parser = _parser()
    root = SyntaxTreeNode(parser.parseInline(text) if inline else parser.parse(text))
    return tuple(_plain(each, None) for each in root.children)


def _plain(node: Any, around: tuple[int, int] | None) -> _Plain:
    lines = tuple(node.map) if node.map else around
    start, href = int(node.attrs.get("start", 1)), str(node.attrs.get("href", ""))
    children = tuple(_plain(each, lines) for each in node.children)
    return node.type, node.tag, node.content, lines, start, href, children


def _normal(url: str) -> str:
    from markdown_it.common.normalize_url import normalizeLink

    return normalizeLink(url)


@cache
def _parser() -> "MarkdownIt":
    """The Markdown parser. It also knows what the tree has no node for, to refuse it by name."""
    from markdown_it import MarkdownIt

    class Parser(MarkdownIt):
        """Takes every link target as it is: it is judged once the values are in it."""

        def validateLink(self, url: str) -> bool:  # noqa: N802
            return True

        def normalizeLink(self, url: str) -> str:  # noqa: N802
            return url

    # A line that a condition or a list happens to indent is no code.
    return Parser("commonmark").enable("table").disable("code")
