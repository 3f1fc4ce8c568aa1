"""A stitch of the designer's own."""

from bindoff import regex as re
from bindoff.craft.book import Stitch, StitchBook, Wording
from bindoff.craft.marks import MARKS, OWN_MARKS
from bindoff.craft.symbols import Symbol
from bindoff.diagnostics import Span, fail
from bindoff.records import replace
from bindoff.source.rowlang.sayings import RESERVED

_NEVER_LENT = {
    "knit": "a knit stitch, an empty cell",
    "purl": "a purl stitch, a dot",
    "no stitch": "a cell that is no stitch",
    "not worked": "a stitch beyond a turn",
}
"""Symbols that no other stitch can have, and what they are read as."""

_NAME = re.compile(r"[a-z][a-z0-9_]*(-[a-z0-9_]+)*")


def declare(
    book: StitchBook,
    id: str,
    uses: int,
    makes: int,
    name: str,
    how_to: str,
    span: Span | None = None,
    symbol: tuple[str, Span] | None = None,
) -> Stitch:
    """The designer's stitch ``id``, written in rows as it stands; ``name`` is its full name.

    It uses ``uses`` live stitches and leaves ``makes``; ``symbol`` is the name of its chart symbol
    and where that is written. Raises ``PatternError`` when ``id`` is in ``book`` already, or could
    be read as something else in a row, or when there is no such symbol.
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
    known = book.find(plain)
    if known and plain not in known.loose:
        raise fail(
            "row.stitch-taken",
            f"`{id}` is already the stitch {known.wording(book.terms).name}",
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
    return Stitch(
        plain,
        uses,
        makes,
        wording,
        wording,
        how_to,
        loops=max(makes, 1),
        symbol=_symbol(book, id, uses, *symbol) if symbol else None,
        family="stitches of this pattern",
    )


def _symbol(book: StitchBook, id: str, uses: int, name: str, span: Span) -> Symbol:
    found = MARKS[name] if name in OWN_MARKS else book.symbol(name)
    if found is None:
        marks = ", ".join(f"`{each}`" for each in OWN_MARKS)
        raise fail(
            "row.stitch-symbol",
            f"there is no chart symbol called `{name}`",
            f"Use one of {marks}; the symbol of another stitch, as `bindoff words` names it for "
            "each, such as `bobble`; or a cross such as `cable 2/2 right`",
            span,
        )
    if name in _NEVER_LENT:
        raise fail(
            "row.stitch-symbol",
            f"`{name}` is the symbol of {_NEVER_LENT[name]}, and knitters read it as that",
            f"Use another, such as `{OWN_MARKS[0]}`, or none: then the chart gives it a mark",
            span,
        )
    if found.wide not in (1, uses):
        raise fail(
            "row.stitch-symbol",
            f"the symbol `{name}` has a width of {found.wide}, and `{id}` uses {uses}",
            "Take a symbol of one cell, or one as wide as the stitch",
            span,
        )
    return found


def with_partner(book: StitchBook, id: str, field: str, partner: str, span: Span) -> StitchBook:
    """``book`` with the stitch called ``partner`` as a partner of the designer's stitch ``id``.

    ``field`` is ``wrong side`` or ``mirror``. Raises ``PatternError`` where ``partner`` is no
    stitch, or changes the count differently.
    """
    own, found = book[id.lower()], book.find(partner)
    if found is None:
        raise fail(
            "row.stitch-partner",
            f"`{partner}` is not a stitch",
            "Name a stitch that rows know, or one declared under `stitches:`",
            span,
        )
    if (found.consumes, found.produces) != (own.consumes, own.produces):
        raise fail(
            "row.stitch-partner",
            f"`{partner}` uses {found.consumes} and makes {found.produces}, `{id}` uses "
            f"{own.consumes} and makes {own.produces}",
            "A partner uses and makes as many stitches",
            span,
        )
    changed = (
        replace(own, mirror=found.id) if field == "mirror" else replace(own, on_wrong_side=found.id)
    )
    others = (changed if stitch is own else stitch for stitch in book.stitches)
    return StitchBook.of(others, book.acts, book.cautions, book.terms)
