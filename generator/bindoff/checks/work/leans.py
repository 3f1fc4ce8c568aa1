"""Rows of lace that are mirror images of themselves but for a decrease that leans the wrong way."""

from collections.abc import Iterator, Sequence

from bindoff.checks.context import Context
from bindoff.checks.engine import Finding, check
from bindoff.checks.walk import steps_of
from bindoff.craft.book import StitchBook
from bindoff.diagnostics import Severity
from bindoff.source.rowlang.syntax import Row, Work


@check(
    id="row.mirror",
    title="Lace that mirrors itself leans both ways",
    looks_at="rows of single stitches, the same read from either end, in a list of which another "
    "row is its own mirror image with its leans",
    why="a decrease that leans the wrong way breaks the line of the motif",
    severity=Severity.WARNING,
    remedy="Give one of the two the other lean, or silence it where both are meant to lean alike",
)
def leans_mirrored(context: Context) -> Iterator[Finding]:
    """One finding for each row."""
    book = context.plan.book
    for at in steps_of(context):
        if not at.step.answers.in_turn:
            continue
        rows = [(row, stitches) for row in at.step.rows if (stitches := _stitches(row))]
        if not any(_leans(book, each) and _mirrors(book, each) for _, each in rows):
            continue
        for row, stitches in rows:
            if _leans(book, stitches) and stitches == stitches[::-1]:
                name = next(s for s in stitches if book[s].mirror)
                yield Finding(
                    f"`{name}` stands on both sides of this row, and another row of the list has "
                    f"`{name}` and `{book[name].mirror}`",
                    row.span or at.step.span,
                )


def _stitches(row: Row) -> tuple[str, ...]:
    """The stitches of a row one by one; none where it has repeats, stretches or counts by size."""
    found: list[str] = []
    for part in row.parts:
        if not isinstance(part, Work) or not isinstance(part.times, int):
            return ()
        found += [part.stitch] * part.times
    return tuple(found)


def _leans(book: StitchBook, stitches: Sequence[str]) -> bool:
    return any(book[stitch].mirror for stitch in stitches)


def _mirrors(book: StitchBook, stitches: Sequence[str]) -> bool:
    """Whether it is its own mirror image, with every lean the other way."""
    return all(
        (book[one].mirror or one) == other
        for one, other in zip(stitches, reversed(stitches), strict=True)
    )


CHECKS = (leans_mirrored,)
