"""Sections, sentences and tables of text, and their small words."""

from collections.abc import Iterable, Iterator, Sequence

from bindoff.document.voice import Voice
from bindoff.records import Record


class Listing(Record):
    """A table of text; ``align`` has ``<`` for a column of words and ``>`` for one of figures.

    ``sized``: every column but the first is a size, so that a few may be shown at a time.
    """

    caption: str
    columns: tuple[str, ...]
    align: str
    rows: tuple[tuple[str, ...], ...]
    sized: bool = False


class Section(Record):
    """A heading, and sentences and tables below it."""

    title: str
    parts: tuple[str | Listing, ...]


def sized_listing(
    voice: Voice, caption: str, rows: Iterable[tuple[str, Iterable[object]]]
) -> Listing:
    """A table with a column for each size."""
    return Listing(
        caption,
        ("", *voice.sizes),
        "<" + ">" * len(voice.sizes),
        tuple((label, *(str(figure) for figure in figures)) for label, figures in rows),
        sized=True,
    )


def groups(
    sizes: Sequence[str], versions: Sequence[object]
) -> Iterator[tuple[tuple[str, ...], int]]:
    """Sizes with equal versions, and the place of their first."""
    for index, version in enumerate(versions):
        if version not in versions[:index]:
            same = zip(sizes, versions, strict=True)
            yield tuple(size for size, each in same if each == version), index


def span(first: int, last: int) -> str:
    """``3``, ``3 to 5``."""
    return str(first) if first == last else f"{first} to {last}"


def minute_words(minutes: float) -> str:
    """Minutes, with a decimal below 10."""
    return f"{round(minutes, 1):g}" if abs(minutes) < 10 else f"{minutes:.0f}"
