"""The cells of a chart: runs of colour, and symbols gathered for each look."""

from collections.abc import Iterable, Iterator
from itertools import groupby

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
    """One rectangle for each run of a colour, equal runs of neighbouring rows joined."""
    spans: dict[str, list[tuple[int, int, int]]] = {}
    for row in layout.window.rows:
        column = 0
        for colour, run in groupby(_row_fills(layout, row)):
            length = len(tuple(run))
            if colour is not None:
                spans.setdefault(colour, []).append((column, length, row))
            column += length
    names = _names(layout)
    for colour in sorted(spans):
        for column, length, first, last in _stacked(spans[colour]):
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


def _row_fills(layout: Layout, row: int) -> Iterator[str | None]:
    keys = layout.spec.key_of
    for place, key in enumerate(layout.row(row)):
        fill = fill_of(keys[key], layout.look.colour)
        fades = layout.window.fades(row, layout.window.last_stitch - place)
        # A shaded cell stays as it is: faded it would look like a faded empty one.
        fades = fades and not is_shaded(keys[key])
        yield (faded(fill) if fill else _FADED_PAPER) if fades else fill


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
    looks = {key: (entry.symbol, ink_of(entry, colour)) for key, entry in keys.items()}
    pale_looks = {key: (entry.symbol, _pale(entry, colour)) for key, entry in keys.items()}
    for row in window.rows:
        y = layout.y(row)
        for column, wide, key in cells(spec.rows[row - 1], keys):
            last = spec.width - column
            first = last - wide + 1
            if window.first_stitch <= first and last <= window.last_stitch:
                look = (pale_looks if window.fades(row, first) else looks)[key]
                found.setdefault(look, []).append((layout.x(last), y))
        if spec.base:
            x = layout.band_right - (layout.band_width + layout.w) / 2
            found.setdefault(looks[spec.base[row - 1]], []).append((x, y))
    shown = {symbol: key.label for key in reversed(spec.keys) for symbol in (key.symbol,)}
    for (symbol, ink), places in found.items():
        of = f"symbols of {shown[symbol]}"
        yield from symbol_stamps(symbol_of(symbol), ink, places, layout.w, layout.h, of)


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
