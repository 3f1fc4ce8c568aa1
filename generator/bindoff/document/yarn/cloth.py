"""Fabric whose stitches are too small for crossings: the legs of the same loop, as one small shape.

A row's legs end inside the row above, so there is no seam between rows. Places are from the middle
of a stitch's foot; x runs right and y down, as on paper.
"""

from collections.abc import Sequence
from functools import lru_cache
from math import cos, hypot, pi, sin

from bindoff.craft.symbols import circle
from bindoff.document.yarn.knitting import HALF_HEIGHT, SWING

Command = tuple[str | float, ...]
Point = tuple[float, float]

YARN = 0.37  # of a wale: so thick, legs hide what lies between them as those of worn fabric do
_FIRST, _LAST = 0.74 * pi, 0.30 * pi  # what is seen of a leg, from its foot to its head
_BUMP = 0.3  # of a wale: yarn that lies across
_CAP = 0.5  # of the thickness: how far its ends are rounded
_HOLE = 0.27, 0.42  # of a cell, across and up
_BOW = ((-0.52, 0.30), (-0.36, -0.14), (0.36, -0.14), (0.52, 0.30))


@lru_cache(maxsize=512)
def legs(wide: float, high: float) -> tuple[Command, ...]:
    """The outlines of both legs of a knit stitch in a cell of that size."""
    unit = wide / (2 * pi)
    height = (high + 3 * unit) / (2 * HALF_HEIGHT)
    (x1, y1, dx1, dy1), (x2, y2, dx2, dy2) = (
        (
            unit * (t + SWING * sin(2 * t)),
            -HALF_HEIGHT * (1 + cos(t)) * height,
            -unit * (1 + 2 * SWING * cos(2 * t)),
            -HALF_HEIGHT * sin(t) * height,
        )
        for t in (_FIRST, _LAST)
    )
    step = (_FIRST - _LAST) / 3
    middle = (
        (x1, y1),
        (x1 + dx1 * step, y1 + dy1 * step),
        (x2 - dx2 * step, y2 - dy2 * step),
        (x2, y2),
    )
    right = strip(middle, YARN * wide)
    left = tuple(
        (name, *(-float(n) if at % 2 == 0 else n for at, n in enumerate(numbers)))
        for name, *numbers in right
    )
    return (*right, *left)


@lru_cache(maxsize=512)
def bumps(wide: float, high: float) -> tuple[Command, ...]:
    """The outlines of the two bows of a purl stitch, which reach into its neighbours."""
    found: list[Command] = []
    for up in (0.36, 0.86):
        curve = [(x * wide, -high * up + y * wide) for x, y in _BOW]
        found += strip((curve[0], curve[1], curve[2], curve[3]), _BUMP * wide)
    return tuple(found)


@lru_cache(maxsize=512)
def hole(wide: float, high: float) -> tuple[Command, ...]:
    """The hole that a yarn over leaves in its cell."""
    across, up = _HOLE[0] * wide, _HOLE[1] * high
    return tuple(
        (
            name,
            *(float(n) * up / across - high / 2 if at % 2 else n for at, n in enumerate(numbers)),
        )
        for name, *numbers in circle(0.0, 0.0, across)
    )


def strip(middle: tuple[Point, Point, Point, Point], thick: float) -> tuple[Command, ...]:
    """The outline of yarn along a cubic, round at its ends."""
    a, b, c, d = middle
    first, last = _unit(a, b), _unit(c, d)
    half, cap = thick / 2, thick * _CAP

    def beside(point: Point, way: Point, side: float, ahead: float = 0.0) -> Point:
        return (
            point[0] + way[0] * ahead - way[1] * side,
            point[1] + way[1] * ahead + way[0] * side,
        )

    def bezier(*points: Point) -> Command:
        return ("C", *(n for point in points for n in point))

    start = beside(a, first, half)
    return (
        ("M", *start),
        bezier(beside(b, first, half), beside(c, last, half), beside(d, last, half)),
        bezier(beside(d, last, half, cap), beside(d, last, -half, cap), beside(d, last, -half)),
        bezier(beside(c, last, -half), beside(b, first, -half), beside(a, first, -half)),
        bezier(beside(a, first, -half, -cap), beside(a, first, half, -cap), start),
        ("Z",),
    )


def _unit(a: Point, b: Point) -> Point:
    x, y = b[0] - a[0], b[1] - a[1]
    long = hypot(x, y) or 1.0
    return x / long, y / long


def turned(commands: Sequence[Command], cosine: float, sine: float) -> tuple[Command, ...]:
    """Commands turned about (0, 0), clockwise on paper."""
    found: list[Command] = []
    for name, *numbers in commands:
        flat = [float(n) for n in numbers]
        points = zip(flat[::2], flat[1::2], strict=True)
        moved = (n for x, y in points for n in (x * cosine - y * sine, x * sine + y * cosine))
        found.append((name, *moved))
    return tuple(found)
