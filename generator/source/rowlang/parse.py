"""Reads one row instruction into its tree."""

from collections.abc import Collection

from generator.diagnostics import Span
from generator.source.rowlang.stitches import StitchBook
from generator.source.rowlang.syntax import Row


def parse_row(text: str, span: Span, book: StitchBook, yarns: Collection[str] = ()) -> Row:
    """The row that ``text`` says; ``span`` is where the text stands in its file.

    Raises ``PatternError`` pointing at the words that cannot be read, saying what was expected.
    """
    raise NotImplementedError
