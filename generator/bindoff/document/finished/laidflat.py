"""Fabric in the outline of a piece that lies flat: one small shape for every stitch.

The stitches of a row are spread between its two edges, and lean as these do: wales run along the
edge of a piece, and of a crown they all draw together.
"""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import pairwise
from math import atan2, ceil, cos, hypot, inf, sin, sqrt

from bindoff.document.drawing import Path, Shape, Stamps
from bindoff.document.fabric import crossing, darker
from bindoff.document.faces import Crossing, Face, Look
from bindoff.document.finished.courses import Course
from bindoff.document.finished.stitched import (
    EDGE,
    FOOT,
    GROUND,
    LAST,
    Cells,
    Stitched,
    kind_of,
    main_yarn,
    near_turn,
    outline_commands,
    row_at,
    stamped,
)
from bindoff.document.yarn.cloth import Command
from bindoff.plan.gauge import Gauge
from bindoff.plan.outlines.shapes import Line, Point
from bindoff.records import Record

_MOST = 5200  # stitches of a picture; more could not be told apart, so they are drawn larger,
_MOST_COUNTED = 45_000  # ... but where what stands at the edge can be counted
_TURNS = ((0.55, 1.0), (0.75, 0.94), (0.9, 0.87), (2.0, 0.79))
"""Fabric that turns away is darker: up to which share of the half width, and how light."""
_MOST_LEAN = 0.7  # of a row's height: so far a stitch leans from its foot to its head
_REACH = 2.5  # stitches from an edge that lean with it, where a row does not fan out
_BEHIND = 0.8  # of its light: the purl fabric that strands leave behind where they cross
_NEAR = 0.1  # of a row: so far from its foot and its head its edges are looked at


class Patch(Record):
    """An outline in mm, y down, and the rows that fill it from its foot to its head.

    It is worked in the direction that lies ``turn`` from straight up, clockwise in radians;
    ``down`` says that its stitches stand on their heads. ``around`` says that it is a tube.
    ``from_head`` has its last row at its head, else its first one is at its foot. ``squeezed``
    rows keep all their stitches where the outline draws in, as gathered ones do; rows that ``fan``
    lean evenly from edge to edge, others at their edges alone. ``gauge`` is its own, if it has
    another than the piece it is put on.
    """

    outline: Line
    courses: tuple[Course, ...]
    turn: float = 0.0
    down: bool = False
    around: bool = True
    from_head: bool = False
    squeezed: bool = False
    fan: bool = False
    gauge: Gauge | None = None


def scale_of(outlines: Iterable[Line], gauge: Gauge, counted: bool = False) -> int:
    """How many stitches and rows are drawn as one; ``counted`` if the edge has as many points as
    the pattern says."""
    stitches = sum(abs(_area(each)) for each in outlines) / (gauge.stitch_mm * gauge.round_mm)
    return max(1, ceil(sqrt(stitches / (_MOST_COUNTED if counted else _MOST))))


def filled(
    patch: Patch, gauge: Gauge, colours: Mapping[str, str], merged: int = 1
) -> Iterator[Shape]:
    """The shapes of a patch in its own millimetres; ``merged`` as ``scale_of`` says."""
    wide, high = gauge.stitch_mm * merged, gauge.round_mm * merged
    cosine, sine = cos(patch.turn), sin(patch.turn)
    line = [(x * cosine + y * sine, y * cosine - x * sine) for x, y in patch.outline]

    def back(x: float, y: float) -> Point:
        return x * cosine - y * sine, x * sine + y * cosine

    main = main_yarn(patch.courses)
    edge = darker(colours[main], EDGE)
    whole = outline_commands([back(*each) for each in line])
    yield Path(whole, darker(colours[main], GROUND), edge, 0.06 * wide + 0.5)
    grounds: defaultdict[str, list[Command]] = defaultdict(list)
    places: defaultdict[Stitched, list[Point]] = defaultdict(list)
    crosses: defaultdict[tuple[Crossing, str, float], list[Point]] = defaultdict(list)
    reach = inf if patch.fan or patch.squeezed else _REACH * wide
    for course, low, last in _laid(patch, line, high, merged):
        tall = high * LAST if last else high
        for left, right, lean in _rows(line, low, high):
            cells = Cells(course, left, right, wide, merged, patch.squeezed, patch.fan)
            crossed = cells.complete and not patch.turn
            if cells.ground not in (main, ""):
                box = [(left, low), (right, low), (right, low - high), (left, low - high)]
                grounds[cells.ground] += outline_commands([back(*each) for each in box])
            for x, yarn, face in _within(line, low, high, cells.wide, _uncut(list(cells))):
                share = abs(2 * x - left - right) / (right - left)
                light = next(light for most, light in _TURNS if share <= most)
                light = light if patch.around else 1.0
                look = kind_of(face)
                if crossed and _is_crossed(face):
                    light, look = light * _BEHIND, Look.PURL
                if crossed and isinstance(face, Crossing):
                    crosses[face, yarn, cells.wide].append((x - cells.wide / 2, low - high))
                shift = _shift(lean, x - left, right - x, reach)
                turn = patch.turn + near_turn(atan2(shift, high))
                feet = low - high * (1 + FOOT) if patch.down else low + high * FOOT
                foot = (x + shift / 2 if patch.down else x - shift / 2, feet)
                places[Stitched(yarn, light, look, cells.wide, tall, turn)].append(back(*foot))
    for yarn, commands in grounds.items():
        yield Path(tuple(commands), darker(colours[yarn], GROUND))
    yield from stamped(places, patch.down, colours)
    for (cross, yarn, cell), some in crosses.items():
        for path in crossing(cross, 0.0, 0.0, cell, high, colours[yarn]):
            yield Stamps(path, tuple(some))


Cell = tuple[float, str, Face | None]


def _uncut(cells: Sequence[Cell]) -> list[Cell]:
    """The cells of a row, plain where the edge of the piece cuts through a cross."""
    first = next((at for at, cell in enumerate(cells) if cell[2] is not Look.COVERED), len(cells))
    last = len(cells)
    while last > first and cells[last - 1][2] is Look.COVERED:
        last -= 1
    at = max((at for at in range(last) if isinstance(cells[at][2], Crossing)), default=None)
    cross = cells[at][2] if at is not None else None
    if at is not None and isinstance(cross, Crossing):
        last = at if at + cross.wide > len(cells) else max(last, at + cross.wide)
    return [
        cell if first <= at < last else (cell[0], cell[1], None) for at, cell in enumerate(cells)
    ]


def _within(
    line: Sequence[Point], low: float, high: float, wide: float, cells: Sequence[Cell]
) -> list[Cell]:
    """The cells of a row, plain where the piece is too narrow at the head of a cross."""
    found = list(cells)
    for at, (x, _, face) in enumerate(cells):
        if isinstance(face, Crossing) and face.high > 1:
            left, right = x - wide / 2, x + wide * (face.wide - 0.5)
            head = _chords(line, low - high * (face.high - _NEAR))
            if not any(a <= left and right <= b for a, b in head):
                found[at : at + face.wide] = [
                    (place, yarn, None) for place, yarn, _ in cells[at : at + face.wide]
                ]
    return found


def _is_crossed(face: Face | None) -> bool:
    return isinstance(face, Crossing) or face is Look.COVERED


def _shift(lean: tuple[float, float], left: float, right: float, reach: float) -> float:
    """How far a stitch leans to the right: as its edges do, which are so far to its ``left`` and
    its ``right``."""
    if reach == inf:
        return (lean[0] * right + lean[1] * left) / (left + right)
    return lean[0] * max(0.0, 1 - left / reach) + lean[1] * max(0.0, 1 - right / reach)


def _rows(
    line: Sequence[Point], low: float, high: float
) -> Iterator[tuple[float, float, tuple[float, float]]]:
    """The stretches of a row: where each begins and ends, and how far its two edges lean to the
    right from its foot to its head. An edge that leans too far for stitches is drawn in to the
    narrower end of the row."""
    foot, middle, head = (
        list(_chords(line, low - high * share)) for share in (_NEAR, 0.5, 1 - _NEAR)
    )
    most = _MOST_LEAN * high
    for at, ends in enumerate(middle):
        found, leans = list(ends), [0.0, 0.0]
        if len(foot) == len(middle) == len(head):
            for side in (0, 1):
                lean = (head[at][side] - foot[at][side]) / (1 - 2 * _NEAR)
                leans[side] = min(max(lean, -most), most)
                over = (abs(lean) - most) / 2
                if over > 0:
                    found[side] += over * (1 if side == 0 else -1)
        if found[1] > found[0]:
            yield found[0], found[1], (leans[0], leans[1])


def _laid(
    patch: Patch, line: Sequence[Point], high: float, merged: int
) -> Iterator[tuple[Course, float, bool]]:
    """The rows that fill an outline, from the lowest: where their feet are, and whether there is no
    row that their heads reach into."""
    top, foot = min(y for _, y in line), max(y for _, y in line)
    rows = max(1, round((foot - top) / high))
    step = (foot - top) / rows
    for number in range(rows):
        at = len(patch.courses) - (rows - number) * merged if patch.from_head else number * merged
        end = number == (0 if patch.down else rows - 1)
        yield row_at(patch.courses, at, merged), foot - number * step, end


def _chords(line: Sequence[Point], y: float) -> Iterator[tuple[float, float]]:
    """What of a level line lies inside an outline, from the left."""
    xs = sorted(
        a + (c - a) * (y - b) / (d - b)
        for (a, b), (c, d) in pairwise([*line, line[0]])
        if (b > y) != (d > y)
    )
    yield from zip(xs[::2], xs[1::2], strict=False)


def _area(line: Sequence[Point]) -> float:
    return sum(a * d - c * b for (a, b), (c, d) in pairwise([*line, line[0]])) / 2


def angle_of(start: Point, end: Point) -> tuple[float, float]:
    """The direction of a line, as its sine and cosine from straight up, clockwise."""
    long = hypot(end[0] - start[0], end[1] - start[1])
    return (end[0] - start[0]) / long, (start[1] - end[1]) / long
