"""Computed shaping as rows of the row language, so that one count and one wording serve both."""

from bindoff.plan.spacing import ShapedRow
from bindoff.source.rowlang.syntax import Fill, Group, Part, Repeat, Row, ToEnd, Work

PLAIN = Row((Fill("k", ToEnd()),))
"""A plain round, or a plain row on the right side."""
PURLED = Row((Fill("p", ToEnd()),))
"""A plain row on the wrong side."""


def shaped_row(shaped: ShapedRow, stitch: str) -> Row:
    """``*k7, m1; repeat from * to end``, or the groups in turn where they differ.

    ``stitch`` is the one to change with; it uses and makes as many as the change of ``shaped``.
    """
    once = tuple(_group(run.group, run.times, stitch) for run in shaped.runs)
    if len(once) == 1 and not shaped.rest:
        return Row((Repeat(_steps(shaped.runs[0].group, stitch), ToEnd()),))
    parts: tuple[Part, ...] = once
    if shaped.repeats > 1:
        if not shaped.rest:
            return Row((Repeat(once, ToEnd()),))
        parts = (Group(once, shaped.repeats),)
    if shaped.rest:
        parts = (*parts, Work("k", shaped.rest))
    return Row(parts)


def wedge_row(work: int, decrease: str) -> Row:
    """``*k9, k2tog; repeat from * to end``: one decrease in every wedge."""
    return Row((Repeat(_steps(work, decrease), ToEnd()),))


def _group(group: int, times: int, change: str) -> Part:
    steps = _steps(group, change)
    if times == 1 and len(steps) == 1:
        return steps[0]
    return Group(steps, times)


def _steps(group: int, change: str) -> tuple[Part, ...]:
    return (Work("k", group), Work(change)) if group else (Work(change),)
