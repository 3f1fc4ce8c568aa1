"""What a piece of a cut chart carries beside its cells: the title, its place in the whole, the key.

So that a sheet that is taken out, enlarged or pinned up can be worked from alone.
"""

from collections.abc import Iterator, Sequence
from functools import lru_cache

from bindoff.document.charts.layout import cell_size
from bindoff.document.charts.legend import swatch
from bindoff.document.charts.spec import ChartKey, ChartSpec
from bindoff.document.charts.symbols import symbol_of
from bindoff.document.charts.tiles import Tile
from bindoff.document.drawing import Drawing, Label, Rect, Shape, moved
from bindoff.document.lettering import CAP_HEIGHT, text_width
from bindoff.records import Record, replace

_MAP_WIDE, _MAP_HIGH = 30.0, 26.0  # mm, the small plan at most,
_MAP_LOW = 12.0  # ... and how low it may be beside a title
_GAP = 4.0  # mm between title, chart, plan and key
_SWATCH = 4.0  # mm, the longer side of a cell in the key
_BETWEEN = 1.6  # mm between a swatch and its words, and between two lines of the key
_LEADING = 1.25  # of the type size, from one line of words to the next
_BOLD = 1.1  # how much wider bold letters are, at the most
_HERE = "#404040"


class _Furniture(Record):
    """How it is arranged: the lines of the title, the plan's width and height (mm) and whether it
    stands at the right of the title, above the chart, or below it at the left of the key, and the
    width that is left for the key."""

    title: list[str]
    plan: tuple[float, float]
    above: bool
    key_width: float

    def head(self, text: float) -> float:
        """The height of what stands above the chart, in mm."""
        lines = text * (1 + (len(self.title) - 1) * _LEADING)
        return (max(lines, self.plan[1]) if self.above else lines) + _GAP / 2

    def foot(self, key: Drawing) -> float:
        """The height of what stands below it."""
        return key.height if self.above else max(key.height, self.plan[1])


def furniture_height(spec: ChartSpec, width: float, text: float) -> float:
    """How high (mm) all of it is on a sheet of that ``width``, in type of ``text`` mm."""
    return _height(spec, _furniture(spec, 99, 99, width, text), text)


def _height(spec: ChartSpec, around: _Furniture, text: float) -> float:
    key = _key(spec, spec.used_keys, around.key_width, text)
    return around.head(text) + _GAP + around.foot(key)


def _furniture(spec: ChartSpec, number: int, count: int, width: float, text: float) -> _Furniture:
    """The arrangement that takes less height, the same for all pieces of a chart."""
    return _arranged(spec, number, count, width, text, _is_above(spec, width, text))


@lru_cache(maxsize=64)  # every piece of a chart asks
def _is_above(spec: ChartSpec, width: float, text: float) -> bool:
    """Whether it takes less height with the plan beside the title: where type is large that leaves
    the key more columns."""
    longest = (_arranged(spec, 99, 99, width, text, above) for above in (False, True))
    below, above = (_height(spec, each, text) for each in longest)
    return above < below


def _arranged(
    spec: ChartSpec, number: int, count: int, width: float, text: float, above: bool
) -> _Furniture:
    plan = _plan_size(spec, _MAP_HIGH)
    beside = width - plan[0] - _GAP
    if not above:
        return _Furniture(_title(spec, number, count, width, text), plan, above, beside)
    title = _title(spec, number, count, beside, text)
    high = max(_MAP_LOW, text * (1 + (len(title) - 1) * _LEADING))
    return _Furniture(title, _plan_size(spec, min(high, plan[1])), above, width)


def sheet(
    spec: ChartSpec,
    tile: Tile,
    tiles: tuple[Tile, ...],
    width: float,
    *,
    text: float = 3.2,
    colour: bool = True,
) -> Drawing:
    """A piece of the chart with its title above, the plan of all pieces with this one filled, and
    below it the key of what it shows; its drawing alone where it is the only one."""
    if len(tiles) == 1:
        return tile.drawing
    around = _furniture(spec, tile.number, tile.count, width, text)
    top = around.head(text)
    foot = top + tile.drawing.height + _GAP
    plan_wide = around.plan[0]
    key = _key(spec, _shown(spec, tile), around.key_width, text, colour=colour)
    place = (width - plan_wide, 0.0) if around.above else (0.0, foot)
    indent = 0.0 if around.above else plan_wide + _GAP
    shapes = (
        *(
            Label(0, text * (0.9 + at * _LEADING), line, text, bold=True)
            for at, line in enumerate(around.title)
        ),
        *moved(tile.drawing.shapes, 0, top),
        *moved(_plan(spec, tile, tiles, around.plan), *place),
        *moved(key.shapes, indent, foot),
    )
    heading = max(text_width(line, text) * _BOLD for line in around.title)
    wide = max(tile.drawing.width, place[0] + plan_wide, indent + key.width, heading)
    high = foot + around.foot(key)
    cells = tile.drawing.cells
    moved_cells = replace(cells, top=cells.top + top) if cells else None
    return Drawing(round(wide, 2), round(high, 2), shapes, moved_cells)


def chart_top(spec: ChartSpec, tile: Tile, width: float, text: float = 3.2) -> float:
    """How far (mm) below the top of its ``sheet`` the drawing of a piece begins."""
    if tile.count == 1:
        return 0.0
    return _furniture(spec, tile.number, tile.count, width, text).head(text)


def key_drawing(spec: ChartSpec, width: float = 80.0, *, text: float = 3.2) -> Drawing:
    """The key of a chart as a drawing of its own, at most ``width`` mm wide where words allow."""
    return _key(spec, spec.used_keys, width, text)


def key_alt(spec: ChartSpec) -> str:
    """The words for the key alone."""
    told = "; ".join(f"{key.label}: {symbol_of(key.symbol).picture}" for key in spec.used_keys)
    return f"Key of the chart “{spec.title}”: {told}."


def _title(spec: ChartSpec, number: int, count: int, width: float, text: float) -> list[str]:
    return _wrapped(f"{spec.title}, {number} of {count}", width / _BOLD, text)


def _wrapped(words: str, width: float, text: float) -> list[str]:
    """The words in lines of at most ``width`` mm; a longer word has a line of its own."""
    lines = [""]
    for word in words.split():
        longer = f"{lines[-1]} {word}".strip()
        if lines[-1] and text_width(longer, text) > width:
            lines.append(word)
        else:
            lines[-1] = longer
    return lines


def _shown(spec: ChartSpec, tile: Tile) -> tuple[ChartKey, ...]:
    """The entries of the key that the piece shows, those of the band too."""
    core = tile.core
    right, left = spec.width - core.first_stitch + 1, spec.width - core.last_stitch
    rows = range(core.first_row - 1, core.last_row)
    used = {character for row in rows for character in spec.rows[row][left:right]}
    used |= {spec.base[row] for row in rows} if spec.base else set()
    return tuple(key for key in spec.keys if key.key in used)


def _plan_size(spec: ChartSpec, most: float) -> tuple[float, float]:
    """The width and height (mm) of the plan, no higher than ``most``."""
    wide, high = cell_size(spec, 1.0)
    scale = min(_MAP_WIDE / (wide * spec.width), most / (high * spec.height))
    return wide * spec.width * scale, high * spec.height * scale


def _plan(
    spec: ChartSpec, tile: Tile, tiles: tuple[Tile, ...], size: tuple[float, float]
) -> Iterator[Shape]:
    """The pieces as boxes, this one filled."""
    wide, high = size
    across, up = wide / spec.width, high / spec.height
    for each in tiles:
        core, here = each.core, each is tile
        yield Rect(
            (spec.width - core.last_stitch) * across,
            (spec.height - core.last_row) * up,
            (core.last_stitch - core.first_stitch + 1) * across,
            (core.last_row - core.first_row + 1) * up,
            _HERE if here else "#ffffff",
            "#000000",
            0.2,
        )


def _key(
    spec: ChartSpec,
    keys: tuple[ChartKey, ...],
    width: float,
    text: float,
    *,
    colour: bool = True,
) -> Drawing:
    """Swatches with their words, in as many columns as the width has room for."""
    ratio = spec.cell_height_mm / spec.cell_width_mm
    marks = [swatch(key, max(_SWATCH, text), ratio, colour) for key in keys]
    beside = max(mark.width for mark in marks) + _BETWEEN
    told = [_wrapped(key.label, width - beside, text) for key in keys]
    wide = [beside + max(text_width(line, text) for line in lines) + _GAP for lines in told]
    rows, columns = _in_columns(wide, width + _GAP)
    highest = text * (1 + (max(map(len, told)) - 1) * _LEADING)
    high = max(max(mark.height for mark in marks), highest) + _BETWEEN
    shapes: list[Shape] = []
    for number, (lines, mark) in enumerate(zip(told, marks, strict=True)):
        x, y = sum(columns[: number // rows]), number % rows * high
        shapes += moved(mark.shapes, x, y)
        middle = y + mark.height / 2 + text * CAP_HEIGHT / 2
        shapes += [
            Label(x + beside, middle + at * text * _LEADING, line, text)
            for at, line in enumerate(lines)
        ]
    return Drawing(round(sum(columns) - _GAP, 2), round(rows * high, 2), tuple(shapes))


def _in_columns(wide: Sequence[float], width: float) -> tuple[int, list[float]]:
    """How many rows entries so ``wide`` take in as many columns as ``width`` has room for, each as
    wide as its widest entry; and these columns."""
    for rows in range(1, len(wide)):
        columns = [max(wide[at : at + rows]) for at in range(0, len(wide), rows)]
        if sum(columns) <= width:
            return rows, columns
    return len(wide), [max(wide)]
