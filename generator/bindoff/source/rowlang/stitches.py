"""The stitch book's public face: its types, the standard entries, and a designer's own stitches."""

from bindoff.craft.book import (
    Act,
    Craft,
    Lean,
    Side,
    Stitch,
    StitchBook,
    Terms,
    Wording,
    cable,
)
from bindoff.craft.stitches import standard_book
from bindoff.source.rowlang.custom import declare

__all__ = [
    "Act",
    "Craft",
    "Lean",
    "Side",
    "Stitch",
    "StitchBook",
    "Terms",
    "Wording",
    "cable",
    "declare",
    "standard_book",
]
