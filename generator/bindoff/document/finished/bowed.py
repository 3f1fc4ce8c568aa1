"""Fabric in bows around a middle: a crescent shawl, worked from its neck outwards.

A border whose holes stand above each other is drawn out to points there, as it is when pinned.
"""

from collections import Counter, defaultdict
from collections.abc import Iterator, Mapping, Sequence
from itertools import groupby, pairwise
from math import atan2, cos, hypot, pi, radians, sin

from bindoff.document.drawing import Path, Shape
from bindoff.document.fabric import darker
from bindoff.document.faces import Face, Look
from bindoff.document.finished.courses import Course
from bindoff.document.finished.laidflat import Patch
from bindoff.document.finished.stitched import (
    EDGE,
    GROUND,
    Cells,
    Stitched,
    kind_of,
    main_yarn,
    outline_commands,
    row_at,
    stamped,
)
from bindoff.plan.gauge import Gauge
from bindoff.plan.outlines.shapes import Point
from bindoff.records import Record

_SIDE = 24  # straight parts of the ground of a row,
_SIDE_OF_POINTS = 480  # ... and of the edge where it has points
_DRAWN_OUT = 0.15  # of the width of a repeat: so far a point stands out, and a hollow goes in
_TOGETHER = (4, 3)  # stitches that are turned alike and drawn as one: a page of single ones is slow
_FLAT = 0.15  # of the height of points: rows whose neighbours stand in line as good as others
_TURN, _HOLE_TURN = radians(8), radians(45)  # steps in which stitches and holes are turned
_GRID = 0.1  # of a stitch: so finely places are told, which keeps a page of thousands small
_LEAST = 4  # stitches of a repeat that makes a point


def bowed(patch: Patch, gauge: Gauge, colours: Mapping[str, str], merged: int) -> Iterator[Shape]:
    """The shapes of a patch whose outer edge is an arc around (0, 0); its courses begin there."""
    wide, high = gauge.stitch_mm * merged, gauge.round_mm * merged
    outer = max(hypot(x, y) for x, y in patch.outline)
    inner = sorted(
        (atan2(x, y), hypot(x, y))
        for x, y in patch.outline
        if x >= 0 and hypot(x, y) < outer * 0.999
    )
    inner.append((max(atan2(x, y) for x, y in patch.outline), outer))
    grid = _GRID * wide

    def near(place: float) -> float:
        return round(place / grid) * grid

    main = main_yarn(patch.courses)
    points = _points(patch.courses, inner[-1][0] * outer, wide, merged)
    ground, edge = darker(colours[main], GROUND), darker(colours[main], EDGE)
    around = _drawn_out(inner, outer, points) if points else patch.outline
    yield Path(outline_commands(around), ground, edge, 0.06 * wide + 0.5)
    rows: list[_Row] = []
    places: defaultdict[Stitched, list[Point]] = defaultdict(list)
    for number in range(int((outer - inner[0][1]) / high)):
        course = row_at(patch.courses, number * merged, merged)
        foot = outer - (number + 1) * high
        radius = foot + high / 2
        half = _open_to(inner, radius)
        lies = points and number < points.rows
        pitch = 2 * half * radius / points.stitches if points and lies else wide
        cells = Cells(course, -half * radius, half * radius, pitch, merged, False)
        out = (1 - (number + 1) / points.rows, points) if points and lies else (0.0, None)
        rows.append(_Row(cells.ground, half, foot, foot + high, out))
        most = _TOGETHER if out[0] < _FLAT else ()
        for some, (x, yarn, face) in _together(cells, most):
            angle = x / radius
            away = foot + _out(angle / half, *out)
            look, turn = kind_of(face), round(-angle / _TURN) * _TURN
            across, down = wide * cos(turn), wide * sin(turn)
            x0, y0 = away * sin(angle), away * cos(angle)
            if look is Look.HOLE:  # as good as round: its middle must be right, not its turn
                turn = round(turn / _HOLE_TURN) * _HOLE_TURN
                x0 += (sin(angle) + sin(turn)) * high / 2
                y0 += (cos(angle) - cos(turn)) * high / 2
            stitch = Stitched(yarn, 1.0, look, wide, high, turn, some)
            for at in range(some):
                along = at - (some - 1) / 2
                places[stitch].append((near(x0) + along * across, near(y0) + along * down))
    for yarn, some_rows in groupby(rows, key=lambda row: row.ground):
        if yarn not in (main, ""):
            yield Path(outline_commands(_ring(list(some_rows))), darker(colours[yarn], GROUND))
    yield from stamped(places, True, colours)


def _together(
    cells: Cells, sizes: tuple[int, ...]
) -> Iterator[tuple[int, tuple[float, str, Face | None]]]:
    """Neighbours that look alike, in groups of those ``sizes``, the largest first, or alone: how
    many, and the middle of all with their yarn and face."""
    for (yarn, _), run in groupby(cells, key=lambda cell: (cell[1], kind_of(cell[2]))):
        alike = list(run)
        while alike:
            some = next((size for size in sizes if size <= len(alike)), 1)
            yield some, ((alike[0][0] + alike[some - 1][0]) / 2, yarn, alike[0][2])
            del alike[:some]


class _Points(Record):
    """Points along the outer edge: over how many drawn ``rows``, and ``stitches`` of a row, whose
    repeats are so many stitches wide; a point is at the stitch ``peak`` of each, and stands
    ``far`` mm out."""

    rows: int
    stitches: int
    repeat: int
    peak: float
    far: float


def _points(courses: tuple[Course, ...], long: float, wide: float, merged: int) -> _Points | None:
    """The points of a border whose rows repeat the same stitches, with holes above each other;
    the first course is the outermost, and half of it is ``long`` mm. None where it has none."""
    repeat = max(len(course.faces) for course in courses[:2])
    rows = 0
    holes: Counter[int] = Counter()
    for course in courses:
        if course.yarns != courses[0].yarns or len(course.faces) not in (1, repeat):
            break
        rows += 1
        holes.update(at for at, face in enumerate(course.faces) if face is Look.HOLE)
    above = [at for at, count in holes.items() if count > 1]
    if repeat < _LEAST or not above or rows == len(courses) or rows < merged:
        return None
    turns = [2 * pi * at / repeat for at in above]
    peak = atan2(sum(map(sin, turns)), sum(map(cos, turns))) * repeat / (2 * pi)
    repeats = max(1, round(2 * long / wide / repeat))
    return _Points(rows // merged, repeats * repeat, repeat, peak, _DRAWN_OUT * repeat * wide)


def _out(share: float, done: float, points: _Points | None) -> float:
    """How far the edge stands out where a row has come to ``share``, from -1 at its left end to 1;
    ``done`` is the share of the border that lies below it."""
    if points is None:
        return 0.0
    middle = points.repeat // 2 - points.stitches // 2 + points.stitches / 2 - 0.5
    at = middle + share * points.stitches / 2 - points.peak
    return points.far * done * cos(2 * pi * at / points.repeat)


def _drawn_out(inner: list[tuple[float, float]], outer: float, points: _Points) -> list[Point]:
    """The outline of a crescent whose outer edge has points; ``inner`` is its other edge from the
    middle to the right, as angles and distances."""
    half = inner[-1][0]
    shares = [1 - 2 * step / _SIDE_OF_POINTS for step in range(_SIDE_OF_POINTS + 1)]
    edge = [(share * half, outer + _out(share, 1.0, points)) for share in shares]
    left = [(-angle, far) for angle, far in reversed(inner[:-1])]
    return [(far * sin(a), far * cos(a)) for a, far in (*edge, *left, *inner[:-1])]


def _open_to(inner: list[tuple[float, float]], radius: float) -> float:
    """How far from the middle a row of that radius goes, as an angle."""
    for (a, low), (b, far) in pairwise(inner):
        if low <= radius <= far:
            return a + (b - a) * ((radius - low) / (far - low) if far > low else 0.0)
    return inner[-1][0]


class _Row(Record):
    """A row from its foot ``low`` to its head, ``half`` as wide as an angle; ``out`` is what stands
    out of it, as for ``_out``."""

    ground: str
    half: float
    low: float
    high: float
    out: tuple[float, _Points | None]

    def at(self, share: float, far: float) -> Point:
        """A point of the row, ``far`` from the middle but for what stands out there."""
        away, angle = far + _out(share, *self.out), share * self.half
        return away * sin(angle), away * cos(angle)


def _ring(rows: Sequence[_Row]) -> list[Point]:
    """The outline of rows that lie in each other, the outermost first."""
    first, last = rows[0], rows[-1]
    count = _SIDE_OF_POINTS if first.out[1] or last.out[1] else _SIDE
    shares = [2 * step / count - 1 for step in range(count + 1)]
    right = [each.at(1.0, far) for each in rows for far in (each.high, each.low)]
    left = [each.at(-1.0, far) for each in reversed(rows) for far in (each.low, each.high)]
    edge = [first.at(share, first.high) for share in shares]
    return [*edge, *right, *(last.at(share, last.low) for share in reversed(shares)), *left]
