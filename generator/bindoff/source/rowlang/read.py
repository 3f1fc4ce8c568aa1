"""Reads a row: by the strict grammar, or as a knitter wrote it where that can't read it."""

from collections.abc import Callable, Collection
from enum import StrEnum

from bindoff.craft.book import StitchBook
from bindoff.diagnostics import PatternError, Span, fail
from bindoff.source.rowlang.parse import parse_row, within
from bindoff.source.rowlang.syntax import Row
from bindoff.source.rowlang.uses import numbers_used
from bindoff.source.rowlang.vocabulary import NO_NAMES, PatternNames

LONGEST = 2000
"""Characters of a row that is put into our form at the most; a longer one is read strictly only."""


class Words(StrEnum):
    """Whose words a pattern's rows are written in."""

    MODERN = "modern"
    OLD = "old"


def read_row(
    text: str,
    span: Span | Callable[[int, int], Span],
    book: StitchBook,
    yarns: Collection[str] = (),
    *,
    sizes: int | None = None,
    words: Words = Words.MODERN,
    patterns: PatternNames = NO_NAMES,
    spelled: bool = False,
) -> Row:
    """The row that ``text`` says.

    ``span``, ``book``, ``yarns`` and ``patterns`` as for ``parse_row``; ``sizes`` is how many sizes
    the pattern has, and ``spelled`` keeps the designer's word for each stitch. What the strict
    grammar reads is read by it, and never rewritten, unless the pattern has old words, where some
    mean another stitch. Raises ``PatternError``.
    """
    if words is Words.MODERN or not text.strip():
        try:
            row = parse_row(text, span, book, yarns, patterns, _slices(text) if spelled else None)
            if "{" in text:
                refuse_other_sizes(row, sizes)
            return row
        except PatternError as error:
            if error.findings[0].id in _FINAL or len(text) > LONGEST:
                raise
            strictly = error
    else:
        strictly = None
        if len(text) > LONGEST:
            raise fail(
                "row.long",
                f"a row in old words has at most {LONGEST:,} characters, and this one has "
                f"{len(text):,}",
                "Write it as several rows",
                (within(span) if isinstance(span, Span) else span)(0, len(text)),
            )
    from bindoff.source.rowlang.reader.rewrite import Reader  # most patterns never need it

    place = within(span) if isinstance(span, Span) else span
    row = Reader(book, yarns, place, sizes, words is Words.OLD, patterns, spelled).row(
        text, strictly
    )
    refuse_other_sizes(row, sizes)
    return row


def _slices(text: str) -> Callable[[int, int], str]:
    return lambda start, end: text[start:end]


_FINAL = frozenset({"row.empty", "row.long", "row.sizes"})


def refuse_other_sizes(row: Row, sizes: int | None) -> None:
    """Raises a ``PatternError`` where ``row`` lists figures for other than ``sizes`` sizes."""
    lists = [(len(each.values), each.span) for each in numbers_used(row) if each.values]
    if row.reading is not None:
        said = row.reading.stated
        lists += [(len(each.counts), each.span) for each in said if len(each.counts) > 1]
    for count, span in lists:
        if sizes is not None and count != sizes:
            raise fail(
                "row.sizes",
                f"the figures listed here are {count}, and the sizes of the pattern {sizes}",
                "List a figure for each size, as in `k10 (11, 12)` for three",
                span,
            )
