"""The rows of a table: cells in their columns, boxes to tick, and the bands that rows become."""

from collections.abc import Sequence

from bindoff.document.tree import Inlines, Text, plain
from bindoff.records import Changing, field
from bindoff.render.pdf.fonts import face
from bindoff.render.pdf.galley import Band, Group, Painter
from bindoff.render.pdf.parts import RunsOf
from bindoff.render.pdf.tablefit import Grid, Room, goes_on
from bindoff.render.pdf.tagging import Tag, Writer
from bindoff.render.pdf.text import Align, Line, baseline, lines, paint_line, widest, words
from bindoff.render.pdf.theme import TextStyle, Theme

_ROW_PART = 0.4  # of the frame's height: a higher row may be cut between lines
CUT = 24.0  # cost of ending a page between two rows
_LEAST_AIR = 0.2  # of the leading: the white space that a row on a close page keeps
TICK_AT = 1.7  # ems left of a table is where the boxes to tick begin


class Cell(Changing):
    """Lines ready to paint, ``x`` from the table's left edge."""

    tag: Tag
    lines: list[Line]
    x: float
    width: float
    align: Align


class Row(Changing):
    """One line of cells in one style."""

    cells: list[Cell]
    style: TextStyle
    pad: float
    rules: list[tuple[float, float]] = field(default_factory=list)  # under spanning heads
    bottom: bool = False  # heads stand on their rule, body cells hang from theirs
    under: float | None = None  # the white space below, if it is not that above
    lower: int = 0  # lines of the row's name that stand beside the rows after it

    @property
    def count(self) -> int:
        """Its lines."""
        most = max((len(cell.lines) for cell in self.cells), default=1)
        others = max((len(cell.lines) for cell in self.cells[1:]), default=1)
        return max(others, most - self.lower) or 1

    @property
    def height(self) -> float:
        """In points."""
        under = self.pad if self.under is None else self.under
        return self.count * self.style.leading + self.pad + under

    def paint(
        self,
        writer: Writer,
        x: float,
        top: float,
        tagged: bool,
        only: range | None = None,
    ) -> None:
        """Draw it, or the lines ``only`` of it; what is not ``tagged`` is decoration."""
        shown = only or range(self.count + self.lower)
        for cell in self.cells:
            skip = self.count - len(cell.lines) if self.bottom else 0
            for index in shown:
                if not 0 <= index - skip < len(cell.lines):
                    continue
                y = baseline(
                    self.style, top - self.pad - (index - shown.start) * self.style.leading
                )
                paint_line(
                    writer,
                    cell.lines[index - skip],
                    cell.tag if tagged else None,
                    x + cell.x,
                    y,
                    cell.width,
                    cell.align,
                )


def head_rows(piece: Grid, theme: Theme, head: Tag, runs_of: RunsOf) -> list[Row]:
    """The headings of the columns, under those over several of them."""
    node, lefts = piece.node, piece.lefts()
    rows = []
    if node.groups:
        row = head.add("TR")
        cells, rules = [], []
        at = 0
        for heading, span in node.groups:
            x = lefts[at]
            width = lefts[at + span - 1] + piece.widths[at + span - 1] - x
            text = words(runs_of(heading, piece.sheet.head))
            tag = row.add("TH" if text else "TD", col_span=span, scope="Column" * bool(text))
            cells.append(Cell(tag, lines(text, width), x, width, "centre" if span > 1 else "left"))
            if text and span > 1:
                rules.append((x, x + width))
            at += span
        rows.append(Row(cells, piece.sheet.head, theme.cell_pad, rules, bottom=True))
    row = head.add("TR")
    cells = []
    for index, column in enumerate(node.columns):
        text = piece.sheet.heads[index]
        tag = row.add("TH" if text else "TD", scope="Column" * bool(text))
        width = piece.widths[index]
        align = "centre" if piece.edges and index else column.align
        cells.append(Cell(tag, lines(text, width), lefts[index], width, align))
    rows.append(Row(cells, piece.sheet.head, theme.cell_pad, bottom=True))
    return rows


def body_row(piece: Grid, index: int, theme: Theme, row: Tag, runs_of: RunsOf) -> Row:
    """A row of figures, its cells tagged under ``row``."""
    lefts = piece.lefts()
    cells = []
    for at, text in enumerate(piece.sheet.cells[index]):
        names = at < piece.node.header_columns and bool(text)
        tag = row.add("TH", scope="Row") if names else row.add("TD")
        hang = 0.0 if at else piece.sheet.hang(index)
        align = piece.node.columns[at].align
        hang += _inset(piece, at, index, piece.widths[at] - hang)
        width = piece.widths[at] - hang
        cells.append(Cell(tag, lines(text, width, True), lefts[at] + hang, width, align))
        _on_axis(piece, at, index, cells[-1])
    if piece.edges is not None:
        return _with_units(piece, index, cells, theme, runs_of)
    cells[1:1] = _rings(piece, index, cells[0])
    return Row(cells, piece.sheet.body, theme.cell_pad)


def _rings(piece: Grid, index: int, name: Cell) -> list[Cell]:
    """The letters in rings of a row, to the left of its name, of which they are part: it is read
    with them where the text edition has them."""
    inlines = piece.node.rows[index].cells[0]
    rings = piece.sheet.rings[index]
    if not rings:
        return []
    name.tag.actual = plain(inlines)
    hang = piece.sheet.hang(index) + piece.sheet.lead(index)
    return [Cell(name.tag, lines(rings, 1e6), name.x - hang, hang, "left")]


def _inset(piece: Grid, column: int, row: int, width: float) -> float:
    """How far a figure at the left edge of its column is moved in, so that whole numbers end at one
    place; one that goes on takes no more lines for that."""
    tail = piece.sheet.tails[row][column]
    if tail is None or piece.edges is not None or piece.node.columns[column].align != "left":
        return 0.0
    text = piece.sheet.cells[row][column]
    inset = piece.sheet.axes[column][0] - (widest(text) - tail)
    higher = len(lines(text, width - inset, True)) > len(lines(text, width, True))
    return 0.0 if higher else inset


def _on_axis(piece: Grid, column: int, row: int, cell: Cell) -> None:
    """Move a figure so that whole numbers of its column end at one place: in a lane they stand in
    its middle, elsewhere at the right edge."""
    before, after = piece.sheet.axes[column]
    tail = piece.sheet.tails[row][column]
    in_lane = piece.edges is not None and column > 0
    if cell.align == "left" and not in_lane:
        return
    if tail is not None and len(cell.lines) == 1:
        room = (cell.width - before - after) / 2 if in_lane else 0.0
        cell.width -= room + after - tail
        cell.align = "right"
    elif in_lane:
        cell.align = "centre"


def _with_units(piece: Grid, index: int, cells: list[Cell], theme: Theme, runs_of: RunsOf) -> Row:
    """The row with its unit at the end of the side column, its name said once for all units."""
    stem, unit, again = piece.stems[index]
    name, style = cells[0], piece.sheet.body
    if not unit:
        cells[1:1] = _rings(piece, index, name)
        return Row(cells, style, theme.cell_pad)
    inlines = piece.node.rows[index].cells[0]
    name.tag.actual = plain(inlines)
    text = words(runs_of((Text(unit),), style))
    said = Text(stem, _language_of(stem, inlines))
    name.lines = [] if again else lines(words(runs_of((said,), style)), name.width)
    letters = [] if again else _rings(piece, index, name)
    cells[1:1] = [*letters, Cell(name.tag, lines(text, 1e6), 0.0, piece.units, "right")]
    following = 0
    while goes_on(piece.stems, index + following):
        following += 1
    lower = min(max(0, len(name.lines) - 1), following)
    above = 0.0 if again else theme.cell_pad
    below = 0.0 if goes_on(piece.stems, index) else theme.cell_pad
    return Row(cells, style, above, under=below, lower=lower)


def _language_of(stem: str, inlines: Inlines) -> str:
    """The language of a name that stands by itself among ``inlines``."""
    return next(
        (each.language for each in inlines if isinstance(each, Text) and each.text == stem), ""
    )


def head_band(heads: Sequence[Row], room: Room, groups: tuple[Group, ...]) -> Band:
    """The heads as one band."""

    def paint(writer: Writer, left: float, top: float) -> None:
        for row in heads:
            row.paint(writer, left + room.x, top, tagged=True)
            top -= row.height

    return Band(sum(row.height for row in heads), paint, groups=groups, what="table head")


def row_bands(row: Row, room: Room, groups: tuple[Group, ...]) -> list[Band]:
    """A row as one band, or as several when it is so high that a page could not hold it."""
    fit = max(2, int(room.height * _ROW_PART / row.style.leading))
    if row.count <= fit:
        white = row.pad + (row.pad if row.under is None else row.under)
        air = row.style.leading * _LEAST_AIR

        def lowered(less: float) -> Painter:
            higher = less * row.pad / white if white else 0.0

            def paint(writer: Writer, left: float, top: float) -> None:
                row.paint(writer, left + room.x, top + higher, tagged=True)

            return paint

        band = Band(row.height, lowered(0.0), 0.0, CUT, groups, "table row")
        band.give, band.closer = max(0.0, white - air), lowered
        return [band]
    return [
        _row_part(row, range(start, min(start + fit, row.count)), room, groups)
        for start in range(0, row.count, fit)
    ]


def _row_part(row: Row, part: range, room: Room, groups: tuple[Group, ...]) -> Band:
    top_pad = row.pad if part.start == 0 else 0.0
    last = part.stop == row.count
    height = len(part) * row.style.leading + top_pad + (row.pad if last else 0.0)

    def paint(writer: Writer, left: float, top: float) -> None:
        row.paint(writer, left + room.x, top + row.pad - top_pad, tagged=True, only=part)

    return Band(height, paint, 0.0, CUT, groups, "table row" if last else "table row part")


def ticked(band: Band, room: Room, theme: Theme) -> None:
    """A box before a row, to tick when it is done; it hangs left of the table if it can."""
    if not room.x:
        return
    x = max(0.0, room.x - theme.table.size * TICK_AT)

    def boxed(inner: Painter, higher: float) -> Painter:
        def paint(writer: Writer, left: float, top: float) -> None:
            paint_box(writer, left + x, top + higher - theme.cell_pad, theme.table, theme)
            inner(writer, left, top)

        return paint

    band.paint = boxed(band.paint, 0.0)
    closer = band.closer
    if closer is not None:
        band.closer = lambda less: boxed(closer(less), less / 2)


def paint_box(writer: Writer, x: float, top: float, style: TextStyle, theme: Theme) -> None:
    """A box as high as the type, in the middle of a capital of its first line."""
    size = style.size
    low = baseline(style, top) - (size - face(style.face).cap_height * size) / 2
    writer.artifact()
    writer.box(x, low, size, size, stroke=theme.colours.ink, width=0.6)
