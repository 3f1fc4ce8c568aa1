"""Fabric in the outline of a piece that lies flat: one small shape for every stitch."""

from collections import Counter, defaultdict
from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise
from math import ceil, cos, hypot, sin, sqrt

from bindoff.document.drawing import Path, Shape, Stamps
from bindoff.document.fabric import DEPTH, crossing, darker, stitch_look
from bindoff.document.faces import Crossing, Face, Look
from bindoff.document.finished.courses import Course
from bindoff.document.yarn.cloth import Command, bumps, hole, legs, turned
from bindoff.plan.gauge import Gauge
from bindoff.plan.outlines.shapes import Line, Point
from bindoff.records import Record

_MOST = 4600  # stitches of a picture; more could not be told apart, so they are drawn larger
GROUND, EDGE = 0.62, 0.45  # the light of the yarn between stitches, and at the edge of the piece
_TURNS = ((0.55, 1.0), (0.75, 0.94), (0.9, 0.87), (2.0, 0.79))
"""Fabric that turns away is darker: up to which share of the half width, and how light."""
_WHOLE = 0.35  # of a stitch may lie beyond the outline


class Patch(Record):
    """An outline in mm, y down, and the rows that fill it from its foot to its head.

    It is worked in the direction that lies ``turn`` from straight up, clockwise in radians;
    ``down`` says that its stitches stand on their heads. ``around`` says that it is a tube.
    ``from_head`` has its last row at its head, else its first one is at its foot. ``squeezed``
    rows keep all their stitches where the outline draws in, as gathered ones do.
    """

    outline: Line
    courses: tuple[Course, ...]
    turn: float = 0.0
    down: bool = False
    around: bool = True
    from_head: bool = False
    squeezed: bool = False


def scale_of(patches: Sequence[Patch], gauge: Gauge) -> int:
    """How many stitches and rows are drawn as one."""
    areas = (abs(_area(each.outline)) for each in patches)
    stitches = sum(areas) / (gauge.stitch_mm * gauge.round_mm)
    return max(1, ceil(sqrt(stitches / _MOST)))


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
    for course, low in _laid(patch, line, high, merged):
        for left, right in _chords(line, low - high / 2):
            cells = Cells(course, left, right, wide, merged, patch.squeezed)
            if cells.ground not in (main, ""):
                box = [(left, low), (right, low), (right, low - high), (left, low - high)]
                grounds[cells.ground] += outline_commands([back(*each) for each in box])
            for x, yarn, face in cells:
                share = abs(2 * x - left - right) / (right - left)
                light = next(light for most, light in _TURNS if share <= most)
                if isinstance(face, Crossing) and merged == 1 and not patch.turn:
                    crosses[face, yarn, cells.wide].append((x - cells.wide / 2, low - high))
                elif face is not Look.COVERED or merged > 1 or patch.turn:
                    look = kind_of(face)
                    key = yarn, light if patch.around else 1.0, look, cells.wide, patch.turn
                    places[key].append(back(x, low - high if patch.down else low))
    for yarn, commands in grounds.items():
        yield Path(tuple(commands), darker(colours[yarn], GROUND))
    yield from stamped(places, high, patch.down, colours)
    for (cross, yarn, cell), some in crosses.items():
        for path in crossing(cross, 0.0, 0.0, cell, high, colours[yarn]):
            yield Stamps(path, tuple(some))


Stitched = tuple[str, float, Look | None, float, float]
"""A stitch as it is drawn: its yarn, how light, what it looks like, how wide and how turned."""


def kind_of(face: Face | None) -> Look | None:
    """What is drawn of a face where stitches are small."""
    return face if face in (Look.PURL, Look.HOLE) else None


def stamped(
    places: Mapping[Stitched, Sequence[Point]],
    high: float,
    down: bool,
    colours: Mapping[str, str],
) -> Iterator[Stamps]:
    """Stitches of one look at all their places, holes last."""
    last = sorted(places.items(), key=lambda item: item[0][2] is Look.HOLE)
    for (yarn, light, look, cell, turn), some in last:
        draw = {Look.PURL: bumps, Look.HOLE: hole}.get(look, legs) if look else legs
        outline = draw(cell, high)
        if down:
            outline = _on_its_head(outline)
        if turn:
            outline = turned(outline, cos(turn), sin(turn))
        if look is Look.HOLE:
            yield Stamps(Path(outline, darker(colours[yarn], DEPTH)), tuple(some))
        else:
            yield Stamps(stitch_look(outline, darker(colours[yarn], light), cell), tuple(some))


def _laid(
    patch: Patch, line: Sequence[Point], high: float, merged: int
) -> Iterator[tuple[Course, float]]:
    """The rows that fill an outline, with the height of their feet, from the lowest."""
    top, foot = min(y for _, y in line), max(y for _, y in line)
    rows = max(1, round((foot - top) / high))
    last = len(patch.courses) - 1
    for number in range(rows):
        at = last + 1 - (rows - number) * merged if patch.from_head else number * merged
        yield patch.courses[min(max(at, 0), last)], foot - number * high


class Cells:
    """The stitches of a row between two edges, in its middle; or all of them, if ``squeezed``."""

    def __init__(
        self, course: Course, left: float, right: float, wide: float, merged: int, squeezed: bool
    ) -> None:
        self._course, self._merged = course, merged
        self._count = int((right - left) / wide + _WHOLE)
        self.wide = wide
        around = len(course.yarns)
        if squeezed and self._count < around // merged:
            self._count = around // merged
            self.wide = round((right - left) / self._count, 3)
        self._start = (left + right - self._count * self.wide) / 2
        self._first = around // 2 - self._count * merged // 2
        plain = len(set(course.yarns)) == 1
        self.ground = course.yarns[0] if plain else ""

    def __iter__(self) -> Iterator[tuple[float, str, Face | None]]:
        """The middle of each stitch, its yarn and its face."""
        yarns, faces = self._course.yarns, self._course.faces
        for nth in range(self._count):
            place = self._first + nth * self._merged
            x = self._start + (nth + 0.5) * self.wide
            yield x, yarns[place % len(yarns)], faces[place % len(faces)]


def _on_its_head(outline: Sequence[Command]) -> tuple[Command, ...]:
    return tuple(
        (name, *(-float(n) if at % 2 else n for at, n in enumerate(numbers)))
        for name, *numbers in outline
    )


def main_yarn(courses: Sequence[Course]) -> str:
    """The yarn of most rows, as they are in their middle."""
    return Counter(course.yarns[len(course.yarns) // 2] for course in courses).most_common(1)[0][0]


def outline_commands(points: Sequence[Point]) -> tuple[Command, ...]:
    """The commands of an outline of straight sides."""
    first, *others = points
    return (("M", *first), *(("L", *each) for each in others), ("Z",))


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
