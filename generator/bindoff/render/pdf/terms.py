"""Terms and what they stand for: materials, abbreviations, chart keys, the facts of a cover."""

from collections.abc import Sequence
from itertools import accumulate
from math import ceil
from statistics import median

from bindoff.document.drawing import Drawing
from bindoff.document.tree import Definition, DefinitionList
from bindoff.records import Record
from bindoff.render.pdf.drawing import paint_drawing
from bindoff.render.pdf.galley import IN_LIST, IN_TEXT, Band, Group, Lanes, Painter
from bindoff.render.pdf.parts import Place, Setting, balanced, band_of, columns_band
from bindoff.render.pdf.tagging import Tag, Writer
from bindoff.render.pdf.text import (
    Line,
    Word,
    baseline,
    lines,
    narrowest,
    paint_line,
    widest,
    words,
)
from bindoff.render.pdf.theme import MM, Theme

_BLOCK = 0.45  # of the frame's height: columns are balanced in blocks no higher than this
_SHORT = 0.2  # of the frame's height: a shorter list is not parted for less than
_FEW, _FEW_HIGH = 6, 0.4  # ... or, of so few entries, than this, for less than
_CUT_SHORT = 250.0
_COLUMN_EMS = 14  # a column narrower than this is no help
_TERMS = 0.42  # of an entry's width: the most its term takes
_WORDS = 0.6  # ... unless a single word needs more
_MEANING_EMS = 13  # long meanings in less room than this go under their terms
_LONG_TERM = 1.6  # times the middle one: a longer term is broken rather than pushing meanings away


def definition_bands(node: DefinitionList, place: Place, setting: Setting) -> list[Band]:
    """The list in as many columns as it asks for and the width allows."""
    if not node.entries:
        return []
    theme = setting.theme
    tag = place.tag.add("L", numbering="None")
    limit = setting.frame.height * _BLOCK
    count, width, grid, measured = _columned(node, place.width, place.measure(theme), setting)
    entries = _entries(node.entries, measured, grid, width, tag, theme)
    marked = any(entry.mark for entry in node.entries)
    if count == 1 or not marked:
        found = []
        for node_entry, entry in zip(node.entries, entries, strict=True):
            bands = entry.bands(place, limit)
            for band in bands:
                band.origin = node_entry.origin
            found += bands
        step = width + theme.column_gap
        lanes = Lanes(tuple(step * number for number in range(count))) if count > 1 else None
        for band in found:
            band.lanes = lanes
    else:
        found = _columns(entries, count, width + theme.column_gap, place, limit)
    found[0].before = theme.body.before
    found[-1].keep = 0.0
    if len(found) > 1:
        found[0].keep = IN_TEXT
    if found[0].lanes:
        found[0].keep = IN_LIST
    for band in found[-2:-1]:  # the last one alone overleaf would be lost there
        band.keep = max(band.keep, _CUT_SHORT)
    high = sum(band.height for band in found) / setting.frame.height
    if not found[0].lanes and high < (_FEW_HIGH if len(node.entries) <= _FEW else _SHORT):
        for band in found[:-1]:
            band.keep = _CUT_SHORT
    return found


def height_within(node: DefinitionList, width: float, setting: Setting) -> float:
    """About how high the list is in a place so wide, in points."""
    if not node.entries:
        return 0.0
    theme = setting.theme
    count, column, grid, measured = _columned(node, width, width, setting)
    heights = [
        max(_height(one, grid, column, theme), _mark_height(entry.mark, grid)) + theme.item.before
        for entry, one in zip(node.entries, measured, strict=True)
    ]
    return max(sum(heights) / len(heights) * ceil(len(heights) / count), *heights)


_Measured = tuple[Sequence[Word], Sequence[Word]]


def _columned(
    node: DefinitionList, across: float, measure: float, setting: Setting
) -> tuple[int, float, "_Grid", list[_Measured]]:
    """In how many columns the list is set ``across`` a place, or within the ``measure`` if in one;
    how wide these are, the edges that entries share, and their words."""
    theme = setting.theme
    count = min(node.columns, len(node.entries))
    measured = [
        (
            words(setting.runs_of(entry.term, theme.term)),
            words(setting.runs_of(entry.meaning, theme.body)),
        )
        for entry in node.entries
    ]
    while True:
        wide = across if count > 1 else measure
        width = (wide - theme.column_gap * (count - 1)) / count
        grid = _grid(node.entries, measured, width, theme)
        if count == 1:
            break
        if width >= theme.body.size * _COLUMN_EMS and grid.holds(measured, width):
            tallest = max(_height(one, grid, width, theme) for one in measured)
            if tallest <= setting.frame.height * _BLOCK:
                break
        count -= 1
    return count, width, grid, measured


class _Grid(Record):
    """The edges that all entries of a list share: ``indent`` is the left edge of the meanings,
    which stand beside their terms, or ``under`` them."""

    mark_scale: float
    mark_room: float
    term_room: float
    indent: float
    under: bool = False

    def holds(self, measured: Sequence[_Measured], width: float) -> bool:
        """Whether no word of the entries must be cut."""
        return all(
            narrowest(term) <= self.term_room and narrowest(meaning) <= width - self.indent
            for term, meaning in measured
        )


def _grid(
    nodes: Sequence[Definition], measured: Sequence[_Measured], width: float, theme: Theme
) -> _Grid:
    marks = [node.mark for node in nodes if node.mark]
    mark_scale = 1.0
    mark_room = 0.0
    if marks:
        mark_width = max(mark.width * MM for mark in marks)
        mark_height = max(mark.height * MM for mark in marks)
        grown = max(1.0, theme.body.leading * 0.85 / mark_height)
        mark_scale = min(grown, width * 0.4 / mark_width)
        mark_room = mark_width * mark_scale + theme.body.size * 0.8
    terms = [term for term, _ in measured]
    longest_word = max(narrowest(term) for term in terms)
    usual = max(_LONG_TERM * median(widest(term) for term in terms), longest_word)
    room = width - mark_room
    most = max(room * _TERMS, min(longest_word, room * _WORDS))
    term_room = min(max(widest(term) for term in terms), usual, most)
    indent = mark_room + term_room + (theme.body.size * 1.1 if term_room else 0.0)
    longest = max(widest(meaning) for _, meaning in measured)
    if term_room and width - indent < min(longest, theme.body.size * _MEANING_EMS):
        return _Grid(mark_scale, mark_room, room, mark_room, under=True)
    return _Grid(mark_scale, mark_room, term_room + 0.01, indent)


def _height(measured: _Measured, grid: _Grid, width: float, theme: Theme) -> float:
    term, meaning = measured
    both = len(lines(term, grid.term_room)), len(lines(meaning, width - grid.indent))
    return (sum(both) if grid.under else max(both)) * theme.body.leading


def _mark_height(mark: Drawing | None, grid: _Grid) -> float:
    return mark.height * MM * grid.mark_scale if mark else 0.0


def _entries(
    nodes: Sequence[Definition],
    measured: Sequence[_Measured],
    grid: _Grid,
    width: float,
    tag: Tag,
    theme: Theme,
) -> list["Entry"]:
    """Terms beside their meanings, all meanings on one edge."""
    found = []
    for node, (term, meaning) in zip(nodes, measured, strict=True):
        item = tag.add("LI")
        found.append(
            Entry(
                lines(term, grid.term_room),
                lines(meaning, width - grid.indent),
                item.add("Lbl"),
                item.add("LBody"),
                node.mark,
                grid,
                theme,
            )
        )
    return found


def _columns(
    entries: Sequence["Entry"], count: int, step: float, place: Place, limit: float
) -> list[Band]:
    """Entries down one column and then the next, in blocks at most ``limit`` high."""
    found = []
    rest = list(entries)
    while rest:
        filled = accumulate(entry.height for entry in rest)
        take = max(1, sum(height <= limit * count for height in filled))
        while take > count and balanced(rest[:take], count)[1] > limit:
            take -= 1
        columns, height = balanced(rest[:take], count)
        found.append(columns_band(columns, height, step, place.x, place.groups))
        rest = rest[take:]
    return found


class Entry(Record, eq=False):
    """A term with its meaning, set on ``grid``."""

    term: list[Line]
    meaning: list[Line]
    label: Tag
    body: Tag
    mark: Drawing | None
    grid: _Grid
    theme: Theme

    @property
    def height(self) -> float:
        """In points, with the white space after it."""
        text = self._count * self.theme.body.leading
        return max(text, _mark_height(self.mark, self.grid)) + self.theme.item.before

    @property
    def _lead(self) -> int:
        """The lines above the meaning."""
        return len(self.term) if self.grid.under else 0

    @property
    def _count(self) -> int:
        return max(len(self.term), self._lead + len(self.meaning), 1)

    def paint(self, writer: Writer, x: float, top: float) -> None:
        """Draw it with its top left corner at (x, top)."""
        leading = self.theme.body.leading
        if self.mark is not None:
            slack = leading - _mark_height(self.mark, self.grid)
            self._paint_mark(writer, x, top - max(slack, 0.0) / 2)
            if slack < 0 and self._count == 1:  # one line stands beside the mark's middle
                top += slack / 2
        for index in range(self._count):  # first all of the term: the order it is copied in
            self._paint_term(writer, index, x, top - index * leading)
        for index in range(self._count):
            self._paint_meaning(writer, index, x, top - index * leading)

    def _paint_mark(self, writer: Writer, x: float, top: float) -> None:
        """The mark shows what the words beside it say: decoration to the ear."""
        if self.mark is not None:
            writer.artifact()
            paint_drawing(writer, self.mark, x, top, self.grid.mark_scale)

    def _paint_term(self, writer: Writer, index: int, x: float, top: float) -> None:
        if index < len(self.term):
            y = baseline(self.theme.term, top)
            paint_line(writer, self.term[index], self.label, x + self.grid.mark_room, y)

    def _paint_meaning(self, writer: Writer, index: int, x: float, top: float) -> None:
        if 0 <= index - self._lead < len(self.meaning):
            y = baseline(self.theme.body, top)
            line = self.meaning[index - self._lead]
            paint_line(writer, line, self.body, x + self.grid.indent, y)

    def bands(self, place: Place, limit: float) -> list[Band]:
        """The entry as one band, or line by line if it is higher than ``limit``."""

        def paint(writer: Writer, left: float, top: float) -> None:
            self.paint(writer, left + place.x, top)

        if self.height <= limit:
            return [Band(self.height, paint, 0.0, IN_LIST, place.groups, "entry")]
        leading = self.theme.body.leading
        painters = [self._row_painter(index, place) for index in range(self._count)]
        return [Band(leading, painter, 0.0, IN_TEXT, place.groups, "entry") for painter in painters]

    def _row_painter(self, index: int, place: Place) -> Painter:
        def paint(writer: Writer, left: float, top: float) -> None:
            if index == 0:
                self._paint_mark(writer, left + place.x, top)
            self._paint_term(writer, index, left + place.x, top)
            self._paint_meaning(writer, index, left + place.x, top)

        return paint


def facts(node: DefinitionList, width: float, tag: Tag, setting: Setting) -> list["Fact"]:
    """The facts of a cover in a column of ``width``; ``tag`` gets new children."""
    theme, runs_of = setting.theme, setting.runs_of
    tag.kids.clear()
    found = []
    for entry in node.entries:
        item = tag.add("LI")
        found.append(
            Fact(
                lines(words(runs_of(entry.term, theme.label)), width, balance=True),
                lines(words(runs_of(entry.meaning, theme.body)), width, balance=True),
                item.add("Lbl"),
                item.add("LBody"),
                width,
                theme,
            )
        )
    return found


class Fact(Record, eq=False):
    """A fact of the cover: its name above what it is, under a hairline."""

    term: list[Line]
    meaning: list[Line]
    label: Tag
    body: Tag
    width: float
    theme: Theme

    @property
    def height(self) -> float:
        """In points, with the white space after it."""
        return (
            len(self.term) * self.theme.label.leading
            + len(self.meaning) * self.theme.body.leading
            + 11.0
        )

    def paint(self, writer: Writer, x: float, top: float) -> None:
        """Draw it with its top left corner at (x, top)."""
        theme = self.theme
        writer.artifact()
        writer.line(x, top, x + self.width, top, theme.colours.hairline, 0.5)
        y = top - 4.0
        for style, text, tag in (
            (theme.label, self.term, self.label),
            (theme.body, self.meaning, self.body),
        ):
            for line in text:
                paint_line(writer, line, tag, x, baseline(style, y))
                y -= style.leading

    def band(self, x: float, groups: tuple[Group, ...]) -> Band:
        """The fact as a band of its own."""
        return band_of(self, x, groups, "fact")
