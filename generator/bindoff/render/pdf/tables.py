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
from bindoff.render.pdf.fonts import face
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
_GOOD_EMS = 11.0  # a column of prose at least this wide reads as well as a page,
_EASY_EMS = 8.0  # one at least this wide easily,
_LEAST_EMS = 4.2  # and one at least this wide can be read
_TIGHT = 0.65  # of the gap between columns
_HEAD_SHARE = 0.3  # of the frame's height: a higher head is not repeated
_ROW_PART = 0.4  # of the frame's height: a higher row may be cut between lines
_CUT = 24.0  # cost of ending a page between two rows
_CUT_SHORT = 70.0  # ... of a table of less than
_SHORT = 0.3  # of the frame's height
_CUT_TICKED = 250.0  # ... of one that is ticked off row by row, of no more than
_WHOLE = 12  # rows
_CUT_LONG = 0.5  # ... of a table that must be cut anyway
_SHORT_EMS = 5.0  # a figure, or a word
_TIGHTEST = 0.45  # ... in half of a table
_NOTE_WORDS = 5
LEAST_SIZES = 5
"""From so many on, each size has its own place on the page."""
_WRAPPED = 0.25  # of the names of rows: more in two lines have no room in the side column
_MANY_ROWS = 8  # rows of a table whose rows stand closer,
_CLOSE_ROWS = 0.4  # ... with so much of their white space
_MANY_TO_HALVE = 14  # rows: such a table may stand in two halves
_HALF_SHARE = 0.7  # of the frame's height: the most a block of halves takes
_LANE_AIR = 3.0  # in a lane beside its widest figure
_LEAST_SHARES = 3  # a lane takes no more of the main column than one of three
_TICK_AT = 1.7  # ems left of a table is where the boxes to tick begin
_BLOCK_GAP = 17.0  # between the lanes of two units
_A_UNIT = re.compile(r"[^\W\d]{1,3}")
_FIGURE = re.compile(r"\d[\d,]*")
_LONG = 0.85  # of the frame's height: such a table


class Room(Record):
    """Where a table stands: left edge in the frame, width, and the height of the frame; ``side`` of
    the width is for the names of rows where sizes have lanes."""

    x: float
    width: float
    height: float
    side: float = 0.0


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


def _needs(node: Table, sheet: _Sheet, ems: float, broken: bool = False) -> list[Need]:
    """What each column needs if one of prose is to be ``ems`` wide at least; with ``broken`` heads
    none is wider than its cells and the longest word of its head."""
    needs = []
    prose = ems * sheet.body.size
    for index, column in enumerate(node.columns):
        texts = [sheet.heads[index], *(row[index] for row in sheet.cells)]
        most = max(widest(text) for text in texts)
        if broken and column.size is None:
            most = max(narrowest(texts[0]), *(widest(text) for text in texts[1:]))
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


def in_lanes(
    node: Table, room: Room, sizes: tuple[str, ...], theme: Theme, runs_of: RunsOf
) -> "_Set | None":
    """``node`` with the names of its rows in the side column, and what follows in equal lanes.

    A size has the same place in every table, and sizes that share a column share their lanes; under
    headings over several columns, such as units, every heading gets as much. None for a table that
    is not of sizes alone, or has no room.
    """
    node = merged(node, theme)
    first = node.header_columns
    if first != 1 or any(
        (column.size is None) != (at < first) for at, column in enumerate(node.columns)
    ):
        return None
    stems = _stems(node)
    node = _stressed(node, stems)
    places = _places(node, room, len(sizes))
    if places is None:
        return None
    for body, head in (
        (theme.table, theme.table_head),
        (theme.table_small, _small_head(theme)),
    ):
        sheet = _measured(node, body, head, runs_of)
        unit = max(
            (widest(words(runs_of((Text(unit),), body))) for _, unit, _ in stems if unit),
            default=0.0,
        )
        name = room.side - theme.cell_gap - (unit + theme.cell_gap / 2 if unit else 0.0)
        names = [narrowest(text) for text in (sheet.heads[0], *(row[0] for row in sheet.cells))]
        wide = [place[1] - _LANE_AIR for place in places]
        fits = all(
            max(narrowest(sheet.heads[at]), *(widest(row[at]) for row in sheet.cells)) <= room
            for at, room in enumerate(wide, first)
        )
        lines_of = [len(lines(row[0], name)) for row in sheet.cells]
        wrapped = sum(count > 1 for count in lines_of) > len(lines_of) * _WRAPPED
        if (wrapped or node.tick) and len(sizes) < LEAST_SIZES and not node.groups:
            return None  # names of so many words are no names, and boxes need room beside them
        if fits and max(names) <= name:
            lefts = [0.0, *(left for left, _ in places)]
            widths = [name, *(width for _, width in places)]
            tinted = _tinted(node, places) if len(sizes) > 1 else ()
            axes = tuple(_axis(node, sheet, at, runs_of) for at in range(len(widths)))
            units = room.side - theme.cell_gap
            return _Set(node, sheet, widths, 0.0, lefts, tinted, stems, units, axes)
    return None


def _axis(node: Table, sheet: _Sheet, column: int, runs_of: RunsOf) -> tuple[float, float]:
    """How far the figures of a column reach before and after the end of their whole part."""
    before = after = 0.0
    for row, text in zip(node.rows, sheet.cells, strict=True):
        whole = _FIGURE.match(plain(row.cells[column]))
        if whole is not None:
            left = _width_of(whole[0], sheet.body, runs_of)
            before, after = max(before, left), max(after, widest(text[column]) - left)
    return before, after


_Stem = tuple[str, str, bool]
"""What a row's name begins with, the unit at its end, and whether the row before begins so too."""


def _stems(node: Table) -> tuple[_Stem, ...]:
    """Rows in turn that give one thing in several units have its name in common."""
    parts = [plain(row.cells[0]).rpartition(", ") for row in node.rows]
    found = []
    for at, (stem, _, tail) in enumerate(parts):
        same = [
            0 <= other < len(parts) and stem != "" and parts[other][0] == stem
            for other in (at - 1, at + 1)
        ]
        joined = any(same) and bool(_A_UNIT.fullmatch(tail))
        found.append((stem, tail, same[0]) if joined else ("", "", False))
    return tuple(found)


def _stressed(node: Table, stems: Sequence[_Stem]) -> Table:
    """The first of several units stands out."""
    rows = tuple(
        TableRow((row.cells[0], *((Strong(cell),) for cell in row.cells[1:])))
        if unit and not again
        else row
        for row, (_, unit, again) in zip(node.rows, stems, strict=True)
    )
    return replace(node, rows=rows)


def _places(node: Table, room: Room, sizes: int) -> list[tuple[float, float]] | None:
    """The left edge and the width of every column after the first."""
    columns = node.columns[1:]
    main = room.width - room.side
    spans = [span for _, span in node.groups[1:]] or [len(columns)]
    if node.groups and (node.groups[0][1] != 1 or sum(spans) != len(columns)):
        return None
    if sizes == 1:
        wide = min(main / len(columns), main / _LEAST_SHARES)
        return [(room.side + wide * at, wide) for at in range(len(columns))]
    block = (main - _BLOCK_GAP * (len(spans) - 1)) / len(spans)
    lane = min(block / sizes, main / _LEAST_SHARES)
    found: list[tuple[float, float]] = []
    at = 0
    for number, span in enumerate(spans):
        start = room.side + (block + _BLOCK_GAP) * number
        own = [column.size or 0 for column in columns[at : at + span]]
        stops = [*own[1:], sizes]
        if sorted(set(own)) != own or own[-1] >= sizes:
            return None
        found += [(start + lane * a, lane * (b - a)) for a, b in zip(own, stops, strict=True)]
        at += span
    return found


def _tinted(node: Table, places: Sequence[tuple[float, float]]) -> tuple[tuple[float, float], ...]:
    """Every other column under each heading."""
    spans = [span for _, span in node.groups[1:]] or [len(places)]
    numbers = [number for span in spans for number in range(span)]
    return tuple(place for number, place in zip(numbers, places, strict=True) if number % 2)


def _whole(node: Table, room: Room, theme: Theme, runs_of: RunsOf) -> "_Set | None":
    """``node`` with comfortable columns, else with tight gaps, smaller, with narrower columns."""
    small = theme.table_small
    tight = theme.cell_gap * _TIGHT
    sheet = _measured(node, theme.table, theme.table_head, runs_of)
    for style, gap, ems, broken in (
        (theme.table, theme.cell_gap, _GOOD_EMS, False),
        (theme.table, theme.cell_gap, _GOOD_EMS, True),
        (theme.table, theme.cell_gap, _EASY_EMS, False),
        (theme.table, tight, _EASY_EMS, False),
        (small, tight, _EASY_EMS, False),
        (small, tight, _EASY_EMS, True),
        (small, tight, _LEAST_EMS, True),
    ):
        if style != sheet.body:
            sheet = _measured(node, small, _small_head(theme), runs_of)
        space = room.width - gap * (len(node.columns) - 1)
        needs = _needs(node, sheet, ems, broken)
        widths = share(needs, space, style.size * _NARROW_EMS, stretch=not node.tick)
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
    edges: list[float] | None = None  # the left edge of each column of a table in lanes,
    tinted: tuple[tuple[float, float], ...] = ()  # the left edge and width of its tints,
    stems: tuple[_Stem, ...] = ()
    units: float = 0.0  # ... where its units end,
    axes: tuple[tuple[float, float], ...] = ()  # ... and how far the figures of its columns reach

    def goes_on(self, row: int) -> bool:
        """Whether the row after gives the same in another unit."""
        return row + 1 < len(self.stems) and self.stems[row + 1][2]

    def lefts(self) -> list[float]:
        """The left edge of each column."""
        if self.edges is not None:
            return self.edges
        return [sum(self.widths[:at]) + self.gap * at for at in range(len(self.widths))]

    @property
    def width(self) -> float:
        """The width of the whole."""
        if self.edges is not None:
            return self.edges[-1] + self.widths[-1]
        return sum(self.widths) + self.gap * (len(self.widths) - 1)


@dataclass(slots=True)
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
    under: float | None = None  # the white space below, if it is not that above
    lower: int = 0  # lines of the row's name that stand beside the rows after it

    @property
    def count(self) -> int:
        most = max((len(cell.lines) for cell in self.cells), default=1)
        others = max((len(cell.lines) for cell in self.cells[1:]), default=1)
        return max(others, most - self.lower) or 1

    @property
    def height(self) -> float:
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


@dataclass(slots=True, eq=False)
class _Frame:
    """The rules of a table, and its heads again where it goes on over the page."""

    theme: Theme
    x: float
    width: float
    heads: list[_Row]
    note: Line
    note_x: float = 0.0
    tinted: tuple[tuple[float, float], ...] = ()

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
        writer.artifact()
        for start, width in self.tinted:
            above = top if fragment.first else top - self._note_height
            high = above - fragment.bottom
            writer.box(x + start, fragment.bottom, width, high, fill=colours.lane_tint)
        if not fragment.first:
            writer.artifact("Pagination", "Header")
            at = x + self.note_x
            paint_line(writer, self.note, None, at, baseline(self.theme.caption, top))
            top -= self._note_height
            y = top
            for row in self.heads:
                row.paint(writer, x, y, tagged=False)
                y -= row.height
        writer.artifact()
        end = x + self.width
        y = top
        for row in self.heads:
            y -= row.height
            for start, stop in row.rules:
                writer.line(x + start, y, x + stop, y, colours.rule, 0.5)
        if self.heads:
            writer.line(x, y, end, y, colours.ink, 1.2)
        for band, band_top in fragment.bands:
            if band.what == "table row":
                foot = band_top - band.height
                writer.line(x, foot, end, foot, colours.hairline, 0.4)
        writer.line(x, fragment.bottom, end, fragment.bottom, colours.hairline, 0.4)


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
    if len(piece.node.rows) >= _MANY_ROWS and not any(unit for _, unit, _ in piece.stems):
        theme = replace(theme, cell_pad=theme.cell_pad * _CLOSE_ROWS)
    heads = _head_rows(piece, theme, tag.add("THead"), runs_of)
    more = _continued(plain(piece.node.caption), theme)
    note = lines(words([TextRun(more, theme.caption.look)]), 1e6)[0]
    tall = sum(row.height for row in heads) > room.height * _HEAD_SHARE
    repeated = [] if tall else heads
    frame = _Frame(theme, room.x, piece.width, repeated, note, room.side, piece.tinted)
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
    together: list[Band] = []
    for index in range(len(piece.node.rows)):
        bands_of_row = _row_bands(
            _body_row(piece, index, theme, body.add("TR"), runs_of), room, inside
        )
        for band in bands_of_row:
            band.origin = piece.node.rows[index].origin
        if piece.node.tick:
            _ticked(bands_of_row[0], room, theme)
        if piece.goes_on(index):
            bands_of_row[-1].what = "table row part"
            together.append(bands_of_row[-1])
        rows += bands_of_row
    high = sum(band.height for band in [*bands, *rows])
    if high > room.height * _LONG:
        for band in rows:
            band.keep = _CUT_LONG
    elif piece.node.tick and len(piece.node.rows) <= _WHOLE and high < room.height * _LONG:
        for band in rows:
            band.keep = _CUT_TICKED
    elif high < room.height * _SHORT:
        for band in rows:
            band.keep = _CUT_SHORT
    for band in together:
        band.keep = NEVER
    kept = {id(band) for band in together}
    first = next((at for at, band in enumerate(rows) if id(band) not in kept), 0)
    last = next((at for at in range(len(rows) - 2, -1, -1) if id(rows[at]) not in kept), 0)
    for band in [*rows[: first + 1], *rows[last:-1]]:  # neither one row behind nor one ahead
        band.keep = NEVER
    if rows:
        rows[-1].keep = 0.0
    return bands + rows


def _ticked(band: Band, room: Room, theme: Theme) -> None:
    """A box before a row, to tick when it is done; it hangs left of the table if it can."""
    inner = band.paint
    if not room.x:
        return
    x = max(0.0, room.x - theme.table.size * _TICK_AT)

    def paint(writer: Writer, left: float, top: float) -> None:
        _paint_box(writer, left + x, top - theme.cell_pad, theme.table, theme)
        inner(writer, left, top)

    band.paint = paint


def _paint_box(writer: Writer, x: float, top: float, style: TextStyle, theme: Theme) -> None:
    """A box as high as the type, in the middle of a capital of its first line."""
    size = style.size
    low = baseline(style, top) - (size - face(style.face).cap_height * size) / 2
    writer.artifact()
    writer.box(x, low, size, size, stroke=theme.colours.ink, width=0.6)


def halved(node: Table, room: Room, theme: Theme, runs_of: RunsOf) -> "tuple[_Set, Room] | None":
    """A long ``node`` to tick off as two halves side by side, and the room of the first of them;
    None for one that is short, has sizes, or is too wide for half of ``room``."""
    if len(node.rows) < _MANY_TO_HALVE or not node.tick:
        return None
    if any(column.size is not None for column in node.columns):
        return None
    tick = theme.table.size * _TICK_AT
    half = Room(room.x + tick, (room.width - theme.column_gap) / 2 - tick, room.height)
    sheet = _measured(node, theme.table_small, _small_head(theme), runs_of)
    gap = theme.cell_gap * _TIGHTEST
    space = half.width - gap * (len(node.columns) - 1)
    first = node.header_columns
    if any(
        widest(cell) > _SHORT_EMS * sheet.body.size for row in sheet.cells for cell in row[first:]
    ):
        return None  # words, not figures
    needs = [  # only heads are in several lines
        replace(need, least=max(need.least, *(widest(row[at]) for row in sheet.cells)))
        for at, need in enumerate(_needs(node, sheet, 0.0))
    ]
    widths = share(needs, space, 0.0, stretch=False)
    return (_Set(node, sheet, widths, gap), half) if widths else None


def halved_bands(
    piece: "_Set",
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
    theme = replace(theme, cell_pad=theme.cell_pad * _CLOSE_ROWS)
    heads = _head_rows(piece, theme, tag.add("THead"), runs_of)
    body = tag.add("TBody")
    rows = [
        _body_row(piece, index, theme, body.add("TR"), runs_of) for index in range(len(node.rows))
    ]
    most = max(1, int(half.height * _HALF_SHARE / max(row.height for row in rows)))
    start = 0
    while start < len(rows):
        count = min(most, ceil((len(rows) - start) / 2))
        middle, stop = start + count, min(start + 2 * count, len(rows))
        block = _Halves(heads, rows[start:middle], rows[middle:stop], half, step, theme)
        found.append(block.band(groups, piece.width, first=start == 0))
        start = stop
    found[0].before = theme.block_gap
    return found


class _Halves(Record, eq=False):
    """Two halves of a table side by side, each under the heads."""

    heads: list[_Row]
    left: list[_Row]
    right: list[_Row]
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

        return Band(height, paint, 3.0, _CUT, groups, "table row")

    def _paint(
        self, writer: Writer, rows: list[_Row], x: float, top: float, width: float, tagged: bool
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
            box = x - self.theme.table.size * _TICK_AT
            _paint_box(writer, box, top - row.pad, row.style, self.theme)
            row.paint(writer, x, top, tagged=True)
            top -= row.height
            writer.artifact()
            writer.line(x, top, x + width, top, colours.hairline, 0.4)


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
        align = "centre" if piece.edges and index else column.align
        cells.append(_Cell(tag, lines(text, width), lefts[index], width, align))
    rows.append(_Row(cells, piece.sheet.head, theme.cell_pad, bottom=True))
    return rows


def _body_row(piece: _Set, index: int, theme: Theme, row: Tag, runs_of: RunsOf) -> _Row:
    lefts = piece.lefts()
    cells = []
    for at, text in enumerate(piece.sheet.cells[index]):
        names = at < piece.node.header_columns and bool(text)
        tag = row.add("TH", scope="Row") if names else row.add("TD")
        width = piece.widths[at]
        align = piece.node.columns[at].align
        cells.append(_Cell(tag, lines(text, width, True), lefts[at], width, align))
    if piece.edges is None:
        return _Row(cells, piece.sheet.body, theme.cell_pad)
    for at, cell in enumerate(cells[1:], 1):
        _on_axis(piece, at, index, cell, runs_of)
    return _with_units(piece, index, cells, theme, runs_of)


def _on_axis(piece: _Set, column: int, row: int, cell: _Cell, runs_of: RunsOf) -> None:
    """Move a figure so that whole numbers of its column end at one place, in the lane's middle."""
    before, after = piece.axes[column]
    whole = _FIGURE.match(plain(piece.node.rows[row].cells[column]))
    if whole is None or len(cell.lines) != 1:
        cell.align = "centre"
        return
    middle = cell.x + (cell.width - before - after) / 2 + before
    cell.x = middle - _width_of(whole[0], piece.sheet.body, runs_of)
    cell.align = "left"


def _width_of(text: str, style: TextStyle, runs_of: RunsOf) -> float:
    return widest(words(runs_of((Text(text),), style)))


def _with_units(piece: _Set, index: int, cells: list[_Cell], theme: Theme, runs_of: RunsOf) -> _Row:
    """The row with its unit at the end of the side column, its name said once for all units."""
    stem, unit, again = piece.stems[index]
    if not unit:
        return _Row(cells, piece.sheet.body, theme.cell_pad)
    name, style = cells[0], piece.sheet.body
    name.tag.actual = plain(piece.node.rows[index].cells[0])
    text = words(runs_of((Text(unit),), style))
    name.lines = [] if again else lines(words(runs_of((Text(stem),), style)), name.width)
    cells.insert(1, _Cell(name.tag, lines(text, 1e6), 0.0, piece.units, "right"))
    following = 0
    while piece.goes_on(index + following):
        following += 1
    lower = min(max(0, len(name.lines) - 1), following)
    above = 0.0 if again else theme.cell_pad
    below = 0.0 if piece.goes_on(index) else theme.cell_pad
    return _Row(cells, style, above, under=below, lower=lower)


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
