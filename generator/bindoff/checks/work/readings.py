"""How rows were read that are not written in the row language's own form."""

from collections.abc import Iterator

from bindoff.checks.context import Context
from bindoff.checks.engine import Finding, check
from bindoff.diagnostics import Severity
from bindoff.plan.plan import Plan
from bindoff.source.rowlang.syntax import Row


@check(
    id="row.read-as",
    title="A repeat says how far it goes",
    looks_at="rows with a repeat that has no goal, which the words after it or the row's end give",
    why="the knitter is told a goal that the designer did not write",
    severity=Severity.NOTE,
    remedy="Write it so, or silence this; `bindoff check --readings` shows how all rows are read",
)
def guessed_goals(context: Context) -> Iterator[Finding]:
    """One finding for each row."""
    for row, read_as in _reworded(context.plan):
        if row.reading and row.reading.guessed:
            yield Finding(f"the row is read as `{read_as}`", row.span)


CHECKS = (guessed_goals,)


def readings(plan: Plan) -> tuple[str, ...]:
    """A line for each row that was put into the row language's form: where, and what it says."""
    return tuple(f"{row.span}: read as {read_as}" for row, read_as in _reworded(plan))


def _reworded(plan: Plan) -> Iterator[tuple[Row, str]]:
    rows = (row for piece in plan.pieces for step in piece.steps for row in step.rows)
    seen = set[object]()
    for row in rows:
        if row.reading is not None and row.span not in seen:
            seen.add(row.span)
            yield row, row.reading.text
