"""Tables: how wide the columns are, and the bands a table is made of.

Rules are light and horizontal only. Figures of the sizes get columns of one width; sizes that agree
in every row share one. A table too wide for the page is set smaller; if that is not enough it is
parted by sizes, each part with all that the sizes share, because a table cut by the paper's edge or
set in mouse type is of no use. What cannot be parted so has no columns: see ``row_blocks``.
"""

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from math import ceil

from bindoff.document.tree import (
    Blocks,
    Column,
    Inlines,
    ItemList,
    LineBreak,
    ListItem,
    Paragraph,
    Strong,
    Table,
    TableRow,
    Text,
    plain,
)
from bindoff.records import Record
from bindoff.render.pdf.galley import NEVER, Band, Fragment, Group
from bindoff.render.pdf.parts import RunsOf
from bindoff.render.pdf.tagging import Tag, Writer
from bindoff.render.pdf.text import (
    Align,
    Line,
    TextRun,
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


class Room(Record):
    """Where a table stands: left edge in the frame, width, and the height of the frame."""

    x: float
    width: float
    height: float


# ------------------------------------------------------------ measuring


class _Sheet(Record):
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
    node = merged(node, theme)
    body, head, gap = theme.table, theme.table_head, theme.cell_gap
    if small:
        body, head, gap = theme.table_small, _small_head(theme), theme.cell_gap * _TIGHT
    needs = _needs(node, _measured(node, body, head, runs_of), _EASY_EMS)
    even = max((need.most for need in needs if need.size), default=0.0)
    return sum(even if need.size else need.least for need in needs) + gap * (len(needs) - 1)


def _small_head(theme: Theme) -> TextStyle:
    return replace(theme.table_head, size=theme.table_small.size, leading=theme.table_small.leading)


def fitted(node: Table, room: Room, theme: Theme, runs_of: RunsOf) -> list["_Set"] | None:
    """``node`` set to fit ``room``: whole if possible, else some of its sizes at a time.

    None if the columns that stand in every part leave no room for a single size.
    """
    node = merged(node, theme)
    whole = _whole(node, room, theme, runs_of)
    if whole:
        return [whole]
    sizes = sum(column.size is not None for column in node.columns)
    for count in range(2, sizes + 1):
        parts = [_whole(part, room, theme, runs_of) for part in _parted(node, theme, count)]
        found = [part for part in parts if part]
        if len(found) == len(parts):
            return found
    return None


def _whole(node: Table, room: Room, theme: Theme, runs_of: RunsOf) -> "_Set | None":
    """``node`` with comfortable columns, else with tight gaps, smaller, with narrower columns."""
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
            return _Set(node, sheet, widths, gap)
    return None


def merged(node: Table, theme: Theme) -> Table:
    """``node`` with one column for neighbouring sizes that have the same figures in every row.

    Under headings over several columns, sizes are joined under all of them or under none.
    """
    owner = [index for index, (_, span) in enumerate(node.groups) for _ in range(span)]
    places: dict[int, list[int]] = {}  # the columns of each size
    for index, column in enumerate(node.columns):
        if column.size is not None:
            places.setdefault(column.size, []).append(index)
    like: list[list[int]] = []  # neighbouring sizes that agree
    for size in sorted(places):
        if like and _agree(node, places[like[-1][0]], places[like[-1][-1]], places[size], owner):
            like[-1].append(size)
        else:
            like.append([size])
    if all(len(sizes) == 1 for sizes in like):
        return node
    joined = {sizes[0]: sizes for sizes in like}
    chosen = [
        index
        for index, column in enumerate(node.columns)
        if column.size is None or column.size in joined
    ]
    all_sizes = len(like) == 1
    return replace(
        node,
        columns=tuple(
            _joined_column(node, index, joined, places, all_sizes, theme) for index in chosen
        ),
        rows=tuple(TableRow(tuple(row.cells[index] for index in chosen)) for row in node.rows),
        groups=_groups_of(node, chosen),
    )


def _agree(
    node: Table, first: list[int], before: list[int], here: list[int], owner: list[int]
) -> bool:
    """Whether the columns ``here`` stand beside those ``before`` and say what ``first`` say."""
    return len(first) == len(here) and all(
        right == left + 1
        and (not owner or owner[left] == owner[right])
        and all(row.cells[at] == row.cells[right] for row in node.rows)
        for at, left, right in zip(first, before, here, strict=True)
    )


def _joined_column(
    node: Table,
    index: int,
    joined: Mapping[int, list[int]],
    places: Mapping[int, list[int]],
    all_sizes: bool,
    theme: Theme,
) -> Column:
    column = node.columns[index]
    sizes = [] if column.size is None else joined[column.size]
    if len(sizes) < 2:
        return column
    if all_sizes:
        return replace(column, heading=(Text(theme.words.all_sizes),))
    headings = [node.columns[places[size][0]].heading for size in sizes]
    parts = [(*heading, Text(", ")) for heading in headings[:-1]]
    return replace(column, heading=(*(each for part in parts for each in part), *headings[-1]))


def _parted(node: Table, theme: Theme, count: int) -> list[Table]:
    """The table as ``count``, each with some of the sizes and all that they share."""
    sizes = [index for index, column in enumerate(node.columns) if column.size is not None]
    per_part = ceil(len(sizes) / count)  # parts of like size
    parts = []
    for start in range(0, len(sizes), per_part):
        mine = set(sizes[start : start + per_part])
        chosen = [
            index
            for index, column in enumerate(node.columns)
            if column.size is None or index in mine
        ]
        parts.append(_columns_of(node, chosen, theme, first=start == 0))
    return parts


def _columns_of(node: Table, chosen: list[int], theme: Theme, first: bool) -> Table:
    sizes = [node.columns[index] for index in chosen if node.columns[index].size is not None]
    return replace(
        node,
        caption=(*node.caption, Text(f" ({_which(sizes, theme)})")),
        columns=tuple(node.columns[index] for index in chosen),
        rows=tuple(TableRow(tuple(row.cells[index] for index in chosen)) for row in node.rows),
        groups=_groups_of(node, chosen),
        id=node.id if first else "",
    )


def _which(sizes: Sequence[Column], theme: Theme) -> str:
    """The sizes of a part; the heading of several sizes begins and ends with their names."""
    first, last = plain(sizes[0].heading[:1]), plain(sizes[-1].heading[-1:])
    words = theme.words.size if first == last else theme.words.sizes
    return words.format(first=first, last=last)


def _groups_of(node: Table, chosen: list[int]) -> tuple[tuple[Inlines, int], ...]:
    owner = [index for index, (_, span) in enumerate(node.groups) for _ in range(span)]
    kept = [owner[index] for index in chosen] if owner else []
    return tuple((node.groups[group][0], kept.count(group)) for group in dict.fromkeys(kept))


def row_blocks(node: Table) -> Blocks:
    """``node`` without columns, for a place too narrow for them: its caption, and for every row a
    list entry that names the row, and below that says each cell after the heading of its column."""
    owner = [heading for heading, span in node.groups for _ in range(span)]
    labels = [
        (*owner[index], Text(", "), *column.heading) if owner and owner[index] else column.heading
        for index, column in enumerate(node.columns)
    ]
    items = []
    for row in node.rows:
        said = [_labelled(*pair) for pair in zip(labels, row.cells, strict=True)]
        names = _listed(said[: node.header_columns])
        cells = _listed(said[node.header_columns :])
        line = (LineBreak(),) if names and cells else ()
        items.append(ListItem((Paragraph((*names, *line, *cells)),)))
    title = (Paragraph(node.caption, "small"),) if node.caption else ()
    return (*title, ItemList(tuple(items)))


def _labelled(label: Inlines, cell: Inlines) -> Inlines:
    return (*((Strong((*label, Text(": "))),) if plain(label) else ()), *cell)


def _listed(said: Sequence[Inlines]) -> Inlines:
    """What is said, with semicolons between."""
    found = [each for each in said if each]
    parts = [(*each, Text("; ")) for each in found[:-1]]
    return (*(each for part in parts for each in part), *(found[-1] if found else ()))


# ------------------------------------------------------------ bands


class _Set(Record):
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


class _Cell(Record):
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
        writer.line(x, top, end, top, colours.ink, 0.9)
        y = top
        for row in self.heads:
            y -= row.height
            for start, stop in row.rules:
                writer.line(x + start, y, x + stop, y, colours.rule, 0.5)
        if self.heads:
            writer.line(x, y, end, y, colours.ink, 0.5)
        for band, band_top in fragment.bands:
            if band.what == "table row":
                foot = band_top - band.height
                writer.line(x, foot, end, foot, colours.hairline, 0.4)
        writer.line(x, fragment.bottom, end, fragment.bottom, colours.rule, 0.5)


def table_bands(
    pieces: Sequence["_Set"],
    room: Room,
    theme: Theme,
    parent: Tag,
    runs_of: RunsOf,
    caption: Callable[[Inlines, Tag, str], list[Band]],
    groups: tuple[Group, ...],
) -> list[Band]:
    """``pieces``, as ``fitted`` gives them for ``room``, as bands.

    ``caption`` sets a caption line by line for a tag (and id to lead to).
    """
    found: list[Band] = []
    for index, piece in enumerate(pieces):
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
    note = lines(words([TextRun(more, theme.caption.look)]), 1e6)[0]
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
        bands_of_row = _row_bands(_body_row(piece, index, theme, body.add("TR")), room, inside)
        for band in bands_of_row:
            band.origin = piece.node.rows[index].origin
        rows += bands_of_row
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
