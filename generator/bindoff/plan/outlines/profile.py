"""How wide a run of rows is at each height, and the ribbing and lengths along it."""

from collections.abc import Callable, Iterator, Sequence
from itertools import groupby, pairwise
from math import inf, sqrt

from bindoff.plan.levels import Level
from bindoff.plan.outlines.runs import Run, Stage
from bindoff.plan.outlines.shapes import Band, Line, Measured, Point, Side, simplified
from bindoff.records import Record

Place = Callable[[float, float], Point]
"""Where a point lies that is so far along a run, and so far across it."""

LENGTH = "length"
_PACE = 1.6  # times the usual distance of shaping rows: so much longer is a straight edge
_BOW = 36  # parts of a round end
_EVEN = 0.25  # of the height of a crown: an even slope may be so far outside of its rounds
_LOW = 10.0  # mm
_STEP = 8.0  # mm that go in one row, from which on it is drawn as a step


class Station(Record):
    """The fabric ``along`` mm from the start of a run: its two edges across, in mm.

    ``gap`` is a gap in its middle.
    """

    along: float
    one: float
    other: float
    gap: float = 0.0

    @property
    def wide(self) -> float:
        """From edge to edge."""
        return self.other - self.one


class Mark(Record):
    """What stands under one heading ``start`` to ``end`` mm along a run."""

    title: str
    start: float
    end: float
    ribbed: bool = False
    crown: bool = False


class Profile(Record):
    """Stations from the start of a run to its end, and the steps that lie between them.

    ``around`` says that it is a tube, of which half is seen.
    """

    stations: tuple[Station, ...]
    marks: tuple[Mark, ...]
    around: bool = False

    @property
    def length(self) -> float:
        """From start to end."""
        return self.stations[-1].along

    def printed(self, station: Station) -> float:
        """The width as it is printed: around a tube, across a flat piece."""
        return station.wide * (2 if self.around else 1)

    def edge(self, place: Place, *, other: bool = False) -> Line:
        """One edge from start to end."""
        edge = [(s.along, s.other if other else s.one) for s in self.stations]
        step = inf if self.around else _STEP  # a tube goes in all around
        return simplified(place(*point) for point in paced(edge, step))

    def shape(self, place: Place) -> Line:
        """The whole outline, around and back to the start."""
        return (*self.edge(place), *reversed(self.edge(place, other=True)))

    def between(self, start: float, end: float) -> tuple[Station, ...]:
        """The stations of a stretch, both ends included."""
        return tuple(s for s in self.stations if start - 1e-6 <= s.along <= end + 1e-6)

    def domed(self) -> "Profile":
        """With an even slope up a crown that is drawn together at its end: fabric spans the steps
        that single rounds of decreases make. A crown that is far from even stays as it is."""
        crown = next((mark for mark in self.marks if mark.crown), None)
        start = crown.start if crown else self._narrows()
        below = tuple(s for s in self.stations if s.along < start - 1e-6)
        above = [(s.along, s.wide / 2) for s in self.stations[len(below) :]]
        even = _bulged(above)
        if len(above) < 3 or max(_on(even, x) - y for x, y in above) > _EVEN * (
            self.length - start
        ):
            return self
        halves = ((along, _on(even, along)) for along, _ in above)
        found = (Station(along, -half, half) for along, half in halves)
        return Profile((*below, *found), self.marks, self.around)

    def _narrows(self) -> float:
        """Where it begins to go in for good, along."""
        widest = self.stations[-1].wide
        for station in reversed(self.stations):
            if station.wide < widest - 1e-6:
                break
            start, widest = station.along, station.wide
        return start

    def rounded(self) -> "Profile":
        """With a round end, for a tube that is drawn together there."""
        high = min(self.stations[0].wide / 2, self.length)
        from_ = self.length - high
        kept = self.between(0.0, from_)
        wide, middle = kept[-1].wide / 2, (kept[-1].one + kept[-1].other) / 2
        bow = []
        for step in range(_BOW + 1):
            half = wide * sqrt(1 - (step / _BOW) ** 2)
            bow.append(Station(from_ + high * step / _BOW, middle - half, middle + half))
        return Profile((*kept, *bow), self.marks, self.around)

    def at(self, along: float) -> Station:
        """The last station that is not beyond a place."""
        return self.between(0.0, along)[-1]

    def backwards(self) -> "Profile":
        """From its end to its start."""
        long = self.length
        stations = (Station(long - s.along, s.one, s.other, s.gap) for s in self.stations)
        marks = (Mark(m.title, long - m.end, long - m.start, m.ribbed, m.crown) for m in self.marks)
        return Profile(tuple(stations)[::-1], tuple(marks)[::-1], self.around)


def _bulged(points: Sequence[Point]) -> list[Point]:
    """The points of an edge that no line between two others passes by on its outer side."""
    found: list[Point] = []
    for point in points:
        while len(found) > 1 and _inward(found[-2], found[-1], point):
            found.pop()
        found.append(point)
    return found


def _inward(a: Point, b: Point, c: Point) -> bool:
    return (b[1] - a[1]) * (c[0] - a[0]) <= (c[1] - a[1]) * (b[0] - a[0]) + 1e-9


def _on(line: Sequence[Point], along: float) -> float:
    """How far across a line lies at a place along it."""
    for (x1, y1), (x2, y2) in pairwise(line):
        if x1 <= along <= x2 and x2 > x1:
            return y1 + (y2 - y1) * (along - x1) / (x2 - x1)
    return line[-1][1]


def paced(edge: Sequence[Point], step: float = inf, pace: float = _PACE) -> Line:
    """An edge from shaping row to shaping row: a slope where they follow at a pace, which may
    change, level where there are none for ``pace`` times as long as before and after, and a step
    where ``step`` mm or more go at once."""
    if not edge:
        return ()
    changes = [0, *(i for i in range(1, len(edge)) if abs(edge[i][1] - edge[i - 1][1]) > 1e-6)]
    gaps = [edge[b][0] - edge[a][0] for a, b in pairwise(changes)]
    found = [edge[0]]
    for number, at in enumerate(changes[1:]):
        near = [*gaps[max(0, number - 1) : number], *gaps[number + 1 : number + 2]]
        usual = max(near, default=0.0)
        before = edge[at - 1]
        if abs(edge[at][1] - before[1]) >= step:
            found += [before, (before[0], edge[at][1])]
        elif gaps[number] > pace * usual + 1e-6:
            found.append((max(edge[at][0] - usual, found[-1][0]), before[1]))
        found.append(edge[at])
    return (*found, edge[-1])


def folded(run: Run, stages: Sequence[Stage] | None = None, begun: int | None = None) -> Profile:
    """A tube folded flat: half its stitches to be seen, evenly to both sides of its middle.

    Only some ``stages`` of the run, which then begin with the stitches of their first row, or with
    ``begun``.
    """
    some = [stage for stage in (run.stages if stages is None else stages) if stage.levels]
    first = some[0].levels[0]
    base = run.base if stages is None else first.fewest - 1
    start = begun or (run.begun if stages is None else first.stitches)
    found = [_even(0.0, run.wide(start) / 2)]
    for level in (level for stage in some for level in stage.levels):
        if level.stitches:
            found.append(_even(run.high(level.fewest - base), run.wide(level.stitches) / 2))
    marks = _marks(run, some, lambda level: level.fewest - base)
    return Profile(tuple(found), marks, around=True)


def _even(along: float, wide: float) -> Station:
    return Station(along, -wide / 2, wide / 2)


def opened(run: Run, right: float = 0.0) -> Profile:
    """A flat run as it lies, its ``right`` edge so many stitches from nought to begin with.

    What grows in the middle of a row parts to both sides; after a binding off there, the gap grows.
    """
    gap, apart = 0, False
    found = [(0, right - run.begun, right, 0)]
    for level in run.levels:
        apart = apart or level.apart
        gap -= level.middle if apart else 0
        right += level.right + (0 if apart else level.middle / 2)
        if level.stitches:
            found.append((level.most - run.base, right - level.stitches - gap, right, gap))
    stations = (
        Station(run.high(rows), *(run.wide(each) for each in across)) for rows, *across in found
    )
    some = [stage for stage in run.stages if stage.levels]
    return Profile(tuple(stations), _marks(run, some, lambda level: level.most - run.base))


def _marks(run: Run, stages: Sequence[Stage], rows: Callable[[Level], int]) -> tuple[Mark, ...]:
    found: list[Mark] = []
    done = 0.0
    for stage in stages:
        end = run.high(rows(stage.levels[-1]))
        found.append(Mark(stage.title, done, end, stage.ribbed, stage.crown))
        done = end
    return tuple(found)


def stretches(profile: Profile) -> tuple[Mark, ...]:
    """Neighbouring steps under one heading as one, those without height left out."""
    found = []
    for title, some in groupby(profile.marks, lambda mark: mark.title):
        marks = list(some)
        if marks[-1].end - marks[0].start > 1e-6:
            found.append(Mark(title, marks[0].start, marks[-1].end))
    return tuple(found)


def ribbing(profile: Profile, place: Place) -> Iterator[Band]:
    """A band for every step in ribbing."""
    for mark in profile.marks:
        inside = profile.between(mark.start, mark.end)
        if mark.ribbed and len(inside) > 1:
            low, high = inside[0], inside[-1]
            yield Band(
                (place(low.along, low.one), place(low.along, low.other)),
                (place(high.along, high.one), place(high.along, high.other)),
            )


def lengths(profile: Profile, place: Place, side: Side, across: float) -> Iterator[Measured]:
    """The length under every heading, or of the whole where there are none; and, where the pattern
    prints it, from the start to each heading and from each to the end. What is lower than
    ``_LOW``, such as the one round that holds stitches for a heel, needs no measure."""
    found = stretches(profile)

    def measured(name: str, start: float, end: float, *, spare: bool = False) -> Measured:
        ends = place(start, across), place(end, across)
        return Measured(name, end - start, *ends, side, spare, rows=True)

    if len(found) > 1 and all(mark.title for mark in found):
        high = (mark for mark in found if mark.end - mark.start >= _LOW)
        yield from (measured(mark.title, mark.start, mark.end) for mark in high)
        yield measured(LENGTH, 0.0, profile.length, spare=True)
    else:
        yield measured(LENGTH, 0.0, profile.length)
    for mark in found[1:-1]:
        yield measured(LENGTH, 0.0, mark.end, spare=True)
    for mark in found[1:-1]:
        yield measured(LENGTH, mark.start, profile.length, spare=True)


def upright(along: float, across: float) -> Point:
    """A run that grows upwards."""
    return across, -along


def hanging(along: float, across: float) -> Point:
    """A run that grows downwards."""
    return across, along


def by(place: Place, move: Callable[[Point], Point]) -> Place:
    """A place, moved."""
    return lambda along, across: move(place(along, across))
