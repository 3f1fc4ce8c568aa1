"""The numbers on a chart, placed so that none hides a symbol or another number."""

from collections.abc import Callable, Iterator, Sequence
from enum import IntEnum
from functools import lru_cache
from itertools import product
from math import hypot, inf

from bindoff.document.charts.cellwork import stroke_width
from bindoff.document.charts.layout import Layout
from bindoff.document.charts.spec import Tag
from bindoff.document.charts.symbols import GROUND_SYMBOLS, symbol_of
from bindoff.document.drawing import Label, Lines, Path, Rect, Shape
from bindoff.document.lettering import CAP_HEIGHT, text_width
from bindoff.records import Record

_AROUND = 0.4  # mm between a number and the edge of its box
_OUTLINE = 0.15  # mm
_LEADER, _CASING = 0.3, 0.8  # mm
_BETWEEN = 0.3  # mm between two boxes
_CLEAR = 0.15  # mm between a symbol and what is set beside it
_MARK = 0.3  # of the smaller side of a cell, the mark in its corner
_STEP = 0.25  # of a cell, from one place that is tried to the next
_NEAR, _APART, _FAR = 6, 16, 48
"""How many steps a number stands off: in any direction, on every second, along a line."""
_NEARER = 4  # steps that a number goes farther to hide nothing of the ground,
_OVER = 6  # ... for each symbol that its line then does not run over,
_UNSEEN = 48  # ... and to have a line that does not run along one of the grid
_LONG = 0.2  # mm beyond its box at which a number has a line to its cell
_SLANT = 0.3  # of a line to a cell: so far it leaves the lines of the grid, on which nobody sees it
_LEAST = 1e-6  # mm, more than what a computer rounds away
_GROUND = frozenset(GROUND_SYMBOLS.values())


class _Box(Record):
    left: float
    top: float
    right: float
    bottom: float

    def meets(self, other: "_Box", apart: float = 0.0) -> bool:
        """Whether the two are less than ``apart`` mm from each other."""
        return (
            self.left < other.right + apart
            and other.left < self.right + apart
            and self.top < other.bottom + apart
            and other.top < self.bottom + apart
        )

    def holds(self, x: float, y: float) -> bool:
        """Whether a point lies within."""
        return self.left < x < self.right and self.top < y < self.bottom


_Line = tuple[float, float, float, float]


class _Placed(Record):
    """A number in its box; the lower right corner of its cell lies at (x, y)."""

    tag: Tag
    box: _Box
    x: float
    y: float

    @property
    def leader(self) -> _Line | None:
        """The line from the box to that corner, in the direction of its middle, which seldom is
        that of a line of the grid; ``None`` where the box lies on the corner."""
        box = self.box
        x, y = min(max(self.x, box.left), box.right), min(max(self.y, box.top), box.bottom)
        if abs(x - self.x) + abs(y - self.y) < _LONG:
            return None
        middle_x, middle_y = (box.left + box.right) / 2, (box.top + box.bottom) / 2
        across, down = self.x - middle_x, self.y - middle_y
        out = min(
            (box.right - middle_x) / abs(across) if across else inf,
            (box.bottom - middle_y) / abs(down) if down else inf,
        )
        return middle_x + across * out, middle_y + down * out, self.x, self.y


def tags(layout: Layout) -> Iterator[Shape]:
    """Each number in a small white box on the lower right corner of its cell; where it would hide a
    symbol there, on free cells near by, with a line to that corner."""
    placed = _place(layout)
    leaders = [each.leader for each in placed if each.leader]
    if leaders:
        yield Lines(tuple(leaders), "#ffffff", _CASING)
        yield Lines(tuple(leaders), "#000000", _LEADER)
        for each in placed:
            if each.leader:
                side = _MARK * min(layout.w, layout.h)
                corner = (
                    ("M", each.x, each.y),
                    ("L", each.x - side, each.y),
                    ("L", each.x, each.y - side),
                    ("Z",),
                )
                yield Path(corner, fill="#000000", stroke="#ffffff", width=_OUTLINE)
    size = layout.look.number_mm
    for each in placed:
        box = each.box
        wide, high = box.right - box.left, box.bottom - box.top
        yield Rect(box.left, box.top, wide, high, "#ffffff", "#000000", _OUTLINE)
        yield Label(
            box.left + wide / 2, box.bottom - _AROUND, each.tag.text, size, "middle", bold=True
        )


class _Hidden(IntEnum):
    """The most that lies under a box."""

    NOTHING = 0
    GROUND = 1
    SYMBOL = 2


class _Symbols:
    """Where the symbols of a window are drawn, found by their cells."""

    def __init__(self, layout: Layout):
        self._layout = layout
        self._bottom = layout.bottom
        self._drawn = {
            key: (entry.symbol in _GROUND, drawn)
            for key, entry in layout.spec.key_of.items()
            if (drawn := _extent(entry.symbol, layout.w, layout.h))
        }
        sides = (
            max(-each.left, -each.top, each.right - layout.w, each.bottom - layout.h)
            for _, each in self._drawn.values()
        )
        self._beyond = max(sides, default=0.0) + _LEAST
        """How far symbols are drawn beyond their cells; where a box ends on a line, the cells on
        both sides of it are looked at."""
        self._rows: dict[int, tuple[float, tuple[tuple[bool, _Box] | None, ...]]] = {}

    def near(self, box: _Box) -> Iterator[tuple[bool, float, float, float, float]]:
        """The symbols that may be drawn where the box lies: whether each is of the ground, and its
        left, top, right and bottom, a tuple because there are thousands."""
        layout, window, beyond = self._layout, self._layout.window, self._beyond
        edge, wide = layout.left, layout.w
        first = max(int((box.left - beyond - edge) // wide), 0)
        stop = max(int((box.right + beyond - edge) // wide) + 1, 0)
        low = window.first_row + int((self._bottom - box.bottom - beyond) // layout.h)
        high = window.first_row + int((self._bottom - box.top + beyond) // layout.h)
        for row in range(max(low, window.first_row), min(high, window.last_row) + 1):
            y, cells = self._rows.get(row) or self._row(row)
            for place, found in enumerate(cells[first:stop], first):
                if found:
                    ground, drawn = found
                    x = edge + place * wide
                    yield ground, x + drawn.left, y + drawn.top, x + drawn.right, y + drawn.bottom

    def _row(self, row: int) -> tuple[float, tuple[tuple[bool, _Box] | None, ...]]:
        """Where a row begins, and what is drawn in each of its cells."""
        cells = tuple(map(self._drawn.get, self._layout.row(row)))
        return self._rows.setdefault(row, (self._layout.y(row), cells))

    def under(self, box: _Box) -> _Hidden:
        """What of the symbols lies under the box."""
        hidden = _Hidden.NOTHING
        for ground, left, top, right, bottom in self.near(box):
            if box.left < right and left < box.right and box.top < bottom and top < box.bottom:
                if not ground:
                    return _Hidden.SYMBOL
                hidden = _Hidden.GROUND
        return hidden


class _Room:
    """What lies on a chart already, found by its cells: numbers in their boxes, and the corners
    that numbers belong to. A place once taken stays so, and is not looked at again."""

    def __init__(self, layout: Layout, symbols: _Symbols, placed: Sequence[_Placed]):
        self._layout = layout
        self._symbols = symbols
        self._corners = {self._cell(each.x, each.y): each.tag for each in placed}
        self._boxes: dict[tuple[int, int], list[_Box]] = {}
        self._taken: set[tuple[int, int, int]] = set()
        self._under: dict[tuple[int, int, int], _Hidden] = {}
        self._leaders: list[_Line] = []
        self.placed: list[_Placed] = []

    def _cell(self, x: float, y: float) -> tuple[int, int]:
        """Columns and rows from the upper left corner of the frame to a corner of a cell."""
        layout = self._layout
        return round((x - layout.left) / layout.w), round((y - layout.top) / layout.h)

    def _cells(self, box: _Box, more: float) -> Iterator[tuple[int, int]]:
        """The corners of cells at the upper left of those that the box lies on, ``more`` mm
        around it included."""
        layout = self._layout
        first, last = (
            int((x - layout.left) // layout.w) for x in (box.left - more, box.right + more)
        )
        top, bottom = (
            int((y - layout.top) // layout.h) for y in (box.top - more, box.bottom + more)
        )
        return product(range(first, last + 1), range(top, bottom + 1))

    def put(self, number: _Placed) -> None:
        """Lay a number in its box."""
        self.placed.append(number)
        if number.leader:
            self._leaders.append(number.leader)
        for cell in self._cells(number.box, _BETWEEN):
            self._boxes.setdefault(cell, []).append(number.box)

    def _is_free(self, found: _Placed) -> bool:
        """Whether no number lies in the box or beside it."""
        return not any(
            found.box.meets(box, _BETWEEN)
            for cell in self._cells(found.box, 0)
            for box in self._boxes.get(cell, ())
        )

    def _hidden(self, spot: tuple[int, int, int], found: _Placed) -> _Hidden:
        """What lies under a number in that spot, looked up once for all numbers as wide."""
        if spot not in self._under:
            self._under[spot] = self._symbols.under(found.box)
        return self._under[spot]

    def _holds_corner(self, found: _Placed) -> bool:
        """Whether the corner of another number's cell lies in the box."""
        layout = self._layout
        return any(
            self._corners.get((across, down), found.tag) != found.tag
            and found.box.holds(layout.left + across * layout.w, layout.top + down * layout.h)
            for across, down in self._cells(found.box, 0)
        )

    def nearest(self, tag: Tag) -> _Placed | None:
        """The nearest place of a number that hides no symbol, no number and no corner of the cell
        of another. Symbols of the ground, which are alike far around, may be hidden where that is
        nearer by more than a few steps, and a line to the cell may run over symbols where every
        other place is much farther."""
        layout, best, least = self._layout, None, inf
        at = _places(layout, tag)
        start = at(0, 0)
        across, down = (round(each / _STEP) for each in self._cell(start.x, start.y))
        wide = round((start.box.right - start.box.left) * 1000)
        for right, low in _steps():
            far = hypot(right, low)
            if far >= least:
                break
            spot = across + right, down + low, wide
            if spot in self._taken:
                continue
            found = at(right * _STEP * layout.w, low * _STEP * layout.h)
            hidden = self._hidden(spot, found)
            if hidden is _Hidden.SYMBOL or not self._is_free(found):
                self._taken.add(spot)
                continue
            line = found.leader
            cost = far + (_NEARER if hidden else 0)
            cost += _UNSEEN if line and _on_the_grid(line) else 0
            if cost >= least or self._holds_corner(found) or not self._may_lead(found.box, line):
                continue
            cost += _OVER * self._run_over(line) if line else 0
            if cost < least:
                best, least = found, cost
        return best

    def _may_lead(self, box: _Box, line: _Line | None) -> bool:
        """Whether the line to the cell runs over no other number, and the number in its box lies on
        the line of no other."""
        return not any(_runs_over(other, box) for other in self._leaders) and (
            line is None or not any(_runs_over(line, other.box) for other in self.placed)
        )

    def _run_over(self, line: _Line) -> int:
        """How many symbols but those of the ground the line to the cell runs over."""
        x1, y1, x2, y2 = line
        left, right, top, bottom = min(x1, x2), max(x1, x2), min(y1, y2), max(y1, y2)
        around = _Box(left - _CASING, top - _CASING, right + _CASING, bottom + _CASING)
        crossed = (_Box(*box) for ground, *box in self._symbols.near(around) if not ground)
        return sum(_runs_over(line, box) for box in crossed)


def _place(layout: Layout) -> tuple[_Placed, ...]:
    """The numbers that the window shows: those that may stay at their cells first."""
    window = layout.window
    shown = [
        tag
        for tag in layout.spec.tags
        if tag.row in window.rows and window.first_stitch <= tag.stitch <= window.last_stitch
    ]
    at_cell = {tag: _places(layout, tag)(0, 0) for tag in shown}
    symbols = _Symbols(layout)
    stay = {tag for tag in shown if symbols.under(at_cell[tag].box) is _Hidden.NOTHING}
    room = _Room(layout, symbols, tuple(at_cell.values()))
    for tag in sorted(shown, key=lambda tag: tag not in stay):
        room.put(room.nearest(tag) or at_cell[tag])
    place = {tag: number for number, tag in enumerate(shown)}
    return tuple(sorted(room.placed, key=lambda each: place[each.tag]))


@lru_cache(maxsize=1)
def _steps() -> tuple[tuple[int, int], ...]:
    """Steps to the right and down, nearest first: along the lines of the grid, where a line
    hides nothing, and a little way across cells."""
    near, apart = range(-_NEAR, _NEAR + 1), range(-_APART, _APART + 1, 2)
    far = range(-_FAR, _FAR + 1, 2)
    every = {
        *((x, y) for x in near for y in near),
        *((x, y) for x in apart for y in apart),
        *((x, 0) for x in far),
        *((0, y) for y in far),
    }
    return tuple(sorted(every, key=lambda step: (step[0] ** 2 + step[1] ** 2, step)))


def _places(layout: Layout, tag: Tag) -> Callable[[float, float], _Placed]:
    """Places a number so far (mm) to the right of its corner and below it, within the frame."""
    size = layout.look.number_mm
    wide = text_width(tag.text, size, bold=True) + 2 * _AROUND
    high = size * CAP_HEIGHT + 2 * _AROUND
    x, y = layout.x(tag.stitch - 1), layout.y(tag.row - 1)
    first, above = layout.left, layout.top
    last, below = layout.right - wide, layout.bottom - high

    def at(across: float, down: float) -> _Placed:
        left = max(min(x + across - wide / 2, last), first)
        top = max(min(y + down - high / 2, below), above)
        return _Placed(tag, _Box(left, top, left + wide, top + high), x, y)

    return at


def _on_the_grid(line: _Line) -> bool:
    """Whether a line that ends at a corner of a cell runs along the lines that meet there."""
    across, down = abs(line[2] - line[0]), abs(line[3] - line[1])
    return min(across, down) < _SLANT * max(across, down)


def _runs_over(line: _Line, box: _Box) -> bool:
    """Whether a line with its casing touches the box."""
    x1, y1, x2, y2 = line
    reach, start, end = _CASING / 2, 0.0, 1.0
    # Most boxes lie beside the whole line.
    left, right = (x1, x2) if x1 < x2 else (x2, x1)
    top, bottom = (y1, y2) if y1 < y2 else (y2, y1)
    if (
        right < box.left - _CASING
        or left > box.right + _CASING
        or bottom < box.top - _CASING
        or top > box.bottom + _CASING
    ):
        return False
    for at, way, low, high in (
        (x1, x2 - x1, box.left - reach, box.right + reach),
        (y1, y2 - y1, box.top - reach, box.bottom + reach),
    ):
        if abs(way) < 1e-9:
            if not low < at < high:
                return False
            continue
        first, last = sorted(((low - at) / way, (high - at) / way))
        start, end = max(start, first), min(end, last)
    return start < end


@lru_cache(maxsize=256)
def _extent(name: str, w: float, h: float) -> _Box | None:
    """Where in its cell of ``w`` by ``h`` mm a symbol is drawn, all of it for one of several
    cells; ``None`` for an empty one."""
    symbol = symbol_of(name)
    points = [
        (float(numbers[at]), float(numbers[at + 1]))
        for _, *numbers in (*symbol.strokes, *symbol.fills)
        for at in range(0, len(numbers), 2)
    ]
    if not points:
        return None
    if symbol.wide > 1:
        return _Box(0, 0, w, h)
    side = min(w, h)
    left, top = (w - side) / 2, (h - side) / 2
    reach = _CLEAR + (stroke_width(side) / 2 if symbol.strokes else 0)
    across, down = ([each[axis] * side for each in points] for axis in (0, 1))
    return _Box(
        left + min(across) - reach,
        top + min(down) - reach,
        left + max(across) + reach,
        top + max(down) + reach,
    )
