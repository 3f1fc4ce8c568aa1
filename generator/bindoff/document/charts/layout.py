"""Where the parts of a chart lie on its drawing, in millimetres."""

from collections.abc import Iterator

from bindoff.document.charts.labels import (
    Bracket,
    Flag,
    lines_needed,
    place_brackets,
    place_flags,
)
from bindoff.document.charts.spec import ChartSpec, RepeatBox
from bindoff.document.lettering import CAP_HEIGHT, text_width
from bindoff.records import Record

EDGE = 0.35  # mm, the weight of the frame
_MARGIN = 0.6  # mm around a chart: half the width of a box's casing
GAP = 0.9  # mm between the grid and the type around it
ARROW = 1.5  # mm, the head that shows where the first row starts
RISE = 1.2  # mm a marker's stem stands out above the grid before its label
_AFTER_ARROW = 0.5  # mm between that head and the row numbers
_BAND_GAP = 1.6  # mm between the base band and what is right of it
_BAND_SHARE = 0.8  # of a cell's width
_LEADING = 1.35  # of the type size, from one line of labels to the next


class Look(Record):
    """Sizes of a chart in mm: the longer side of a cell and the type. ``colour`` false leaves the
    fills out and prints symbols alone; ``tagged`` false leaves out the numbers over cells."""

    cell_mm: float = 5.0
    number_mm: float = 2.3
    label_mm: float = 2.6
    colour: bool = True
    tagged: bool = True

    @property
    def line_mm(self) -> float:
        """From one line of labels to the next."""
        return self.label_mm * _LEADING


class Window(Record):
    """The part of a chart to draw, from 1 and inclusive: rows from the bottom, stitches from the
    right. ``fade_…`` is how many cells on that side a neighbouring piece shows too: they are
    drawn faded. ``again`` says that those on the left are the chart once more."""

    first_row: int
    last_row: int
    first_stitch: int
    last_stitch: int
    fade_left: int = 0
    fade_right: int = 0
    fade_top: int = 0
    fade_bottom: int = 0
    again: bool = False

    @property
    def columns(self) -> int:
        """Stitches across."""
        return self.last_stitch - self.first_stitch + 1

    @property
    def rows(self) -> range:
        """The rows shown, bottom first."""
        return range(self.first_row, self.last_row + 1)

    def own(self, row: int) -> tuple[int, int]:
        """The cells of a row that belong to no neighbouring piece: the place of the first, from
        the left and from 0, and the place after the last."""
        if self.first_row + self.fade_bottom <= row <= self.last_row - self.fade_top:
            return self.fade_left, max(self.fade_left, self.columns - self.fade_right)
        return 0, 0


def whole(spec: ChartSpec) -> Window:
    """The window that shows all of ``spec``."""
    return Window(1, spec.height, 1, spec.width)


def cell_size(spec: ChartSpec, cell_mm: float) -> tuple[float, float]:
    """Width and height in mm of a cell in true proportion whose longer side is ``cell_mm``."""
    scale = cell_mm / max(spec.cell_width_mm, spec.cell_height_mm)
    return spec.cell_width_mm * scale, spec.cell_height_mm * scale


class Layout(Record):
    """A window of a chart laid out: its cells start at (``left``, ``top``) and are ``w`` by ``h``
    mm on a drawing of ``width`` by ``height`` mm. The base band ends at ``band_right``."""

    spec: ChartSpec
    look: Look
    window: Window
    left: float
    top: float
    w: float
    h: float
    width: float
    height: float
    flags: tuple[Flag, ...]
    brackets: tuple[Bracket, ...]
    band_right: float = 0.0

    @property
    def right(self) -> float:
        """The right edge of the cells."""
        return self.left + self.window.columns * self.w

    @property
    def bottom(self) -> float:
        """The lower edge of the cells."""
        return self.top + len(self.window.rows) * self.h

    def x(self, stitches: float) -> float:
        """Where the line after that many stitches from the right of the whole chart lies."""
        return self.right - (stitches - self.window.first_stitch + 1) * self.w

    def y(self, rows: float) -> float:
        """Where the line above that many rows from the bottom of the whole chart lies."""
        return self.bottom - (rows - self.window.first_row + 1) * self.h

    def row(self, row: int) -> tuple[str, ...]:
        """The keys of the ``row``-th row that the window shows, left to right."""
        width, window = self.spec.width, self.window
        return self.spec.rows[row - 1][width - window.last_stitch : width - window.first_stitch + 1]

    @property
    def band_width(self) -> float:
        """The width of the base band."""
        return _BAND_SHARE * self.w


def lay_out(spec: ChartSpec, look: Look, window: Window) -> Layout:
    """The layout of ``window``, with room for all the type around it."""
    w, h = cell_size(spec, look.cell_mm)
    edge = GAP if _has_joins(window) else _MARGIN
    # In a very narrow column the stitch number stands out beside the grid.
    side = max(edge, (text_width(str(spec.place(window.last_stitch)), look.number_mm) - w) / 2)
    left = numbers = max(side, _number_room(spec, look, window, right_side=False))
    if spec.base:
        heading = text_width(spec.base_label, look.number_mm)
        left += _BAND_GAP + max(_BAND_SHARE * w + EDGE, heading)
    grid_right = left + window.columns * w
    width = grid_right + max(side, _number_room(spec, look, window, right_side=True))
    boxes = tuple(box for box in spec.repeats if _shows(box, window))
    width = max([width, *(text_width(box.label, look.label_mm) for box in boxes)])

    def x(stitches: float) -> float:
        return grid_right - (stitches - window.first_stitch + 1) * w

    stems = [(x(after), text) for after, text in _markers(spec, window)]
    flags = place_flags(stems, look.label_mm, width)
    width = max([width, *(flag.end for flag in flags)])
    spans = [(x(_last(box, window)), x(_first(box, window) - 1), box.label) for box in boxes]
    brackets = place_brackets(spans, look.label_mm, width)
    above = RISE + look.line_mm * lines_needed(flags) if flags else 0.0
    below = GAP + look.number_mm
    below += GAP + look.line_mm * lines_needed(brackets) if brackets else 0.0
    # On a very low row the number stands out above the grid.
    top = max(edge + above, (look.number_mm * CAP_HEIGHT - h) / 2)
    height = top + len(window.rows) * h + below
    band = left - numbers - _BAND_GAP
    return Layout(spec, look, window, left, top, w, h, width, height, flags, brackets, band)


def _has_joins(window: Window) -> bool:
    if window.again:
        return False
    return bool(window.fade_left or window.fade_right or window.fade_top or window.fade_bottom)


def _markers(spec: ChartSpec, window: Window) -> Iterator[tuple[float, str]]:
    """The markers that show, from the right; labels of one place are joined."""
    shown = [m for m in spec.markers if window.first_stitch - 1 <= m.after <= window.last_stitch]
    for after in sorted({marker.after for marker in shown}):
        labels = dict.fromkeys(marker.label for marker in shown if marker.after == after)
        yield after, ", ".join(labels)


def _last(box: RepeatBox, window: Window) -> int:
    return min(box.last_stitch, window.last_stitch)


def _first(box: RepeatBox, window: Window) -> int:
    return max(box.first_stitch, window.first_stitch)


def _shows(box: RepeatBox, window: Window) -> bool:
    return (
        box.first_stitch <= window.last_stitch
        and box.last_stitch >= window.first_stitch
        and box.first_row <= window.last_row
        and box.last_row >= window.first_row
    )


def box_in(layout: Layout) -> Iterator[tuple[RepeatBox, tuple[float, float, float, float]]]:
    """The repeat boxes that show, each with its left, top, right and bottom within the window."""
    window = layout.window
    for box in layout.spec.repeats:
        if _shows(box, window):
            yield (
                box,
                (
                    layout.x(_last(box, window)),
                    layout.y(min(box.last_row, window.last_row)),
                    layout.x(_first(box, window) - 1),
                    layout.y(max(box.first_row, window.first_row) - 1),
                ),
            )


def _number_room(spec: ChartSpec, look: Look, window: Window, *, right_side: bool) -> float:
    """How far the row numbers of one side reach out from the grid; 0 without any."""
    numbers = (spec.number_at(row, right_side=right_side) for row in window.rows)
    widths = [text_width(str(each), look.number_mm) for each in numbers if each is not None]
    return GAP + ARROW + _AFTER_ARROW + max(widths) if widths else 0.0


def number_x(layout: Layout, right_side: bool) -> float:
    """Where the row numbers of one side begin (right) or end (left)."""
    reach = GAP + ARROW + _AFTER_ARROW
    return layout.right + reach if right_side else layout.left - reach
