"""Charts, their legends and their grid files."""

from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import combinations, islice
from operator import ne

from bindoff.checks.context import Context
from bindoff.checks.engine import Finding, Needs, check
from bindoff.checks.walk import charts_worked, note_of, sizes_said
from bindoff.diagnostics import Severity
from bindoff.english import how_many
from bindoff.plan.picture import cell_meaning
from bindoff.source.chart import Chart


def _used(context: Context) -> set[str]:
    pieces = context.pattern.pieces.values()
    return {detail.chart for _, detail in charts_worked(context)} | {
        chart for piece in pieces for chart, _ in piece.pictured
    }


def _meanings(
    context: Context, chart: Chart
) -> Iterator[tuple[str, tuple[str | None, str | None]]]:
    """Each character of a legend with its yarn and its stitch."""
    for character, meaning in chart.legend.items():
        yield character, cell_meaning(meaning, context.pattern.yarns)


@check(
    id="chart.unused",
    title="Every chart is worked",
    looks_at="the charts under `charts:` against the steps and pictures of all pieces",
    why="a chart that no step works is left out of the document, and the piece lacks its pattern",
    severity=Severity.WARNING,
    remedy="Add a step `chart:` for it, or take it out",
)
def unused_chart(context: Context) -> Iterator[Finding]:
    """One finding for each chart."""
    used = _used(context)
    for key, chart in context.pattern.charts.items():
        if key not in used:
            yield Finding(f"no step or picture works the chart `{key}`", chart.place.key_span)


@check(
    id="chart.legend-unused",
    title="Every entry of a legend stands in its grid",
    looks_at="the characters of each legend against the characters of its grid",
    why="an entry that never occurs is left over from an older chart, or a round was mistyped",
    severity=Severity.WARNING,
    remedy="Take the entry out of the legend, or put its character into the grid",
    needs=Needs.SOURCE,
)
def unused_legend(context: Context) -> Iterator[Finding]:
    """One finding for each entry."""
    for key, chart in context.pattern.charts.items():
        drawings = context.source.drawings(key)
        seen = {c for grid in drawings for line in grid.rounds for c in line}
        for character in chart.legend:
            if character not in seen:
                yield Finding(
                    f"`{character}` is in the legend of `{key}`, but nowhere in its grid",
                    chart.place.of("legend").of(character).key_span,
                )


@check(
    id="chart.legend-twice",
    title="No two characters of a legend mean the same",
    looks_at="the meanings in each legend",
    why="the key would show one stitch or colour twice, as if they differed",
    severity=Severity.WARNING,
    remedy="Use one of the two characters throughout the grid, or correct the meaning",
    needs=Needs.SOURCE,
)
def twice_in_legend(context: Context) -> Iterator[Finding]:
    """One finding for each repeated meaning."""
    for key, chart in context.pattern.charts.items():
        seen: dict[str, str] = {}
        for character, meaning in chart.legend.items():
            first = seen.setdefault(repr(meaning), character)
            if first != character:
                yield Finding(
                    f"`{first}` and `{character}` mean the same in `{key}`",
                    chart.place.of("legend").of(character).span,
                )


@check(
    id="chart.other-rows",
    title="Rows between are told only where the chart leaves them out",
    looks_at="`other rows:` of each chart against its `rows:`",
    why="a chart that draws every row has none between: either the rows are told twice over, or it "
    "is half as high as its designer thinks",
    severity=Severity.WARNING,
    remedy="Write `rows: right side` if the grid leaves out every other row, or take `other rows:` "
    "out",
    needs=Needs.SOURCE,
)
def other_rows(context: Context) -> Iterator[Finding]:
    """One finding for each chart."""
    for key, chart in context.pattern.charts.items():
        drawn = chart.rows == "all" and chart.mode != "mosaic"
        if chart.other_rows is not None and drawn:
            yield Finding(
                f"`{key}` tells what is worked between its rows, and draws them all",
                chart.place.of("other rows").span,
            )


@check(
    id="chart.part-repeat",
    title="A chart ends with a whole repeat",
    looks_at="the rounds or rows that each chart step works of its chart against the chart's "
    "height; a chart in other rows goes on from step to step",
    why="a pattern that stops in the middle looks unfinished, and the knitter wonders whether it "
    "is a mistake",
    severity=Severity.WARNING,
    remedy="Work a multiple of the chart's rounds, or say in the step's note where it stops",
)
def part_repeat(context: Context) -> Iterator[Finding]:
    """One finding for each step."""
    for at, detail in charts_worked(context):
        height = detail.grid.rows
        parts = [size for size, rounds in enumerate(detail.rounds) if rounds % height]
        in_rows = detail in at.step.patterns.charts
        if parts and not in_rows and not note_of(at):
            rounds = how_many(detail.rounds[parts[0]], "row" if at.flat else "round")
            yield Finding(
                f"the step works {rounds} of `{detail.chart}` in {sizes_said(context, parts)}, no "
                f"multiple of its {height}",
                at.step.step.place.of("rounds").span,
            )


@check(
    id="grid.unused",
    title="Every grid file belongs to a chart",
    looks_at="the files that end in .grid beside the source",
    why="a grid that no chart names is not printed; most often the wrong file is named",
    severity=Severity.WARNING,
    remedy="Name it as the `grid:` of a chart, or delete the file",
    needs=Needs.SOURCE,
)
def unused_grid(context: Context) -> Iterator[Finding]:
    """One finding for each file, at the charts."""
    named = {file for chart in context.pattern.charts.values() for file in chart.files}
    for name in context.folder:
        if name.endswith(".grid") and name not in named:
            place = context.pattern.place.of("charts")
            yield Finding(f"no chart uses the file `{name}`", place.key_span)


@check(
    id="chart.stray",
    title="No cell of a chart stands alone",
    looks_at="charts of colors or of knits and purls, of 40 cells and more, with one cell that "
    "differs from the four beside it, which are alike, or touches no other of a drawing whose "
    "cells all touch, where no other cell of the chart stands so "
    "and it is not in the middle of a drawing whose halves are alike",
    why="a single cell is most often a slip of the hand, and is knitted as it stands",
    severity=Severity.NOTE,
    remedy="Look at the cell; silence this where it is meant",
    needs=Needs.SOURCE,
)
def stray_cell(context: Context) -> Iterator[Finding]:
    """One finding for each chart."""
    for key, chart in context.pattern.charts.items():
        looks = {character: _look(*meant) for character, meant in _meanings(context, chart)}
        if None in looks.values():
            continue  # lace, in which holes and decreases stand alone
        for grid in context.source.drawings(key):
            fabric = [[looks.get(cell) for cell in row] for row in grid.rounds]
            alone = [*_alone(fabric)] if grid.width * grid.rows >= _LARGE else []
            alone = alone or [*_untouched(fabric)]
            if len(alone) == 1:
                row, column = alone[0]
                halves_alike = all(each == each[::-1] for each in fabric[row - 1 : row + 2])
                if halves_alike and 2 * column + 1 == len(fabric[row]):
                    continue  # such as the eye of a ring
                yield Finding(
                    f"one cell of `{key}`, `{grid.rounds[row][column]}`, stands alone",
                    grid.span(row + 1, grid.width - column),
                )


_LARGE = 40


def _look(yarn: str | None, stitch: str | None) -> str | None:
    """What of a cell shows: its yarn, knit or purl; crosses are knit. Else ``None``."""
    if stitch in (None, "k", "p") or "/" in stitch:
        return f"{yarn or ''} {'p' if stitch == 'p' else 'k'}"
    return None


def _alone(rounds: Sequence[Sequence[str | None]]) -> Iterator[tuple[int, int]]:
    """Cells unlike the four beside them, which are alike; by row from the bottom and column."""
    for row in range(1, len(rounds) - 1):
        for column in range(1, min(map(len, rounds[row - 1 : row + 2])) - 1):
            beside = {
                rounds[row - 1][column],
                rounds[row + 1][column],
                rounds[row][column - 1],
                rounds[row][column + 1],
            }
            if len(beside) == 1 and rounds[row][column] not in beside:
                yield row, column


_MANY_DRAWN = 10


def _untouched(rounds: Sequence[Sequence[str | None]]) -> Iterator[tuple[int, int]]:
    """The cells of a drawing of lines that touch no other of it, not at a corner either; the
    drawing goes on at each edge as at the other side."""
    ground = Counter(cell for row in rounds for cell in row).most_common(1)[0][0]
    drawn = {(y, x) for y, row in enumerate(rounds) for x, cell in enumerate(row) if cell != ground}
    high = len(rounds)
    for y, x in sorted(drawn) if len(drawn) >= _MANY_DRAWN else ():
        wide = len(rounds[y])
        near = {((y + i) % high, (x + j) % wide) for i in (-1, 0, 1) for j in (-1, 0, 1)}
        if near & drawn == {(y, x)}:
            yield y, x


@check(
    id="chart.symmetry",
    title="A drawing whose halves are alike has no odd row",
    looks_at="charts of colors or of knits and purls, of five rows and more that are not plain: "
    "where the halves of all rows are mirror images about one line but those of a single row, in a "
    "cell or two",
    why="a cell that has slipped shows in every repeat, and the knitter thinks it is her mistake",
    severity=Severity.WARNING,
    remedy="Count the cells of that row from the middle to both sides; silence this where the "
    "drawing is meant so",
    needs=Needs.SOURCE,
)
def odd_row(context: Context) -> Iterator[Finding]:
    """One finding for each grid."""
    placed = {chart for piece in context.pattern.pieces.values() for chart, _ in piece.pictured}
    for key, chart in context.pattern.charts.items():
        looks = {character: _look(*meant) for character, meant in _meanings(context, chart)}
        if None in looks.values():
            continue  # lace, whose decreases lean
        for grid in context.source.drawings(key):
            fabric = [[looks.get(cell) for cell in row] for row in grid.rounds]
            row = _odd_row(fabric, around=key not in placed)
            if row is not None:
                yield Finding(
                    f"the two halves of row {grid.number(row + 1)} of `{key}` differ, and those of "
                    "all other rows are mirror images",
                    grid.span(row + 1, 1),
                )


_FEW_ROWS, _FEW_CELLS = 5, 4


def _odd_row(fabric: Sequence[Sequence[str | None]], *, around: bool) -> int | None:
    """The one row that is no mirror image about the line about which all others are; none where
    there is no such line, or all rows are about some line. ``around``: the drawing is repeated, so
    that the line may lie anywhere."""
    telling = [row for row, cells in enumerate(fabric) if len(set(cells)) > 1]
    widths = {len(cells) for cells in fabric}
    if len(telling) < _FEW_ROWS or len(widths) != 1:
        return None
    wide = widths.pop()
    found: set[int] = set()
    for line in range(wide) if around else (wide - 1,):
        off = ((row, _unlike(fabric[row], line)) for row in telling)
        wrong = tuple(islice(((row, cells) for row, cells in off if cells), 2))
        if not wrong:
            return None
        if len(wrong) == 1 and wrong[0][1] <= _FEW_CELLS:
            found.add(wrong[0][0])
    return found.pop() if len(found) == 1 else None


def _unlike(cells: Sequence[str | None], line: int) -> int:
    """How many cells differ from those that mirror them about a line, in half cells."""
    mirrored = (*cells[line::-1], *cells[:line:-1])
    return sum(map(ne, cells, mirrored))


@check(
    id="chart.legend-letters",
    title="No two letters of a legend are changed about",
    looks_at="two letters of a legend, each of which begins the yarn or the stitch of the other",
    why="the whole motif is worked in the wrong yarns, or its knit stitches as purl ones",
    severity=Severity.WARNING,
    remedy="Change the two entries about; silence it if they are meant so",
    needs=Needs.SOURCE,
)
def letters_changed_about(context: Context) -> Iterator[Finding]:
    """One finding for each pair, at the first of the two."""
    for key, chart in context.pattern.charts.items():
        begins = {
            character: _initials(context, *meant)
            for character, meant in _meanings(context, chart)
            if character.isalpha()
        }
        for one, other in combinations(begins, 2):
            swapped = other.lower() in begins[one] and one.lower() in begins[other]
            if swapped and one.lower() not in begins[one] and other.lower() not in begins[other]:
                yield Finding(
                    f"`{one}` and `{other}` in the legend of `{key}` each begin what the other "
                    "stands for",
                    chart.place.of("legend").of(one).key_span,
                )


def _initials(context: Context, yarn: str | None, stitch: str | None) -> set[str]:
    """The letters that a cell's yarn or stitch begins with, by its key and by its name."""
    names = [yarn or stitch or ""]
    if yarn in context.pattern.yarns:
        names.append(context.pattern.yarns[yarn].name)
    return {name[:1].lower() for name in names}


CHECKS = (
    odd_row,
    letters_changed_about,
    unused_chart,
    unused_legend,
    twice_in_legend,
    other_rows,
    part_repeat,
    unused_grid,
    stray_cell,
)
