"""What is set on and around the cells: repeat boxes, marker lines, row and stitch numbers."""

from collections.abc import Iterable, Iterator, Sequence

from bindoff.document.charts.cellwork import fill_of
from bindoff.document.charts.gridlines import is_dark
from bindoff.document.charts.labels import thinned
from bindoff.document.charts.layout import ARROW, EDGE, GAP, RISE, Layout, box_in, number_x
from bindoff.document.charts.symbols import Commands
from bindoff.document.drawing import Label, Lines, Path, Shape
from bindoff.document.lettering import CAP_HEIGHT, text_width

Side = tuple[float, float, float, float]

_BOX, _BOX_CASING = 0.6, 1.1  # mm
_MARKER, _MARKER_CASING = 0.35, 0.8
_DASH = (1.4, 0.8)
_TICK = 0.8  # mm, the ends of a bracket
_ROW_ROOM = 1.2  # of the height of a figure, between row numbers
_STITCH_ROOM = 0.35  # of the type size, between stitch numbers


def _has_dark_cells(layout: Layout) -> bool:
    return any(is_dark(fill_of(key, layout.look.colour)) for key in layout.spec.used_keys)


def repeat_boxes(layout: Layout) -> Iterator[Shape]:
    """Bold boxes, on a white casing over dark cells; a side beyond the window stays open."""
    window = layout.window
    for box, (left, top, right, bottom) in box_in(layout):
        sides = (
            (box.last_stitch <= window.last_stitch, (left, bottom, left, top)),
            (box.last_row <= window.last_row, (left, top, right, top)),
            (box.first_stitch >= window.first_stitch, (right, top, right, bottom)),
            (box.first_row >= window.first_row, (right, bottom, left, bottom)),
        )
        drawn = [side for closed, side in sides if closed]
        # On the frame the box needs no casing: there is paper on one side of it.
        cased = [side for side in drawn if not _on_frame(layout, side)]
        if cased and _has_dark_cells(layout):
            yield Path(_strokes(cased), stroke="#ffffff", width=_BOX_CASING)
        if drawn:
            yield Path(_strokes(drawn), stroke="#000000", width=_BOX)


def _strokes(sides: Iterable[Side]) -> Commands:
    return tuple(command for x1, y1, x2, y2 in sides for command in (("M", x1, y1), ("L", x2, y2)))


def _on_frame(layout: Layout, side: Side) -> bool:
    x1, y1, x2, _ = side
    place, edges = (
        (x1, (layout.left, layout.right)) if x1 == x2 else (y1, (layout.top, layout.bottom))
    )
    return any(abs(place - edge) < 0.01 for edge in edges)


def joins(layout: Layout) -> Iterator[Shape]:
    """Where the neighbouring pieces begin: a dashed line with a pointer at each end."""
    window, (left, top, right, bottom) = layout.window, _edges(layout)
    if window.again:
        return
    for faded, stitch in (
        (window.fade_left, window.last_stitch - window.fade_left),
        (window.fade_right, window.first_stitch - 1 + window.fade_right),
    ):
        if faded:
            x = layout.x(stitch)
            yield Lines(((x, top, x, bottom),), "#000000", _MARKER, _DASH)
            yield Path((*_pointer(x, top, 0, -1), *_pointer(x, bottom, 0, 1)), fill="#000000")
    for faded, row in (
        (window.fade_top, window.last_row - window.fade_top),
        (window.fade_bottom, window.first_row - 1 + window.fade_bottom),
    ):
        if faded:
            y = layout.y(row)
            yield Lines(((left, y, right, y),), "#000000", _MARKER, _DASH)
            yield Path((*_pointer(left, y, -1, 0), *_pointer(right, y, 1, 0)), fill="#000000")


def _edges(layout: Layout) -> Side:
    return layout.left, layout.top, layout.right, layout.bottom


def _pointer(x: float, y: float, across: int, down: int) -> Commands:
    """A small head with its tip at (x, y) on the frame, standing out by (across, down)."""
    tip_x, tip_y = x + across * EDGE / 2, y + down * EDGE / 2
    back_x, back_y = x + across * GAP, y + down * GAP
    half = 0.55
    return (
        ("M", tip_x, tip_y),
        ("L", back_x - half * down, back_y - half * across),
        ("L", back_x + half * down, back_y + half * across),
        ("Z",),
    )


def brackets(layout: Layout) -> Iterator[Shape]:
    """A bracket with the label below each repeat box."""
    look = layout.look
    for bracket in layout.brackets:
        y = layout.bottom + 2 * GAP + look.number_mm + bracket.tier * look.line_mm
        left, right = bracket.left, bracket.right
        ends = ((left, y - _TICK, left, y), (right, y - _TICK, right, y))
        yield Lines(((left, y, right, y), *ends), width=0.25)
        yield Label(bracket.middle, y + look.label_mm * 0.95, bracket.text, look.label_mm, "middle")


def marker_lines(layout: Layout) -> Iterator[Shape]:
    """Dashed lines up to a label. One through the middle of a stitch stops above the grid, so that
    it hides no symbol."""
    look = layout.look
    for flag in layout.flags:
        x = flag.x
        base = layout.top - EDGE - RISE - flag.tier * look.line_mm
        stitches = (layout.right - x) / layout.w
        on_line = abs(stitches - round(stitches)) < 0.01
        if on_line and layout.left + 0.01 < x < layout.right - 0.01:
            line = ((x, layout.top + EDGE / 2, x, layout.bottom - EDGE / 2),)
            if _has_dark_cells(layout):
                yield Lines(line, "#ffffff", _MARKER_CASING)
            yield Lines(line, "#000000", _MARKER, _DASH)
        up = base - (look.label_mm * CAP_HEIGHT if flag.anchor != "middle" else 0)
        yield Lines(((x, layout.top, x, up),), "#000000", _MARKER)
        if not on_line:
            y = layout.top - EDGE / 2
            head = (("M", x, y), ("L", x - 0.7, y - 1.2), ("L", x + 0.7, y - 1.2), ("Z",))
            yield Path(head, fill="#000000")
        yield Label(flag.text_x, base - 0.4, flag.text, look.label_mm, flag.anchor)


def row_numbers(layout: Layout) -> Iterator[Shape]:
    """Row numbers on the side where each row starts, thinned out where rows are too close."""
    size, spec = layout.look.number_mm, layout.spec
    for right_side in (True, False):
        numbers = {
            row: number
            for row in layout.window.rows
            if (number := spec.number_at(row, right_side=right_side)) is not None
        }
        if not numbers:
            continue
        rows = list(numbers)
        pitch = layout.h * (rows[1] - rows[0] if len(rows) > 1 else 1)
        anchor: tuple[float, str] = (number_x(layout, right_side), "start")
        for row in thinned(rows, numbers.__getitem__, pitch, size * CAP_HEIGHT * _ROW_ROOM):
            y = layout.y(row - 0.5) + size * CAP_HEIGHT / 2
            yield Label(anchor[0], y, str(numbers[row]), size, "start" if right_side else "end")
        yield _arrow(layout, _own_first(layout, rows), right_side)


def _own_first(layout: Layout, rows: Sequence[int]) -> int:
    """The first of the rows that is the window's own, below which lie those of a neighbour."""
    own = layout.window.first_row + layout.window.fade_bottom
    return next((row for row in rows if row >= own), rows[0])


def _arrow(layout: Layout, row: int, right_side: bool) -> Path:
    """A small head that points into the row where it starts."""
    tip = layout.right + GAP if right_side else layout.left - GAP
    tail = tip + ARROW if right_side else tip - ARROW
    y = layout.y(row - 0.5)
    return Path(
        (("M", tip, y), ("L", tail, y - ARROW / 2), ("L", tail, y + ARROW / 2), ("Z",)),
        fill="#000000",
    )


def stitch_numbers(layout: Layout) -> Iterator[Shape]:
    """Stitch numbers below the grid, from right to left, and the heading of the base band."""
    window, size = layout.window, layout.look.number_mm
    last = window.last_stitch - (window.fade_left if window.again else 0)
    stitches = range(window.first_stitch, last + 1)
    place = layout.spec.place
    room = text_width(str(place(window.last_stitch)), size) + _STITCH_ROOM * size
    y = layout.bottom + GAP + size * CAP_HEIGHT
    for stitch in thinned(stitches, place, layout.w, room):
        yield Label(layout.x(stitch - 0.5), y, str(place(stitch)), size, "middle")
    if layout.spec.base:
        yield Label(layout.band_right, y, layout.spec.base_label, size, "end")
