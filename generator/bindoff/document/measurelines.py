"""The measure lines of a schematic, with their letters: beside the piece, along its edges, on it.

All on paper, in millimetres; lines and type keep their size whatever the scale of the piece.
"""

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import hypot

from bindoff.document.drawing import Label, Lines, Shape
from bindoff.document.lettering import CAP_HEIGHT, text_width
from bindoff.plan.outlines.shapes import Line, Measured, Point, inside
from bindoff.records import Record

Segment = tuple[float, float, float, float]

INK, DETAIL_INK = "#000000", "#808080"  # neutral: printed with black alone
_DIMENSION, _EXTENSION = 0.2, 0.13
_STAND_OFF, _LEVEL = 4.6, 5.0  # mm from the piece to its first measure line, and to the next
_CLEAR = 1.0  # mm from the piece to where an extension line begins
_PAST = 1.0  # mm an extension line runs past the measure line
_STROKE, _STROKE_WIDTH = 0.75, 0.35  # mm, the oblique stroke at its ends: half its reach, weight
_LONG = 1.7  # of the type: a line at least so long has its letter in a gap
_AIR = 0.6  # mm on either side of a letter in its gap
_BENDS = 80  # straight parts of a measure line that bends


class Lettered(Record):
    """A measure with its letter."""

    letter: str
    measure: Measured


class DrawnLine(Record):
    """A measure line on paper, the ends of the piece it belongs to, and its letter; ``way`` is a
    line that bends."""

    ends: tuple[Point, Point]
    feet: tuple[Point, Point]
    letter: Label
    gap: float
    way: Line = ()


def measure_lines(
    lettered: Sequence[Lettered],
    scale: float,
    sides: Sequence[Line],
    text_mm: float,
) -> Iterator[DrawnLine]:
    """A line for each measure, the shortest nearest to the piece; ``sides`` are its outlines on
    paper, where a millimetre of the piece is ``scale`` long."""
    box = box_of([point for line in sides for point in line])
    taken: dict[str, list[tuple[float, float, int]]] = {}
    beside: dict[str, list[tuple[float, float]]] = {}
    aslant: list[tuple[Point, Point, int]] = []
    longest_last = sorted(lettered, key=lambda each: _length(each.measure))
    for each in longest_last:
        start, end = ((x * scale, y * scale) for x, y in (each.measure.start, each.measure.end))
        side = each.measure.side
        if each.measure.way:
            way = tuple((x * scale, y * scale) for x, y in each.measure.way)
            yield _bent(each.letter, way, sides, text_mm)
            continue
        step = _LEVEL + max(0.0, text_mm - 3.2)
        if side in ("along", "within"):
            level = _beside(aslant, start, end) if side == "along" else 0
            away = _STAND_OFF + step * level if side == "along" else 0.0
            yield _aslant(each.letter, start, end, away, sides, text_mm)
            continue
        upright = side in ("left", "right")
        low, high = sorted((start[1], end[1]) if upright else (start[0], end[0]))
        level = _free(taken.setdefault(side, []), low, high)
        away = _STAND_OFF + step * level
        at = {
            "left": box[0] - away,
            "right": box[2] + away,
            "above": box[1] - away,
            "below": box[3] + away,
        }[side]
        ends = ((at, low), (at, high)) if upright else ((low, at), (high, at))
        first, last = (start, end) if (start[1] if upright else start[0]) == low else (end, start)
        yield _straight_line(
            each.letter, ends, (first, last), side, text_mm, beside.setdefault(side, [])
        )


def _length(measure: Measured) -> float:
    (x1, y1), (x2, y2) = measure.start, measure.end
    return hypot(x2 - x1, y2 - y1)


def _free(taken: list[tuple[float, float, int]], low: float, high: float) -> int:
    """The nearest level at which nothing stands between ``low`` and ``high`` yet."""
    level = 0
    while any(a < high - 0.3 and low < b - 0.3 and at == level for a, b, at in taken):
        level += 1
    taken.append((low, high, level))
    return level


def _beside(taken: list[tuple[Point, Point, int]], start: Point, end: Point) -> int:
    """The nearest level beside an edge at which no line stands along the same stretch yet."""
    long = max(hypot(end[0] - start[0], end[1] - start[1]), 1e-6)
    x, y = (end[0] - start[0]) / long, (end[1] - start[1]) / long

    def along(point: Point) -> float:
        return (point[0] - start[0]) * x + (point[1] - start[1]) * y

    def off(point: Point) -> float:
        return abs((point[1] - start[1]) * x - (point[0] - start[0]) * y)

    level = 0
    while any(
        at == level
        and max(off(one), off(other)) < _LEVEL
        and min(along(one), along(other)) < long - 0.3
        and max(along(one), along(other)) > 0.3
        for one, other, at in taken
    ):
        level += 1
    taken.append((start, end, level))
    return level


def _straight_line(
    letter: str,
    ends: tuple[Point, Point],
    feet: tuple[Point, Point],
    side: str,
    text_mm: float,
    beside: list[tuple[float, float]],
) -> DrawnLine:
    """A level or upright line; its letter in a gap, or outside where it is too short for one."""
    (x1, y1), (x2, y2) = ends
    wide, cap = text_width(letter, text_mm, bold=True), text_mm * CAP_HEIGHT
    x, y, long = (x1 + x2) / 2, (y1 + y2) / 2, hypot(x2 - x1, y2 - y1)
    upright = side in ("left", "right")
    room = (cap if upright else wide) + 2 * _AIR
    if long >= room + _LONG * 1.2:
        label = Label(x, y + cap / 2, letter, text_mm, "middle", INK, bold=True)
        return DrawnLine(ends, feet, label, room)
    out = _PAST + _AIR
    if upright:
        across = x - out - wide / 2 if side == "left" else x + out + wide / 2
        y = _apart(beside, across, y, text_mm * 1.1)
        label = Label(across, y + cap / 2, letter, text_mm, "middle", INK, bold=True)
    else:
        base = y + out + cap if side == "below" else y - out
        label = Label(x, base, letter, text_mm, "middle", INK, bold=True)
    return DrawnLine(ends, feet, label, 0.0)


def _apart(beside: list[tuple[float, float]], across: float, y: float, least: float) -> float:
    """The place nearest below ``y`` that is clear of the letters beside the same line."""
    for x, other in sorted(beside, key=lambda place: place[1]):
        if abs(x - across) < least and abs(other - y) < least:
            y = other + least
    beside.append((across, y))
    return y


def _aslant(
    letter: str,
    start: Point,
    end: Point,
    away: float,
    sides: Sequence[Line],
    text_mm: float,
) -> DrawnLine:
    """A line beside an edge that is neither level nor upright, on the side where the piece is not;
    or a line on the piece itself."""
    (x1, y1), (x2, y2) = start, end
    long = max(hypot(x2 - x1, y2 - y1), 1e-6)
    normal = ((y2 - y1) / long, (x1 - x2) / long)
    beside = (x1 + x2) / 2 + normal[0] * _STAND_OFF, (y1 + y2) / 2 + normal[1] * _STAND_OFF
    if any(inside(beside, line) for line in sides):
        normal = (-normal[0], -normal[1])
    nx, ny = normal[0] * away, normal[1] * away
    ends = (x1 + nx, y1 + ny), (x2 + nx, y2 + ny)
    wide, cap = text_width(letter, text_mm, bold=True), text_mm * CAP_HEIGHT
    room = abs(y2 - y1) / long * cap + abs(x2 - x1) / long * wide + 2 * _AIR
    x, y = (ends[0][0] + ends[1][0]) / 2, (ends[0][1] + ends[1][1]) / 2
    gap = room if long >= room + _LONG * 1.2 else 0.0
    if not gap:
        out = _PAST + _AIR + max(wide, cap) / 2
        x, y = x + normal[0] * out, y + normal[1] * out
    label = Label(x, y + cap / 2, letter, text_mm, "middle", INK, bold=True)
    return DrawnLine(ends, (start, end), label, gap)


def _bent(letter: str, edge: Line, sides: Sequence[Line], text_mm: float) -> DrawnLine:
    """A line along an edge that bends, on the side where the piece is not; its letter is in a gap
    in the middle."""
    way = _off(edge, _STAND_OFF)
    if any(inside(on_way(way, 0.5), line) for line in sides):
        way = _off(edge, -_STAND_OFF)
    x, y = on_way(way, 0.5)
    wide, cap = text_width(letter, text_mm, bold=True), text_mm * CAP_HEIGHT
    label = Label(x, y + cap / 2, letter, text_mm, "middle", INK, bold=True)
    return DrawnLine((way[0], way[-1]), (edge[0], edge[-1]), label, max(wide, cap) + 2 * _AIR, way)


def _off(edge: Line, away: float) -> Line:
    """A line beside another: each of its points ``away`` to the left of the way there."""
    found = []
    for at, (x, y) in enumerate(edge):
        (a, b), (c, d) = edge[max(at - 1, 0)], edge[min(at + 1, len(edge) - 1)]
        long = max(hypot(c - a, d - b), 1e-6)
        found.append((x + (d - b) / long * away, y - (c - a) / long * away))
    return tuple(found)


def line_shapes(measured: Sequence[DrawnLine]) -> Iterator[Shape]:
    """For each measure its line with an oblique stroke at both ends, and extension lines."""
    extensions = [
        segment
        for each in measured
        for foot, end in zip(each.feet, each.ends, strict=True)
        for segment in _extension(foot, end)
    ]
    strokes = [
        (x - _STROKE, y + _STROKE, x + _STROKE, y - _STROKE)
        for each in measured
        for x, y in each.ends
    ]
    lines = [segment for each in measured for segment in _broken(each)]
    if extensions:
        yield Lines(tuple(extensions), DETAIL_INK, _EXTENSION)
    if lines:
        yield Lines(tuple(lines), INK, _DIMENSION)
        yield Lines(tuple(strokes), INK, _STROKE_WIDTH)
    yield from (each.letter for each in measured)


def _extension(foot: Point, end: Point) -> Iterator[Segment]:
    """From just outside the piece to a little past the measure line."""
    long = hypot(end[0] - foot[0], end[1] - foot[1])
    if long > _CLEAR:
        x, y = (end[0] - foot[0]) / long, (end[1] - foot[1]) / long
        yield (
            foot[0] + x * _CLEAR,
            foot[1] + y * _CLEAR,
            end[0] + x * _PAST,
            end[1] + y * _PAST,
        )


def _broken(each: DrawnLine) -> Iterator[Segment]:
    """A measure line with the gap for its letter."""
    (x1, y1), (x2, y2) = each.ends
    long = hypot(x2 - x1, y2 - y1)
    if each.way:
        yield from _around_gap(each.way, each.gap)
        return
    if not each.gap:
        yield x1, y1, x2, y2
        return
    share = (long - each.gap) / 2 / long
    yield x1, y1, x1 + (x2 - x1) * share, y1 + (y2 - y1) * share
    yield x2 - (x2 - x1) * share, y2 - (y2 - y1) * share, x2, y2


def _around_gap(way: Line, gap: float) -> Iterator[Segment]:
    """A line that bends, with a gap in its middle."""
    long = way_long(way)
    start, end = (long - gap) / 2 / long, (long + gap) / 2 / long
    shares = [at / _BENDS for at in range(_BENDS + 1)]
    for some in (
        [*(each for each in shares if each < start), start],
        [end, *(each for each in shares if each > end)],
    ):
        yield from segments([on_way(way, each) for each in some])


def segments(line: Sequence[Point]) -> Iterator[Segment]:
    """The straight parts of a line."""
    for (x1, y1), (x2, y2) in pairwise(line):
        yield x1, y1, x2, y2


def way_long(way: Sequence[Point]) -> float:
    """How long a line is."""
    return sum(hypot(c - a, d - b) for (a, b), (c, d) in pairwise(way))


def on_way(way: Sequence[Point], share: float) -> Point:
    """The point of a line where ``share`` of it is done."""
    rest = share * way_long(way)
    for (a, b), (c, d) in pairwise(way):
        long = hypot(c - a, d - b)
        if rest <= long and long:
            return a + (c - a) * rest / long, b + (d - b) * rest / long
        rest -= long
    return way[-1]


def box_of(points: Sequence[Point]) -> tuple[float, float, float, float]:
    """Left, top, right and bottom of points."""
    xs, ys = zip(*points, strict=True)
    return min(xs), min(ys), max(xs), max(ys)
