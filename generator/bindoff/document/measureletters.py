"""The letters of a schematic, in rings: in the middle of their lines where these are long enough,
else beside them, clear of all other lines and letters.
"""

from collections.abc import Collection, Iterable, Iterator, Sequence
from math import hypot

from bindoff.document.discs import disc, half_width
from bindoff.document.drawing import Lines, Shape
from bindoff.document.measurelines import (
    PAST,
    DrawnLine,
    Segment,
    air_of,
    on_way,
    segments,
    way_long,
)
from bindoff.plan.outlines.shapes import Line, Point
from bindoff.records import Record

INK, DETAIL_INK = "#000000", "#808080"  # neutral: printed with black alone
_DIMENSION, _EXTENSION = 0.2, 0.13
_STROKE, _STROKE_WIDTH = 0.75, 0.35  # mm, the oblique stroke at its ends: half its reach, weight
_SHORT = 2.0  # mm: a line must be so much longer than a ring to have it in its middle
_ALONG = (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8)  # of a line: places for its letter, the best first
_FURTHER = 8  # places to each side of a line too short for its letter


class _Place(Record):
    """The middle of a ring, and how it is ``led`` to its line where it stands further away."""

    middle: Point
    led: tuple[Segment, ...] = ()


def line_shapes(measured: Sequence[DrawnLine], sides: Sequence[Line], size: float) -> list[Shape]:
    """For each measure its line with an oblique stroke at both ends, and extension lines; upon all
    lines the letters, in type of ``size``. ``sides`` are the outlines of the piece."""
    if not measured:
        return []
    extensions = tuple(segment for each in measured for segment in each.extensions())
    strokes = tuple(
        (x - _STROKE, y + _STROKE, x + _STROKE, y - _STROKE)
        for each in measured
        for x, y in each.ends
    )
    places = _places(measured, sides, size)
    lines = tuple(segment for each in measured for segment in each.segments())
    led = tuple(segment for place in places for segment in place.led)
    return [
        *([Lines(extensions, DETAIL_INK, _EXTENSION)] if extensions else []),
        Lines((*lines, *led), INK, _DIMENSION),
        Lines(strokes, INK, _STROKE_WIDTH),
        *(
            shape
            for line, place in zip(measured, places, strict=True)
            for shape in disc(*place.middle, line.letter, size)
        ),
    ]


def _places(measured: Sequence[DrawnLine], sides: Sequence[Line], size: float) -> list[_Place]:
    """Where the letters stand: those within their lines first, as they can't give way."""
    outlines = [segment for line in sides for segment in segments((*line, line[0]))]
    found: dict[int, tuple[_Place, float]] = {}
    for at in sorted(range(len(measured)), key=lambda at: _is_short(measured[at], size)):
        line = measured[at]
        half = half_width(line.letter, size)
        obstacles = [
            segment
            for other in measured
            if other is not line or _is_short(line, size)
            for segment in (*other.segments(), *other.extensions())
        ]
        if _is_short(line, size):
            obstacles += outlines
        air = air_of(size)
        some = _beside(line, half, air) if _is_short(line, size) else _within(line)
        found[at] = _clearest(some, half, air, obstacles, found.values()), half
    return [found[at][0] for at in range(len(measured))]


def _clearest(
    some: Iterable[_Place],
    half: float,
    air: float,
    obstacles: Sequence[Segment],
    rings: Collection[tuple[_Place, float]],
) -> _Place:
    """The first of some places for a ring that is clear of all others and of lines, or hides the
    fewest of them."""
    best: tuple[tuple[int, int], _Place] | None = None
    for place in some:
        x, y = place.middle
        met = sum(
            hypot(x - other.middle[0], y - other.middle[1]) < half + reach + air / 2
            or any(_off(other.middle, segment) < reach + air / 2 for segment in place.led)
            for other, reach in rings
        )
        crossed = sum(_off(place.middle, segment) < half + air / 2 for segment in obstacles)
        if best is None or (met, crossed) < best[0]:
            best = (met, crossed), place
        if not met and not crossed:
            break
    assert best is not None
    return best[1]


def _is_short(line: DrawnLine, size: float) -> bool:
    long = sum(hypot(c - a, d - b) for a, b, c, d in line.segments())
    return long < 2 * half_width(line.letter, size) + _SHORT


def _within(line: DrawnLine) -> Iterator[_Place]:
    for share in _ALONG:
        yield _Place(on_way(line.way or line.ends, share))


def _beside(line: DrawnLine, half: float, air: float) -> Iterator[_Place]:
    """Outside the line, before and after it, inside; then further along it and further out, led to
    its middle."""
    way = line.way or line.ends
    x, y = on_way(way, 0.5)
    (x1, y1), (x2, y2) = line.ends
    long = max(way_long(way), 1e-6)
    along = (x2 - x1) / long, (y2 - y1) / long
    out, past = PAST + air + half, long / 2 + air + PAST + half

    def at(off: float, on: float) -> Point:
        return x + line.out[0] * off + along[0] * on, y + line.out[1] * off + along[1] * on

    yield from map(_Place, (at(out, 0.0), at(0.0, past), at(0.0, -past), at(-out, 0.0)))
    for further in (0.0, 2 * half, 4 * half):
        for number in range(_FURTHER + 1):
            for on in (number * half, -number * half):
                middle = at(out + further, on)
                yield _Place(middle, ((x, y, *middle),))


def _off(point: Point, segment: Segment) -> float:
    """How far a point is from a straight part of a line."""
    (x, y), (a, b, c, d) = point, segment
    long = (c - a) ** 2 + (d - b) ** 2
    share = min(1.0, max(0.0, ((x - a) * (c - a) + (y - b) * (d - b)) / long)) if long else 0.0
    return hypot(x - a - share * (c - a), y - b - share * (d - b))
