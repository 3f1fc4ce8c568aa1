"""A chart worked row by row."""

from collections.abc import Callable, Iterable, Iterator, Sequence

from bindoff.diagnostics import Diagnostic, fail
from bindoff.english import how_many
from bindoff.plan.bench import Bench, Outcome, State, States
from bindoff.plan.chartpass import Drawn, between_of, frame_of, one_pass
from bindoff.plan.chartproof import (
    Line,
    again_fault,
    closing_faults,
    fits,
    lines_of,
    row_faults,
    turn_faults,
    turning,
    turns_within,
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
from bindoff.records import replace
from bindoff.source.chart import NO_COLOUR, Chart
from bindoff.source.grid import Grid
from bindoff.source.rowlang.stitches import StitchBook
from bindoff.source.rowlang.syntax import (
    Row,
)
from bindoff.source.steps.chart import ChartStep

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
    frame = frame_of(bench, step)
    between = between_of(bench, chart) if chart.rows != "all" else None
    starts_wrong, twice = chart.first_row == "wrong side", chart.mode == "mosaic"
    alike = {
        grid: Drawn(grid, _lines(bench, grid, chart), between, starts_wrong, frame, twice)
        for grid in source.drawings(step.chart)
    }
    drawn = [alike[grid] for grid in grids]
    for faults in _drawing_faults(bench, step, drawn, rounds, states):
        bench.refuse(faults)
    return _passes(bench, index, step, yarn, states, rounds, drawn)


def _drawing_faults(
    bench: Bench,
    step: ChartStep,
    drawn: Sequence[Drawn],
    rounds: Sequence[int],
    states: States,
) -> Iterator[Iterator[tuple[int, Diagnostic]]]:
    """Why so many rounds of a chart can't be worked one upon the other, or not from here: a kind
    of fault after the other, each with the sizes that have it."""
    source = bench.measures.source
    chart = source.pattern.charts[step.chart]
    wrong = chart.first_row == "wrong side"
    each = [(size, one, count) for size, (one, count) in enumerate(zip(drawn, rounds, strict=True))]
    again = [one for one in each if one[2] > one[1].grid.rows]
    yield _of_alike(each, lambda one, n: row_faults(one.grid, one.lines, n, bench.row_word))
    yield _of_alike(
        each,
        lambda one, n: turn_faults(one.grid, one.lines, n, flat=bench.flat, starts_wrong=wrong),
    )
    if chart.slipped:
        yarns = source.pattern.yarns
        yield _of_alike(
            again,
            lambda one, _: seam_fault(one.grid, slipped_lines(one.grid, chart, yarns), chart),
        )
    if not bench.flat:
        return
    yield (
        (size, _other_side(step, state.rounds, wrong))
        for size, state in enumerate(states)
        if rounds[size] and state.wrong_side != wrong
    )
    yield _of_alike(
        [one for one in each if not one[1].frame.works],
        lambda one, n: closing_faults(one.grid, one.lines, n, wrong),
    )
    yield (
        (size, _odd_height(step, one.grid.rows, wrong))
        for size, one, _ in again
        if one.grid.rows % 2
    )


def _of_alike(
    each: Iterable[tuple[int, Drawn, int]], faults: Callable[[Drawn, int], Iterable[Diagnostic]]
) -> Iterator[tuple[int, Diagnostic]]:
    """The ``faults`` of all sizes; a drawing that several work as high is looked at once."""
    known: dict[tuple[int, int], tuple[Diagnostic, ...]] = {}
    for size, one, count in each:
        if (id(one), count) not in known:
            known[id(one), count] = tuple(faults(one, count))
        yield from ((size, fault) for fault in known[id(one), count])


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


def _passes(
    bench: Bench,
    index: int,
    step: ChartStep,
    yarn: str,
    states: States,
    rounds: tuple[int, ...],
    drawn: Sequence[Drawn],
) -> Outcome[ChartWork]:
    """The chart from its first row to its last, over and over: each time as often as it fits.

    ``drawn`` is the chart of each size; a size of 0 ``rounds`` skips it.
    """
    bench.refuse_endless(index, states, rounds)
    given = bench.measures.counts(step.across) if step.across is not None else None
    if given is None and drawn[0].frame.uses is None:
        raise fail(
            "chart.across",
            "how many stitches are left for the chart hangs on what stands beside it",
            "Say how many times it is worked side by side: `across: 1`",
            step.place.of("at").span,
        )
    worked_as: dict[tuple[int, int | None], tuple[Row, ...]] = {}
    apart = {id(one): one for one in drawn}
    turned = {key for key, one in apart.items() if turns_within(one.lines)}
    left, loops = list(rounds), [list[Loops]() for _ in rounds]
    passes = [list[int]() for _ in rounds]
    while any(left):
        if given is None:
            bench.refuse(_misfits(bench, step, states, drawn, left, passes))
        for size, (state, one) in enumerate(zip(states, drawn, strict=True)):
            if left[size]:
                passes[size].append(given[size] if given else one.times_over(state.needle.left))
        bench.refuse(
            (size, _turned_aside(step, times[-1]))
            for size, (one, times) in enumerate(zip(drawn, passes, strict=True))
            if left[size] and times[-1] != 1 and id(one) in turned
        )
        if bench.slips:
            bench.refuse(_grounds(bench, step, states, rounds, drawn, passes))
        now = []
        for size, one in enumerate(drawn):
            across = given[size] if given else None
            if one.grid.twin and passes[size]:
                across = passes[size][-1]  # both repeats as often
            key = (id(one), across)
            if key not in worked_as:  # what is alike is counted once
                worked_as[key] = one_pass(bench, one, across)
            now.append(worked_as[key][: left[size]])
        if drawn[0].between is not None and left == list(rounds):
            bench.refuse(_growing(bench, index, step, yarn, states, now))
        states, worked = work_rows(bench, index, yarn, states, now)
        if bench.slips:
            states = tuple(
                _showing(bench, step, yarn, state, one, across[-1], count) if count else state
                for state, one, across, count in zip(states, drawn, passes, left, strict=True)
            )
        for size, more in enumerate(worked):
            loops[size] += more
            left[size] -= min(left[size], drawn[size].grid.rows)
    once = given is not None and set(given) == {1}
    detail = ChartWork(_parts(bench, step, yarn, rounds, drawn, passes, once))
    return detail, states, tuple(map(tuple, loops))


def _misfits(
    bench: Bench,
    step: ChartStep,
    states: States,
    drawn: Sequence[Drawn],
    left: Sequence[int],
    passes: Sequence[Sequence[int]],
) -> Iterator[tuple[int, Diagnostic]]:
    """Sizes with rows ``left`` whose stitches the chart does not divide, at its first row or when
    it begins again."""
    for size, (state, one) in enumerate(zip(states, drawn, strict=True)):
        grid, first, live = one.grid, one.first, state.needle.left
        beside, word = one.frame.uses or 0, bench.row_word
        if not left[size] or fits(first, live, beside):
            continue
        if passes[size]:
            yield size, again_fault(grid, first, live, word, beside)
        else:
            place = step.place.of("chart").span
            yield size, width_fault(grid, first, live, word, place, beside)


def _parts(
    bench: Bench,
    step: ChartStep,
    yarn: str,
    rounds: tuple[int, ...],
    drawn: Sequence[Drawn],
    passes: Sequence[Sequence[int]],
    once: bool,
) -> tuple[ChartRows, ...]:
    """What was worked of each grid, with its slipped lines or its bobbins."""
    source = bench.measures.source
    chart, drawings = source.pattern.charts[step.chart], source.drawings(step.chart)
    parts = [
        _part(step.chart, grid, sizes, rounds, passes, drawn[sizes[0]], once)
        for grid, sizes in drawings.items()
    ]
    if chart.slipped:
        yarns = source.pattern.yarns
        parts = [replace(part, slipped=slipped_lines(part.grid, chart, yarns)) for part in parts]
    if chart.mode == "intarsia":
        parts = [replace(part, bobbins=_bobbins(bench, step, yarn, part)) for part in parts]
    return tuple(parts)


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
    drawn: Sequence[Drawn],
    passes: Sequence[Sequence[int]],
) -> Iterator[tuple[int, Diagnostic]]:
    """What is wrong, per size, below the first line of a chart that slips stitches."""
    source = bench.measures.source
    chart = source.pattern.charts[step.chart]
    if not chart.slipped:
        return
    for size, (state, one) in enumerate(zip(states, drawn, strict=True)):
        if rounds[size] and len(passes[size]) == 1:
            first = slipped_lines(one.grid, chart, source.pattern.yarns)[0]
            shown = state.shown if len(state.shown) == 1 or not one.frame.uses else UNKNOWN
            for fault in ground_fault(one.grid, first, chart, passes[size][0], shown):
                yield size, fault


def _showing(
    bench: Bench, step: ChartStep, yarn: str, state: State, drawn: Drawn, across: int, count: int
) -> State:
    """A size after ``count`` rows of a chart or all of them, with the yarns that its last line
    shows where each of its cells is one stitch of the needle."""
    grid, chart = drawn.grid, bench.measures.source.pattern.charts[step.chart]
    if drawn.between is not None or drawn.frame.uses != 0:
        return state
    last = grid.lines(min(count, grid.rows)) - 1
    if chart.slipped:
        of = chart_yarns(chart)
        shown = tuple(of[character] or yarn for character in grid.laid(grid.rounds[last], across))
        return replace(state, shown=one_if_alike(shown))
    line = drawn.lines[last]
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
    drawn: Drawn,
    once: bool,
) -> ChartRows:
    """What those ``sizes`` work that share a grid."""
    count = tuple(each if size in sizes else 0 for size, each in enumerate(rounds))
    done = [tuple(each) if count[size] else (0,) for size, each in enumerate(passes)]
    across = tuple(each[0] for each in done)
    again = tuple(done) if any(len(set(each)) > 1 for each in done) else ()
    frame = drawn.frame
    return ChartRows(
        chart,
        grid,
        count,
        across,
        again,
        drawn.between,
        frame.right,
        frame.left,
        once,
        turns=turning(drawn.lines),
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
