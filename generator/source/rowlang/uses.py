"""What a row mentions: stitches to explain, numbers to compute, yarns to buy."""

from collections.abc import Iterable

from generator.source.rowlang.stitches import StitchBook
from generator.source.rowlang.syntax import Named, Row


def abbreviations_used(rows: Iterable[Row], book: StitchBook) -> tuple[str, ...]:
    """Ids of the stitches, modifiers and acts in ``rows``, in the book's order."""
    raise NotImplementedError


def numbers_used(row: Row) -> tuple[Named, ...]:
    """The computed numbers in ``row``, in reading order, each with its place."""
    raise NotImplementedError


def yarns_used(row: Row) -> tuple[str, ...]:
    """The yarns ``row`` names, in reading order."""
    raise NotImplementedError
