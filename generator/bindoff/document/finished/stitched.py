"""The stitches of a picture: what is drawn of each, and the shapes that draw them all."""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from math import cos, log, radians, sin

from bindoff.document.drawing import Path, Stamps
from bindoff.document.fabric import DEPTH, darker, stitch_look
from bindoff.document.faces import Crossing, Face, Look
from bindoff.document.finished.courses import Course
from bindoff.document.yarn.cloth import Command, bumps, hole, legs, turned
from bindoff.plan.outlines.shapes import Point
from bindoff.records import Record

GROUND, EDGE = 0.62, 0.45  # the light of the yarn between stitches, and at the edge of the piece
FOOT = 0.12  # of a row: so far below it its stitches begin
LAST = 0.72  # of its height: a stitch of the last row, which no other covers
_TURN = radians(6)  # stitches are turned by whole steps, so that few shapes are needed,
_STEP = 1.06  # ... and each size is so many times the next smaller one
_SHORT = 12  # stitches of a repeat that is kept where several stitches are drawn as one


class Stitched(Record):
    """A stitch as it is drawn: its yarn, how light, what it looks like, its width and height in mm,
    how far it is turned clockwise, in radians, and how many such stitches stand ``beside`` each
    other, so that a page may hold them as one thing."""

    yarn: str
    light: float
    look: Look | None
    wide: float
    high: float
    turn: float = 0.0
    beside: int = 1


def near_turn(turn: float) -> float:
    """The nearest of the few turns that stitches are drawn at."""
    return round(turn / _TURN) * _TURN


def near_size(size: float, usual: float) -> float:
    """The nearest of the few sizes that stitches are drawn in; ``usual`` is one of them."""
    return round(usual * _STEP ** round(log(size / usual) / log(_STEP)), 3)


def row_at(courses: Sequence[Course], first: int, merged: int) -> Course:
    """The row that stands for ``merged`` of them from ``first`` on, which may lie beyond the ends:
    one with crosses or holes, if some have any, else of even rows and odd ones now this and now
    that."""
    last = len(courses) - 1
    some = [courses[min(max(at, 0), last)] for at in range(first, first + merged)]
    crossed = next((each for each in some if _has_cross(each)), None)
    open_ = next((each for each in some if Look.HOLE in each.faces), None)
    return crossed or open_ or some[first // merged % 2 if merged % 2 == 0 else 0]


def _has_cross(course: Course) -> bool:
    return any(isinstance(face, Crossing) for face in course.faces)


def kind_of(face: Face | None) -> Look | None:
    """What is drawn of a face where stitches are small."""
    return face if face in (Look.PURL, Look.HOLE) else None


def stamped(
    places: Mapping[Stitched, Sequence[Point]], down: bool, colours: Mapping[str, str]
) -> Iterator[Stamps]:
    """Stitches of one look at all their places, holes last; ``down`` ones stand on their heads."""
    for stitch, some in sorted(places.items(), key=lambda item: item[0].look is Look.HOLE):
        draw = {Look.PURL: bumps, Look.HOLE: hole}.get(stitch.look, legs) if stitch.look else legs
        outline = draw(stitch.wide, stitch.high)
        if down:
            outline = _on_its_head(outline)
        if stitch.turn:
            outline = turned(outline, cos(stitch.turn), sin(stitch.turn))
        colour = colours[stitch.yarn]
        if stitch.look is Look.HOLE:
            yield Stamps(Path(outline, darker(colour, DEPTH)), tuple(some))
        else:
            look = stitch_look(outline, darker(colour, stitch.light), stitch.wide)
            yield Stamps(look, tuple(some))


class Cells:
    """The stitches of a row, spread between two edges; or all of them, if ``squeezed``; or as many
    as make ``whole`` repeats, so that those of rows that go in stand above each other."""

    def __init__(
        self,
        course: Course,
        left: float,
        right: float,
        wide: float,
        merged: int,
        squeezed: bool,
        whole: bool = False,
    ) -> None:
        self._course, self._merged = course, merged
        self._count = max(1, round((right - left) / wide))
        self.wide = wide
        around = max(len(course.yarns), len(course.faces))
        if squeezed and self._count < around // merged:
            self._count = around // merged
            self.wide = near_size((right - left) / self._count, wide)
        elif whole and merged == 1 and 1 < around <= _SHORT:
            self._count = max(1, round(self._count / around)) * around
            self.wide = near_size((right - left) / self._count, wide)
        self._pitch = (right - left) / self._count
        self._start = left
        if around <= _SHORT and len(set(course.yarns)) == 1:
            self._merged = 1  # ribs and lace are drawn larger, not left out
        self._first = around // 2 - self._count * self._merged // 2
        plain = len(set(course.yarns)) == 1
        self.ground = course.yarns[0] if plain else ""

    @property
    def complete(self) -> bool:
        """Whether each stitch of a repeat is drawn."""
        return self._merged == 1

    def __iter__(self) -> Iterator[tuple[float, str, Face | None]]:
        """The middle of each stitch, its yarn and its face."""
        yarns, faces = self._course.yarns, self._course.faces
        for nth in range(self._count):
            place = self._first + nth * self._merged
            x = self._start + (nth + 0.5) * self._pitch
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
