"""A stitch of the designer's own."""

import re

from bindoff.craft.book import Stitch, StitchBook, Wording
from bindoff.diagnostics import Span, fail
from bindoff.source.rowlang.vocabulary import RESERVED

_NAME = re.compile(r"[a-z][a-z0-9_]*(-[a-z0-9_]+)*")


def declare(
    book: StitchBook,
    id: str,
    uses: int,
    makes: int,
    name: str,
    how_to: str,
    span: Span | None = None,
) -> Stitch:
    """The designer's stitch ``id``, written in rows as it stands; ``name`` is its full name.

    It uses ``uses`` live stitches and leaves ``makes``. Raises ``PatternError`` when ``id`` is in
    ``book`` already, or could be read as something else in a row.
    """
    plain = id.lower()
    if not _NAME.fullmatch(plain):
        raise fail(
            "row.stitch-name",
            f"`{id}` can't be the name of a stitch",
            "Use one word of letters and digits that begins with a letter, such as `bobble`",
            span,
        )
    if plain in RESERVED:
        raise fail(
            "row.stitch-name",
            f"`{id}` means something else in a row",
            "Give the stitch another name",
            span,
        )
    if known := book.find(plain):
        raise fail(
            "row.stitch-taken",
            f"`{id}` is already the stitch {known.us.name}",
            "Give the stitch another name",
            span,
        )
    if uses == 0 and makes == 0:
        raise fail(
            "row.stitch-empty",
            f"the stitch `{id}` uses no stitch and makes none",
            "Say how many stitches it uses up or leaves",
            span,
        )
    wording = Wording(id, name, id, name)
    return Stitch(plain, uses, makes, wording, wording, how_to, loops=max(makes, 1))
