"""Which yarn the live stitches show: what a stitch keeps that is slipped over the row above."""

from collections.abc import Iterator

from bindoff.craft.book import StitchBook
from bindoff.plan.rowcount import Counted, LiveStitches
from bindoff.source.rowlang.syntax import Fill, Group, InPattern, IntoOne, Part, Repeat, Row, Work

Shown = tuple[str, ...]
"""The one yarn of all live stitches, or the yarn of each, from left to right as the right side
shows them; empty where it is not known."""

UNKNOWN: Shown = ()


def one_if_alike(yarns: Shown) -> Shown:
    """One yarn where every stitch has the same."""
    return yarns[:1] if len(set(yarns)) == 1 else yarns


def shown_after(
    row: Row, yarn: str, before: Shown, needle: LiveStitches, counted: Counted, book: StitchBook
) -> Shown:
    """What the stitches show after a row, which is worked in ``yarn`` if it names none.

    Stitches that a row slips or leaves unworked keep what they showed ``before``.
    """
    yarns = {part or row.yarn or yarn for part in _yarns(row.parts)} or {row.yarn or yarn}
    if len(yarns) > 1:
        return UNKNOWN
    made = tuple(yarns)
    whole = not counted.unworked and not needle.right and not _keeps(row.parts, book)
    return made if whole or made == before else UNKNOWN


def _yarns(parts: tuple[Part, ...]) -> Iterator[str | None]:
    for part in parts:
        match part:
            case Work() | Fill():
                yield part.yarn
            case Group() | Repeat() | IntoOne():
                yield from _yarns(part.parts)
            case _:
                pass


def _keeps(parts: tuple[Part, ...], book: StitchBook) -> bool:
    """Whether a row may slip stitches."""
    for part in parts:
        match part:
            case Work() | Fill():
                stitch = book[part.stitch]
                if stitch.consumes and not stitch.loops:
                    return True
            case Group() | Repeat() | IntoOne():
                if _keeps(part.parts, book):
                    return True
            case InPattern():
                return True
            case _:
                pass
    return False
