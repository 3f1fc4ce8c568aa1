"""The cells of a chart: runs of colour, and symbols gathered for each look."""

from collections.abc import Iterable, Iterator, Mapping
from itertools import chain, groupby

from bindoff.document.charts.layout import Layout
from bindoff.document.charts.spec import ChartKey, cells
from bindoff.document.charts.symbols import (
    Commands,
    Symbol,
    faded,
    ink_on,
    symbol_of,
)
from bindoff.document.drawing import Path, Rect, Shape, Stamps
from bindoff.light import contrast

Place = tuple[float, float]
"""The top left corner of a symbol's first cell in mm."""

_STROKE = 0.085  # of the smaller side of a cell
_LEAST_STROKE = 0.22  # mm
_FADED_PAPER = "#ededed"
_PALE_INK = "#404040"
_BAND_EDGE = "#767676"  # 4.5 to 1 on white and on black


def fill_of(key: ChartKey, colour: bool = True) -> str | None:
    """What fills a cell: the symbol's own shade, or the key's colour where colours are drawn."""
    return symbol_of(key.symbol).shade or (key.colour if colour else None)


def is_shaded(key: ChartKey) -> bool:
    """Whether its symbol fills the whole cell: one that is passed over."""
    return symbol_of(key.symbol).shade is not None


def ink_of(key: ChartKey, colour: bool = True) -> str:
    """The ink of a symbol on its cell."""
    return (key.ink if colour else None) or ink_on(fill_of(key, colour))


def fills(layout: Layout) -> Iterator[Shape]:
    """One rectangle for each run of a colour, equal runs of neighbouring rows joined.

    Where every cell is filled, the colour of the most runs lies beneath all the others.
    """
    spans: dict[str | None, list[tuple[int, int, int]]] = {}
    own, pale = _cell_fills(layout)
    for row in layout.window.rows:
        column = 0
        for colour, run in groupby(_row_fills(layout, row, own, pale)):
            length = len(tuple(run))
            spans.setdefault(colour, []).append((column, length, row))
            column += length
    names = _names(layout)
    if None not in spans:
        ground = max(sorted(filter(None, spans)), key=lambda colour: len(spans[colour]))
        del spans[ground]
        whole_rows = [(0, layout.window.columns, row) for row in layout.window.rows]
        yield from _rects(layout, ground, whole_rows, names)
    for colour in sorted(filter(None, spans)):
        yield from _rects(layout, colour, spans[colour], names)


def _rects(
    layout: Layout,
    colour: str,
    spans: list[tuple[int, int, int]],
    names: Mapping[str, str],
) -> Iterator[Rect]:
    """The rectangles of one colour, of runs as (column, length, row)."""
    for column, length, first, last in _stacked(spans):
        yield Rect(
            layout.left + column * layout.w,
            layout.y(last),
            length * layout.w,
            (last - first + 1) * layout.h,
            fill=colour,
            of=names.get(colour, ""),
        )


def _names(layout: Layout) -> dict[str, str]:
    """What the cells of each fill show; faded cells have no name of their own."""
    found: dict[str, list[str]] = {}
    for key in layout.spec.used_keys:
        fill = fill_of(key, layout.look.colour)
        if fill is not None:
            found.setdefault(fill, []).append(key.label)
    return {fill: f"cells of {' and '.join(labels)}" for fill, labels in found.items()}


_Fills = Mapping[str, str | None]


def _cell_fills(layout: Layout) -> tuple[_Fills, _Fills]:
    """What fills the cells of each key: those of this piece, and those of a neighbouring one."""
    own = {c: fill_of(key, layout.look.colour) for c, key in layout.spec.key_of.items()}
    # A shaded cell stays as it is: faded it would look like a faded empty one.
    pale = {
        c: fill if is_shaded(layout.spec.key_of[c]) else faded(fill) if fill else _FADED_PAPER
        for c, fill in own.items()
    }
    return own, pale


def _row_fills(layout: Layout, row: int, own: _Fills, pale: _Fills) -> Iterator[str | None]:
    """What fills the cells of a row, left to right."""
    keys, (left, right) = layout.row(row), layout.window.own(row)
    return chain(
        map(pale.__getitem__, keys[:left]),
        map(own.__getitem__, keys[left:right]),
        map(pale.__getitem__, keys[right:]),
    )


def _stacked(spans: list[tuple[int, int, int]]) -> Iterator[tuple[int, int, int, int]]:
    """(column, length, first row, last row) from (column, length, row)."""
    for (column, length), group in groupby(sorted(spans), key=lambda span: span[:2]):
        # Rows that follow each other keep the same distance from their place in the list.
        for _, run in groupby(enumerate(group), key=lambda item: item[1][2] - item[0]):
            rows = [row for _, (_, _, row) in run]
            yield column, length, rows[0], rows[-1]


def base_band(layout: Layout) -> Iterator[Shape]:
    """The column of base colours left of the chart."""
    keys, look = layout.spec.key_of, layout.look
    for row in layout.window.rows if layout.spec.base else ():
        yield Rect(
            layout.band_right - layout.band_width,
            layout.y(row),
            layout.band_width,
            layout.h,
            fill=fill_of(keys[layout.spec.base[row - 1]], look.colour) or "#ffffff",
            stroke=_BAND_EDGE,
            width=0.12,
        )


def symbols(layout: Layout) -> Iterator[Shape]:
    """Every symbol of the cells and of the base band, together for each symbol and ink."""
    found: dict[tuple[str, str], list[Place]] = {}
    spec, window, colour = layout.spec, layout.window, layout.look.colour
    keys = spec.key_of
    xs = [layout.left + place * layout.w for place in range(window.columns)]
    looks = {key: (entry.symbol, ink_of(entry, colour)) for key, entry in keys.items()}
    pale_looks = {key: (entry.symbol, _pale(entry, colour)) for key, entry in keys.items()}
    for row in window.rows:
        y, (left, right) = layout.y(row), window.own(row)
        for place, wide, key in _whole_cells(layout, row):
            look = (looks if left <= place + wide - 1 < right else pale_looks)[key]
            found.setdefault(look, []).append((xs[place], y))
        if spec.base:
            x = layout.band_right - (layout.band_width + layout.w) / 2
            found.setdefault(looks[spec.base[row - 1]], []).append((x, y))
    shown = {symbol: key.label for key in reversed(spec.keys) for symbol in (key.symbol,)}
    for (symbol, ink), places in found.items():
        of = f"symbols of {shown[symbol]}"
        yield from symbol_stamps(symbol_of(symbol), ink, places, layout.w, layout.h, of)


def _whole_cells(layout: Layout, row: int) -> Iterator[tuple[int, int, str]]:
    """The symbols of a row that the window shows whole, as (place of the first cell from the left,
    cells, key)."""
    spec, window = layout.spec, layout.window
    if all(key.span == 1 for key in spec.keys):
        yield from ((place, 1, key) for place, key in enumerate(layout.row(row)))
        return
    before = spec.width - window.last_stitch
    for column, wide, key in cells(spec.rows[row - 1], spec.key_of):
        if before <= column and column + wide <= before + window.columns:
            yield column - before, wide, key


def _pale(key: ChartKey, colour: bool) -> str:
    """A softer ink for a faded cell that still reads at 4.5 to 1."""
    fill = fill_of(key, colour)
    paper = faded(fill) if fill else _FADED_PAPER
    return _PALE_INK if contrast(_PALE_INK, paper) >= 4.5 else "#000000"


def stroke_width(side: float) -> float:
    """The weight of a symbol's strokes in cells whose smaller side is ``side`` mm."""
    return round(max(_STROKE * side, _LEAST_STROKE), 3)


def symbol_stamps(
    symbol: Symbol, ink: str, places: Iterable[Place], w: float, h: float, of: str = ""
) -> Iterator[Stamps]:
    """``symbol`` at every place, in cells of ``w`` by ``h`` mm; ``of`` says what it stands for.

    The symbol of one cell is drawn in a square in the middle of it, so that a ring stays round;
    one that covers several cells is stretched over them.
    """
    corners, side = tuple(places), min(w, h)
    width = stroke_width(side)
    for commands, fill, stroke in ((symbol.fills, ink, None), (symbol.strokes, None, ink)):
        if commands:
            yield Stamps(
                Path(_sized(commands, symbol.wide, w, h, side), fill, stroke, width), corners, of
            )


def _sized(commands: Commands, wide: int, w: float, h: float, side: float) -> Commands:
    """Commands of a unit cell in mm from the top left corner of cells of ``w`` by ``h`` mm."""
    across = w if wide > 1 else side
    left, top = wide * (w - across) / 2, (h - side) / 2
    return tuple(
        (
            name,
            *(
                left + float(n) * across if number % 2 == 0 else top + float(n) * side
                for number, n in enumerate(numbers)
            ),
        )
        for name, *numbers in commands
    )
