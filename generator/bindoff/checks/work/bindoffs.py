"""Binding off inside a row, and what its stitch count leaves open."""

from collections.abc import Iterator

from bindoff.checks.context import Context
from bindoff.checks.engine import Finding, check
from bindoff.checks.walk import steps_of
from bindoff.diagnostics import Severity
from bindoff.plan.steps.work import Rows
from bindoff.source.rowlang.syntax import Kept


@check(
    id="row.bind-off-reading",
    title="A row that binds off and goes on can be counted in one way",
    looks_at="the rows of `work:` that bind off a number of stitches and go on, in both readings "
    "of the stitch left on the right needle: as the first of the next ones, or beside them",
    why="the pattern may be counted in the way that is not meant, and all counts after are wrong",
    severity=Severity.WARNING,
    remedy="Change the numbers of the row so that it fits in one way, or silence this",
)
def two_readings(context: Context) -> Iterator[Finding]:
    """One finding for each step."""
    for at in steps_of(context):
        if not isinstance(at.step.detail, Rows) or at.step.detail.doubt is None:
            continue
        doubt = at.step.detail.doubt
        ways = ("the first of the next stitches", "beside them")
        change = "larger by one"
        if doubt.taken is Kept.BESIDE:
            ways, change = (ways[1], ways[0]), "smaller by one"
        here, there = (", ".join(map(str, live)) for live in (doubt.stitches, doubt.others))
        yield Finding(
            f"the stitch left by binding off is counted as {ways[0]}, which leaves {here}; counted "
            f"as {ways[1]}, the row fits too and leaves {there}",
            doubt.row.span or at.step.span,
            f"If the second is meant, write the number after the binding off {change}",
        )


CHECKS = (two_readings,)
