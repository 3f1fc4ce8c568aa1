"""Reads one row instruction into its tree."""

from collections.abc import Callable, Collection
from functools import lru_cache, partial
from string import ascii_lowercase, ascii_uppercase

from bindoff.craft.book import StitchBook
from bindoff.diagnostics import Span, fail
from bindoff.kept import Shelf
from bindoff.records import replace
from bindoff.source.rowlang.build import Builder
from bindoff.source.rowlang.problems import Place, UnreadError, unreadable
from bindoff.source.rowlang.syntax import Row
from bindoff.source.rowlang.tree import Node, Part, tree_of
from bindoff.source.rowlang.vocabulary import NO_NAMES, PatternNames, Vocabulary

MAX_LENGTH = 6000
"""Characters of a row at the most; nobody reads a longer one to its end."""

_GRAMMAR = ("source/rowlang/rows.lark", "source/rowlang/grammar.py")
SHELF: Shelf[tuple[Part, ...]] = Shelf(__file__, 2000, ("lark",), _GRAMMAR)
"""The parts of rows, by their text in lower case."""

_LOWER = str.maketrans(ascii_uppercase, ascii_lowercase)  # unlike lower(), keeps every offset


def parse_row(
    text: str,
    span: Span | Callable[[int, int], Span],
    book: StitchBook,
    yarns: Collection[str] = (),
    patterns: PatternNames = NO_NAMES,
    written: Callable[[int, int], str] | None = None,
) -> Row:
    """The row that ``text`` says, in any mixture of capitals.

    ``span`` is where the text stands in its file (without quotes), or a function from character
    offsets to a place. ``yarns`` are the ids that may follow ``in`` and ``with``;
    ``patterns`` are the stitch patterns and charts that may be worked in. ``written`` gives the
    words as the designer wrote them, from character offsets, where these are kept.
    Raises ``PatternError`` pointing at the words that cannot be read, saying what was expected.
    """
    place = within(span) if isinstance(span, Span) else span
    vocabulary = Vocabulary(book, {yarn.lower(): yarn for yarn in yarns}, patterns)
    if not text.strip():
        raise fail(
            "row.empty",
            "the row says nothing",
            "Write what is worked, such as `k all`",
            place(0, len(text)),
        )
    if len(text) > MAX_LENGTH:
        raise fail(
            "row.long",
            f"a row has at most {MAX_LENGTH:,} characters, and this one has {len(text):,}",
            "Say what is repeated with `repeat from *`, or draw a chart",
            place(0, len(text)),
        )
    tree = _tree(text, vocabulary, place)
    builder = Builder(text, vocabulary, place)
    row = builder.row(tree)
    return row if written is None else replace(row, spelled=builder.spelled(tree, written))


def within(span: Span) -> Place:
    """The place of characters of a text that stands at ``span``."""

    def place(start: int, end: int) -> Span:
        return span.inside(start, end) if span.line == span.end_line else span

    return place


def _tree(text: str, vocabulary: Vocabulary, place: Place) -> Node:
    plain = text.translate(_LOWER)
    try:
        return _parsed(plain)
    except UnreadError as unread:
        raise unreadable(text, plain, unread, vocabulary, place) from None


@lru_cache(maxsize=1024)
def _parsed(plain: str) -> Node:
    """The tree of a row in lower case: rows come again, within a pattern and from run to run."""
    return tree_of(SHELF.get(plain, partial(_new, plain)))


def _new(plain: str) -> tuple[Part, ...]:
    from bindoff.source.rowlang.grammar import parsed

    return parsed(plain)
