"""How wide the columns of a table are.

Figures of the sizes get columns of one width; sizes that agree in every row share one. A table too
wide for the page is set smaller; if that is not enough it is parted by sizes, each part with all
that the sizes share, because a table cut by the paper's edge or set in mouse type is of no use.
What cannot be parted so has no columns: see ``rowlists``.
"""

from collections.abc import Sequence

from bindoff import regex as re
from bindoff.document.tree import Inlines, Ringed, Table, Text, plain
from bindoff.records import Record, replace
from bindoff.render.pdf.parts import RunsOf
from bindoff.render.pdf.tablesizes import merged, parted
from bindoff.render.pdf.text import NBSP, Word, lines, narrowest, widest, words
from bindoff.render.pdf.theme import TextStyle, Theme
from bindoff.render.pdf.widths import Need, evened, share

_NARROW_EMS = 7.5  # a column of figures or of a word or two keeps its width
_GOOD_EMS = 11.0  # a column of prose at least this wide reads as well as a page,
_EASY_EMS = 8.0  # one at least this wide easily,
_LEAST_EMS = 4.2  # and one at least this wide can be read
TIGHT = 0.65  # of the gap between columns
_HAIR = 0.01  # points that are not seen
_RING_GAP = 0.4  # ems between the letters in rings of a row and its name
FIGURE = re.compile(r"(\d+(?:,\d{3})*)?(\.\d+|[¼½¾⅛⅜⅝⅞])?")
"""A figure: its whole part, and what follows that."""
Stem = tuple[str, str, bool]
"""What a row's name begins with, the unit at its end, and whether the row before begins so too."""
_A_UNIT = re.compile(r"[^\W\d]{1,3}")


class Room(Record):
    """Where a table stands: left edge in the frame, width, and the height of the frame; ``side`` of
    the width is for the names of rows where sizes have lanes."""

    x: float
    width: float
    height: float
    side: float = 0.0


class Sheet(Record):
    """A table measured in one type size: words of the heads and of every cell; the letters in rings
    of a row's name stand by themselves, to its left. ``tails`` are the widths of what follows the
    whole parts of figures, cell by cell, in columns of figures alone, and ``axes`` how far the
    figures of a column reach before and after the end of their whole parts."""

    body: TextStyle
    head: TextStyle
    heads: list[Sequence[Word]]
    cells: list[list[Sequence[Word]]]
    rings: list[Sequence[Word]]
    tails: list[list[float | None]]
    axes: list[tuple[float, float]]

    def hang(self, row: int) -> float:
        """How far the name of a row stands to the right of its letters."""
        rings = self.rings[row]
        return widest(rings) - self.lead(row) + self.body.size * _RING_GAP if rings else 0.0

    def lead(self, row: int) -> float:
        """The width of the space before the letters, which parts them from the name for the ear and
        has no room in print."""
        return self.rings[row][0].parts[0].width


class Grid(Record):
    """A table with its column widths settled."""

    node: Table
    sheet: Sheet
    widths: list[float]
    gap: float
    edges: list[float] | None = None  # the left edge of each column of a table in lanes,
    tinted: tuple[tuple[float, float], ...] = ()  # the left edge and width of its tints,
    stems: tuple[Stem, ...] = ()
    units: float = 0.0  # ... where its units end

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


def stems_of(node: Table) -> tuple[Stem, ...]:
    """Rows in turn that give one thing in several units have its name in common."""
    parts = [plain(ringless(row.cells[0])[0]).rpartition(", ") for row in node.rows]
    found = []
    for at, (stem, _, tail) in enumerate(parts):
        same = [
            0 <= other < len(parts) and stem != "" and parts[other][0] == stem
            for other in (at - 1, at + 1)
        ]
        joined = any(same) and bool(_A_UNIT.fullmatch(tail))
        found.append((stem, tail, same[0]) if joined else ("", "", False))
    return tuple(found)


def goes_on(stems: Sequence[Stem], row: int) -> bool:
    """Whether the row after gives the same in another unit."""
    return row + 1 < len(stems) and stems[row + 1][2]


def measured(node: Table, body: TextStyle, head: TextStyle, runs_of: RunsOf) -> Sheet:
    """``node`` in these styles."""
    named = [ringless(row.cells[0]) for row in node.rows]
    cells = [
        [words(runs_of(cell, body)) for cell in (name, *row.cells[1:])]
        for (name, _), row in zip(named, node.rows, strict=True)
    ]
    by_column = [
        _tails(node, [row[at] for row in cells], at, body, runs_of)
        for at in range(len(node.columns))
    ]
    return Sheet(
        body,
        head,
        [words(runs_of(column.heading, head)) for column in node.columns],
        cells,
        [words(runs_of((Text(NBSP), *rings), body)) if rings else [] for _, rings in named],
        [list(tails) for tails in zip(*by_column, strict=True)],
        _axes(node, by_column, cells),
    )


def _blocks(node: Table) -> list[int]:
    """For each column the number of the heading over several columns that it stands under."""
    spans = [span for _, span in node.groups] or [len(node.columns)]
    return [block for block, span in enumerate(spans) for _ in range(span)]


def _tails(
    node: Table, cells: Sequence[Sequence[Word]], column: int, body: TextStyle, runs_of: RunsOf
) -> list[float | None]:
    """The width of what follows the whole part of each figure in a column of figures; none for
    words and marks. Figures at the right edge stand alone; at the left one others go on, as in
    ``8–12``."""
    said = [plain(row.cells[column]) for row in node.rows]
    alone = sum(bool(each) and FIGURE.fullmatch(each) is not None for each in said)
    begun = sum(each[:1].isdigit() for each in said)
    align = node.columns[column].align
    if not alone or (alone < begun if align == "right" else 2 * begun < len(said)):
        return [None] * len(said)
    found: list[float | None] = []
    for each, text in zip(said, cells, strict=True):
        figure = FIGURE.match(each)
        if figure is None or not figure[0]:
            found.append(None)
        elif figure[1] == each:
            found.append(0.0)
        else:
            whole = width_of(figure[1], body, runs_of) if figure[1] else 0.0
            found.append(widest(text) - whole)
    return found


def _axes(
    node: Table,
    by_column: Sequence[Sequence[float | None]],
    cells: Sequence[Sequence[Sequence[Word]]],
) -> list[tuple[float, float]]:
    """How far the figures of each column reach before and after the end of their whole part; those
    of sizes under one heading reach as far as the widest of them, so that their steps are equal."""
    found = [(0.0, 0.0)] * len(by_column)
    for at, tails in enumerate(by_column):
        for row, tail in zip(cells, tails, strict=True):
            if tail is not None:
                before, after = found[at]
                found[at] = max(before, widest(row[at]) - tail), max(after, tail)
    shared: dict[int, tuple[float, float]] = {}
    blocks = _blocks(node)
    for column, block, (before, after) in zip(node.columns, blocks, found, strict=True):
        if column.size is not None:
            most = shared.get(block, (0.0, 0.0))
            shared[block] = max(before, most[0]), max(after, most[1])
    return [
        shared[block] if column.size is not None else own
        for column, block, own in zip(node.columns, blocks, found, strict=True)
    ]


def ringless(name: Inlines) -> tuple[Inlines, Inlines]:
    """The name of a row without its letters in rings and the space before them; and these."""
    rings = tuple(node for node in name if isinstance(node, Ringed))
    if not rings:
        return name, ()
    at = name.index(rings[0])
    before = name[at - 1] if at else Text("")
    rest = [node for node in name[at:] if not isinstance(node, Ringed)]
    if isinstance(before, Text):
        return (*name[: max(0, at - 1)], Text(before.text.rstrip()), *rest), rings
    return (*name[:at], *rest), rings


def needs_of(
    node: Table, sheet: Sheet, ems: float, broken: bool = False, sizes: bool = False
) -> list[Need]:
    """What each column needs if one of prose is to be ``ems`` wide at least; with ``broken`` heads
    none is wider than its cells and the longest word of its head, and none of ``sizes`` either."""
    needs = []
    prose = ems * sheet.body.size
    blocks = _blocks(node)
    for index, column in enumerate(node.columns):
        texts = [sheet.heads[index], *(row[index] for row in sheet.cells)]
        hangs = [0.0, *(0.0 if index else sheet.hang(at) for at in range(len(sheet.cells)))]
        wide = [widest(text) + hang for text, hang in zip(texts, hangs, strict=True)]
        narrow = [narrowest(text) + hang for text, hang in zip(texts, hangs, strict=True)]
        if sizes if column.size is not None else broken:
            wide[0] = narrow[0]
        most = max(*wide, sum(sheet.axes[index]))
        least = max(*narrow, min(most, prose))
        weight = max(column.weight, 0.01)
        needs.append(Need(least, most, column.size is not None, weight, blocks[index]))
    return needs


def table_width(node: Table, theme: Theme, runs_of: RunsOf, small: bool = False) -> float:
    """The least width at which ``node`` has comfortable columns, in the usual or the small type."""
    node = merged(node, theme)
    body, head, gap = theme.table, theme.table_head, theme.cell_gap
    if small:
        body, head, gap = theme.table_small, small_head(theme), theme.cell_gap * TIGHT
    needs = evened(needs_of(node, measured(node, body, head, runs_of), _EASY_EMS))
    return sum(need.least for need in needs) + gap * (len(needs) - 1)


def small_head(theme: Theme) -> TextStyle:
    """The style of heads in a table of small type."""
    return replace(theme.table_head, size=theme.table_small.size, leading=theme.table_small.leading)


def width_of(text: str, style: TextStyle, runs_of: RunsOf) -> float:
    """The width of ``text`` on one line, in points."""
    return widest(words(runs_of((Text(text),), style)))


def fitted(node: Table, room: Room, theme: Theme, runs_of: RunsOf) -> list["Grid"] | None:
    """``node`` set to fit ``room``: whole if possible, else some of its sizes at a time.

    Large type is parted before its names stand word below word. None if the columns that stand in
    every part leave no room for a single size.
    """
    node = merged(node, theme)
    easy_first = theme.columns == 1 and not node.groups
    for narrow in (False, True) if easy_first else (True,):
        found = _whole_or_parted(node, room, theme, runs_of, narrow)
        if found:
            return found
    return None


def _whole_or_parted(
    node: Table, room: Room, theme: Theme, runs_of: RunsOf, narrow: bool
) -> list["Grid"] | None:
    whole = _whole(node, room, theme, runs_of, narrow)
    if whole:
        return [whole]
    sizes = sum(column.size is not None for column in node.columns)
    for count in range(2, sizes + 1):
        parts = [_whole(part, room, theme, runs_of, narrow) for part in parted(node, theme, count)]
        found = [part for part in parts if part]
        if len(found) == len(parts):
            return found
    return None


def hung_names(node: Table, room: Room, theme: Theme, runs_of: RunsOf) -> "Grid | None":
    """``node`` with the names of its rows in the side column of ``room`` and every cell on one
    line; None where one has no room for that, and for tables of sizes."""
    if node.header_columns != 1 or any(column.size is not None for column in node.columns):
        return None
    sheet = measured(node, theme.table, theme.table_head, runs_of)
    for broken in (False, True):
        name, *others = needs_of(node, sheet, 0.0, broken)
        gaps = theme.cell_gap * (len(others) - 1)
        needs = [replace(need, least=need.most) for need in others]
        narrow = theme.table.size * _NARROW_EMS
        widths = share(needs, room.width - room.side - gaps, narrow)
        if widths and name.most <= room.side - theme.cell_gap:
            return Grid(node, sheet, [room.side - theme.cell_gap, *widths], theme.cell_gap)
    return None


def has_broken_cells(piece: Grid) -> bool:
    """Whether a cell below the heads takes more than one line."""
    return any(
        widest(cell) > wide + _HAIR
        for row in piece.sheet.cells
        for cell, wide in zip(row, piece.widths, strict=True)
    )


def parts_and_lines(pieces: Sequence[Grid]) -> tuple[int, int]:
    """How many parts a table has, and how many lines their rows take: less of either is better."""
    rows = [(row, piece.widths) for piece in pieces for row in piece.sheet.cells]
    high = sum(
        max(len(lines(cell, wide, True)) for cell, wide in zip(row, widths, strict=True))
        for row, widths in rows
    )
    return len(pieces), high


def _whole(node: Table, room: Room, theme: Theme, runs_of: RunsOf, narrow: bool) -> "Grid | None":
    """``node`` with comfortable columns, else with tight gaps, smaller, with the names of sizes in
    several lines; at last, if they may be ``narrow``, with narrower columns."""
    small = theme.table_small
    tight = theme.cell_gap * TIGHT
    sheet = measured(node, theme.table, theme.table_head, runs_of)
    for style, gap, ems, broken, sizes in (
        (theme.table, theme.cell_gap, _GOOD_EMS, False, False),
        (theme.table, theme.cell_gap, _GOOD_EMS, True, False),
        (theme.table, theme.cell_gap, _EASY_EMS, False, False),
        (theme.table, tight, _EASY_EMS, False, False),
        (small, tight, _EASY_EMS, False, False),
        (small, tight, _EASY_EMS, True, False),
        (small, tight, _EASY_EMS, True, True),
        (small, tight, _LEAST_EMS, True, False),
        (small, tight, _LEAST_EMS, True, True),
    ):
        if ems == _LEAST_EMS and not narrow:
            break
        if style != sheet.body:
            sheet = measured(node, small, small_head(theme), runs_of)
        space = room.width - gap * (len(node.columns) - 1)
        needs = needs_of(node, sheet, ems, broken, sizes)
        widths = share(needs, space, style.size * _NARROW_EMS, stretch=not node.tick)
        if widths is not None:
            return Grid(node, sheet, widths, gap)
    return None
