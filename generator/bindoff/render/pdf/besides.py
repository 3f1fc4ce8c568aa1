"""A figure in the side column, beside a table: it takes no height, and lines lead to the rows."""

from collections.abc import Sequence

from bindoff.document.drawing import Drawing
from bindoff.document.tree import Beside
from bindoff.render.pdf.figures import Box, inside, natural
from bindoff.render.pdf.galley import NEVER, Band, Painter
from bindoff.render.pdf.parts import Place, picture_of
from bindoff.render.pdf.tagging import Tag, Writer
from bindoff.render.pdf.theme import MM, Theme

_TICK_EMS = 2.2  # of a table: the room for its boxes, which a line does not reach
_LEAD, _STUB = 0.4, 4.0  # points: how thick a line is, and how far it goes level at the drawing
_HIGHEST = 0.8  # of the frame: a table so high is cut, and has no figure beside it


def set_beside(
    node: Beside,
    table: Sequence[Band],
    caption: Sequence[Band],
    place: Place,
    theme: Theme,
    height: float,
    tags: tuple[Tag, Tag],
    grey: bool,
) -> list[Band]:
    """The bands of a ``table``, kept together, with the figure of ``node`` at their left in
    ``place``; the table as it is where they are too high for a frame of ``height``.

    ``caption`` are lines of the figure's own, and ``tags`` the holder and the figure's.
    """
    drawing = node.figure.picture
    assert isinstance(drawing, Drawing)
    size = natural(drawing)
    scale = inside(size, Box(place.width, size.height))
    picture = picture_of(drawing, size, scale, tags[1], grey)
    said = sum(band.height + band.before for band in caption)
    tops: list[float] = []
    y = -table[0].before
    for band in table:
        y += band.before
        tops.append(y)
        y += band.height
    lack = max(0.0, picture.height + said - y)
    if y + lack > _HIGHEST * height:
        return list(table)
    place.tag.adopt(tags[0])
    rows = [
        (top + band.height / 2)
        for band, top in zip(table, tops, strict=True)
        if band.what == "table row"
    ]
    ends = [lead * MM * scale for lead in node.leads]
    right = theme.side - theme.table.size * _TICK_EMS
    down = tops[-1] - tops[0]

    def with_figure(inner: Painter) -> Painter:
        def paint(writer: Writer, left: float, last: float) -> None:
            inner(writer, left, last)  # the figure is read after its table, and so painted after it
            x, top = left + place.x, last + down
            picture.paint(writer, x, top)
            y = top - picture.height
            for band in caption:
                y -= band.before
                band.paint(writer, left, y)
                y -= band.height
            writer.artifact()
            start = x + picture.width
            for at, row in zip(ends, rows, strict=False):
                from_, to = top - at, top - row
                writer.line(start, from_, start + _STUB, from_, theme.colours.ink, _LEAD)
                writer.line(start + _STUB, from_, left + right, to, theme.colours.ink, _LEAD)

        return paint

    table[-1].dress(with_figure)
    for band in table[:-1]:
        band.keep = NEVER
    if lack:
        table[-1].keep = NEVER
        return [*table, Band(lack, lambda *_: None, groups=place.groups, what="white")]
    return list(table)
