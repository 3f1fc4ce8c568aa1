"""The stitch patterns and charts that a step was worked in, of all sizes together."""

from collections.abc import Sequence

from bindoff.plan.established import PatternUse
from bindoff.plan.worked import ChartRows, InPatterns, PatternRows

Laid = Sequence[Sequence[PatternUse]]
"""What each row of a step was worked in, in one size."""


def worked_in(sizes: Sequence[Laid], flat: bool) -> InPatterns:
    """What a step was worked in; ``sizes`` has the rows of each size."""
    uses = [[each for row in rows for each in row] for rows in sizes]
    keys = dict.fromkeys((each.rows.key, each.rows.chart) for size in uses for each in size)
    stitch: list[PatternRows] = []
    charts: list[ChartRows] = []
    charts_begun: list[str] = []
    for key in keys:
        own = [[u for u in size if (u.rows.key, u.rows.chart) == key] for size in uses]
        rounds = tuple(
            sum(any((u.rows.key, u.rows.chart) == key for u in row) for row in rows)
            for rows in sizes
        )
        rows = next(each.rows for size in own for each in size)
        begun = any(each.begun for size in own for each in size)
        if rows.grid is not None:
            charts_begun += [rows.key] if begun else []
            times = tuple(size[0].times if size else 0 for size in own)
            charts.append(ChartRows(rows.key, rows.grid, rounds, times, once=set(times) <= {0, 1}))
        else:
            stitch.append(PatternRows(rows, begun, flat, rounds))
    return InPatterns(tuple(stitch), tuple(charts), tuple(charts_begun))
