"""Counts that the designer wrote after a row, against what the row leaves."""

from collections.abc import Iterator

from bindoff.diagnostics import Diagnostic
from bindoff.plan.rowcount import Counted
from bindoff.source.rowlang.syntax import Reading, Stated


def miscounted(reading: Reading, counted: Counted, live: int, size: int) -> Iterator[Diagnostic]:
    """A finding for each stated count that is not so, in the size with that number.

    ``live`` are the stitches before the row.
    """
    for stated in reading.stated:
        said = stated.counts[size if len(stated.counts) > 1 else 0]
        change = (counted.live - live) * stated.sign
        if said != (change if stated.sign else counted.live):
            yield Diagnostic(
                "row.stated",
                _said(stated, said, counted.live, live),
                "Correct the count or the row; a count after a row holds each time it is worked",
                stated.span,
            )


def _said(stated: Stated, said: int, after: int, before: int) -> str:
    if stated.sign == 0:
        return f"the count after the row is {said}, and the row leaves {after}"
    way = "more" if stated.sign > 0 else "fewer"
    return f"the row says {said} stitches {way}, and it makes {after} of {before}"
