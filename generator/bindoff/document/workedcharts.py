"""The charts that steps work: how each is worked, and what its drawing and its rows say."""

from collections import Counter
from collections.abc import Iterator, Mapping

from bindoff.craft.entry import Side
from bindoff.craft.stitches.cells import WRAPPED
from bindoff.document.chartkeys import is_worked, said_of, stitch_of, worked_keys
from bindoff.document.charts.spec import ChartKey, ChartSpec, RepeatBox
from bindoff.document.charts.written import YARN_BAND
from bindoff.document.phrases import text
from bindoff.document.tree import Inlines
from bindoff.document.voice import Voice
from bindoff.english import how_many
from bindoff.plan.chartproof import Line, counts, lines_of, turns_within
from bindoff.plan.gauge import Gauge
from bindoff.plan.persize import named
from bindoff.plan.picture import chart_yarns, piece_gauges
from bindoff.plan.plan import Plan
from bindoff.plan.worked import ChartRows, PiecePlan
from bindoff.records import Record, replace
from bindoff.remembered import once_each
from bindoff.source.chart import Chart
from bindoff.source.grid import Grid
from bindoff.source.rowlang.syntax import Row, Turn, Work


class _Way(Record):
    """How a chart is worked: one chart in two ways needs two sets of written rows."""

    chart: str
    grid: Grid
    flat: bool
    inside: bool
    once: bool

    @property
    def drawing(self) -> tuple[str, Grid]:
        """The chart and the grid."""
        return self.chart, self.grid


def chart_id(plan: Plan, piece: PiecePlan, chart: ChartRows) -> str:
    """The id of the page that shows a chart as a piece works it."""
    return _ids(plan)[_way(piece, chart)]


@once_each  # every step that works a chart asks
def _ids(plan: Plan) -> Mapping[_Way, str]:
    ways, numbers = dict.fromkeys(way for _, way in _worked(plan)), Counter[str]()
    found = {}
    for way in ways:
        numbers[way.chart] += 1
        number = numbers[way.chart]
        found[way] = way.chart if number == 1 else f"{way.chart}-{number}"
    return found


def charted_rows(plan: Plan) -> Iterator[Row]:
    """Rows of the stitches that the charts' words name by an abbreviation."""
    for rows, way in _worked(plan):
        chart, grid = plan.source.pattern.charts[way.chart], way.grid
        if rows.between:
            yield rows.between
        yield from (*rows.first, *rows.last)
        starts = chart.first_row == "wrong side"
        for number, line in enumerate(grid.rounds[: grid.lines(max(rows.rounds))]):
            wrong = way.flat and grid.every == 1 and (number % 2 == 1) != starts
            for character in sorted(set(line)):
                stitch = stitch_of(plan, chart, character)
                if stitch is not None:
                    shown = plan.book.showing(stitch, _side(wrong))
                    if shown.id == WRAPPED:
                        yield Row((Turn(wrap=True),))
                    elif not shown.counted and is_worked(shown):
                        yield Row((Work(shown.id),))


def _worked(plan: Plan) -> Iterator[tuple[ChartRows, _Way]]:
    for piece in plan.pieces:
        for rows in _first_flat(piece):
            yield rows, _way(piece, rows)


@once_each
def _first_flat(piece: PiecePlan) -> Mapping[ChartRows, bool]:
    """What a piece works of charts, in order, and whether the first step that does is flat."""
    found: dict[ChartRows, bool] = {}
    for step in piece.steps:
        for rows in step.charts:
            found.setdefault(rows, step.flat)
    return found


def _way(piece: PiecePlan, rows: ChartRows) -> _Way:
    inside = any(row.parts for row in (*rows.first, *rows.last))
    return _Way(rows.chart, rows.grid, _first_flat(piece)[rows], inside, rows.once)


def worked_chart(voice: Voice, piece: PiecePlan, rows: ChartRows) -> ChartSpec:
    """The chart as a piece works it."""
    source, grid = voice.plan.source, rows.grid
    chart = source.pattern.charts[rows.chart]
    gauge = _gauge(voice, piece)
    way = _way(piece, rows)
    first = next(each for _, each in _worked(voice.plan) if each.drawing == way.drawing)
    lines = lines_of(grid, chart, source.pattern.yarns, voice.plan.book)
    changes = [line.change for line in lines]
    steady = {count for each in changes for count in (each.uses, each.makes)} == {grid.repeat}
    if grid.twin:
        each = {c for line in lines for cells in (line.repeat, line.twin) for c in counts(cells)}
        steady = each == {grid.repeat} == {grid.twin}
    label = f"{grid.repeat}-stitch repeat" if steady else "repeat"
    boxed = chart.repeats and not turns_within(lines) and _is_repeated(voice.plan, way)
    boxes = [RepeatBox(1 + grid.before, grid.before + grid.repeat, 1, grid.height, label)]
    if grid.twin:
        left = grid.width - grid.after
        boxes.append(RepeatBox(1 + left - grid.twin, left, 1, grid.height, label))
    return ChartSpec(
        _title_of(voice, chart, way, first),
        tuple(tuple(line) for line in grid.rounds),
        worked_keys(voice, chart),
        worked="flat" if way.flat else "round",
        cell_width_mm=gauge.stitch_mm,
        cell_height_mm=gauge.round_mm * (2 if chart.mode == "mosaic" else 1),
        first_right_side=grid.every > 1 or chart.first_row == "right side",
        first_row=grid.first,
        every=grid.every,
        inside=way.inside,
        twice=chart.mode == "mosaic",
        base=_yarn_band(chart, rows),
        base_label=YARN_BAND if rows.slipped else "base",
        repeats=tuple(boxes) if boxed else (),
        grid=grid.file,
        needs=_needs(lines[0]) if grid.edged and boxed else "",
    )


def _is_repeated(plan: Plan, way: _Way) -> bool:
    """Whether some row works its repeat more than once, or the pattern says which cells it is."""
    if way.once:
        return False
    uses = [rows for rows, each in _worked(plan) if each.drawing == way.drawing]
    return way.grid.edged or max(most for rows in uses for most in rows.most) != 1


def _yarn_band(chart: Chart, rows: ChartRows) -> tuple[str, ...]:
    """The character of the yarn that each line is worked in, where all others are slipped."""
    of = {yarn: character for character, yarn in chart_yarns(chart).items()}
    return tuple(of[line.yarn] for line in rows.slipped)


_WORKED, _SLIPPED = "worked", "slipped"


def slipped_rows(voice: Voice, spec: ChartSpec, rows: ChartRows) -> ChartSpec:
    """The rows as they are worked: so many knitted in the yarn of the row, so many slipped."""
    book = voice.plan.book
    keys = []
    for name, stitch in ((_WORKED, book["k"]), (_SLIPPED, book["sl"])):
        right, wrong = (said_of(voice, book.showing(stitch, side)) for side in Side)
        symbol = spec.keys[0].symbol
        keys.append(ChartKey(name, symbol, name, word=right, wrong_side_word=wrong))
    cells = tuple(
        tuple(_WORKED if worked else _SLIPPED for worked in line.worked) for line in rows.slipped
    )
    return replace(spec, rows=cells, keys=(*keys, *spec.keys))


def second_rows(voice: Voice, spec: ChartSpec, rows: ChartRows) -> Inlines:
    """The second row of each line of a mosaic chart, in words for all of them."""
    if not spec.twice:
        return ()
    chart, unit = voice.plan.source.pattern.charts[rows.chart], spec.row_name
    flat = spec.worked == "flat"
    worked = {"k": "knit", "p": "purl"}[chart.second or ("p" if flat else "k")]
    place = "front" if flat else "back"
    return text(
        f"In the yarn of the {unit} before, {worked} the stitches that it knitted, and slip with "
        f"yarn in {place} those that it slipped."
    )


def _needs(first: Line) -> str:
    """The counts of stitches that a chart with edges fits, at its first row."""
    multiple, plus = first.change.uses, first.edges.uses
    return f"a multiple of {how_many(multiple, 'stitch')}" + (f", plus {plus}" if plus else "")


def _title_of(voice: Voice, chart: Chart, way: _Way, first: _Way) -> str:
    """The title, the sizes where others have a grid of their own, and how the chart is worked where
    the document shows it in another way too."""
    title = chart_title(voice, chart.title, way)
    if way.flat != first.flat:
        return f"{title}, worked {_worked_how(way)}"
    if way.once != first.once:
        return f"{title}, worked {'once' if way.once else 'in repeats'}"
    if way.inside != first.inside:
        return f"{title}, worked {'between stitches' if way.inside else 'alone'}"
    return title


def chart_sizes(voice: Voice, worked: ChartRows) -> tuple[int, ...]:
    """The places of the sizes that share the grid of a chart."""
    return tuple(voice.plan.source.drawings(worked.chart)[worked.grid])


def chart_title(voice: Voice, title: str, worked: "ChartRows | _Way") -> str:
    """The title of a chart, with the sizes that share its grid where others have another."""
    drawings = voice.plan.source.drawings(worked.chart)
    if len(drawings) == 1:
        return title
    sizes = [voice.sizes[size] for size in drawings[worked.grid]]
    return f"{title}, {named(sizes, voice.sizes)}"


def _worked_how(way: _Way) -> str:
    return "in rows" if way.flat else "in the round"


def _side(wrong: bool) -> Side:
    return Side.WRONG if wrong else Side.RIGHT


def _gauge(voice: Voice, piece: PiecePlan) -> Gauge:
    """The first size's gauge gives the cells their proportions."""
    return piece_gauges(voice.plan.measures, voice.plan.source.pattern.pieces[piece.key])[0]
