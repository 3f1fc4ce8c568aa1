"""Stranded rounds: how far a yarn passes behind the others, and how many go along."""

from collections.abc import Iterator, Sequence

from bindoff.checks.context import Context
from bindoff.checks.engine import Finding, check
from bindoff.checks.walk import At, charts_worked, gauges_of, note_of, sizes_said, steps_of
from bindoff.diagnostics import Severity, Span
from bindoff.plan.colour.floats import FloatRun, LimitRule, float_limit, float_runs
from bindoff.plan.colour.grid import ColourGrid
from bindoff.plan.picture import chart_yarns
from bindoff.plan.worked import ChartRows
from bindoff.records import Record, replace
from bindoff.source.chart import NO_COLOUR
from bindoff.source.rowlang.syntax import Repeat, Row, ToEnd, Work

Rounds = tuple[ColourGrid, ...]
"""The rounds of one size, each a grid of its own."""


class _Worst(Record):
    """The longest float of a chart or row in all sizes, its limit, and where else there are any."""

    longest: FloatRun
    limit: int
    rounds: tuple[int, ...]
    sizes: tuple[int, ...]


@check(
    id="float.long",
    title="Floats stay within reach",
    looks_at="every stranded round of a chart or row, around the seam and across its repeats, "
    "against about 2.5 cm (1 in) of width at each size's gauge, to the nearest stitch",
    why="a long float catches on fingers and buttons, pulls the fabric in, and shows",
    severity=Severity.WARNING,
    remedy="Break up the run in the chart, or say in the step's note where the float is caught",
)
def long_float(context: Context) -> Iterator[Finding]:
    """One finding for each chart or row that has long floats, at the longest."""
    yield from _long(context, LimitRule.ROUND)


@check(
    id="float.edge",
    title="Floats stay below their limit",
    looks_at="the same rounds against full stitches within 2.5 cm, where no float is longer than "
    "the nearest stitch",
    why="a float of just over 2.5 cm is still one to catch in mittens and for small fingers",
    severity=Severity.NOTE,
    remedy="Break up the run for mittens and baby things; elsewhere it may stay",
)
def edge_float(context: Context) -> Iterator[Finding]:
    """One finding for each chart or row without long floats that has such."""
    long = {finding.span for finding in _long(context, LimitRule.ROUND)}
    if not long:
        yield from _long(context, LimitRule.FLOOR)


def _long(context: Context, rule: LimitRule) -> Iterator[Finding]:
    done = set()
    for at, detail in charts_worked(context):
        if detail.drawing not in done and detail.stranded and not _caught(at):
            worst = _worst(context, at, _chart_grids(context, at, detail), rule)
            if worst:
                done.add(detail.drawing)
                run = worst.longest
                place = detail.grid.span(run.round_, _cell(context, detail, run))
                yield _finding(context, worst, f" of `{detail.chart}`", place)
    for at in steps_of(context):
        if at.step.answers.in_turn and not _caught(at):
            for row in at.step.rows:
                cells = _row_cells(row, at.step.yarn) * (2 if at.flat else 1)
                if not cells:
                    continue
                grids = [(ColourGrid((cells,), not at.flat),)] * len(context.source.sizes)
                worst = _worst(context, at, grids, rule)
                if worst:
                    yield _finding(context, worst, "", row.span or at.step.span)


def longest_float(context: Context, at: At, worked: ChartRows) -> int:
    """The stitches that the longest float of a worked chart passes behind, in any size."""
    if not worked.stranded:
        return 0
    grids = set(_chart_grids(context, at, worked))
    return max((run.length for rounds in grids for run in _runs(rounds)), default=0)


def _caught(at: At) -> bool:
    return any(word in note_of(at) for word in ("float", "catch", "trap", "twist"))


def _chart_grids(context: Context, at: At, detail: ChartRows) -> list[Rounds]:
    """What each size works, round by round, for they may differ in their number of stitches.

    In rows and beside edges, two repeats stand for all: more have no other floats.
    """
    grid = detail.grid
    yarns = chart_yarns(context.pattern.charts[detail.chart])
    known = context.pattern.yarns

    def cells(line: str, across: int) -> tuple[str, ...]:
        return tuple(
            yarn if (yarn := yarns[c]) in known and yarn else at.step.yarn
            for c in grid.laid(line, across)
            if yarns[c] not in NO_COLOUR
        )

    extents = [
        (rounds, min(across, 2) if at.flat or grid.edged else 1)
        for rounds, across in zip(detail.rounds, detail.most, strict=True)
    ]
    grids = {
        (rounds, across): tuple(
            ColourGrid((cells(line, across),), wraps=not at.flat)
            for line in grid.rounds[: grid.lines(rounds)]
        )
        for rounds, across in dict.fromkeys(extents)
    }
    return [grids[extent] for extent in extents]


def _cell(context: Context, detail: ChartRows, run: FloatRun) -> int:
    """The cell, from 1 and from the right, where a float of a chart begins."""
    yarns = chart_yarns(context.pattern.charts[detail.chart])
    grid = detail.grid
    line = grid.rounds[run.round_ - 1]
    places = list(range(1, grid.width + 1))
    if grid.edged:  # the float was found on two repeats
        end = grid.width - grid.after
        places = [*places[:end], *places[grid.before : end], *places[end:]]
    worked = [place for place in places if yarns[line[-place]] not in NO_COLOUR]
    return worked[(run.first - 1) % len(worked)]


def _row_cells(row: Row, yarn: str) -> tuple[str, ...]:
    """The yarns of a row that is one repeat to the end, left to right; else nothing."""
    if len(row.parts) != 1 or not isinstance(row.parts[0], Repeat):
        return ()
    repeat = row.parts[0]
    cells: list[str] = []
    for part in repeat.parts:
        if not isinstance(part, Work) or not isinstance(part.times, int):
            return ()
        cells += [part.yarn or row.yarn or yarn] * part.times
    return tuple(reversed(cells)) if isinstance(repeat.until, ToEnd) else ()


def _worst(context: Context, at: At, grids: Sequence[Rounds], rule: LimitRule) -> _Worst | None:
    """The longest float over the limit; what several sizes share is searched once."""
    runs: dict[int, tuple[FloatRun, ...]] = {}
    over: dict[tuple[int, int], FloatRun | None] = {}  # the longest
    longest: tuple[FloatRun, int] | None = None
    numbers, sizes = set[int](), list[int]()
    for size, (rounds, gauge) in enumerate(zip(grids, gauges_of(context, at), strict=True)):
        limit = float_limit(gauge.stitches_per(), rule)
        key = id(rounds), limit
        if key not in over:
            if id(rounds) not in runs:
                runs[id(rounds)] = tuple(_runs(rounds))
            long = [run for run in runs[id(rounds)] if run.length > limit]
            over[key] = max(long, key=lambda run: run.length, default=None)
            numbers.update(run.round_ for run in long)
        if here := over[key]:
            sizes.append(size)
            if longest is None or here.length > longest[0].length:
                longest = here, limit
    return _Worst(*longest, tuple(sorted(numbers)), tuple(sizes)) if longest else None


def _runs(rounds: Rounds) -> Iterator[FloatRun]:
    for number, grid in enumerate(rounds, start=1):
        yield from (replace(run, round_=number) for run in float_runs(grid))


def _finding(context: Context, worst: _Worst, where: str, place: Span) -> Finding:
    run, limit = worst.longest, worst.limit
    more = len(worst.rounds) - 1
    also = f", and {more} more {'round has' if more == 1 else 'rounds have'} such" if more else ""
    return Finding(
        f"`{run.yarn}` floats behind {run.length} stitches in round {run.round_}{where}; the "
        f"gauge of {sizes_said(context, worst.sizes)} allows {limit}{also}",
        place,
    )


@check(
    id="chart.three-yarns",
    title="No round carries three yarns",
    looks_at="every round of the charts that are knitted in colour",
    why="three yarns at once tangle, and the fabric gets stiff; many knitters can't do it evenly",
    severity=Severity.NOTE,
    remedy="Draw the round in two yarns, or leave the third for duplicate stitch",
)
def three_yarns(context: Context) -> Iterator[Finding]:
    """One finding for each chart, at its first such round."""
    carried = (detail.drawing for _, detail in charts_worked(context) if detail.stranded)
    for chart, grid in dict.fromkeys(carried):
        yarns = chart_yarns(context.pattern.charts[chart])
        for number, line in enumerate(grid.rounds, start=1):
            used = {yarns[c] for c in line} & set(context.pattern.yarns)
            if len(used) > 2:
                yield Finding(
                    f"round {number} of `{chart}` carries {len(used)} yarns", grid.span(number, 1)
                )
                break


CHECKS = (long_float, edge_float, three_yarns)
