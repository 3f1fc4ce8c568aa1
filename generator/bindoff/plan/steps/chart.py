"""A chart worked row by row."""

from bindoff.diagnostics import Diagnostic
from bindoff.plan.bench import Bench, Outcome, States
from bindoff.plan.chartproof import changes_of, line_stitches, row_faults, width_fault
from bindoff.plan.differences.meeting import Keys
from bindoff.plan.differences.said import Facts, What
from bindoff.plan.differences.values import per_size
from bindoff.plan.measures import Measures
from bindoff.plan.nouns import how_many
from bindoff.plan.steps import nothing
from bindoff.plan.steps.common import needles, yarn_facts
from bindoff.plan.steps.kind import Kind
from bindoff.plan.worked import Answers, ChartRows, Hand, WorkedStep
from bindoff.source.models import NO_STITCH, ChartStep
from bindoff.source.rowlang.syntax import Repeat, Row, ToEnd, Work

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
    changes = changes_of(grid, pattern.charts[step.chart], pattern.yarns, bench.book)
    bench.refuse(
        (size, fault)
        for size, count in enumerate(rounds)
        for fault in row_faults(grid, changes, count, bench.row_word)
    )
    first, place = changes[0], step.place.of("chart").span
    bench.refuse(
        (size, width_fault(grid, first, state.needle.left, bench.row_word, place))
        for size, state in enumerate(states)
        if rounds[size] and state.needle.left % first.uses
    )
    if bench.flat:
        bench.refuse(
            (size, _wrong_side(step, state.rounds))
            for size, state in enumerate(states)
            if state.rounds % 2
        )
        bench.refuse(
            (size, _odd_height(step, grid.height))
            for size, count in enumerate(rounds)
            if grid.height % 2 and count > grid.height
        )
    rows = chart_rows(bench, step.chart)
    plans = [[rows[i % len(rows)] for i in range(count)] for count in rounds]
    after, worked = bench.work(index, yarn, states, plans)
    across = tuple(state.needle.left // (first.uses or 1) for state in states)
    return ChartRows(step.chart, rounds, across), after, worked


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


def chart_rows(bench: Bench, key: str) -> tuple[Row, ...]:
    """The rounds of a chart as rows, each repeated around; read in working direction.

    Flat, the first row is a right-side row and every other one a wrong-side row. The stitches are
    those that show on the right side: what is worked for them on the other side counts alike.
    """
    chart = bench.measures.source.pattern.charts[key]
    yarns = bench.measures.source.pattern.yarns
    rows = []
    grid = bench.measures.source.grids[key]
    for number in range(1, grid.height + 1):
        cells = line_stitches(grid, number, chart, yarns, bench.book)
        seen = cells if bench.flat and number % 2 == 0 else cells[::-1]
        parts = tuple(Work(stitch.id, yarn=yarn) for stitch, yarn in seen if stitch.id != NO_STITCH)
        rows.append(Row((Repeat(parts, ToEnd()),)))
    return tuple(rows)


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
