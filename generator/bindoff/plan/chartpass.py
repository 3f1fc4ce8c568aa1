"""One pass through a chart as rows: its drawn lines, those between them, and what is beside."""

from collections.abc import Sequence
from itertools import groupby

from bindoff.craft.stitches.cells import BEYOND, BIND_OFF, CAST_ON
from bindoff.plan.bench import Bench
from bindoff.plan.chartproof import Cells, Line, Turned, turning, turns_within, uses
from bindoff.records import Record
from bindoff.source.chart import NO_STITCH, Chart
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


class Frame(Record):
    """What is worked at the right and at the left of a chart, on the right side and on the wrong
    side; ``uses`` live stitches in all, ``None`` where that hangs on the place."""

    right: tuple[Row, ...] = ()
    left: tuple[Row, ...] = ()
    uses: int | None = 0

    @property
    def works(self) -> bool:
        """Whether any stitch is worked beside the chart."""
        return any(row.parts for row in (*self.right, *self.left))


_BARE = Frame()


class Drawn(Record):
    """A chart to be worked: its lines, the row between them, and what stands beside it; ``twice``
    says that each line is worked once more in the next row."""

    grid: Grid
    lines: Sequence[Line]
    between: Row | None
    starts_wrong: bool
    frame: Frame
    twice: bool = False

    @property
    def first(self) -> Line:
        """The line of the first row."""
        return self.lines[0]

    def times_over(self, live: int) -> int:
        """How many whole repeats there are over ``live`` stitches, edges and frame left aside."""
        rest = live - self.first.edges.uses - (self.frame.uses or 0)
        return max(rest, 0) // (self.first.change.uses or 1)


def between_of(bench: Bench, chart: Chart) -> Row:
    """The row between two that a chart draws; raises ``PatternError`` if it can't be read."""
    if chart.other_rows is not None:
        (row,) = bench.rows(chart.place.of("other rows"))
        return row
    return Row((Fill("p" if bench.flat else "k", ToEnd()),))


def frame_of(bench: Bench, step: ChartStep) -> Frame:
    """What a step works beside its chart; raises ``PatternError`` for rows that can't be read."""
    if step.beside is None:
        return _BARE
    place = step.place.of("at")
    right = _outside(bench, step.beside.after, place.of("after"))
    left = _outside(bench, step.beside.before, place.of("before"))
    each = [_fixed(row, bench.book) for row in (right[0], left[0])]
    known = [uses for uses in each if uses is not None]
    return Frame(right, left, sum(known) if len(known) == 2 else None)


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


def one_pass(bench: Bench, drawn: Drawn, across: int | None) -> tuple[Row, ...]:
    """One pass through a chart, row by row; ``across`` where it is given how often."""
    starts_wrong, every = drawn.starts_wrong, drawn.grid.every
    if drawn.twice:
        lines = [line for line in drawn.lines for _ in range(every)]
        return chart_rows(bench, lines, starts_wrong, 1, across, drawn.frame)
    rows = chart_rows(bench, drawn.lines, starts_wrong, every, across, drawn.frame)
    if drawn.between is None:
        return rows
    pairs = [(row, drawn.between) for row in rows]
    return tuple(row for pair in pairs for row in (pair[::-1] if starts_wrong else pair))


def chart_rows(
    bench: Bench,
    lines: Sequence[Line],
    starts_wrong: bool = False,
    every: int = 1,
    across: int | None = None,
    frame: Frame = _BARE,
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
