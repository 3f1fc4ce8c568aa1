"""Colourwork by slipped stitches: each row in one yarn, the stitches of others slipped."""

from collections.abc import Collection, Iterator, Sequence

from bindoff.craft.book import StitchBook
from bindoff.diagnostics import Diagnostic, Span, fail
from bindoff.plan.chartproof import Cells, Line
from bindoff.plan.picture import chart_yarns
from bindoff.plan.shown import Shown
from bindoff.records import Record
from bindoff.source.chart import Chart
from bindoff.source.grid import Grid


class SlippedLine(Record):
    """A line of a chart: the ``yarn`` it is worked in, and for each cell, from left to right,
    whether it is ``worked`` or slipped."""

    yarn: str
    worked: tuple[bool, ...]


def slipped_lines(grid: Grid, chart: Chart, yarns: Collection[str]) -> tuple[SlippedLine, ...]:
    """The lines of a chart whose colours are slipped, bottom one first.

    A slipped stitch keeps the colour of the stitch below, so a line is worked in the one yarn in
    which all others of its cells are as in the line below; where two yarns would do, it is that of
    its right edge, where a right-side row begins. Below the first line lies one colour.

    Raises:
        PatternError: ``chart.slipped`` for a character that is no yarn, or a line that no single
            yarn makes.
    """
    of = chart_yarns(chart)
    for character, yarn in of.items():
        if yarn not in yarns:
            raise fail(
                "chart.slipped",
                f"`{character}` is no yarn, and this chart is worked by slipping the stitches of "
                "other yarns",
                "Let every character stand for a yarn, or take `mode:` out of the chart",
                chart.place.of("legend").of(character).span,
            )
    found: list[SlippedLine] = []
    below: tuple[str | None, ...] = ()
    for number, line in enumerate(grid.rounds, start=1):
        cells = tuple(of[character] for character in line)
        makers = [
            yarn for yarn in dict.fromkeys(cells[::-1]) if yarn and not _wrong(cells, below, yarn)
        ]
        if not makers:
            raise fail(*_unworkable(grid, number, cells, below))
        found.append(SlippedLine(makers[0], tuple(yarn == makers[0] for yarn in cells)))
        below = cells
    return tuple(found)


def as_stitches(grid: Grid, lines: Sequence[SlippedLine], book: StitchBook) -> tuple[Line, ...]:
    """The lines as what is knitted and slipped."""
    knit, slip = book["k"], book["sl"]
    found = []
    for line in lines:
        cells: Cells = tuple((knit if worked else slip, None) for worked in line.worked)
        before, repeat, centre, twin, after = grid.parted(cells)
        found.append(Line(before, repeat, after, line.yarn, centre, twin))
    return tuple(found)


def seam_fault(grid: Grid, lines: Sequence[SlippedLine], chart: Chart) -> Iterator[Diagnostic]:
    """Why a chart can't begin again above itself: its first line would slip what its last line
    shows in another colour."""
    of = chart_yarns(chart)
    first, last = (tuple(of[c] for c in grid.rounds[number]) for number in (0, -1))
    if wrong := _wrong(first, last, lines[0].yarn):
        id, message, help, place = _unworkable(grid, 1, first, last, wrong[0])
        yield Diagnostic(id, f"{message}, where the chart begins again", help, place)


def ground_fault(
    grid: Grid, line: SlippedLine, chart: Chart, across: int, shown: Shown
) -> Iterator[Diagnostic]:
    """Why the first ``line`` of a chart can't be worked over what the stitches below it have
    ``shown``: it slips some that show another yarn, or nobody knows which. The chart lies
    ``across`` so many times."""
    of = chart_yarns(chart)
    cells = [of[character] for character in grid.laid(grid.rounds[0], across)]
    slipped = [place for place, cell in enumerate(cells) if cell != line.yarn]
    if not slipped:
        return
    below = shown * len(cells) if len(shown) == 1 else shown
    place = max(place for place, worked in enumerate(line.worked) if not worked)
    at = grid.span(1, grid.width - place)
    if len(below) != len(cells):
        meant = cells[slipped[-1]]
        yield Diagnostic(
            "chart.ground",
            f"line 1 of the chart slips stitches that show `{meant}`, and nothing proves which "
            "yarn the row below it shows there",
            f"Work a row in `{meant}` before the chart, over all its stitches",
            at,
        )
    elif wrong := [place for place in slipped if below[place] != cells[place]]:
        meant, found = cells[wrong[-1]], below[wrong[-1]]
        yield Diagnostic(
            "chart.ground",
            f"line 1 of the chart is worked in `{line.yarn}` and slips stitches that show "
            f"`{meant}`, and the row below it shows `{found}` there",
            f"Work the row before the chart in `{meant}`, or draw line 1 as it is worked over "
            f"`{found}`: the stitch at its right edge is in the yarn of the line",
            at,
        )


def _wrong(cells: tuple[str | None, ...], below: tuple[str | None, ...], yarn: str) -> list[int]:
    """Cells, from 0 and from the left, that a row in ``yarn`` does not make; a first line stands
    on one colour."""
    slipped = [place for place, cell in enumerate(cells) if cell != yarn]
    if not below:
        return slipped if len({cells[place] for place in slipped}) > 1 else []
    return [place for place in slipped if cells[place] != below[place]]


def _unworkable(
    grid: Grid,
    number: int,
    cells: tuple[str | None, ...],
    below: tuple[str | None, ...],
    place: int | None = None,
) -> tuple[str, str, str, Span]:
    if place is None:
        place = _wrong(cells, below, cells[-1] or "")[-1]
    under = f"`{below[place]}`" if below else "one colour"
    return (
        "chart.slipped",
        f"line {number} of the chart can't be worked in one yarn: this stitch shows "
        f"`{cells[place]}` above {under}, and a slipped stitch keeps the colour below it",
        "Draw each line in the yarn it is worked in and in what the line below it shows",
        grid.span(number, grid.width - place),
    )
