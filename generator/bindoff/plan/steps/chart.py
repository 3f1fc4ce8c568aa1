"""A chart worked row by row."""

from collections.abc import Sequence

from bindoff.diagnostics import Diagnostic
from bindoff.plan.bench import Bench, Outcome, States
from bindoff.plan.chartproof import Cells, Line, fits, lines_of, row_faults, uses, width_fault
from bindoff.plan.differences.meeting import Keys
from bindoff.plan.differences.said import Facts, What
from bindoff.plan.differences.values import per_size
from bindoff.plan.measures import Measures
from bindoff.plan.nouns import how_many
from bindoff.plan.steps import nothing
from bindoff.plan.steps.common import needles, yarn_facts
from bindoff.plan.steps.kind import Kind
from bindoff.plan.worked import Answers, ChartRows, Hand, Loops, WorkedStep
from bindoff.source.models import NO_STITCH, ChartStep
from bindoff.source.rowlang.syntax import Repeat, Row, ToEnd, ToLast, Work

_Chart = WorkedStep[ChartStep, ChartRows]


def _work(
    bench: Bench, index: int, step: ChartStep, yarn: str, states: States
) -> Outcome[ChartRows]:
    """The rounds of a chart, side by side as often as it fits."""
    grid = bench.measures.source.grids[step.chart]
    rounds = (grid.height,) * len(states)
    if step.rounds is not None:
        rounds = bench.measures.counts(step.rounds)
    bench.refuse(
        (size, bench.nothing_live(index)) for size, state in enumerate(states) if not state.live
    )
    pattern = bench.measures.source.pattern
    lines = lines_of(grid, pattern.charts[step.chart], pattern.yarns, bench.book)
    bench.refuse(
        (size, fault)
        for size, count in enumerate(rounds)
        for fault in row_faults(grid, lines, count, bench.row_word)
    )
    if bench.flat:
        bench.refuse(
            (size, _wrong_side(step, state.rounds))
            for size, state in enumerate(states)
            if rounds[size] and state.rounds % 2
        )
        bench.refuse(
            (size, _odd_height(step, grid.height))
            for size, count in enumerate(rounds)
            if grid.height % 2 and count > grid.height
        )
    return _passes(bench, index, step, yarn, states, rounds, lines)


def _passes(
    bench: Bench,
    index: int,
    step: ChartStep,
    yarn: str,
    states: States,
    rounds: tuple[int, ...],
    lines: Sequence[Line],
) -> Outcome[ChartRows]:
    """The chart from its first row to its last, over and over: each time as often as it fits."""
    bench.refuse_endless(index, states, rounds)
    grid, first = bench.measures.source.grids[step.chart], lines[0]
    rows, place = chart_rows(bench, lines), step.place.of("chart").span
    left, loops = list(rounds), [list[Loops]() for _ in rounds]
    passes = [list[int]() for _ in rounds]
    while not passes[0] or any(left):
        bench.refuse(
            (size, width_fault(grid, first, state.needle.left, bench.row_word, place))
            for size, state in enumerate(states)
            if left[size] and not fits(first, state.needle.left)
        )
        for size, state in enumerate(states):
            if left[size] or not passes[size]:
                rest = max(state.needle.left - first.edges.uses, 0)
                passes[size].append(rest // (first.change.uses or 1))
        states, worked = bench.work(index, yarn, states, [rows[:count] for count in left])
        for size, more in enumerate(worked):
            loops[size] += more
            left[size] -= min(left[size], len(rows))
    across = tuple(each[0] for each in passes)
    changing = any(len(set(each)) > 1 for each in passes)
    again = tuple(map(tuple, passes)) if changing else ()
    return ChartRows(step.chart, rounds, across, again), states, tuple(map(tuple, loops))


def _wrong_side(step: ChartStep, rows: int) -> Diagnostic:
    return Diagnostic(
        "chart.side",
        f"the chart would begin on row {rows + 1}, a wrong-side row",
        "Work an even number of rows before the chart, whose first row is a right-side row",
        step.place.of("chart").span,
    )


def _odd_height(step: ChartStep, height: int) -> Diagnostic:
    return Diagnostic(
        "chart.odd",
        f"the chart has {how_many(height, 'row')}, so repeated flat its second pass would begin on "
        "a wrong-side row",
        f"Draw it twice over in the grid, {2 * height} rows high",
        step.place.of("chart").span,
    )


def chart_rows(bench: Bench, lines: Sequence[Line]) -> tuple[Row, ...]:
    """The rounds of a chart as rows, each repeated around; read in working direction.

    Flat, the first row is a right-side row and every other one a wrong-side row. The stitches are
    those that show on the right side: what is worked for them on the other side counts alike.
    """
    rows = []
    for number, line in enumerate(lines, start=1):
        first, repeat, last = line.before[::-1], line.repeat[::-1], line.after[::-1]
        if bench.flat and number % 2 == 0:
            first, repeat, last = line.after, line.repeat, line.before
        until = ToLast(uses(last)) if uses(last) else ToEnd()
        rows.append(Row((*_works(first), Repeat(_works(repeat), until), *_works(last))))
    return tuple(rows)


def _works(cells: Cells) -> tuple[Work, ...]:
    return tuple(Work(stitch.id, yarn=yarn) for stitch, yarn in cells if stitch.id != NO_STITCH)


def _charts(step: _Chart) -> tuple[ChartRows, ...]:
    return (step.detail,)


def _techniques(step: _Chart, flat: bool) -> tuple[str, ...]:
    return ("chart-flat" if flat else "chart-in-the-round",)


def _facts(measures: Measures, step: _Chart, keys: Keys) -> Facts:
    return {
        **yarn_facts(measures, step, keys),
        (What.CHART, ""): {"": keys.chart(step.detail.chart)},
        (What.REPEATS, ""): per_size(measures, step.detail.across),
    }


KIND = Kind(
    ChartStep,
    _work,
    Answers(
        rows=nothing.rows,
        in_turn=False,
        charts=_charts,
        tubes=nothing.tubes,
        pictures=nothing.pictures,
        begins=nothing.stitches,
        closes=nothing.stitches,
        thread=nothing.thread,
        tools=needles,
        techniques=_techniques,
        facts=_facts,
        stops=nothing.stops,
        heading=nothing.heading,
        idle=False,
        hand=Hand.WORKED,
    ),
)
