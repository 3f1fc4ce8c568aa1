"""Fabric between two edges that bend: the instep of a sock, or a neckband."""

from bisect import bisect_left
from collections import defaultdict
from collections.abc import Iterator, Mapping
from itertools import accumulate, pairwise
from math import atan2, hypot

from bindoff.document.drawing import Path, Shape
from bindoff.document.fabric import darker
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
    near_size,
    near_turn,
    outline_commands,
    row_at,
    stamped,
)
from bindoff.plan.gauge import Gauge
from bindoff.plan.outlines.shapes import Line, Point
from bindoff.records import Record


class Strip(Record):
    """Two edges and the rows between them. Both edges run the way it is worked; or one is its first
    row and the other its last, where it is worked ``across``. ``from_head`` and ``gauge`` as those
    of ``Patch``. ``light`` is how light it is; what lies within is darker.
    """

    one: Line
    other: Line
    courses: tuple[Course, ...]
    across: bool = False
    from_head: bool = False
    gauge: Gauge | None = None
    light: float = 1.0

    @property
    def outline(self) -> Line:
        """All around."""
        return (*self.one, *reversed(self.other))


def woven(
    strip: Strip, gauge: Gauge, colours: Mapping[str, str], merged: int = 1
) -> Iterator[Shape]:
    """The shapes of a strip in its own millimetres; ``merged`` as for a patch."""
    wide, high = gauge.stitch_mm * merged, gauge.round_mm * merged
    one, other = _Way(strip.one), _Way(strip.other)
    main = main_yarn(strip.courses)
    yield Path(outline_commands(strip.outline), darker(colours[main], GROUND * strip.light))
    for line in (strip.one, strip.other) if strip.across else (strip.other,):
        commands = outline_commands(line)[:-1]  # elsewhere it goes on in other fabric
        yield Path(commands, None, darker(colours[main], EDGE), 0.06 * wide + 0.5)
    long, apart = (one.long + other.long) / 2, _apart(one, other)
    across, along = (long, apart) if strip.across else (apart, long)
    rows = max(1, round(along / high))

    def place(share: float, done: float) -> Point:
        """The point at a share of the row, when so much of the rows is done."""
        run, between = (share, done) if strip.across else (done, share)
        (a, b), (c, d) = one.at(run), other.at(run)
        return a + (c - a) * between, b + (d - b) * between

    places: defaultdict[Stitched, list[Point]] = defaultdict(list)
    for number in range(rows):
        at = len(strip.courses) - (rows - number) * merged if strip.from_head else number * merged
        course = row_at(strip.courses, at, merged)
        cells = Cells(course, 0.0, max(across, wide), wide, merged, False)
        for x, yarn, face in cells:
            share, half = x / max(across, wide), wide / max(across, wide) / 2
            foot, head = place(share, number / rows), place(share, (number + 1) / rows)
            left, right = (place(share + s * half, (number + 0.5) / rows) for s in (-1, 1))
            stitch = Stitched(
                yarn,
                strip.light,
                kind_of(face),
                near_size(_between(left, right), wide),
                near_size(_between(foot, head), high) * (LAST if number == rows - 1 else 1),
                near_turn(atan2(head[0] - foot[0], foot[1] - head[1])),
            )
            back = FOOT * high / max(_between(foot, head), 1e-6)
            x, y = foot[0] - (head[0] - foot[0]) * back, foot[1] - (head[1] - foot[1]) * back
            places[stitch].append((x, y))
    yield from stamped(places, False, colours)


class _Way:
    """A line that one goes along at an even pace."""

    def __init__(self, line: Line) -> None:
        self._line = line
        self._done = [0.0, *accumulate(_between(a, b) for a, b in pairwise(line))]
        self.long = self._done[-1]

    def at(self, share: float) -> Point:
        """The point where ``share`` of it is done."""
        goal = min(max(share, 0.0), 1.0) * self.long
        last = len(self._line) - 1
        if not last:
            return self._line[0]
        to = min(bisect_left(self._done, goal, 1), last)
        (a, b), (start, end) = self._line[to - 1 : to + 1], self._done[to - 1 : to + 1]
        part = (goal - start) / (end - start) if end > start else 0.0
        return a[0] + (b[0] - a[0]) * part, a[1] + (b[1] - a[1]) * part


def _apart(one: _Way, other: _Way) -> float:
    """How far two lines lie from each other, on the average."""
    steps = [step / 8 for step in range(9)]
    return sum(_between(one.at(each), other.at(each)) for each in steps) / len(steps)


def _between(a: Point, b: Point) -> float:
    return max(hypot(b[0] - a[0], b[1] - a[1]), 1e-6)
