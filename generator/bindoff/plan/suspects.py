"""Which row is likelier wrong where one does not fit the stitches that those before it left."""

from collections.abc import Callable, Sequence

from bindoff.diagnostics import Diagnostic
from bindoff.english import how_many
from bindoff.records import replace
from bindoff.source.rowlang.syntax import Row

_OF_COUNTS = ("row.too-many", "row.too-few", "row.left-over")


def the_row_before(
    found: Diagnostic,
    rows: Sequence[Row],
    lives: Sequence[int],
    leaves: Callable[[Row, int], int | None],
    word: str,
    first: int,
) -> Diagnostic:
    """``found`` about the last of ``rows``, or told at an earlier one that is the likelier slip.

    It is where a single row of a step has changed the count and the one that does not fit would
    work, and leave, just the stitches that there were: patterns of stitches keep their count.
    ``lives`` are the stitches before the first row and after each that fitted, ``leaves`` says what
    a row leaves of so many, ``None`` where it does not fit. ``first`` is the number of the first
    row, as ``word`` says it: row or round.
    """
    changed = [at for at in range(len(rows) - 1) if lives[at] != lives[at + 1]]
    if found.id not in _OF_COUNTS or len(changed) != 1:
        return found
    at = changed[0]
    kept = lives[at]
    if rows[at].span is None or rows[at] == rows[-1] or leaves(rows[-1], kept) != kept:
        return found
    return replace(
        found,
        message=f"{found.message}; {word} {first + at} has left {lives[at + 1]} of {kept}",
        help=f"Let {word} {first + at} leave {how_many(kept, 'stitch')}, or change {word} "
        f"{first + len(rows) - 1}",
        span=rows[at].span,
    )
