"""Smooth curves through knots, and where two of them cross. Millimetres, y up.

A strand is made of cubic curves, one between two knots. Fabric repeats itself: nearly all pairs of
cubics that meet are alike but for their place, so what is found of a pair is remembered by shape.
"""

from collections import defaultdict
from collections.abc import Iterator, Sequence
from functools import lru_cache
from itertools import pairwise
from math import dist, hypot

from bindoff.records import Record

Point = tuple[float, float]
Cubic = tuple[Point, Point, Point, Point]
Shape = tuple[int, ...]
"""The control points of a cubic after its first, from that, in micrometres."""

_STEPS = 6  # straight parts a cubic is taken as when crossings are sought
_CELL = 1.6  # mm of the grid on which neighbours are found
_LOOSE = 1.5  # a tangent is at most so many times as long as the way to the nearer knot
_THROUGH = 1.35  # and of a curve through points, where the ways on both sides differ


class Knot(Record):
    """A point of a strand with its tangent for one step, to the next knot.

    ``order`` is when the strand was made here; ``front`` is positive where it passes in front of
    what was made before it, negative behind; ``own`` ranks strands of one order, higher in front.
    """

    x: float
    y: float
    dx: float
    dy: float
    order: float = 0.0
    front: float = 0.0
    own: float = 0.0


def through(
    points: Sequence[tuple[float, float, float]], order: float, own: float = 0.0
) -> tuple[Knot, ...]:
    """A curve through points, each (x, y, ``front`` of its knot)."""
    last = len(points) - 1
    found = []
    for at, (x, y, front) in enumerate(points):
        before, after = points[max(at - 1, 0)], points[min(at + 1, last)]
        dx, dy = (after[0] - before[0]) / 2, (after[1] - before[1]) / 2
        if at in (0, last):
            dx, dy = 2 * dx, 2 * dy
        else:
            near = min(dist(before[:2], (x, y)), dist(after[:2], (x, y)))
            dx, dy = _shortened(dx, dy, near * _THROUGH)
        found.append(Knot(x, y, dx, dy, order, front, own))
    return tuple(found)


def eased(knots: Sequence[Knot]) -> tuple[Knot, ...]:
    """The knots with tangents so short that no curve turns back on itself."""
    ways = [dist((a.x, a.y), (b.x, b.y)) for a, b in pairwise(knots)]
    found = []
    for at, knot in enumerate(knots):
        near = min(ways[max(at - 1, 0) : at + 1], default=0.0)
        dx, dy = _shortened(knot.dx, knot.dy, near * _LOOSE)
        found.append(Knot(knot.x, knot.y, dx, dy, knot.order, knot.front, knot.own))
    return tuple(found)


def _shortened(dx: float, dy: float, most: float) -> Point:
    length = hypot(dx, dy)
    share = min(1.0, most / length) if length else 1.0
    return dx * share, dy * share


def cubics(knots: Sequence[Knot]) -> tuple[Cubic, ...]:
    """The curves between neighbouring knots (Hermite to Bézier)."""
    return tuple(
        (
            (a.x, a.y),
            (a.x + a.dx / 3, a.y + a.dy / 3),
            (b.x - b.dx / 3, b.y - b.dy / 3),
            (b.x, b.y),
        )
        for a, b in pairwise(knots)
    )


def halves(cubic: Cubic, at: float) -> tuple[Cubic, Cubic]:
    """A cubic cut in two (de Casteljau)."""

    def between(p: Point, q: Point) -> Point:
        return p[0] + (q[0] - p[0]) * at, p[1] + (q[1] - p[1]) * at

    a, b, c, d = cubic
    ab, bc, cd = between(a, b), between(b, c), between(c, d)
    abc, bcd = between(ab, bc), between(bc, cd)
    middle = between(abc, bcd)
    return (a, ab, abc, middle), (middle, bcd, cd, d)


def part(curve: Sequence[Cubic], start: float, end: float) -> Iterator[Cubic]:
    """What of ``curve`` lies between two places, each a cubic's number and a share of it."""
    first, last = min(int(start), len(curve) - 1), min(int(end), len(curve) - 1)
    for number in range(first, last + 1):
        piece = curve[number]
        low = start - number if number == first else 0.0
        high = end - number if number == last else 1.0
        if high - low < 1e-4:
            continue
        if high < 1:
            piece = halves(piece, high)[0]
        if low > 0:
            piece = halves(piece, low / high)[1]
        yield piece


# ---------------------------------------------------------------- lengths


def shape_of(cubic: Cubic) -> Shape:
    """The cubic without its place."""
    (x, y), *others = cubic
    return tuple(round((p[axis] - (x, y)[axis]) * 1000) for p in others for axis in (0, 1))


@lru_cache(maxsize=1 << 14)
def _flat(shape: Shape) -> tuple[Point, ...]:
    """Points along a cubic from (0, 0), in micrometres, at even steps."""
    bx, by, cx, cy, ex, ey = shape
    found = []
    for step in range(_STEPS + 1):
        t = step / _STEPS
        b, c, e = 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3
        found.append((b * bx + c * cx + e * ex, b * by + c * cy + e * ey))
    return tuple(found)


@lru_cache(maxsize=1 << 14)
def lengths(shape: Shape) -> tuple[float, ...]:
    """The way along a cubic, mm, at its start and after each of even steps."""
    done, found = 0.0, [0.0]
    for p, q in pairwise(_flat(shape)):
        done += dist(p, q) / 1000
        found.append(done)
    return tuple(found)


# ---------------------------------------------------------------- crossings


class Meeting(Record):
    """Where two curves cross: the number of each, the place on it, and the sine of the angle."""

    one: int
    at: float
    other: int
    there: float
    sine: float


def meetings(curves: Sequence[Sequence[Cubic]]) -> Iterator[Meeting]:
    """Every crossing of curves with each other and themselves, in a fixed order."""
    boxes = [(number, at, c) for number, curve in enumerate(curves) for at, c in enumerate(curve)]
    shapes = [shape_of(c) for _, _, c in boxes]
    bounds = []
    cells: defaultdict[tuple[int, int], list[int]] = defaultdict(list)
    for index, (_, _, c) in enumerate(boxes):
        xs, ys = zip(*c, strict=True)
        left, right, low, high = min(xs), max(xs), min(ys), max(ys)
        bounds.append((left, right, low, high))
        for column in range(int(left // _CELL), int(right // _CELL) + 1):
            for row in range(int(low // _CELL), int(high // _CELL) + 1):
                cells[column, row].append(index)
    seen = set()
    for neighbours in cells.values():
        for place, a in enumerate(neighbours):
            left, right, low, high = bounds[a]
            for b in neighbours[place + 1 :]:
                other = bounds[b]
                if other[0] > right or other[1] < left or other[2] > high or other[3] < low:
                    continue
                if (a, b) in seen:
                    continue
                seen.add((a, b))
                (i, m, c), (j, n, d) = boxes[a], boxes[b]
                if i == j and abs(m - n) < 2:
                    continue
                dx, dy = round((d[0][0] - c[0][0]) * 1000), round((d[0][1] - c[0][1]) * 1000)
                for t, u, sine in _crossed(shapes[a], shapes[b], dx, dy):
                    yield Meeting(i, m + t, j, n + u, sine)


@lru_cache(maxsize=1 << 15)
def _crossed(one: Shape, other: Shape, dx: int, dy: int) -> tuple[tuple[float, float, float], ...]:
    """Where two cubics cross, the other one beginning ``dx``, ``dy`` from the one: a place on each
    and the sine."""
    there = [(x + dx, y + dy) for x, y in _flat(other)]
    found = []
    for i, (p, q) in enumerate(pairwise(_flat(one))):
        px, py = q[0] - p[0], q[1] - p[1]
        for j, (r, s) in enumerate(pairwise(there)):
            rx, ry = s[0] - r[0], s[1] - r[1]
            cross = px * ry - py * rx
            if not cross:
                continue
            ax, ay = r[0] - p[0], r[1] - p[1]
            t, u = (ax * ry - ay * rx) / cross, (ax * py - ay * px) / cross
            if 0 <= t < 1 and 0 <= u < 1:
                sine = abs(cross) / (hypot(px, py) * hypot(rx, ry))
                found.append(((i + t) / _STEPS, (j + u) / _STEPS, sine))
    return tuple(found)
