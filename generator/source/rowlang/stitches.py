"""The stitch book's public face: its types, the standard entries, and a designer's own stitches."""

from generator.source.rowlang.book import (
    Act,
    Craft,
    Lean,
    Stitch,
    StitchBook,
    Terms,
    Wording,
    cable,
)
from generator.source.rowlang.custom import declare
from generator.source.rowlang.dictionary import standard_book

__all__ = [
    "Act",
    "Craft",
    "Lean",
    "Stitch",
    "StitchBook",
    "Terms",
    "Wording",
    "cable",
    "declare",
    "standard_book",
]
