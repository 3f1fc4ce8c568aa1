"""The bands a table is made of. Rules are light and horizontal only."""

from collections.abc import Callable, Sequence

from bindoff import regex as re
from bindoff.document.tree import Inlines, plain
from bindoff.records import Changing, replace
from bindoff.render.pdf.galley import NEVER, Band, Fragment, Group
from bindoff.render.pdf.parts import RunsOf
from bindoff.render.pdf.tablefit import Grid, Room, goes_on, stems_of
from bindoff.render.pdf.tablerows import CUT, Row, body_row, head_band, head_rows, row_bands, ticked
from bindoff.render.pdf.tagging import Tag, Writer
from bindoff.render.pdf.text import Line, TextRun, baseline, lines, paint_line, words
from bindoff.render.pdf.theme import Theme

_HEAD_SHARE = 0.3  # of the frame's height: a higher head is not repeated
_CUT_SHORT = 70.0  # cost of ending a page between two rows of a table of less than
_SHORT = 0.75  # of the frame's height,
_CUT_WHOLE = 250.0  # ... of one that is ticked off or looked at as a whole, of no more than
_WHOLE = 20  # rows,
_CUT_LONG = 0.5  # ... and of one that must be cut anyway, as it takes more than
_LONG = 0.85  # of the frame's height
_CUT_FEW = 60.0  # ... and of one that leaves no more behind, or goes on with no more, than
_FEW = 3  # rows
_NOTE_WORDS = 5
_MANY_ROWS = 5  # rows of a table whose rows stand closer,
CLOSE_ROWS = 0.4  # ... with so much of their white space


class _Frame(Changing):
    """The rules of a table, and its heads again where it goes on over the page."""

    theme: Theme
    x: float
    width: float
    heads: list[Row]
    note: Line
    note_x: float = 0.0
    tinted: tuple[tuple[float, float], ...] = ()

    @property
    def once(self) -> bool:
        """It frames each part."""
        return False

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
    pieces: Sequence["Grid"],
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
    piece: Grid,
    room: Room,
    theme: Theme,
    tag: Tag,
    groups: tuple[Group, ...],
    runs_of: RunsOf,
) -> list[Band]:
    if len(piece.node.rows) >= _MANY_ROWS and not any(unit for _, unit, _ in piece.stems):
        theme = replace(theme, cell_pad=theme.cell_pad * CLOSE_ROWS)
    heads = head_rows(piece, theme, tag.add("THead"), runs_of)
    more = _continued(plain(piece.node.caption), theme)
    note = lines(words([TextRun(more, theme.caption.look)]), 1e6)[0]
    tall = sum(row.height for row in heads) > room.height * _HEAD_SHARE
    repeated = [] if tall else heads
    frame = _Frame(theme, room.x, piece.width, repeated, note, room.side, piece.tinted)
    inside = (*groups, frame)
    if tall:  # cut like any row, and not repeated
        bands = [band for row in heads for band in row_bands(row, room, inside)]
    else:
        bands = [head_band(heads, room, inside)]
    for band in bands:
        band.keep = NEVER if len(bands) == 1 else CUT
    bands[0].before = 3.0
    body = tag.add("TBody")
    rows: list[Band] = []
    together: list[Band] = []
    stems = piece.stems or stems_of(piece.node)
    for index in range(len(piece.node.rows)):
        bands_of_row = row_bands(
            body_row(piece, index, theme, body.add("TR"), runs_of), room, inside
        )
        for band in bands_of_row:
            band.origin = piece.node.rows[index].origin
        if piece.node.tick:
            ticked(bands_of_row[0], room, theme)
        if goes_on(stems, index):
            bands_of_row[-1].what = "table row part"
            together.append(bands_of_row[-1])
        rows += bands_of_row
    high = sum(band.height for band in [*bands, *rows])
    if high > room.height * _LONG:
        for band in rows:
            band.keep = _CUT_LONG
    elif (piece.node.tick or piece.node.whole) and len(rows) - len(together) <= _WHOLE:
        for band in rows:
            band.keep = _CUT_WHOLE
    elif high < room.height * _SHORT:
        for band in rows:
            band.keep = _CUT_SHORT
    for band in together:
        band.keep = NEVER
    kept = {id(band) for band in together}
    first = next((at for at, band in enumerate(rows) if id(band) not in kept), 0)
    last = next((at for at in range(len(rows) - 2, -1, -1) if id(rows[at]) not in kept), 0)
    for band in [*rows[:_FEW], *rows[-_FEW - 1 : -1]]:
        band.keep = max(band.keep, _CUT_FEW)
    for band in [*rows[: first + 1], *rows[last:-1]]:  # neither one row behind nor one ahead
        band.keep = NEVER
    if rows:
        rows[-1].keep = 0.0
    return bands + rows


def _continued(title: str, theme: Theme) -> str:
    """The note above a table that goes on: the beginning of its caption is enough."""
    start = re.split(r"[,;.(–]", title, maxsplit=1)[0].split()
    if not start:
        return theme.words.continued
    cut = "…" if len(start) > _NOTE_WORDS else ""
    return f"{' '.join(start[:_NOTE_WORDS])}{cut}, {theme.words.continued}"
