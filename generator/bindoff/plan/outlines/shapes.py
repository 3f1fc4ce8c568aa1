"""The outline of a piece laid flat, in millimetres: x to the right, y down."""

from collections.abc import Iterable, Mapping
from itertools import pairwise
from math import hypot
from typing import Literal

from bindoff.records import Record, replace

Point = tuple[float, float]
Line = tuple[Point, ...]
Side = Literal["left", "right", "above", "below", "along", "within"]
"""Where a measure stands: beside the whole drawing, along its own edge, or inside the piece."""


class Measured(Record):
    """A length of the piece: how it is called, how long, and where its two ends lie.

    ``mm`` is what is printed. Of a tube it is the length around, of which half is seen. ``rows``
    says that it follows from rows, and not from stitches.
    ``spare`` is one that is shown only where the pattern prints it among its finished measurements.
    ``way`` is the edge that it runs along from start to end, where that edge is bent.
    """

    name: str
    mm: float
    start: Point
    end: Point
    side: Side
    spare: bool = False
    rows: bool = False
    way: Line = ()


class Band(Record):
    """Ribbing between a lower and an upper edge, whose points lie opposite each other."""

    lower: Line
    upper: Line


class Part(Record):
    """What is worked as one: the fabric between two edges, which both run the way it is worked."""

    name: str
    one: Line
    other: Line


class Outline(Record):
    """What there is to draw: closed ``shapes``, ``bands`` of ribbing on them, thin ``lines``,
    ``folds``, and measures in the order in which a knitter meets them. ``kind`` says what it is.
    ``parts`` are those that its rows run through in different directions, in the order worked.
    ``bend`` is the angle in degrees that its last edge is bent through where nothing says it."""

    kind: str
    shapes: tuple[Line, ...]
    measures: tuple[Measured, ...]
    bands: tuple[Band, ...] = ()
    lines: tuple[Line, ...] = ()
    folds: tuple[Line, ...] = ()
    parts: tuple[Part, ...] = ()
    bend: float = 0.0


def simplified(points: Iterable[Point]) -> Line:
    """The same line without points that lie on the way between their neighbours."""
    kept: list[Point] = []
    for point in points:
        if kept and hypot(point[0] - kept[-1][0], point[1] - kept[-1][1]) < 1e-6:
            continue
        while len(kept) > 1 and _straight(kept[-2], kept[-1], point):
            kept.pop()
        kept.append(point)
    return tuple(kept)


def _straight(a: Point, b: Point, c: Point) -> bool:
    cross = (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
    return abs(cross) < 1e-6 * max(1.0, hypot(c[0] - a[0], c[1] - a[1]))


def smoothed(line: Line, most: float) -> Line:
    """The line with fewer points, none of which it misses by more than ``most``: small steps become
    a slope."""
    kept = {0, len(line) - 1}
    open_ends = [(0, len(line) - 1)]
    while open_ends:
        first, last = open_ends.pop()
        far, at = 0.0, first
        for index in range(first + 1, last):
            away = _apart(line[first], line[last], line[index])
            if away > far:
                far, at = away, index
        if far > most:
            kept.add(at)
            open_ends += [(first, at), (at, last)]
    return tuple(line[index] for index in sorted(kept))


def _apart(a: Point, b: Point, point: Point) -> float:
    """How far a point lies from the line between two others."""
    x, y = b[0] - a[0], b[1] - a[1]
    long = hypot(x, y)
    if long < 1e-9:
        return hypot(point[0] - a[0], point[1] - a[1])
    share = max(0.0, min(1.0, ((point[0] - a[0]) * x + (point[1] - a[1]) * y) / long**2))
    return hypot(point[0] - a[0] - share * x, point[1] - a[1] - share * y)


def inside(point: Point, line: Line) -> bool:
    """Whether a point lies within a closed line."""
    found = False
    for (x1, y1), (x2, y2) in pairwise((*line, line[0])):
        crosses = (y1 > point[1]) != (y2 > point[1])
        if crosses and point[0] < x1 + (point[1] - y1) * (x2 - x1) / (y2 - y1):
            found = not found
    return found


_ACROSS: Mapping[Side, Side] = {"left": "right", "right": "left"}


def flipped(outline: Outline) -> Outline:
    """The mirror image, left and right changed."""

    def flip(line: Line) -> Line:
        return tuple((-x, y) for x, y in line)

    measures = (
        replace(
            each,
            start=(-each.start[0], each.start[1]),
            end=(-each.end[0], each.end[1]),
            side=_ACROSS.get(each.side, each.side),
            way=flip(each.way),
        )
        for each in outline.measures
    )
    return Outline(
        outline.kind,
        tuple(map(flip, outline.shapes)),
        tuple(measures),
        tuple(Band(flip(band.lower), flip(band.upper)) for band in outline.bands),
        tuple(map(flip, outline.lines)),
        tuple(map(flip, outline.folds)),
        tuple(Part(part.name, flip(part.one), flip(part.other)) for part in outline.parts),
        outline.bend,
    )


def quarter(start: Point, corner: Point, end: Point, parts: int = 10) -> Line:
    """A rounded corner from ``start`` to ``end``, without these two."""
    found = []
    for number in range(1, parts):
        t = number / parts
        a, b, c = (1 - t) ** 2, 2 * t * (1 - t), t**2
        found.append(
            (
                a * start[0] + b * corner[0] + c * end[0],
                a * start[1] + b * corner[1] + c * end[1],
            )
        )
    return tuple(found)
