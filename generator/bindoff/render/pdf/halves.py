"""A long table in two halves side by side, or two tables of one kind."""

from collections.abc import Callable, Sequence
from itertools import accumulate, islice, takewhile

from bindoff.document.tree import Inlines, Table
from bindoff.records import Record, replace
from bindoff.render.pdf.galley import NEVER, Band, Group
from bindoff.render.pdf.parts import RunsOf
from bindoff.render.pdf.tablefit import Grid, Room, measured, needs_of, small_head
from bindoff.render.pdf.tablerows import CUT, TICK_AT, Row, body_row, head_rows, paint_box
from bindoff.render.pdf.tables import CLOSE_ROWS
from bindoff.render.pdf.tablesizes import merged
from bindoff.render.pdf.tagging import Tag, Writer
from bindoff.render.pdf.text import Word, widest
from bindoff.render.pdf.theme import Theme
from bindoff.render.pdf.widths import share

_SHORT_EMS = 4.7  # a figure, or a word: longer cells may go on in a second line,
_NAME_EMS = 11.0  # so wide is a name of a row of sizes, if it needs that
_LONG_SHARE = 0.25  # ... in no more of the rows than this
_GAPS = (0.75, 0.55, 0.4)  # of the white space between columns, in half of a table
_MANY_TO_HALVE = 14  # rows: a table of so many may stand in two halves,
_MANY_OF_SIZES = 4  # ... and one of sizes of so many
_HALF_SHARE = 0.7  # of the frame's height: the most a block of halves takes
_HAIR = 0.01  # points that are not seen


def halved(node: Table, room: Room, theme: Theme, runs_of: RunsOf) -> "tuple[Grid, Room] | None":
    """A long ``node`` as two halves side by side, and the room of the first of them; None for one
    that is short, has heads over others or words in its cells, or is too wide for half of
    ``room``."""
    sizes = any(column.size is not None for column in node.columns)
    if len(node.rows) < (_MANY_OF_SIZES if sizes else _MANY_TO_HALVE) or node.groups:
        return None
    return _half(merged(node, theme), room, theme, runs_of)


def paired(
    first: Table, second: Table, room: Room, theme: Theme, runs_of: RunsOf
) -> "tuple[Grid, Grid, Room] | None":
    """Two tables to tick off under equal heads side by side, and the room of the first; None for
    others, or too wide ones."""
    both = (first, second)
    if not all(node.tick and not node.beside and not node.groups for node in both):
        return None
    if first.columns != second.columns or any(each.size is not None for each in first.columns):
        return None
    found = [_half(node, room, theme, runs_of) for node in both]
    if found[0] is None or found[1] is None:
        return None
    return found[0][0], found[1][0], found[0][1]


def _half(node: Table, room: Room, theme: Theme, runs_of: RunsOf) -> "tuple[Grid, Room] | None":
    """``node`` in half of ``room``, and that half; None if it has no room there."""
    tick = theme.table.size * TICK_AT if node.tick else 0.0
    half = Room(room.x + tick, (room.width - theme.column_gap) / 2 - tick, room.height)
    if node.tick:
        sheet = measured(node, theme.table_small, small_head(theme), runs_of)
    else:
        sheet = measured(node, theme.table, theme.table_head, runs_of)
    first = node.header_columns
    short = _SHORT_EMS * sheet.body.size
    long = sum(any(widest(cell) > short for cell in row[first:]) for row in sheet.cells)
    if long > len(sheet.cells) * _LONG_SHARE:
        return None  # words, not figures
    needs = [
        replace(need, least=max(need.least, *(_whole(row[at], short) for row in sheet.cells)))
        for at, need in enumerate(needs_of(node, sheet, 0.0))
    ]
    if not node.tick:  # names are not broken for figures
        name = needs[0]
        needs[0] = replace(name, least=max(name.least, min(name.most, _NAME_EMS * sheet.body.size)))
    for gap in (theme.cell_gap * part for part in _GAPS):
        space = half.width - gap * (len(node.columns) - 1)
        widths = share(needs, space, 0.0, stretch=not node.tick)
        if widths:
            return Grid(node, sheet, widths, gap), half
    return None


def _whole(cell: Sequence[Word], short: float) -> float:
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
        parts = tuple(
            _Part(piece, heads, part, read=start == 0 and not number)
            for number, part in enumerate((rows[start:middle], rows[middle:stop]))
            if part
        )
        found.append(_Halves(parts, half, step, theme).band(groups))
        start = stop
    found[0].before = theme.block_gap
    return found


def paired_bands(
    pieces: Sequence["Grid"],
    half: Room,
    step: float,
    theme: Theme,
    parent: Tag,
    runs_of: RunsOf,
    caption: Callable[[float, Inlines, Tag, str], list[Band]],
    groups: tuple[Group, ...],
) -> list[Band]:
    """Two tables side by side as one band, ``step`` from the left edge of one to that of the other;
    ``caption`` sets the words above one at its left edge."""
    theme = replace(theme, cell_pad=theme.cell_pad * CLOSE_ROWS)
    parts, said = [], []
    for number, piece in enumerate(pieces):
        node, tag = piece.node, parent.add("Table")
        words = tag.add("Caption") if node.caption else tag
        left = half.x + step * number - theme.table.size * TICK_AT
        said.append(caption(left, node.caption, words, node.id) if node.caption else [])
        heads = head_rows(piece, theme, tag.add("THead"), runs_of)
        body = tag.add("TBody")
        rows = [body_row(piece, at, theme, body.add("TR"), runs_of) for at in range(len(node.rows))]
        parts.append(_Part(piece, heads, rows, read=True))
    above = max(sum(line.height for line in lines) for lines in said)
    halves = _Halves(tuple(parts), half, step, theme)

    def paint(writer: Writer, left: float, top: float) -> None:
        for number, lines in enumerate(said):
            y = top
            for line in lines:
                line.paint(writer, left, y)
                y -= line.height
            halves.paint(number, writer, left, top - above)

    band = halves.band(groups)
    band.paint, band.height, band.before = paint, band.height + above, theme.block_gap
    return [band]


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


class _Part(Record, eq=False):
    """Rows of a table under its heads, which are ``read`` in the first half of one."""

    piece: Grid
    heads: list[Row]
    rows: list[Row]
    read: bool

    @property
    def height(self) -> float:
        """In points."""
        return sum(row.height for row in [*self.heads, *self.rows])


class _Halves(Record, eq=False):
    """Two halves side by side."""

    parts: tuple[_Part, ...]
    half: Room
    step: float
    theme: Theme

    def band(self, groups: tuple[Group, ...]) -> Band:
        """The halves as one band."""

        def paint(writer: Writer, left: float, top: float) -> None:
            for number in range(len(self.parts)):
                self.paint(number, writer, left, top)

        return Band(max(part.height for part in self.parts), paint, 3.0, CUT, groups, "table row")

    def paint(self, number: int, writer: Writer, left: float, top: float) -> None:
        """Draw the half of that ``number``, with the frame's left edge at ``left``."""
        part, x = self.parts[number], left + self.half.x + self.step * number
        colours = self.theme.colours
        width, node = part.piece.width, part.piece.node
        sizes = [column.size for column in node.columns]
        writer.artifact()
        for at in (at for at, size in enumerate(sizes) if size is not None and size % 2):
            edge = x + part.piece.lefts()[at] - part.piece.gap / 2
            ends = at + 1 == len(node.columns)
            wide = part.piece.widths[at] + part.piece.gap / (2 if ends else 1)
            writer.box(edge, top - part.height, wide, part.height, fill=colours.lane_tint)
        for row in part.heads:
            if not part.read:
                writer.artifact("Pagination", "Header")
            row.paint(writer, x, top, part.read)
            top -= row.height
        writer.artifact()
        writer.line(x, top, x + width, top, colours.ink, 1.2)
        for row in part.rows:
            if node.tick:
                box = x - self.theme.table.size * TICK_AT
                paint_box(writer, box, top - row.pad, row.style, self.theme)
            row.paint(writer, x, top, tagged=True)
            top -= row.height
            writer.artifact()
            writer.line(x, top, x + width, top, colours.hairline, 0.4)
