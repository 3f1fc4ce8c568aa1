"""Tables: how wide the columns are, and the bands a table is made of.

Rules are light and horizontal only. Figures of the sizes get columns of one width. A table too wide
for the page is set smaller; if that is not enough it is parted by columns, each part with the
row headings, because a table cut by the paper's edge or set in mouse type is of no use.
"""

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from math import ceil

from bindoff.document.tree import Column, Inlines, Table, TableRow, Text, plain
from bindoff.render.pdf.galley import NEVER, Band, Fragment, Group
from bindoff.render.pdf.parts import RunsOf
from bindoff.render.pdf.tagging import Tag, Writer
from bindoff.render.pdf.text import (
    Align,
    Line,
    Run,
    Word,
    baseline,
    lines,
    narrowest,
    paint_line,
    widest,
    words,
)
from bindoff.render.pdf.theme import TextStyle, Theme
from bindoff.render.pdf.widths import Need, share

_NARROW_EMS = 7.5  # a column of figures or of a word or two keeps its width
_EASY_EMS = 8.0  # a column of prose at least this wide reads easily,
_LEAST_EMS = 4.2  # and one at least this wide can be read
_TIGHT = 0.65  # of the gap between columns
_HEAD_SHARE = 0.3  # of the frame's height: a higher head is not repeated
_ROW_PART = 0.4  # of the frame's height: a higher row may be cut between lines
_CUT = 12.0  # cost of ending a page between two rows
_CUT_LONG = 0.5  # ... of a table that must be cut anyway
_NOTE_WORDS = 5
_LONG = 0.85  # of the frame's height: such a table


@dataclass(frozen=True, slots=True)
class Room:
    """Where a table stands: left edge in the frame, width, and the height of the frame."""

    x: float
    width: float
    height: float


# ------------------------------------------------------------ measuring


@dataclass(frozen=True, slots=True)
class _Sheet:
    """A table measured in one type size: words of the heads and of every cell."""

    body: TextStyle
    head: TextStyle
    heads: list[list[Word]]
    cells: list[list[list[Word]]]


def _measured(node: Table, body: TextStyle, head: TextStyle, runs_of: RunsOf) -> _Sheet:
    return _Sheet(
        body,
        head,
        [words(runs_of(column.heading, head)) for column in node.columns],
        [[words(runs_of(cell, body)) for cell in row.cells] for row in node.rows],
    )


def _needs(node: Table, sheet: _Sheet, ems: float) -> list[Need]:
    """What each column needs if one of prose is to be ``ems`` wide at least."""
    needs = []
    prose = ems * sheet.body.size
    for index, column in enumerate(node.columns):
        texts = [sheet.heads[index], *(row[index] for row in sheet.cells)]
        most = max(widest(text) for text in texts)
        least = max(*(narrowest(text) for text in texts), min(most, prose))
        needs.append(Need(least, most, column.size is not None, max(column.weight, 0.01)))
    return needs


def table_width(node: Table, theme: Theme, runs_of: RunsOf, small: bool = False) -> float:
    """The least width at which ``node`` has comfortable columns, in the usual or the small type."""
    body, head, gap = theme.table, theme.table_head, theme.cell_gap
    if small:
        body, head, gap = theme.table_small, _small_head(theme), theme.cell_gap * _TIGHT
    needs = _needs(node, _measured(node, body, head, runs_of), _EASY_EMS)
    even = max((need.most for need in needs if need.size), default=0.0)
    return sum(even if need.size else need.least for need in needs) + gap * (len(needs) - 1)


def _small_head(theme: Theme) -> TextStyle:
    return replace(theme.table_head, size=theme.table_small.size, leading=theme.table_small.leading)


def fitted(node: Table, room: Room, theme: Theme, runs_of: RunsOf) -> list["_Set"]:
    """``node`` set to fit ``room``: whole if possible, else in parts with all row headings.

    First with comfortable columns, then with tight gaps, smaller, with narrower columns; only then
    in parts.
    """
    small = theme.table_small
    tight = theme.cell_gap * _TIGHT
    sheet = _measured(node, theme.table, theme.table_head, runs_of)
    for style, gap, ems in (
        (theme.table, theme.cell_gap, _EASY_EMS),
        (theme.table, tight, _EASY_EMS),
        (small, tight, _EASY_EMS),
        (small, tight, _LEAST_EMS),
    ):
        if style != sheet.body:
            sheet = _measured(node, small, _small_head(theme), runs_of)
        space = room.width - gap * (len(node.columns) - 1)
        widths = share(_needs(node, sheet, ems), space, style.size * _NARROW_EMS)
        if widths is not None:
            return [_Set(node, sheet, widths, gap)]
    needs = _needs(node, sheet, _LEAST_EMS)
    parts = _parted(node, needs, room.width, tight, theme)
    if len(parts) > 1:
        return [piece for part in parts for piece in fitted(part, room, theme, runs_of)]
    # One column beside the row headings and still too wide: words must be cut.
    space = room.width - tight * (len(needs) - 1)
    cut = [replace(need, least=min(need.least, space / len(needs)), size=False) for need in needs]
    return [_Set(node, sheet, share(cut, space, 0.0) or [space / len(cut)] * len(cut), tight)]


def _parted(
    node: Table, needs: Sequence[Need], width: float, gap: float, theme: Theme
) -> list[Table]:
    """The table as several, each with the row headings and some of the other columns."""
    stay = node.header_columns
    even = max((need.most for need in needs if need.size), default=0.0)
    room = width - sum(need.least + gap for need in needs[:stay])
    wants = [even if need.size else need.least for need in needs[stay:]]
    per_part = max(1, int((room + gap) // (max(wants, default=1.0) + gap)))
    count = ceil(len(wants) / per_part)
    if count < 2:
        return [node]
    per_part = ceil(len(wants) / count)  # parts of like size
    parts = []
    for number in range(count):
        start = stay + number * per_part
        chosen = [*range(stay), *range(start, min(start + per_part, len(node.columns)))]
        parts.append(_columns_of(node, chosen, theme, number, count))
    return parts


def _columns_of(node: Table, chosen: list[int], theme: Theme, number: int, count: int) -> Table:
    sizes = [node.columns[index] for index in chosen if node.columns[index].size is not None]
    return replace(
        node,
        caption=(*node.caption, Text(f" ({_which(sizes, theme, number, count)})")),
        columns=tuple(node.columns[index] for index in chosen),
        rows=tuple(TableRow(tuple(row.cells[index] for index in chosen)) for row in node.rows),
        groups=_groups_of(node, chosen),
        id=node.id if number == 0 else "",
    )


def _which(sizes: Sequence[Column], theme: Theme, number: int, count: int) -> str:
    if len(sizes) > 1:
        return theme.words.sizes.format(
            first=plain(sizes[0].heading), last=plain(sizes[-1].heading)
        )
    if sizes:
        return theme.words.size.format(first=plain(sizes[0].heading))
    return theme.words.part.format(part=number + 1, parts=count)


def _groups_of(node: Table, chosen: list[int]) -> tuple[tuple[Inlines, int], ...]:
    owner = [index for index, (_, span) in enumerate(node.groups) for _ in range(span)]
    kept = [owner[index] for index in chosen] if owner else []
    return tuple((node.groups[group][0], kept.count(group)) for group in dict.fromkeys(kept))


# ------------------------------------------------------------ bands


@dataclass(frozen=True, slots=True)
class _Set:
    """A table with its column widths settled."""

    node: Table
    sheet: _Sheet
    widths: list[float]
    gap: float

    def lefts(self) -> list[float]:
        """The left edge of each column."""
        return [sum(self.widths[:at]) + self.gap * at for at in range(len(self.widths))]

    @property
    def width(self) -> float:
        """The width of the whole."""
        return sum(self.widths) + self.gap * (len(self.widths) - 1)


@dataclass(frozen=True, slots=True)
class _Cell:
    """Lines ready to paint, ``x`` from the table's left edge."""

    tag: Tag
    lines: list[Line]
    x: float
    width: float
    align: Align


@dataclass(slots=True, eq=False)
class _Row:
    """One line of cells in one style."""

    cells: list[_Cell]
    style: TextStyle
    pad: float
    rules: list[tuple[float, float]] = field(default_factory=list)  # under spanning heads
    bottom: bool = False  # heads stand on their rule, body cells hang from theirs

    @property
    def count(self) -> int:
        return max((len(cell.lines) for cell in self.cells), default=1) or 1

    @property
    def height(self) -> float:
        return self.count * self.style.leading + 2 * self.pad

    def paint(
        self,
        writer: Writer,
        x: float,
        top: float,
        tagged: bool,
        only: range | None = None,
    ) -> None:
        shown = only or range(self.count)
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


@dataclass(slots=True, eq=False)
class _Frame:
    """The rules of a table, and its heads again where it goes on over the page."""

    theme: Theme
    x: float
    width: float
    heads: list[_Row]
    note: Line

    @property
    def below(self) -> float:
        return 0.0

    def above(self, again: bool) -> float:
        return self._note_height + self._heads_height if again else 0.0

    @property
    def _note_height(self) -> float:
        return self.theme.caption.leading + 3.0

    @property
    def _heads_height(self) -> float:
        return sum(row.height for row in self.heads)

    def paint(self, writer: Writer, left: float, fragment: Fragment) -> None:
        colours = self.theme.colours
        x, top = left + self.x, fragment.top
        if not fragment.first:
            writer.artifact("Pagination", "Header")
            paint_line(writer, self.note, None, x, baseline(self.theme.caption, top))
            top -= self._note_height
            y = top
            for row in self.heads:
                row.paint(writer, x, y, tagged=False)
                y -= row.height
        writer.artifact()
        end = x + self.width
        writer.line(x, top, end, top, colours.accent, 0.9)
        y = top
        for row in self.heads:
            y -= row.height
            for start, stop in row.rules:
                writer.line(x + start, y, x + stop, y, colours.rule, 0.5)
        if self.heads:
            writer.line(x, y, end, y, colours.accent, 0.5)
        for band, band_top in fragment.bands:
            if band.what == "table row":
                foot = band_top - band.height
                writer.line(x, foot, end, foot, colours.hairline, 0.4)
        writer.line(x, fragment.bottom, end, fragment.bottom, colours.rule, 0.5)


def table_bands(
    node: Table,
    room: Room,
    theme: Theme,
    parent: Tag,
    runs_of: RunsOf,
    caption: Callable[[Inlines, Tag, str], list[Band]],
    groups: tuple[Group, ...],
) -> list[Band]:
    """``node`` as bands. ``caption`` sets a caption line by line for a tag (and id to lead to).

    A table without rows has nothing to show and no valid structure: it gives no bands.
    """
    if not node.rows:
        return []
    found: list[Band] = []
    for index, piece in enumerate(fitted(node, room, theme, runs_of)):
        part = piece.node
        tag = parent.add("Table")
        bands: list[Band] = []
        if part.caption:
            bands = caption(part.caption, tag.add("Caption"), part.id)
            for band in bands:
                band.keep = NEVER
        bands += _grid(piece, room, theme, tag, groups, runs_of)
        bands[0].before = theme.block_gap if index == 0 else theme.block_gap * 1.2
        found += bands
    return found


def _grid(
    piece: _Set,
    room: Room,
    theme: Theme,
    tag: Tag,
    groups: tuple[Group, ...],
    runs_of: RunsOf,
) -> list[Band]:
    heads = _head_rows(piece, theme, tag.add("THead"), runs_of)
    more = _continued(plain(piece.node.caption), theme)
    note = lines(words([Run(more, theme.caption.look)]), 1e6)[0]
    tall = sum(row.height for row in heads) > room.height * _HEAD_SHARE
    frame = _Frame(theme, room.x, piece.width, [] if tall else heads, note)
    inside = (*groups, frame)
    if tall:  # cut like any row, and not repeated
        bands = [band for row in heads for band in _row_bands(row, room, inside)]
    else:
        bands = [_head_band(heads, room, inside)]
    for band in bands:
        band.keep = NEVER if len(bands) == 1 else _CUT
    bands[0].before = 3.0
    body = tag.add("TBody")
    rows: list[Band] = []
    for index in range(len(piece.node.rows)):
        rows += _row_bands(_body_row(piece, index, theme, body.add("TR")), room, inside)
    if sum(band.height for band in [*bands, *rows]) > room.height * _LONG:
        for band in rows:
            band.keep = _CUT_LONG
    for band in [*rows[:1], *rows[-2:-1]]:  # neither one row behind nor one row ahead
        band.keep = NEVER
    if rows:
        rows[-1].keep = 0.0
    return bands + rows


def _head_band(heads: Sequence[_Row], room: Room, groups: tuple[Group, ...]) -> Band:
    def paint(writer: Writer, left: float, top: float) -> None:
        for row in heads:
            row.paint(writer, left + room.x, top, tagged=True)
            top -= row.height

    return Band(sum(row.height for row in heads), paint, groups=groups, what="table head")


def _continued(title: str, theme: Theme) -> str:
    """The note above a table that goes on: the beginning of its caption is enough."""
    start = re.split(r"[,;.(–]", title, maxsplit=1)[0].split()
    if not start:
        return theme.words.continued
    cut = "…" if len(start) > _NOTE_WORDS else ""
    return f"{' '.join(start[:_NOTE_WORDS])}{cut}, {theme.words.continued}"


def _head_rows(piece: _Set, theme: Theme, head: Tag, runs_of: RunsOf) -> list[_Row]:
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
            cells.append(_Cell(tag, lines(text, width), x, width, "centre" if span > 1 else "left"))
            if text and span > 1:
                rules.append((x, x + width))
            at += span
        rows.append(_Row(cells, piece.sheet.head, theme.cell_pad, rules, bottom=True))
    row = head.add("TR")
    cells = []
    for index, column in enumerate(node.columns):
        text = piece.sheet.heads[index]
        tag = row.add("TH" if text else "TD", scope="Column" * bool(text))
        width = piece.widths[index]
        cells.append(_Cell(tag, lines(text, width), lefts[index], width, column.align))
    rows.append(_Row(cells, piece.sheet.head, theme.cell_pad, bottom=True))
    return rows


def _body_row(piece: _Set, index: int, theme: Theme, row: Tag) -> _Row:
    lefts = piece.lefts()
    cells = []
    for at, text in enumerate(piece.sheet.cells[index]):
        names = at < piece.node.header_columns and bool(text)
        tag = row.add("TH", scope="Row") if names else row.add("TD")
        width = piece.widths[at]
        align = piece.node.columns[at].align
        cells.append(_Cell(tag, lines(text, width, True), lefts[at], width, align))
    return _Row(cells, piece.sheet.body, theme.cell_pad)


def _row_bands(row: _Row, room: Room, groups: tuple[Group, ...]) -> list[Band]:
    """A row as one band, or as several when it is so high that a page could not hold it."""
    fit = max(2, int(room.height * _ROW_PART / row.style.leading))
    if row.count <= fit:

        def paint(writer: Writer, left: float, top: float) -> None:
            row.paint(writer, left + room.x, top, tagged=True)

        return [Band(row.height, paint, 0.0, _CUT, groups, "table row")]
    return [
        _row_part(row, range(start, min(start + fit, row.count)), room, groups)
        for start in range(0, row.count, fit)
    ]


def _row_part(row: _Row, part: range, room: Room, groups: tuple[Group, ...]) -> Band:
    top_pad = row.pad if part.start == 0 else 0.0
    last = part.stop == row.count
    height = len(part) * row.style.leading + top_pad + (row.pad if last else 0.0)

    def paint(writer: Writer, left: float, top: float) -> None:
        row.paint(writer, left + room.x, top + row.pad - top_pad, tagged=True, only=part)

    return Band(height, paint, 0.0, _CUT, groups, "table row" if last else "table row part")
