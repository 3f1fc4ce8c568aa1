"""A chart cut into pieces that fit a page, and the map that shows how they join.

Every stitch belongs to exactly one piece. Along a join a piece also shows two rows or stitches of
its neighbour, faded, so that the eye finds its place again.
"""

from bisect import bisect
from collections.abc import Callable, Iterator
from functools import lru_cache
from itertools import pairwise
from math import ceil, inf

from bindoff.document.charts.cellwork import fills
from bindoff.document.charts.draw import draw_chart
from bindoff.document.charts.layout import EDGE, Layout, Look, Window, cell_size, lay_out, whole
from bindoff.document.charts.spec import ChartSpec, inside_symbols
from bindoff.document.charts.written import alt_text, span_of_numbers
from bindoff.document.drawing import Drawing, Label, Rect, Shape
from bindoff.document.lettering import CAP_HEIGHT, text_width
from bindoff.records import Record, replace

_OVERLAP = 2  # cells of a neighbour shown along a join
_STEPS = (10, 5, 1)  # joins lie on a tenth line where they can, else on a fifth,
_UNEVEN = 1.1  # ... if no piece is so much wider or higher than an even share
_CASING = 0.8  # mm, the white beside the outlines on the map
_ROUNDS_OF_HALVING = 12  # finds the cell size to 1/4000 of its range


class Tile(Record):
    """One piece: its number from 1, how many there are, the stitches and rows that are its own
    (``core``), what is drawn, a label for its caption and its words in the document. ``chart`` are
    words about the whole chart that hold without the document too. ``rows`` are where its own rows
    lie on the drawing, the first one first: the printed number, and the top in mm; each is
    ``row_height`` mm high."""

    number: int
    count: int
    core: Window
    spec: ChartSpec
    look: Look
    window: Window
    label: str
    alt: str
    chart: str
    rows: tuple[tuple[int, float], ...] = ()
    row_height: float = 0.0

    @property
    def drawing(self) -> Drawing:
        """It, drawn."""
        return _drawn(self.spec, self.look, self.window)

    @property
    def height(self) -> float:
        """That of its drawing, in mm, which need not be drawn for it."""
        return round(lay_out(self.spec, self.look, self.window).height, 2)


_drawn = lru_cache(maxsize=64)(draw_chart)  # a chart stays what it is while its pattern is written


@lru_cache(maxsize=64)
def chart_figures(
    spec: ChartSpec,
    max_width_mm: float,
    max_height_mm: float,
    cell_mm: float = 4.0,
    largest_cell_mm: float = 6.0,
    *,
    whole_cell_mm: float = inf,
    key_beside_mm: float = 0.0,
    beside_cell_mm: float = 0.0,
    where: str = "",
    number_mm: float = 2.3,
    colour: bool = True,
    tagged: bool = True,
) -> tuple[Tile, ...]:
    """The chart in as few pieces as fit ``max_width_mm`` by ``max_height_mm``.

    The longer side of a cell is at least ``cell_mm`` and grows to ``largest_cell_mm`` as the page
    allows; all pieces share one size. One that stays whole with cells of ``whole_cell_mm`` is not
    cut for a little more. A chart that leaves ``key_beside_mm`` of the width for its
    key, with cells of ``beside_cell_mm`` at least, is not enlarged into that. Pieces are numbered
    from the bottom right, along the rows first. A narrow repeat is shown again, faded, until the
    width is full; not beside a key where cells have no such least size.
    ``where`` tells a reader who cannot see the chart where its written rows are. A page too small
    for a few stitches gets pieces larger than it. Numbers lie over its cells if it is ``tagged``.
    """
    room = (max_width_mm, max_height_mm)
    least = Look(min(cell_mm, whole_cell_mm), number_mm, number_mm * 1.13, colour, tagged)
    if not _all_fit(spec, least, (whole(spec),), room):
        least = replace(least, cell_mm=cell_mm)
    windows = _windows(spec, least, room)

    beside = (max_width_mm - key_beside_mm, max_height_mm)
    wished = replace(least, cell_mm=max(least.cell_mm, beside_cell_mm))
    grown = beside if _all_fit(spec, wished, windows, beside) else room

    def fits(cell: float) -> bool:
        return _all_fit(spec, replace(least, cell_mm=cell), windows, grown)

    alone, words = alt_text(spec), alt_text(spec, where)
    look = replace(least, cell_mm=_largest(fits, least.cell_mm, max(cell_mm, largest_cell_mm)))
    if len(windows) == 1 and (beside_cell_mm or not key_beside_mm):
        spec, windows = _repeated(spec, look, grown[0])
    return tuple(
        _tile(spec, look, window, number, len(windows), words, alone)
        for number, window in enumerate(windows, start=1)
    )


def _repeated(spec: ChartSpec, look: Look, width: float) -> tuple[ChartSpec, tuple[Window, ...]]:
    """A chart that is one repeat, as often as ``width`` has room for; others as they are."""
    box = spec.repeats[0] if len(spec.repeats) == 1 else None
    if box is None or (box.first_stitch, box.last_stitch) != (1, spec.width) or spec.base:
        return spec, (whole(spec),)
    one = spec.width * cell_size(spec, look.cell_mm)[0]
    beside = lay_out(spec, look, whole(spec)).width - one
    count = max(1, int((width - beside) / one)) if width < inf else 1
    rows = tuple(row * count for row in spec.rows)
    again = replace(spec, rows=rows, repeat=spec.width)
    faded = (count - 1) * spec.width
    return again, (replace(whole(again), fade_left=faded, again=True),)


def _tile(
    spec: ChartSpec, look: Look, window: Window, number: int, count: int, alt: str, alone: str
) -> Tile:
    core = Window(
        window.first_row + window.fade_bottom,
        window.last_row - window.fade_top,
        window.first_stitch + window.fade_right,
        window.last_stitch - window.fade_left,
    )
    rows = span_of_numbers(spec.row_name, spec.counter(core.first_row), spec.counter(core.last_row))
    stitches = span_of_numbers(
        "stitch", spec.place(core.first_stitch), spec.place(core.last_stitch)
    )
    label = f"{rows}, {stitches}"
    if count > 1:
        label = f"part {number} of {count}: {label}"
        alt = f"{label[0].upper()}{label[1:]}. {alt}"
    layout = lay_out(spec, look, window)
    lines = tuple((spec.counter(row), round(layout.y(row), 2)) for row in core.rows)
    height = round(layout.h, 2)
    return Tile(number, count, core, spec, look, window, label, alt, alone, lines, height)


# ---------------------------------------------------------------- cutting


def _windows(spec: ChartSpec, look: Look, room: tuple[float, float]) -> tuple[Window, ...]:
    """The fewest windows that fit at this size, bottom right first."""
    if _all_fit(spec, look, (whole(spec),), room):
        return (whole(spec),)
    w, h = cell_size(spec, look.cell_mm)
    layout = lay_out(spec, look, replace(whole(spec), fade_left=1))
    most_columns = int((room[0] - layout.width) / w) + spec.width
    most_rows = int((room[1] - layout.height) / h) + spec.height
    least = 2 * _OVERLAP + 1
    while True:
        windows = _cut(spec, max(most_columns, least), max(most_rows, least))
        width, height = _largest_size(spec, look, windows)
        too_wide = width > room[0] and most_columns > least
        too_high = height > room[1] and most_rows > least
        if not too_wide and not too_high:
            return windows
        # Labels may need more room around a piece than around the whole chart.
        most_columns -= too_wide
        most_rows -= too_high


def _largest_size(spec: ChartSpec, look: Look, windows: tuple[Window, ...]) -> tuple[float, float]:
    """The width of the widest piece and the height of the highest."""
    layouts = [lay_out(spec, look, window) for window in windows]
    width = max(layout.width for layout in layouts)
    height = max(layout.height for layout in layouts)
    return round(width, 2), round(height, 2)


def _all_fit(
    spec: ChartSpec, look: Look, windows: tuple[Window, ...], room: tuple[float, float]
) -> bool:
    width, height = _largest_size(spec, look, windows)
    return width <= room[0] and height <= room[1]


def _cut(spec: ChartSpec, most_columns: int, most_rows: int) -> tuple[Window, ...]:
    whole_symbols = {s for row in range(1, spec.height + 1) for s in inside_symbols(spec, row)}
    columns = _shares(spec.width, most_columns, 0, whole_symbols)
    rows = _shares(spec.height, most_rows, spec.first_row - 1, set())
    return tuple(
        Window(
            first_row=low - bottom,
            last_row=high + top,
            first_stitch=first - right,
            last_stitch=last + left,
            fade_left=left,
            fade_right=right,
            fade_top=top,
            fade_bottom=bottom,
        )
        for low, high, bottom, top in rows
        for first, last, right, left in columns
    )


def _shares(
    total: int, most: int, offset: int, barred: set[int]
) -> tuple[tuple[int, int, int, int], ...]:
    """``total`` cells in the fewest even shares of at most ``most`` cells with their overlaps, as
    (first, last, overlap before, overlap after). Joins lie where the count plus ``offset`` is a
    round number if that leaves the shares even, and never at a ``barred`` one if that can be
    helped."""
    free = [place for place in range(1, total) if place not in barred]
    for parts in range(max(1, ceil(total / most)), total + 1):
        for step in _STEPS:
            joins = [
                _join(total * part / parts, step, offset, barred, free) for part in range(1, parts)
            ]
            shares = tuple(
                (before + 1, after, min(_OVERLAP, before), min(_OVERLAP, total - after))
                for before, after in pairwise([0, *joins, total])
            )
            wide = [last - first + 1 for first, last, _, _ in shares]
            even = step == 1 or max(wide) <= total / parts * _UNEVEN
            if even and all(
                own > 0 and own + b + a <= most
                for own, (_, _, b, a) in zip(wide, shares, strict=True)
            ):
                return shares
    return _shares(total, most, offset, set()) if barred else ((1, total, 0, 0),)


def _join(ideal: float, step: int, offset: int, barred: set[int], free: list[int]) -> int:
    """The whole number nearest to ``ideal`` that is a multiple of ``step`` with ``offset``; where
    that is ``barred``, the nearest that is ``free``."""
    nearest = round((ideal + offset) / step) * step - offset
    if nearest not in barred:
        return nearest
    after = bisect(free, ideal)
    return min(free[max(after - 1, 0) : after + 1], key=lambda n: abs(n - ideal), default=1)


def _largest(fits: Callable[[float], bool], least: float, most: float) -> float:
    """The largest size from ``least`` to ``most`` that fits, by halving."""
    if fits(most):
        return most
    low, high = least, most
    for _ in range(_ROUNDS_OF_HALVING):
        middle = (low + high) / 2
        low, high = (middle, high) if fits(middle) else (low, middle)
    return low


# ---------------------------------------------------------------- the map


def key_map(
    spec: ChartSpec,
    tiles: tuple[Tile, ...],
    max_width_mm: float = 60.0,
    text_mm: float = 3.2,
    *,
    colour: bool = True,
) -> Drawing:
    """A small picture of the whole chart with the numbered pieces outlined, at most
    ``max_width_mm`` wide and as high; without ``colour`` the outlines alone."""
    margin = _CASING / 2
    inner = max_width_mm - 2 * margin
    across, up = spec.width * spec.cell_width_mm, spec.height * spec.cell_height_mm
    scale = inner / max(across, up)
    cell = max(spec.cell_width_mm, spec.cell_height_mm) * scale
    layout = Layout(
        spec,
        Look(cell, colour=colour),
        whole(spec),
        left=margin,
        top=margin,
        w=spec.cell_width_mm * scale,
        h=spec.cell_height_mm * scale,
        width=across * scale + 2 * margin,
        height=up * scale + 2 * margin,
        flags=(),
        brackets=(),
    )
    shapes = (*fills(layout), *_outlines(layout, tiles), *_tile_numbers(layout, tiles, text_mm))
    return Drawing(round(layout.width, 2), round(layout.height, 2), shapes)


def map_alt(title: str, tiles: tuple[Tile, ...]) -> str:
    """The words for the map of the chart called ``title``: which part shows what."""
    return f"Map of the chart “{title}”: " + "; ".join(tile.label for tile in tiles) + "."


def _corners(layout: Layout, core: Window) -> tuple[float, float, float, float]:
    return (
        layout.x(core.last_stitch),
        layout.y(core.last_row),
        layout.x(core.first_stitch - 1),
        layout.y(core.first_row - 1),
    )


def _outlines(layout: Layout, tiles: tuple[Tile, ...]) -> Iterator[Shape]:
    for ink, width in (("#ffffff", _CASING), ("#000000", EDGE)):
        for tile in tiles:
            left, top, right, bottom = _corners(layout, tile.core)
            yield Rect(left, top, right - left, bottom - top, stroke=ink, width=width)


def _tile_numbers(layout: Layout, tiles: tuple[Tile, ...], size: float) -> Iterator[Shape]:
    for tile in tiles:
        left, top, right, bottom = _corners(layout, tile.core)
        x, y, text = (left + right) / 2, (top + bottom) / 2, str(tile.number)
        half_w, half_h = text_width(text, size) / 2 + 0.7, size * CAP_HEIGHT / 2 + 0.8
        yield Rect(x - half_w, y - half_h, 2 * half_w, 2 * half_h, "#ffffff", "#000000", 0.15)
        yield Label(x, y + size * CAP_HEIGHT / 2, text, size, "middle", bold=True)
