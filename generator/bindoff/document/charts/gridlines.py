"""The lines between the cells: thin ones, heavier fifths, heavier still tenths, and the frame."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import groupby, pairwise

from bindoff.document.charts.cellwork import fill_of, is_shaded
from bindoff.document.charts.layout import EDGE, Layout
from bindoff.document.charts.spec import inside_symbols
from bindoff.document.drawing import Lines, Rect, Shape
from bindoff.light import contrast

Segment = tuple[float, float, float, float]

# 0.25 pt (0.09 mm) is the thinnest line that prints reliably.
_WEIGHTS = ((10, 0.42), (5, 0.26), (1, 0.12))
_INK, _THIN_INK = "#1a1a1a", "#8c8c8c"  # on light cells
_DARK_INK, _THIN_DARK_INK = "#c8c8c8", "#8c8c8c"  # between two dark cells
_LEAST_CONTRAST = 3.0  # WCAG 2.2, success criterion 1.4.11, for what must be seen in a picture


def is_dark(colour: str | None) -> bool:
    """Whether the heavier lines would be lost on this fill."""
    return colour is not None and contrast(_INK, colour) < _LEAST_CONTRAST


def grid_lines(layout: Layout) -> Iterator[Shape]:
    """All lines between the cells, light where both sides are dark; cables are not cut, and there
    is no line between two cells that are passed over: no reader takes these for knit ones."""
    found: dict[tuple[int, bool], list[Segment]] = {}
    cells = _looks(layout)
    for step, dark, segment in (*_level_lines(layout, cells), *_upright_lines(layout, cells)):
        found.setdefault((step, dark), []).append(segment)
    for step, width in reversed(_WEIGHTS):
        for dark in (False, True):
            if (step, dark) in found:
                ink = (
                    (_DARK_INK if dark else _INK)
                    if step > 1
                    else (_THIN_DARK_INK if dark else _THIN_INK)
                )
                yield Lines(tuple(found[step, dark]), ink, width)


def frame(layout: Layout) -> Rect:
    """The line around all cells."""
    width, height = layout.right - layout.left, layout.bottom - layout.top
    return Rect(layout.left, layout.top, width, height, stroke="#000000", width=EDGE)


def _step(count: int) -> int:
    return next(step for step, _ in _WEIGHTS if count % step == 0)


_Cells = Mapping[int, Sequence[bool | None]]


def _looks(layout: Layout) -> _Cells:
    """For each row whether its cells are dark, left to right; ``None`` for one passed over."""
    window, keys = layout.window, layout.spec.key_of
    dark = {
        key: None if is_shaded(keys[key]) else is_dark(fill_of(keys[key], layout.look.colour))
        for key in keys
    }
    pale = {key: look and False for key, look in dark.items()}
    found: dict[int, Sequence[bool | None]] = {}
    for row in window.rows:
        shown, (left, right) = layout.row(row), window.own(row)
        own = [dark[key] for key in shown[left:right]]
        found[row] = [
            *(pale[key] for key in shown[:left]),
            *own,
            *(pale[key] for key in shown[right:]),
        ]
    return found


def _between(one: bool | None, other: bool | None) -> bool | None:
    """Whether the line between two cells is light; ``None`` where there is none."""
    return None if one is other is None else bool(one and other)


def _level_lines(layout: Layout, cells: _Cells) -> Iterator[tuple[int, bool, Segment]]:
    for row, above in pairwise(layout.window.rows):
        y = layout.y(row)
        looks = map(_between, cells[row], cells[above])
        for dark, first, last in _runs(looks):
            if dark is not None:
                segment = (layout.left + first * layout.w, y, layout.left + last * layout.w, y)
                yield _step(layout.spec.counter(row)), dark, segment


def _upright_lines(layout: Layout, cells: _Cells) -> Iterator[tuple[int, bool, Segment]]:
    window = layout.window
    cut = [inside_symbols(layout.spec, row) for row in window.rows]
    columns = zip(*(cells[row] for row in window.rows), strict=True)
    for place, (left, right) in enumerate(pairwise(columns), start=1):
        stitch = window.last_stitch - place
        x = layout.left + place * layout.w
        looks = [
            None if stitch in inside else _between(one, other)
            for inside, one, other in zip(cut, left, right, strict=True)
        ]
        for dark, first, last in _runs(looks):
            if dark is not None:
                low, high = layout.bottom - first * layout.h, layout.bottom - last * layout.h
                yield _step(stitch), dark, (x, low, x, high)


def _runs(looks: Iterable[bool | None]) -> Iterator[tuple[bool | None, int, int]]:
    """(value, first place, place after the last) for each run of equal values."""
    first = 0
    for look, run in groupby(looks):
        last = first + len(tuple(run))
        yield look, first, last
        first = last
