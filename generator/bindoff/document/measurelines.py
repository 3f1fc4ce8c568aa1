"""The measure lines of a schematic: beside the piece, along its edges, on it.

All on paper, in millimetres; lines keep their size whatever the scale of the piece.
"""

from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise
from math import hypot
from types import MappingProxyType

from bindoff.document.lettering import RING
from bindoff.plan.outlines.shapes import Line, Measured, Point, inside
from bindoff.records import Record

Segment = tuple[float, float, float, float]

_AIR = 0.2  # of the type size: white around the ring of a letter
PAST = 1.0  # mm an extension line runs past the measure line
_STAND_OFF, _LEVEL = 4.6, 5.0  # mm from the piece to its first measure line, and to the next
_CLEAR = 1.0  # mm from the piece to where an extension line begins


def air_of(text_mm: float) -> float:
    """The white around the ring of a letter in such type, mm."""
    return _AIR * text_mm


def _stand_off(text_mm: float) -> float:
    """From the piece to its first measure line, so that the ring on it stands clear."""
    return max(_STAND_OFF, text_mm * RING + 2 * air_of(text_mm))


class Lettered(Record):
    """A measure with its letter."""

    letter: str
    measure: Measured


class DrawnLine(Record):
    """A measure line on paper with its letter, the ends of the piece it belongs to, and the way
    ``out`` from it, away from the piece; ``way`` is a line that bends."""

    letter: str
    ends: tuple[Point, Point]
    feet: tuple[Point, Point]
    out: Point
    way: Line = ()

    def segments(self) -> Iterator[Segment]:
        """Its straight parts."""
        return segments(self.way or self.ends)

    def extensions(self) -> Iterator[Segment]:
        """From just outside the piece to a little past the line, at both ends."""
        for foot, end in zip(self.feet, self.ends, strict=True):
            long = hypot(end[0] - foot[0], end[1] - foot[1])
            if long > _CLEAR:
                x, y = (end[0] - foot[0]) / long, (end[1] - foot[1]) / long
                yield (
                    foot[0] + x * _CLEAR,
                    foot[1] + y * _CLEAR,
                    end[0] + x * PAST,
                    end[1] + y * PAST,
                )


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
    aslant: list[tuple[Point, Point, int]] = []
    off, step = _stand_off(text_mm), max(_LEVEL, 2 * text_mm * RING + air_of(text_mm))
    longest_last = sorted(lettered, key=lambda each: _length(each.measure))
    for each in longest_last:
        start, end = ((x * scale, y * scale) for x, y in (each.measure.start, each.measure.end))
        side = each.measure.side
        if each.measure.way:
            way = tuple((x * scale, y * scale) for x, y in each.measure.way)
            yield _bent(each.letter, way, sides, off)
            continue
        if side in ("along", "within"):
            level = _beside(aslant, start, end) if side == "along" else 0
            away = off + step * level if side == "along" else 0.0
            yield _aslant(each.letter, start, end, away, sides)
            continue
        upright = side in ("left", "right")
        low, high = sorted((start[1], end[1]) if upright else (start[0], end[0]))
        level = _free(taken.setdefault(side, []), low, high)
        away = off + step * level
        at = {
            "left": box[0] - away,
            "right": box[2] + away,
            "above": box[1] - away,
            "below": box[3] + away,
        }[side]
        ends = ((at, low), (at, high)) if upright else ((low, at), (high, at))
        first, last = (start, end) if (start[1] if upright else start[0]) == low else (end, start)
        yield DrawnLine(each.letter, ends, (first, last), _OUT[side])


_OUT: Mapping[str, Point] = MappingProxyType(
    {"left": (-1.0, 0.0), "right": (1.0, 0.0), "above": (0.0, -1.0), "below": (0.0, 1.0)}
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


def _aslant(
    letter: str,
    start: Point,
    end: Point,
    away: float,
    sides: Sequence[Line],
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
    return DrawnLine(letter, ends, (start, end), normal)


def _bent(letter: str, edge: Line, sides: Sequence[Line], off: float) -> DrawnLine:
    """A line along an edge that bends, on the side where the piece is not."""
    way = _off(edge, off)
    if any(inside(on_way(way, 0.5), line) for line in sides):
        way = _off(edge, -off)
    (x, y), (edge_x, edge_y) = on_way(way, 0.5), on_way(edge, 0.5)
    out = (x - edge_x) / off, (y - edge_y) / off
    return DrawnLine(letter, (way[0], way[-1]), (edge[0], edge[-1]), out, way)


def _off(edge: Line, away: float) -> Line:
    """A line beside another: each of its points ``away`` to the left of the way there."""
    found = []
    for at, (x, y) in enumerate(edge):
        (a, b), (c, d) = edge[max(at - 1, 0)], edge[min(at + 1, len(edge) - 1)]
        long = max(hypot(c - a, d - b), 1e-6)
        found.append((x + (d - b) / long * away, y - (c - a) / long * away))
    return tuple(found)


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
