"""The parts a page is put together from: lines, entries, facts, notes and pictures."""

from collections.abc import Callable, Sequence
from typing import Protocol

from bindoff.document.drawing import Drawing
from bindoff.document.tree import Inlines
from bindoff.records import Record, replace
from bindoff.render.pdf.drawing import least_label, open_photo, paint_drawing
from bindoff.render.pdf.figures import Box
from bindoff.render.pdf.galley import Band, Fragment, Group, Painter
from bindoff.render.pdf.tagging import Tag, Writer, number
from bindoff.render.pdf.text import Line, TextRun, baseline, paint_line
from bindoff.render.pdf.theme import MM, TextStyle, Theme

RunsOf = Callable[[Inlines, TextStyle], list[TextRun]]
"""Inlines to runs in a style; makes tags for links and refuses broken ones."""

_SHRUNK = 0.75  # of its size: a drawing without letters gives way no further than to this
_STEP = 3.0  # points: how finely columns are balanced


class Frame(Record):
    """The area of a page that text may use, in points."""

    width: float
    height: float


class Setting(Record):
    """What every block is set with."""

    theme: Theme
    runs_of: RunsOf
    frame: Frame
    grey: bool


class Place(Record):
    """Where blocks go: left edge and width in the frame, parent tag, enclosing groups.

    ``side`` of it, from its left edge, is a column for titles; ``hang`` is the room free on its
    left. ``bounded`` says that no table in it reaches out of it to the left.
    """

    x: float
    width: float
    tag: Tag
    groups: tuple[Group, ...] = ()
    depth: int = 0  # of nested lists
    side: float = 0.0
    hang: float = 0.0
    bounded: bool = False

    def inset(self, left: float, tag: Tag) -> "Place":
        """A narrower place whose left edge is ``left`` further right."""
        return replace(self, x=self.x + left, width=self.width - left, tag=tag, side=0.0, hang=0.0)

    @property
    def main(self) -> "Place":
        """What is right of the column for titles."""
        return replace(self.inset(self.side, self.tag), hang=self.side)

    def measure(self, theme: Theme) -> float:
        """The width of running text: the whole of a narrow place, else the reading measure."""
        return min(self.width, theme.measure)


def line_painter(line: Line, style: TextStyle, tag: Tag, x: float) -> Painter:
    """Paints one line of text."""

    def paint(writer: Writer, left: float, top: float) -> None:
        paint_line(writer, line, tag, left + x, baseline(style, top))

    return paint


def announced(inner: Painter, id: str, entry: tuple[int, str] | None = None) -> Painter:
    """``inner``, also a place that links or the outline lead to."""

    def paint(writer: Writer, left: float, top: float) -> None:
        if id:
            writer.place(id, top + 4.0)
        if entry:
            writer.outline(*entry, top + 4.0)
        inner(writer, left, top)

    return paint


def labelled(inner: Painter, label: Line, style: TextStyle, tag: Tag, x: float) -> Painter:
    """``inner`` with a bullet or number on its first line."""

    def paint(writer: Writer, left: float, top: float) -> None:
        paint_line(writer, label, tag, left + x, baseline(style, top))
        inner(writer, left, top)

    return paint


class Stacked(Protocol):
    """Something of a known height that can be stacked in a column."""

    @property
    def height(self) -> float:
        """In points."""

    def paint(self, writer: Writer, x: float, top: float) -> None:
        """Draw it with its top left corner at (x, top)."""


def band_of(item: Stacked, x: float, groups: tuple[Group, ...], what: str) -> Band:
    """``item`` as a band of its own, ``x`` from the left edge of the frame."""

    def paint(writer: Writer, left: float, top: float) -> None:
        item.paint(writer, left + x, top)

    return Band(item.height, paint, groups=groups, what=what)


def balanced(items: Sequence[Stacked], count: int) -> tuple[list[list[Stacked]], float]:
    """``items`` in ``count`` columns of like height, in order, and the height of the highest."""
    total = sum(item.height for item in items)
    height = max(total / count, max(item.height for item in items))
    while True:
        columns = _stacked(items, height)
        if len(columns) <= count:
            return columns, max(sum(item.height for item in column) for column in columns)
        height += _STEP


def _stacked(items: Sequence[Stacked], height: float) -> list[list[Stacked]]:
    columns: list[list[Stacked]] = [[]]
    filled = 0.0
    for item in items:
        if columns[-1] and filled + item.height > height + 0.01:
            columns.append([])
            filled = 0.0
        columns[-1].append(item)
        filled += item.height
    return columns


def columns_band(
    columns: Sequence[Sequence[Stacked]],
    height: float,
    step: float,
    x: float,
    groups: tuple[Group, ...],
) -> Band:
    """Columns side by side, ``step`` apart, as one band."""

    def paint(writer: Writer, left: float, top: float) -> None:
        for index, column in enumerate(columns):
            y = top
            for item in column:
                item.paint(writer, left + x + index * step, y)
                y -= item.height

    return Band(height, paint, groups=groups, what="columns")


class NoteFrame(Record, eq=False):
    """The look of a note: a bar at its left; for safety a warning sign as well. Where it goes on in
    another column or on another page, ``more`` says so."""

    theme: Theme
    safety: bool
    x: float
    width: float
    more: Line

    @property
    def inset(self) -> float:
        """From its left edge to its text."""
        return self.theme.pad

    @property
    def sign(self) -> float:
        """The room of a warning sign before the title."""
        return self.theme.label.size * 1.8 if self.safety else 0.0

    @property
    def once(self) -> bool:
        """It frames each part."""
        return False

    @property
    def below(self) -> float:
        """The room below its last line."""
        return 1.75

    def above(self, again: bool) -> float:
        """The room above its first line."""
        return self.theme.small.leading if again else 0.0

    def paint(self, writer: Writer, left: float, fragment: Fragment) -> None:
        """Draw the frame behind the text."""
        colours = self.theme.colours
        x, height = left + self.x, fragment.top - fragment.bottom
        writer.artifact()
        colour = colours.warn if self.safety else colours.ink
        writer.box(x, fragment.bottom, 1.2, height, fill=colour)
        if not fragment.first:
            writer.artifact("Pagination", "Header")
            y = baseline(self.theme.small, fragment.top)
            paint_line(writer, self.more, None, x + self.inset, y)
        elif self.safety:
            self._sign(writer, x + self.inset, fragment.top)

    def _sign(self, writer: Writer, x: float, top: float) -> None:
        """A triangle with an exclamation mark, as high as a capital and a half."""
        colours = self.theme.colours
        size = self.theme.label.size * 1.35
        y = baseline(self.theme.label, top) - size * 0.13
        rise = size * 0.9
        writer.shape(
            f"{number(x)} {number(y)} m {number(x + size)} {number(y)} l "
            f"{number(x + size / 2)} {number(y + rise)} l h",
            fill=colours.warn,
        )
        middle, thick = x + size / 2, size * 0.09
        writer.box(middle - thick / 2, y + rise * 0.3, thick, rise * 0.36, fill="#ffffff")
        writer.box(middle - thick / 2, y + rise * 0.13, thick, thick, fill="#ffffff")


class Picture(Record, eq=False):
    """A drawing or photograph at its printed size in points.

    ``scale`` is that of the drawing; ``cut`` says that it is part of a larger one.
    """

    width: float
    height: float
    scale: float
    source: Drawing | bytes
    tag: Tag
    grey: bool
    cut: bool = False

    def paint(self, writer: Writer, x: float, top: float) -> None:
        """Draw it with its top left corner at (x, top)."""
        self.tag.box = (x, top - self.height, x + self.width, top)
        writer.tag(self.tag)
        if isinstance(self.source, bytes):
            photo = open_photo(self.source, self.width, self.grey)
            writer.photo(photo, x, top - self.height, self.width, self.height)
        elif self.cut:
            with writer.clipped(x, top - self.height, self.width, self.height):
                paint_drawing(writer, self.source, x, top, self.scale)
        else:
            paint_drawing(writer, self.source, x, top, self.scale)

    def band(self, x: float, groups: tuple[Group, ...], least: float) -> Band:
        """The picture as a band; a drawing gives way as long as its letters are ``least`` high,
        one without letters by a share."""
        band = band_of(self, x, groups, "figure")
        source = self.source
        if isinstance(source, Drawing) and source.cells is None and not self.cut:
            letters = least_label(source) * self.scale
            share = least / letters if letters else _SHRUNK
            band.give = self.height * max(0.0, 1 - share)
            band.closer = lambda less: self._shrunk(1 - less / self.height, x, groups)
        return band

    def _shrunk(self, share: float, x: float, groups: tuple[Group, ...]) -> Painter:
        width, height, scale = (part * share for part in (self.width, self.height, self.scale))
        small = replace(self, width=width, height=height, scale=scale)
        return band_of(small, x, groups, "figure").paint


def picture_of(
    source: Drawing | bytes, size: Box, scale: float, tag: Tag, grey: bool, cut: bool = False
) -> Picture:
    """``source`` printed at ``scale`` times ``size``."""
    if isinstance(source, bytes):
        tag.photo_width = size.width * scale
    drawn = scale * size.width / (source.width * MM) if isinstance(source, Drawing) else 1.0
    return Picture(size.width * scale, size.height * scale, drawn, source, tag, grey, cut)
