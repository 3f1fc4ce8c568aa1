"""A chart worked row by row."""

from collections.abc import Iterator, Sequence
from itertools import groupby

from bindoff.craft.stitches.cells import BEYOND, BIND_OFF, CAST_ON
from bindoff.diagnostics import Diagnostic, fail
from bindoff.english import how_many
from bindoff.plan.bench import Bench, Outcome, State, States
from bindoff.plan.chartproof import (
    Cells,
    Line,
    Turned,
    again_fault,
    closing_faults,
    fits,
    lines_of,
    row_faults,
    turn_faults,
    turning,
    turns_within,
    uses,
    width_fault,
)
from bindoff.plan.colour.bobbins import Bobbins, bobbins_of
from bindoff.plan.differences.matching import Keys
from bindoff.plan.differences.said import Facts, What
from bindoff.plan.differences.values import per_size
from bindoff.plan.measures import Measures
from bindoff.plan.picture import chart_yarns
from bindoff.plan.rowbyrow import work_rows
from bindoff.plan.shown import UNKNOWN, one_if_alike
from bindoff.plan.slipped import as_stitches, ground_fault, seam_fault, slipped_lines
from bindoff.plan.steps import nothing
from bindoff.plan.steps.common import needles, yarn_facts
from bindoff.plan.steps.kind import Kind
from bindoff.plan.worked import Answers, ChartRows, ChartWork, Hand, Loops, WorkedStep
from bindoff.records import Record, replace
from bindoff.source.chart import NO_COLOUR, NO_STITCH, Chart
from bindoff.source.grid import Grid
from bindoff.source.rowlang.stitches import StitchBook
from bindoff.source.rowlang.syntax import (
    Alter,
    CountChange,
    Fill,
    Group,
    Marker,
    Part,
    Repeat,
    Row,
    ToEnd,
    ToLast,
    Turn,
    Work,
)
from bindoff.source.steps.chart import ChartStep
from bindoff.source.yamltree import Place

_CHANGES = {BIND_OFF: CountChange.BIND_OFF, CAST_ON: CountChange.CAST_ON}
"""Cells that a row says in words of their own."""

_Chart = WorkedStep[ChartStep, ChartWork]


def _work(
    bench: Bench, index: int, step: ChartStep, yarn: str, states: States
) -> Outcome[ChartWork]:
    """The rounds of a chart, side by side as often as it fits."""
    source = bench.measures.source
    grids, chart = source.grids[step.chart], source.pattern.charts[step.chart]
    rounds = tuple(grid.rows for grid in grids)
    if step.rounds is not None:
        rounds = bench.measures.counts(step.rounds)
    bench.refuse(
        (size, bench.nothing_live(index)) for size, state in enumerate(states) if not state.live
    )
    if bench.mirrored and not all(_same_from_both_ends(grid, chart, bench.book) for grid in grids):
        raise fail(
            "mirror.chart",
            f"in `{bench.key}`, the chart is worked in a mirrored piece, and it is not the same "
            "from both ends",
            "Draw its mirror image as a chart of its own, and write the piece with its steps",
            step.place.of("chart").span,
        )
    lines = {grid: _lines(bench, grid, chart) for grid in source.drawings(step.chart)}
    bench.refuse(
        (size, fault)
        for size, (grid, count) in enumerate(zip(grids, rounds, strict=True))
        for fault in row_faults(grid, lines[grid], count, bench.row_word)
    )
    bench.refuse(
        (size, fault)
        for size, (grid, count) in enumerate(zip(grids, rounds, strict=True))
        for fault in turn_faults(
            grid,
            lines[grid],
            count,
            flat=bench.flat,
            starts_wrong=chart.first_row == "wrong side",
        )
    )
    if chart.slipped:
        bench.refuse(
            (size, fault)
            for size, (grid, count) in enumerate(zip(grids, rounds, strict=True))
            if count > grid.rows
            for fault in seam_fault(grid, slipped_lines(grid, chart, source.pattern.yarns), chart)
        )
    frame = _frame(bench, step)
    if bench.flat:
        wrong = chart.first_row == "wrong side"
        bench.refuse(
            (size, _other_side(step, state.rounds, wrong))
            for size, state in enumerate(states)
            if rounds[size] and state.wrong_side != wrong
        )
        if not any(row.parts for row in (*frame.right, *frame.left)):
            bench.refuse(
                (size, fault)
                for size, (grid, count) in enumerate(zip(grids, rounds, strict=True))
                for fault in closing_faults(grid, lines[grid], count, wrong)
            )
        bench.refuse(
            (size, _odd_height(step, grid.rows, wrong))
            for size, (grid, count) in enumerate(zip(grids, rounds, strict=True))
            if grid.rows % 2 and count > grid.rows
        )
    between = _between(bench, chart) if chart.rows != "all" else None
    starts_wrong = chart.first_row == "wrong side"
    twice = chart.mode == "mosaic"
    tasks = {grid: _Task(grid, lines[grid], between, starts_wrong, frame, twice) for grid in lines}
    return _passes(bench, index, step, yarn, states, rounds, [tasks[grid] for grid in grids])


def _lines(bench: Bench, grid: Grid, chart: Chart) -> tuple[Line, ...]:
    """The lines of a chart as stitches."""
    yarns = bench.measures.source.pattern.yarns
    if chart.slipped:
        return as_stitches(grid, slipped_lines(grid, chart, yarns), bench.book)
    return lines_of(grid, chart, yarns, bench.book)


def _same_from_both_ends(grid: Grid, chart: Chart, book: StitchBook) -> bool:
    """Whether every line reads the same backwards, with each stitch's mirror partner for it."""
    stitches = {}
    for sign, meaning in chart.legend.items():
        name = meaning if isinstance(meaning, str) else meaning.stitch or ""
        stitches[sign] = book.find(name)
    images = {}
    for sign, stitch in stitches.items():
        images[sign] = sign
        if stitch is not None and stitch.mirror:
            image = book.mirrored(stitch)
            images[sign] = next((s for s, each in stitches.items() if each == image), "")
    return all(
        "".join(images.get(sign, sign) for sign in reversed(line)) == line for line in grid.rounds
    )


class _Frame(Record):
    """What is worked at the right and at the left of a chart, on the right side and on the wrong
    side; ``uses`` live stitches in all, ``None`` where that hangs on the place."""

    right: tuple[Row, ...] = ()
    left: tuple[Row, ...] = ()
    uses: int | None = 0


class _Task(Record):
    """A chart to be worked: its lines, the row between them, and what stands beside it; ``twice``
    says that each line is worked once more in the next row."""

    grid: Grid
    lines: Sequence[Line]
    between: Row | None
    starts_wrong: bool
    frame: _Frame
    twice: bool = False

    @property
    def first(self) -> Line:
        """The line of the first row."""
        return self.lines[0]


def _between(bench: Bench, chart: Chart) -> Row:
    """The row between two that a chart draws."""
    if chart.other_rows is not None:
        (row,) = bench.rows(chart.place.of("other rows"))
        return row
    return Row((Fill("p" if bench.flat else "k", ToEnd()),))


def _frame(bench: Bench, step: ChartStep) -> _Frame:
    if step.beside is None:
        return _Frame()
    place = step.place.of("at")
    right = _outside(bench, step.beside.after, place.of("after"))
    left = _outside(bench, step.beside.before, place.of("before"))
    each = [_fixed(row, bench.book) for row in (right[0], left[0])]
    known = [uses for uses in each if uses is not None]
    return _Frame(right, left, sum(known) if len(known) == 2 else None)


def _outside(bench: Bench, written: int | str | tuple[str, ...], place: Place) -> tuple[Row, ...]:
    """What is worked on one side of a chart: on right-side rows, on wrong-side rows."""
    if isinstance(written, int):
        names = ("k", "p" if bench.flat else "k")
        return tuple(Row((Work(name, written),) if written else ()) for name in names)
    rows = bench.rows(place)
    return rows if len(rows) == 2 else (rows[0], rows[0])


def _fixed(row: Row, book: StitchBook) -> int | None:
    """The live stitches a row uses wherever it is worked; ``None`` if that hangs on the place."""
    uses = 0
    for part in row.parts:
        if isinstance(part, Marker):
            continue
        if not isinstance(part, Work) or not isinstance(part.times, int):
            return None
        uses += book[part.stitch].consumes * part.times
    return uses


def _passes(
    bench: Bench,
    index: int,
    step: ChartStep,
    yarn: str,
    states: States,
    rounds: tuple[int, ...],
    tasks: Sequence[_Task],
) -> Outcome[ChartWork]:
    """The chart from its first row to its last, over and over: each time as often as it fits.

    ``tasks`` are those of the sizes; a size of 0 ``rounds`` skips it.
    """
    bench.refuse_endless(index, states, rounds)
    place, frame = step.place.of("chart").span, tasks[0].frame
    given = bench.measures.counts(step.across) if step.across is not None else None
    if given is None and frame.uses is None:
        raise fail(
            "chart.across",
            "how many stitches are left for the chart hangs on what stands beside it",
            "Say how many times it is worked side by side: `across: 1`",
            step.place.of("at").span,
        )
    beside = frame.uses or 0
    wanted = list(zip(tasks, given or (None,) * len(states), strict=True))
    worked_as: dict[tuple[int, int | None], tuple[Row, ...]] = {}
    left, loops = list(rounds), [list[Loops]() for _ in rounds]
    passes = [list[int]() for _ in rounds]
    while any(left):
        if given is None:
            bench.refuse(
                (
                    size,
                    again_fault(task.grid, task.first, state.needle.left, bench.row_word, beside)
                    if passes[size]
                    else width_fault(
                        task.grid, task.first, state.needle.left, bench.row_word, place, beside
                    ),
                )
                for size, (state, task) in enumerate(zip(states, tasks, strict=True))
                if left[size] and not fits(task.first, state.needle.left, beside)
            )
        for size, (state, task) in enumerate(zip(states, tasks, strict=True)):
            if left[size]:
                rest = max(state.needle.left - task.first.edges.uses - beside, 0)
                uses = task.first.change.uses or 1
                passes[size].append(given[size] if given else rest // uses)
        bench.refuse(
            (size, _turned_aside(step, times[-1]))
            for size, (task, times) in enumerate(zip(tasks, passes, strict=True))
            if left[size] and times[-1] != 1 and turns_within(task.lines)
        )
        if bench.slips:
            bench.refuse(_grounds(bench, step, states, rounds, tasks, passes))
        now = []
        for size, (task, across) in enumerate(wanted):
            if task.grid.twin and passes[size]:
                across = passes[size][-1]  # both repeats as often
            key = (id(task), across)
            if key not in worked_as:  # what is alike is counted once
                worked_as[key] = _rows(bench, task, across)
            now.append(worked_as[key][: left[size]])
        if tasks[0].between is not None and left == list(rounds):
            bench.refuse(_growing(bench, index, step, yarn, states, now))
        states, worked = work_rows(bench, index, yarn, states, now)
        if bench.slips:
            states = tuple(
                _showing(bench, step, yarn, state, task, across[-1], count) if count else state
                for state, task, across, count in zip(states, tasks, passes, left, strict=True)
            )
        for size, more in enumerate(worked):
            loops[size] += more
            left[size] -= min(left[size], tasks[size].grid.rows)
    once = given is not None and set(given) == {1}
    drawings = bench.measures.source.drawings(step.chart)
    parts = [
        _part(step.chart, grid, sizes, rounds, passes, tasks[sizes[0]], once)
        for grid, sizes in drawings.items()
    ]
    chart = bench.measures.source.pattern.charts[step.chart]
    if chart.slipped:
        yarns = bench.measures.source.pattern.yarns
        parts = [replace(part, slipped=slipped_lines(part.grid, chart, yarns)) for part in parts]
    if chart.mode == "intarsia":
        parts = [replace(part, bobbins=_bobbins(bench, step, yarn, part)) for part in parts]
    return ChartWork(tuple(parts)), states, tuple(map(tuple, loops))


def _turned_aside(step: ChartStep, across: int) -> Diagnostic:
    return Diagnostic(
        "chart.turn",
        f"rows of the chart turn early within what is worked {how_many(across, 'time')} side by "
        "side",
        "Let the chart be as wide as the piece, or put `|` at both sides of a repeat that every "
        "row works whole",
        step.place.of("chart").span,
    )


def _growing(
    bench: Bench,
    index: int,
    step: ChartStep,
    yarn: str,
    states: States,
    rows: Sequence[tuple[Row, ...]],
) -> Iterator[tuple[int, Diagnostic]]:
    """Rows between those of a chart that change the count, per size: no cell would show it, and the
    repeats above would slip sideways."""
    chart = bench.measures.source.pattern.charts[step.chart]
    before = states
    if chart.first_row == "right side":  # the drawn row comes first
        before, _ = work_rows(bench, index, yarn, states, [each[:1] for each in rows])
        rows = [each[1:] for each in rows]
    after, _ = work_rows(bench, index, yarn, before, [each[:1] for each in rows])
    place = chart.place.of("other rows")
    for size, (one, other) in enumerate(zip(before, after, strict=True)):
        if one.live != other.live:
            yield (
                size,
                Diagnostic(
                    "chart.count",
                    f"the {bench.row_word}s between those of the chart change the count from "
                    f"{one.live} to {how_many(other.live, 'stitch')}, and no cell shows it",
                    f"Draw them too: take `rows: right side` and `other rows:` out of the chart, "
                    f"and draw every {bench.row_word} in the grid",
                    place.span,
                ),
            )


def _grounds(
    bench: Bench,
    step: ChartStep,
    states: States,
    rounds: tuple[int, ...],
    tasks: Sequence[_Task],
    passes: Sequence[Sequence[int]],
) -> Iterator[tuple[int, Diagnostic]]:
    """What is wrong, per size, below the first line of a chart that slips stitches."""
    source = bench.measures.source
    chart = source.pattern.charts[step.chart]
    if not chart.slipped:
        return
    for size, (state, task) in enumerate(zip(states, tasks, strict=True)):
        if rounds[size] and len(passes[size]) == 1:
            first = slipped_lines(task.grid, chart, source.pattern.yarns)[0]
            shown = state.shown if len(state.shown) == 1 or not task.frame.uses else UNKNOWN
            for fault in ground_fault(task.grid, first, chart, passes[size][0], shown):
                yield size, fault


def _showing(
    bench: Bench, step: ChartStep, yarn: str, state: State, task: _Task, across: int, count: int
) -> State:
    """A size after ``count`` rows of a chart or all of them, with the yarns that its last line
    shows where each of its cells is one stitch of the needle."""
    grid, chart = task.grid, bench.measures.source.pattern.charts[step.chart]
    if task.between is not None or task.frame.uses != 0:
        return state
    last = grid.lines(min(count, grid.rows)) - 1
    if chart.slipped:
        of = chart_yarns(chart)
        shown = tuple(of[character] or yarn for character in grid.laid(grid.rounds[last], across))
        return replace(state, shown=one_if_alike(shown))
    line = task.lines[last]
    cells = line.laid(across)
    if all(stitch.consumes == stitch.produces == 1 and stitch.loops for stitch, _ in cells):
        return replace(state, shown=one_if_alike(tuple(each or yarn for _, each in cells)))
    return state


def _part(
    chart: str,
    grid: Grid,
    sizes: Sequence[int],
    rounds: tuple[int, ...],
    passes: Sequence[Sequence[int]],
    task: _Task,
    once: bool,
) -> ChartRows:
    """What those ``sizes`` work that share a grid."""
    count = tuple(each if size in sizes else 0 for size, each in enumerate(rounds))
    done = [tuple(each) if count[size] else (0,) for size, each in enumerate(passes)]
    across = tuple(each[0] for each in done)
    again = tuple(done) if any(len(set(each)) > 1 for each in done) else ()
    frame = task.frame
    return ChartRows(
        chart,
        grid,
        count,
        across,
        again,
        task.between,
        frame.right,
        frame.left,
        once,
        turns=turning(task.lines),
    )


MOST_INTARSIA = 100_000
"""Stitches of a chart in intarsia at the most, in one size."""


def _bobbins(
    bench: Bench, step: ChartStep, yarn: str, rows: ChartRows
) -> tuple[tuple[Bobbins, ...], ...]:
    """The bobbins of a chart in intarsia, per size."""
    source, grid = bench.measures.source, rows.grid
    chart = source.pattern.charts[step.chart]
    passes = rows.passes or tuple(
        (across,) * -(-count // grid.rows)
        for across, count in zip(rows.across, rows.rounds, strict=True)
    )
    place = step.place.of("chart").span
    if not bench.flat:
        raise fail(
            "chart.intarsia",
            "a chart in intarsia is worked in rounds, where each yarn would end on the wrong side "
            "of its area",
            "Work the piece flat: `worked: flat`, or take `mode: intarsia` out of the chart",
            place,
        )
    if (
        max(most * count for most, count in zip(rows.most, rows.rounds, strict=True)) * grid.width
        > MOST_INTARSIA
    ):
        raise fail(
            "chart.intarsia",
            f"the chart has more than {MOST_INTARSIA:,} cells in intarsia",
            "Work it less often, or part it into several steps",
            place,
        )
    yarns = chart_yarns(chart)
    known = source.pattern.yarns

    def cells(line: str, across: int) -> tuple[str, ...]:
        return tuple(
            found if (found := yarns[c]) in known and found else yarn
            for c in grid.laid(line, across)
            if yarns[c] not in NO_COLOUR
        )

    return tuple(
        bobbins_of(
            [
                cells(line, across)
                for number, across in enumerate(times)
                for line in grid.rounds[: grid.lines(count - number * grid.rows)]
            ]
        )
        for times, count in zip(passes, rows.rounds, strict=True)
    )


def _rows(bench: Bench, task: _Task, across: int | None) -> tuple[Row, ...]:
    """One pass through a chart, row by row; ``across`` where it is given how often."""
    if task.twice:
        lines = [line for line in task.lines for _ in range(task.grid.every)]
        return chart_rows(bench, lines, task.starts_wrong, 1, across, task.frame)
    drawn = chart_rows(bench, task.lines, task.starts_wrong, task.grid.every, across, task.frame)
    if task.between is None:
        return drawn
    pairs = [(row, task.between) for row in drawn]
    return tuple(row for pair in pairs for row in (pair[::-1] if task.starts_wrong else pair))


def _other_side(step: ChartStep, rows: int, wrong: bool) -> Diagnostic:
    if wrong:
        return Diagnostic(
            "chart.side",
            f"the chart would begin on row {rows + 1}, a right-side row",
            "Work an odd number of rows before the chart, whose first row is a wrong-side row",
            step.place.of("chart").span,
        )
    return Diagnostic(
        "chart.side",
        f"the chart would begin on row {rows + 1}, a wrong-side row",
        "Work an even number of rows before the chart, whose first row is a right-side row; or "
        "write `first row: wrong side` into the chart",
        step.place.of("chart").span,
    )


def _odd_height(step: ChartStep, height: int, wrong: bool) -> Diagnostic:
    second = "a right-side row" if wrong else "a wrong-side row"
    return Diagnostic(
        "chart.odd",
        f"the chart has {how_many(height, 'row')}, so repeated flat its second pass would begin on "
        f"{second}",
        f"Draw it twice over in the grid, {2 * height} rows high",
        step.place.of("chart").span,
    )


def chart_rows(
    bench: Bench,
    lines: Sequence[Line],
    starts_wrong: bool = False,
    every: int = 1,
    across: int | None = None,
    frame: _Frame = _Frame(),
) -> tuple[Row, ...]:
    """The drawn rounds of a chart as rows, each repeated around; read in working direction.

    Flat, right-side and wrong-side rows take turns where ``every`` row is drawn. The stitches are
    those that show on the right side: what is worked for them on the other side counts alike.
    """
    rows = []
    for number, line in enumerate(lines):
        right = not bench.flat or every > 1 or number % 2 == starts_wrong
        begin, end = frame.right, frame.left
        first, repeat, last = line.before[::-1], line.repeat[::-1], line.after[::-1]
        centre, twin = line.centre[::-1], line.twin[::-1]
        if not right:
            begin, end = end, begin
            first, repeat, last = line.after, line.repeat, line.before
            if line.twin:
                repeat, centre, twin = line.twin, line.centre, line.repeat
        side = 0 if right else 1
        outside = [sides[side].parts if sides else () for sides in (begin, end)]
        if early := turning([line]):
            turned = Turned.of(line, right)
            if turned.before:
                outside[0] = ()
            if turned.beyond:
                outside[1] = (Turn(turned.wrapped),)
        body = _works(repeat)
        rest = uses(last) + (_fixed(end[side], bench.book) or 0 if end else 0)
        again: Part = Repeat(body, ToLast(rest) if rest else ToEnd())
        if across is not None or (early and turns_within([line])):
            again = Group(body, across or 1)
        second = (*_works(centre), Group(_works(twin), across)) if twin and across else ()
        parts = (*outside[0], *_works(first), again, *second, *_works(last), *outside[1])
        rows.append(Row(parts, yarn=line.yarn))
    return tuple(rows)


def _works(cells: Cells) -> tuple[Part, ...]:
    """The cells as parts of a row: those bound off or cast on next to each other are one."""
    found: list[Part] = []
    worked = ((stitch.id, yarn) for stitch, yarn in cells if stitch.id not in (NO_STITCH, *BEYOND))
    for (id, yarn), run in groupby(worked):
        count = len(tuple(run))
        if change := _CHANGES.get(id):
            found.append(Alter(change, count))
        else:
            found += [Work(id, yarn=yarn)] * count
    return tuple(found)


def _charts(step: _Chart) -> tuple[ChartRows, ...]:
    return tuple(part for part in step.detail.parts if any(part.rounds))


def _techniques(step: _Chart, flat: bool) -> tuple[str, ...]:
    reading = "chart-flat" if flat else "chart-in-the-round"
    if step.detail.bobbins:
        return (reading, "intarsia")
    if any(part.turns for part in step.detail.parts):
        return (reading, "short-rows")
    return (reading, "slipped-colors") if step.detail.parts[0].slipped else (reading,)


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
