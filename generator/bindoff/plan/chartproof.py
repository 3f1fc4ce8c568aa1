"""Proves a chart by what its rows use and make: one number of repeats serves all of them."""

from collections import Counter
from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby

from bindoff.craft.book import Stitch, StitchBook
from bindoff.diagnostics import Diagnostic, Span, fail
from bindoff.plan.nouns import how_many
from bindoff.plan.picture import cell_meaning
from bindoff.source.grid import Grid
from bindoff.source.models import Chart


@dataclass(frozen=True, slots=True)
class Change:
    """What one repeat of a chart's row does: live stitches it ``uses``, stitches it ``makes``.

    ``shaping`` says what lies between the two, as in ``1 yo and 2 decreases``.
    """

    uses: int
    makes: int
    shaping: str = "0 increases and 0 decreases"

    @property
    def even(self) -> bool:
        """Whether the row leaves as many stitches as it finds."""
        return self.uses == self.makes


def changes_of(
    grid: Grid, chart: Chart, yarns: Collection[str], book: StitchBook
) -> tuple[Change, ...]:
    """What each row of a chart does, from the bottom one; a cell of a yarn alone is knitted."""
    changes = []
    for row in range(1, grid.height + 1):
        stitches = [stitch for stitch, _ in line_stitches(grid, row, chart, yarns, book)]
        uses = sum(each.consumes for each in stitches)
        makes = sum(each.produces for each in stitches)
        changes.append(Change(uses, makes, _shaping(stitches)))
    return tuple(changes)


def line_stitches(
    grid: Grid, row: int, chart: Chart, yarns: Collection[str], book: StitchBook
) -> tuple[tuple[Stitch, str | None], ...]:
    """The stitches of a row (from 1, the bottom one) from left to right, each with its yarn.

    A stitch over several cells stands once. Raises ``PatternError`` where a run of its character
    is no whole number of it.
    """
    found: list[tuple[Stitch, str | None]] = []
    cell = 0  # cells to the left of the run
    for character, run in groupby(grid.rounds[row - 1]):
        length = len(tuple(run))
        yarn, name = cell_meaning(chart.legend[character], yarns)
        stitch = book.named(name or "k")
        if length % stitch.cells:
            raise fail(
                "chart.cells",
                f"`{character}` stands for {stitch.wording(book.terms).name} over {stitch.cells} "
                f"cells, and {how_many(length, 'cell')} stand here",
                f"Write `{character * stitch.cells}` for each time it is worked",
                grid.span(row, grid.width - cell),
            )
        found += [(stitch, yarn)] * (length // stitch.cells)
        cell += length
    return tuple(found)


def _shaping(stitches: Sequence[Stitch]) -> str:
    more = Counter(each.us.abbreviation for each in stitches if each.produces > each.consumes)
    fewer = sum(each.produces < each.consumes for each in stitches)
    name = next(iter(more)) if len(more) == 1 else "increase"
    return f"{how_many(more.total(), name)} and {how_many(fewer, 'decrease')}"


def row_faults(
    grid: Grid, changes: Sequence[Change], rounds: int, word: str
) -> Iterator[Diagnostic]:
    """Why ``rounds`` rows of a chart don't follow each other: the first that breaks it.

    Every row has to use what the row before it makes, for the repeats are the same in all of
    them; ``word`` is what a row is called. It points at the line of the grid that breaks this: of
    the two rows that don't meet, the one that changes the count if only one does.
    """
    for row in range(1, min(rounds, grid.height) + 1):
        if changes[row - 1].uses == 0:
            yield Diagnostic(
                "chart.count",
                f"{word} {row} of the chart uses no stitches, so it would never end",
                "Put a stitch that is worked into its line",
                _line(grid, row),
            )
            return
    for row in range(2, min(rounds, grid.height) + 1):
        before, here = changes[row - 2], changes[row - 1]
        if before.makes == here.uses:
            continue
        if here.even and not before.even:
            what = f"{_figures(before, word, row - 1)}, but {word} {row} uses {here.uses}"
            yield _unmet(grid, row - 1, what, here.uses)
        else:
            what = f"{_figures(here, word, row)}, but {word} {row - 1} makes {before.makes}"
            yield _unmet(grid, row, what, before.makes)
        return
    first, last = changes[0], changes[-1]
    if rounds > grid.height and first.uses != last.makes:
        yield Diagnostic(
            "chart.count",
            f"{word} {grid.height} of the chart makes {_stitches(last.makes)} in each repeat, and "
            f"{word} 1, which follows it, uses {first.uses}",
            f"Work the chart once, for at most {how_many(grid.height, word)}; where it fits again, "
            "work it in a step of its own",
            _line(grid, grid.height),
        )


def _figures(change: Change, word: str, row: int) -> str:
    return (
        f"{word} {row} of the chart has {change.shaping}: it uses {_stitches(change.uses)} and "
        f"makes {change.makes} in each repeat"
    )


def _unmet(grid: Grid, row: int, what: str, wanted: int) -> Diagnostic:
    return Diagnostic(
        "chart.count",
        what,
        f"Make them meet at {wanted}: put in or take out increases, decreases, or cells whose "
        "legend says `no stitch`",
        _line(grid, row),
    )


def _line(grid: Grid, row: int) -> Span:
    """The whole line of a row in the grid file."""
    first, last = grid.span(row, grid.width), grid.span(row, 1)
    return Span(first.file, first.line, first.column, last.end_line, last.end_column)


def width_fault(grid: Grid, first: Change, live: int, word: str, place: Span) -> Diagnostic:
    """The finding where the first row's repeats do not divide the ``live`` stitches."""
    uses = first.uses
    below = live // uses * uses
    near = " or ".join(str(count) for count in (below, below + uses) if count)
    what = f"the chart is {_stitches(uses)} wide"
    if uses != grid.width:
        what = f"{word} 1 of the chart uses {_stitches(uses)} in each repeat"
    return Diagnostic(
        "chart.width",
        f"{what} and does not fit {how_many(live, 'live stitch')} evenly",
        f"It fits {near} stitches: use `stitches(…, multiple = {uses})` where the count is made",
        place,
    )


def _stitches(count: int) -> str:
    return how_many(count, "stitch")
