"""A long table to tick off, in two halves side by side."""

from collections.abc import Callable, Sequence
from itertools import accumulate, islice, takewhile

from bindoff.document.tree import Inlines, Table
from bindoff.records import Record, replace
from bindoff.render.pdf.galley import NEVER, Band, Group
from bindoff.render.pdf.parts import RunsOf
from bindoff.render.pdf.tablefit import Grid, Room, measured, needs_of, small_head
from bindoff.render.pdf.tablerows import CUT, TICK_AT, Row, body_row, head_rows, paint_box
from bindoff.render.pdf.tables import CLOSE_ROWS
from bindoff.render.pdf.tagging import Tag, Writer
from bindoff.render.pdf.text import Word, widest
from bindoff.render.pdf.theme import Theme
from bindoff.render.pdf.widths import share

_SHORT_EMS = 4.7  # a figure, or a word: longer cells may go on in a second line,
_LONG_SHARE = 0.25  # ... in no more of the rows than this
_GAPS = (0.75, 0.55, 0.4)  # of the white space between columns, in half of a table
_MANY_TO_HALVE = 14  # rows: such a table may stand in two halves
_HALF_SHARE = 0.7  # of the frame's height: the most a block of halves takes
_HAIR = 0.01  # points that are not seen


def halved(node: Table, room: Room, theme: Theme, runs_of: RunsOf) -> "tuple[Grid, Room] | None":
    """A long ``node`` to tick off as two halves side by side, and the room of the first of them;
    None for one that is short, has sizes, or is too wide for half of ``room``."""
    if len(node.rows) < _MANY_TO_HALVE or not node.tick:
        return None
    if any(column.size is not None for column in node.columns):
        return None
    tick = theme.table.size * TICK_AT
    half = Room(room.x + tick, (room.width - theme.column_gap) / 2 - tick, room.height)
    sheet = measured(node, theme.table_small, small_head(theme), runs_of)
    first = node.header_columns
    short = _SHORT_EMS * sheet.body.size
    long = sum(any(widest(cell) > short for cell in row[first:]) for row in sheet.cells)
    if long > len(sheet.cells) * _LONG_SHARE:
        return None  # words, not figures
    needs = [
        replace(need, least=max(need.least, *(_whole(row[at], short) for row in sheet.cells)))
        for at, need in enumerate(needs_of(node, sheet, 0.0))
    ]
    for gap in (theme.cell_gap * part for part in _GAPS):
        widths = share(needs, half.width - gap * (len(node.columns) - 1), 0.0, stretch=False)
        if widths:
            return Grid(node, sheet, widths, gap), half
    return None


def _whole(cell: list[Word], short: float) -> float:
    """The room in which a cell is on one line, if it is a ``short`` one."""
    wide = widest(cell)
    return wide if wide <= short else 0.0


def halved_bands(
    piece: "Grid",
    half: Room,
    step: float,
    theme: Theme,
    parent: Tag,
    runs_of: RunsOf,
    caption: Callable[[Inlines, Tag, str], list[Band]],
    groups: tuple[Group, ...],
) -> list[Band]:
    """``piece`` in blocks of two halves, ``step`` from the left edge of one to that of the other.

    The first half is read before the second; both have the heads.
    """
    node = piece.node
    tag = parent.add("Table")
    found = caption(node.caption, tag.add("Caption"), node.id) if node.caption else []
    for band in found:
        band.keep = NEVER
    theme = replace(theme, cell_pad=theme.cell_pad * CLOSE_ROWS)
    heads = head_rows(piece, theme, tag.add("THead"), runs_of)
    body = tag.add("TBody")
    rows = [
        body_row(piece, index, theme, body.add("TR"), runs_of) for index in range(len(node.rows))
    ]
    heights = [row.height for row in rows]
    start = 0
    while start < len(rows):
        middle, stop = parted(heights, start, half.height * _HALF_SHARE)
        block = _Halves(heads, rows[start:middle], rows[middle:stop], half, step, theme)
        found.append(block.band(groups, piece.width, first=start == 0))
        start = stop
    found[0].before = theme.block_gap
    return found


def parted(heights: Sequence[float], start: int, most: float) -> tuple[int, int]:
    """The ends of two halves of the rows from ``start`` on: as low as they can hold all of these,
    and no higher than ``most``."""
    ahead = accumulate(islice(heights, start, None))
    room = next((high for high in ahead if high >= 2 * most), sum(heights[start:]) / 2)
    while True:
        room = min(most, room)
        middle = _filled(heights, start, room)
        stop = _filled(heights, middle, room)
        if stop == len(heights) or room == most:
            return middle, stop
        room += min(heights[start:])


def _filled(heights: Sequence[float], start: int, room: float) -> int:
    """The end of the rows from ``start`` on that ``room`` can hold, one at least."""
    ends = accumulate(islice(heights, start, None))
    count = sum(1 for _ in takewhile(lambda high: high <= room + _HAIR, ends))
    return min(start + max(1, count), len(heights))


class _Halves(Record, eq=False):
    """Two halves of a table side by side, each under the heads."""

    heads: list[Row]
    left: list[Row]
    right: list[Row]
    half: Room
    step: float
    theme: Theme

    def band(self, groups: tuple[Group, ...], width: float, first: bool) -> Band:
        """The halves as one band; the heads are read in the ``first`` of several."""
        tall = max(sum(row.height for row in part) for part in (self.left, self.right))
        height = sum(row.height for row in self.heads) + tall

        def paint(writer: Writer, left: float, top: float) -> None:
            for number, part in enumerate(part for part in (self.left, self.right) if part):
                x = left + self.half.x + self.step * number
                self._paint(writer, part, x, top, width, first and not number)

        return Band(height, paint, 3.0, CUT, groups, "table row")

    def _paint(
        self, writer: Writer, rows: list[Row], x: float, top: float, width: float, tagged: bool
    ) -> None:
        colours = self.theme.colours
        for row in self.heads:
            if not tagged:
                writer.artifact("Pagination", "Header")
            row.paint(writer, x, top, tagged)
            top -= row.height
        writer.artifact()
        writer.line(x, top, x + width, top, colours.ink, 1.2)
        for row in rows:
            box = x - self.theme.table.size * TICK_AT
            paint_box(writer, box, top - row.pad, row.style, self.theme)
            row.paint(writer, x, top, tagged=True)
            top -= row.height
            writer.artifact()
            writer.line(x, top, x + width, top, colours.hairline, 0.4)
