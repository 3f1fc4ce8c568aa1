"""The standard stitch book: one entry a stitch, by family, and nowhere else.

To add a stitch, write its entry in the module of its family: rows, charts, keys, the words of
wrong-side rows, the list of abbreviations, the checks and ``bindoff words`` all ask the entry.

Names and stitch changes: the Craft Yarn Council's master list of abbreviations, from memory; US and
UK crochet names and the wrong-side partners: common practice, except where an entry names a source.
The how-to sentences are our own.
"""

from functools import cache

from bindoff.craft.book import StitchBook
from bindoff.craft.entry import Stitch, Terms
from bindoff.craft.stitches import (
    acts,
    basic,
    brioche,
    cautions,
    cells,
    crochet,
    decreases,
    increases,
    slips,
    special,
)
from bindoff.records import replace

_FAMILIES = (
    ("knit and purl", basic.STITCHES),
    ("slips", slips.STITCHES),
    ("decreases", decreases.STITCHES),
    ("increases", increases.STITCHES),
    ("brioche", brioche.STITCHES),
    ("bobbles, twists and the like", special.STITCHES),
    ("cells of charts", cells.STITCHES),
    ("crochet", crochet.STITCHES),
)


@cache
def standard_book(terms: Terms = Terms.US) -> StitchBook:
    """The book every pattern starts from, its crochet read in ``terms``."""
    return StitchBook.of(_entries(), acts.ACTS, cautions.CAUTIONS, terms)


def _entries() -> tuple[Stitch, ...]:
    return tuple(
        replace(stitch, family=family) for family, stitches in _FAMILIES for stitch in stitches
    )
