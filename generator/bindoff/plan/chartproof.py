"""Proves a chart by what its rows use and make: one number of repeats serves all of them."""

from collections import Counter
from collections.abc import Collection, Iterator, Sequence
from itertools import groupby

from bindoff.craft.book import Stitch, StitchBook
from bindoff.craft.stitches.cells import BEYOND, BIND_OFF, WRAPPED
from bindoff.diagnostics import Diagnostic, Span, fail
from bindoff.english import how_many, verb
from bindoff.plan.picture import cell_meaning
from bindoff.records import Record
from bindoff.source.chart import Chart
from bindoff.source.grid import Grid


class UsedAndMade(Record):
    """What one repeat of a chart's row does, or its edges: live stitches it ``uses``, stitches it
    ``makes``.

    ``shaping`` says what lies between the two, as in ``1 yo and 2 decreases``.
    """

    uses: int
    makes: int
    shaping: str = "0 increases and 0 decreases"

    @property
    def even(self) -> bool:
        """Whether the row leaves as many stitches as it finds."""
        return self.uses == self.makes


Cells = tuple[tuple[Stitch, str | None], ...]
"""Stitches from left to right, each with its yarn."""


class Line(Record):
    """A row of a chart as stitches: beside the repeat at its right and left edge, and within it; of
    two repeats, the ``twin`` at the left and the ``centre`` between them too. ``yarn`` if all are
    worked in one."""

    before: Cells
    repeat: Cells
    after: Cells
    yarn: str | None = None
    centre: Cells = ()
    twin: Cells = ()

    @property
    def cells(self) -> Cells:
        """All of them, from left to right."""
        return self.laid(1)

    def laid(self, across: int) -> Cells:
        """All of them with each repeat ``across`` times."""
        left, right = self.twin * across, self.repeat * across
        return (*self.after, *left, *self.centre, *right, *self.before)

    @property
    def change(self) -> UsedAndMade:
        """What one repeat does, or one of each of two."""
        return _change((*self.twin, *self.repeat))

    @property
    def edges(self) -> UsedAndMade:
        """What the stitches beside the repeats do, all together."""
        return _change((*self.before, *self.centre, *self.after))


class Turned(Record):
    """Where a row of a chart lies, as it is worked: the stitches that it leaves on the needle
    before its first one, and those ``beyond`` its last one, of which the first is ``wrapped`` or
    not."""

    before: int
    beyond: int
    wrapped: bool

    @classmethod
    def of(cls, line: Line, right_side: bool) -> "Turned":
        """Raises ``ValueError`` where stitches that are left stand among those worked."""
        counted = [stitch.id for stitch, _ in line.cells if stitch.consumes + stitch.produces]
        if right_side:
            counted.reverse()
        left = [id in BEYOND for id in counted]
        before = next((n for n, each in enumerate(left) if not each), len(left))
        beyond = next((n for n, each in enumerate(reversed(left)) if not each), 0)
        wrapped = beyond > 0 and counted[-beyond] == WRAPPED
        if sum(left) != before + beyond or counted.count(WRAPPED) != wrapped:
            raise ValueError(counted)
        return cls(before, beyond, wrapped)


def turning(lines: Sequence[Line]) -> bool:
    """Whether some row of a chart turns early."""
    return any(_turns(line.cells) for line in lines)


def turns_within(lines: Sequence[Line]) -> bool:
    """Whether some row turns within what is repeated side by side."""
    return any(_turns((*line.twin, *line.repeat)) for line in lines)


def _turns(cells: Cells) -> bool:
    return any(stitch.id in BEYOND for stitch, _ in cells)


def turn_faults(
    grid: Grid, lines: Sequence[Line], rounds: int, *, flat: bool, starts_wrong: bool
) -> Iterator[Diagnostic]:
    """Why the rows of a chart that turn early don't follow each other: the next row begins at the
    turn, so it leaves as many stitches before its first one as were left beyond the last."""
    if not turning(lines):
        return
    if not flat or grid.every > 1:
        why = "and it is worked in rounds" if not flat else "and only right-side rows are drawn"
        yield Diagnostic(
            "chart.turn",
            f"the chart has rows that turn early, {why}",
            "Draw all rows of it, and work it in rows; or write these rows as a step `work:`",
            _line(grid, 1),
        )
        return
    left, count = 0, min(rounds, grid.rows)
    for row, line in enumerate(lines[:count], start=1):
        try:
            here = Turned.of(line, row % 2 != starts_wrong)
        except ValueError:
            yield Diagnostic(
                "chart.turn",
                f"row {row} of the chart leaves stitches on the needle among those that it works",
                "Let cells that are `not worked` stand beyond the turn alone, and `w&t` first of "
                "them, in the direction in which the row is worked",
                _line(grid, row),
            )
            return
        if here.before != left:
            begins = f"row {row} of the chart leaves {_count(here.before)} before its first one"
            ends = f"row {row - 1} turns {_count(left)} before its end" if row > 1 else ""
            yield Diagnostic(
                "chart.turn",
                f"{begins}, and {ends or 'no row before it turns'}",
                "Begin each row where the one before it turns, with as many cells that are `not "
                "worked` as lie beyond the turn",
                _line(grid, row),
            )
            return
        left = here.beyond
    if left:
        yield Diagnostic(
            "chart.turn",
            f"row {count} of the chart, the last, turns {_count(left)} before its end",
            "Draw the row that is worked back from the turn too",
            _line(grid, count),
        )


def uses(cells: Cells) -> int:
    """The live stitches that are used."""
    return sum(stitch.consumes for stitch, _ in cells)


def lines_of(
    grid: Grid, chart: Chart, yarns: Collection[str], book: StitchBook
) -> tuple[Line, ...]:
    """The rows of a chart as stitches, from the bottom one; a cell of a yarn alone is knitted.

    A stitch over several cells stands once. Raises ``PatternError`` where a run of its character
    is no whole number of it.
    """
    found = []
    for row in range(1, grid.height + 1):
        parts, start = list[Cells](), grid.width
        for cells in grid.parted(grid.rounds[row - 1]):
            start -= len(cells)
            parts.append(_stitches(grid, row, cells, start, chart, yarns, book))
        before, repeat, centre, twin, after = parts
        found.append(Line(before, repeat, after, centre=centre, twin=twin))
    return tuple(found)


def _stitches(
    grid: Grid,
    row: int,
    cells: str,
    start: int,
    chart: Chart,
    yarns: Collection[str],
    book: StitchBook,
) -> Cells:
    """The stitches of some ``cells`` of a row, with ``start`` cells to their left."""
    found: list[tuple[Stitch, str | None]] = []
    for character, run in groupby(cells):
        length = len(tuple(run))
        yarn, name = cell_meaning(chart.legend[character], yarns)
        stitch = book.named(name or "k")
        if length % stitch.cells:
            where = " on this side of the repeat" if grid.edged else ""
            help = f"Write `{character * stitch.cells}` for each time it is worked"
            if _goes_on(grid, row, character, start, length):
                help += "; move it, or the side of the repeat, so that all of it stands on one side"
            raise fail(
                "chart.cells",
                f"`{character}` stands for {stitch.wording(book.terms).name} over {stitch.cells} "
                f"cells, and {how_many(length, 'cell')} {verb(length, 'stands', 'stand')} here"
                f"{where}",
                help,
                grid.span(row, grid.width - start),
            )
        found += [(stitch, yarn)] * (length // stitch.cells)
        start += length
    return tuple(found)


def _goes_on(grid: Grid, row: int, character: str, start: int, length: int) -> bool:
    """Whether a run of ``length`` cells with ``start`` cells to their left goes on beyond a side of
    the repeat."""
    line, sides = grid.rounds[row - 1], (grid.after, grid.width - grid.before)
    return (start in sides and line[start - 1 : start] == character) or (
        start + length in sides and line[start + length : start + length + 1] == character
    )


def counts(cells: Cells) -> tuple[int, int]:
    """The live stitches that are used, and made."""
    change = _change(cells)
    return change.uses, change.makes


def _change(cells: Cells) -> UsedAndMade:
    stitches = [stitch for stitch, _ in cells]
    makes = sum(each.produces for each in stitches)
    return UsedAndMade(uses(cells), makes, _shaping(stitches))


def _shaping(stitches: Sequence[Stitch]) -> str:
    more = Counter(each.us.abbreviation for each in stitches if each.produces > each.consumes)
    fewer = sum(each.produces < each.consumes for each in stitches)
    name = next(iter(more)) if len(more) == 1 else "increase"
    return f"{how_many(more.total(), name)} and {how_many(fewer, 'decrease')}"


def row_faults(grid: Grid, lines: Sequence[Line], rounds: int, word: str) -> Iterator[Diagnostic]:
    """Why ``rounds`` rows of a chart don't follow each other: the first that breaks it.

    Every row has to use what the row before it makes, in each repeat, for the repeats are the same
    in all of them, and beside it; ``word`` is what a row is called. It points at the line of the
    grid that breaks this: of the two rows that don't meet, the one that changes the count
    otherwise than most rows do. A chart with edges may begin again with more or fewer repeats:
    whether these are whole is for the count of stitches to say.
    """
    repeats = [line.change for line in lines]
    for row in range(1, grid.lines(rounds) + 1):
        if repeats[row - 1].uses == 0:
            yield Diagnostic(
                "chart.count",
                f"{word} {grid.number(row)} of the chart uses no stitches, so it would never end",
                "Put a stitch that is worked into its line",
                _line(grid, row),
            )
            return
    faults = [*_unmet_rows(grid, repeats, rounds, word, "in each repeat")]
    if grid.twin:
        for where, part in (
            ("in each repeat before the middle", [line.repeat for line in lines]),
            ("in each repeat after the middle", [line.twin for line in lines]),
            ("between the repeats", [line.centre for line in lines]),
            ("before the repeats", [line.before for line in lines]),
            ("after the repeats", [line.after for line in lines]),
        ):
            faults += _unmet_rows(grid, [_change(cells) for cells in part], rounds, word, where)
    elif grid.edged:
        edges = [line.edges for line in lines]
        faults += _unmet_rows(grid, edges, rounds, word, "beside the repeat")
    yield from faults[:1]
    first, last = repeats[0], repeats[-1]
    if not faults and not grid.edged and rounds > grid.rows and first.uses != last.makes:
        yield Diagnostic(
            "chart.count",
            f"{word} {grid.number(grid.height)} of the chart makes {_count(last.makes)} in each "
            f"repeat, and {word} {grid.number(1)}, which follows it, uses {first.uses}",
            f"Work the chart once, for at most {how_many(grid.rows, word)}; where it fits again, "
            "work it in a step of its own",
            _line(grid, grid.height),
        )


def closing_faults(
    grid: Grid, lines: Sequence[Line], rounds: int, starts_wrong: bool
) -> Iterator[Diagnostic]:
    """Rows that end in stitches bound off while others are left: the last of these has no stitch
    after it that could be lifted over. ``starts_wrong`` says that the first is a wrong-side row."""
    for row, line in enumerate(lines[: grid.lines(rounds)], start=1):
        right_side = grid.every > 1 or row % 2 != starts_wrong
        worked = [stitch for stitch, _ in line.cells if stitch.consumes + stitch.produces]
        last = worked[0] if right_side else worked[-1]
        if last.id == BIND_OFF and line.change.makes + line.edges.makes:
            yield Diagnostic(
                "chart.bind-off",
                f"row {grid.number(row)} of the chart binds off at its end, where no stitch is "
                "left to lift the last one over",
                "Bind them off at the beginning of the next row",
                _line(grid, row),
            )
            return


def _unmet_rows(
    grid: Grid, changes: Sequence[UsedAndMade], rounds: int, word: str, where: str
) -> Iterator[Diagnostic]:
    grown = Counter(each.makes - each.uses for each in changes)
    for row in range(2, grid.lines(rounds) + 1):
        before, here = changes[row - 2], changes[row - 1]
        if before.makes == here.uses:
            continue
        if grown[here.makes - here.uses] > grown[before.makes - before.uses]:
            told = _figures(before, word, grid.number(row - 1), where)
            what = f"{told}, but {word} {grid.number(row)} uses {here.uses}"
            yield _unmet(grid, row - 1, what, here.uses)
        else:
            told = _figures(here, word, grid.number(row), where)
            what = f"{told}, but {word} {grid.number(row - 1)} makes {before.makes}"
            yield _unmet(grid, row, what, before.makes)
        return


def _figures(change: UsedAndMade, word: str, row: int, where: str) -> str:
    return (
        f"{word} {row} of the chart has {change.shaping}: it uses {_count(change.uses)} and "
        f"makes {change.makes} {where}"
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


def fits(line: Line, live: int, beside: int = 0) -> bool:
    """Whether the repeats of a row divide the ``live`` stitches but for those at the edges and
    ``beside`` the chart."""
    rest = live - line.edges.uses - beside
    return rest > 0 and rest % line.change.uses == 0


def width_fault(
    grid: Grid, line: Line, live: int, word: str, place: Span, beside: int = 0
) -> Diagnostic:
    """The finding where the first row's repeats do not divide the ``live`` stitches but for those
    at the edges and ``beside`` the chart.

    It points at that row of the grid where it would fit if it used as many as it makes.
    """
    uses, more = line.change.uses, line.edges.uses + beside
    makes = line.change.makes
    below = max(live - more, 0) // uses * uses
    near = " or ".join(str(count + more) for count in (below, below + uses) if count)
    plus = f", plus {more}" if more else ""
    if grid.height > 1 and makes and live > more and (live - more) % makes == 0:
        told = _figures(line.change, word, grid.number(1), "in each repeat")
        return Diagnostic(
            "chart.width",
            f"{told}, and the {how_many(live, 'live stitch')} before it are a multiple of {makes}"
            f"{plus}",
            f"Make it use {makes}: put in or take out increases, decreases, or cells whose legend "
            f"says `no stitch`; or let the count before it be {near}",
            _line(grid, 1),
        )
    if more:
        what = (
            f"{word} {grid.number(1)} of the chart needs a multiple of {_count(uses)}, plus {more}"
        )
    elif uses != grid.width:
        what = f"{word} {grid.number(1)} of the chart uses {_count(uses)} in each repeat"
    else:
        what = f"the chart is {_count(uses)} wide"
    formula = f", plus = {more}" if more else ""
    return Diagnostic(
        "chart.width",
        f"{what} and does not fit {how_many(live, 'live stitch')} evenly",
        f"It fits {near} stitches: use `stitches(…, multiple = {uses}{formula})` where the count "
        "is made",
        place,
    )


def again_fault(grid: Grid, line: Line, live: int, word: str, beside: int = 0) -> Diagnostic:
    """The finding where the chart does not fit the ``live`` stitches of its own last row."""
    uses, more = line.change.uses, line.edges.uses + beside
    plus = f", plus {more}" if more else ""
    return Diagnostic(
        "chart.width",
        f"{word} {grid.number(grid.height)} of the chart leaves {how_many(live, 'stitch')}, and "
        f"{word} {grid.number(1)}, which follows it, needs a multiple of {_count(uses)}{plus}",
        f"Make each time through the chart add a multiple of {uses}: compare the increases of its "
        "rows at both edges; or work it once",
        _line(grid, grid.height),
    )


def _count(stitches: int) -> str:
    return how_many(stitches, "stitch")
