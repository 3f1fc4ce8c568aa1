"""Bands one under another: how far down they reach, and where each of them stands.

White space above the first band of a page or lane is dropped; a group of bands that is continued
there is framed anew.
"""

from bisect import bisect_right
from collections.abc import Container, Mapping, Sequence
from typing import NamedTuple

from bindoff.records import Record, replace
from bindoff.render.pdf.galley import Band, Fragment, Group, Lanes, Page, Placed

_HAIR = 0.01  # points that are not seen

CLOSEST = 0.65
"""The least share of the white space between bands that a page keeps."""


class BandRun(Record):
    """Bands one under another: ``start`` to ``stop``, from ``top`` to ``bottom``, in a lane.

    Where the first of them ``resumes`` what a page needs once at its head, that is ``known`` if it
    is on the page above.
    """

    start: int
    stop: int
    x: float
    top: float
    bottom: float
    resumes: bool = False
    known: bool = False


class GroupShape(Record):
    """What a group takes: one of a galley is known by its ``number``."""

    number: int
    below: float
    first: float
    again: float
    once: bool

    def above(self, again: bool) -> float:
        """As that of ``Group``."""
        return self.again if again else self.first


class LanesShape(Record):
    """The left edges of lanes: those of a stretch are known by its ``number``."""

    number: int
    lefts: tuple[float, ...]


class BandShape(Record):
    """All of a band that says where pages may end: equal ones are cut alike."""

    height: float
    give: float
    clear: float
    before: float
    keep: float
    groups: tuple[GroupShape, ...]
    lanes: LanesShape | None
    what: str
    new_page: bool
    fresh: bool
    turned: bool


def shapes_of(bands: Sequence[Band]) -> tuple[BandShape, ...]:
    """The shapes of bands; groups and lanes are numbered in their order."""
    groups: dict[int, GroupShape] = {}
    lanes: dict[int, LanesShape] = {}

    def group(each: Group) -> GroupShape:
        known = groups.get(id(each))
        if known is None:
            known = GroupShape(
                len(groups), each.below, each.above(False), each.above(True), each.once
            )
            groups[id(each)] = known
        return known

    def in_lanes(each: Lanes | None) -> LanesShape | None:
        if each is None:
            return None
        return lanes.setdefault(id(each), LanesShape(len(lanes), each.lefts))

    return tuple(
        BandShape(
            band.height,
            band.give,
            band.clear,
            band.before,
            band.keep,
            tuple(map(group, band.groups)),
            in_lanes(band.lanes),
            band.what,
            band.new_page,
            band.fresh,
            band.turned,
        )
        for band in bands
    )


LaneEnds = list[tuple[int, float]]
"""The end of each lane and how far down it reaches."""

Filled = tuple[LaneEnds, float, float]
"""Lanes, how far down the longest reaches, and what the breaks between them cost."""


class Frame(NamedTuple):
    """What groups take around a band: between it and the one before, above it at the top of a page,
    there without what heads a page once, and below it at the foot of a page."""

    between: float
    above: float
    known: float
    below: float


class Galley:
    """The bands of a galley, and what is true of them with any white space between them.

    ``keeps`` is what a break after each costs; ``resumed`` the last band headed by what a page
    needs once and a band resumes; ``stops`` the end of those that share lanes with a band and may
    share a page; ``fresh`` the next that would rather begin a page.
    """

    def __init__(self, bands: Sequence[BandShape]) -> None:
        self.bands = bands
        self.keeps = [band.keep for band in bands]
        self.resumed = _resumed(bands)
        self.stops = _stretches(bands, self.resumed)
        self.fresh = _fresh_ones(bands)
        self.frames = [_frame(bands, index, self.resumed) for index in range(len(bands))]


class Stack:
    """The bands of a galley as they stand one under another.

    ``spacing`` is the share of the white space between bands that is kept. ``filled`` is where
    lanes end, by the band they begin with, their number and their height, as it is found out.
    """

    def __init__(self, galley: Galley, spacing: float) -> None:
        self.bands = galley.bands
        self.spacing = spacing
        self.keeps = galley.keeps
        self.filled: dict[tuple[int, int, float], Filled] = {}
        self._galley = galley
        self._given = _given(spacing)
        self.origins: list[float] = []  # the top of a page that begins with a band,
        self._known: list[float] = []  # ... without what heads a page once,
        self.lows: list[float] = []  # ... and how far down it reaches, groups closed after it,
        y = 0.0  # ... all in a galley that nobody cuts
        for index, frame in enumerate(galley.frames):
            y += self.white(index) + frame.between
            self.origins.append(y - frame.above)
            self._known.append(y - frame.known)
            y += self.high(index)
            self.lows.append(y + frame.below)
        self._all_high = self._heights()

    def _heights(self) -> list[float]:
        """For each band how high those from it to its stop are, without what is between them."""
        found = [self.high(index) for index in range(len(self.bands))]
        for index in range(len(found) - 2, -1, -1):
            if self.stop(index) > index + 1:
                found[index] += found[index + 1]
        return found

    def white(self, index: int) -> float:
        """The white space above a band that is not the first."""
        return _white(self.bands[index], self.spacing, self._given)

    def high(self, index: int) -> float:
        """How high a band is, where what can give way does."""
        band = self.bands[index]
        return band.height - band.give * self._given

    def all_high(self, start: int) -> float:
        """How high the bands from ``start`` to ``stop`` are, without what is between them."""
        return self._all_high[start]

    def stop(self, start: int) -> int:
        """The end of the bands from ``start`` on that share lanes and may share a page."""
        return self._galley.stops[start]

    def fresh_after(self, start: int) -> int:
        """The next band after ``start`` that would rather begin a page, or the end."""
        return self._galley.fresh[start]

    def after(self, stop: int) -> float:
        """About how far down the bands from ``stop`` on reach, one under another."""
        return self.lows[-1] - self.lows[stop - 1]

    def resumed(self, index: int) -> int | None:
        """The last band headed by what a page needs once and band ``index`` resumes, if any."""
        return self._galley.resumed.get(index)

    def fits(self, start: int, height: float, known: bool = False) -> int:
        """The end of the bands from ``start`` on, at most to ``stop``, that ``height`` can hold."""
        floor = (self._known if known else self.origins)[start] + height + _HAIR
        return bisect_right(self.lows, floor, start, self._galley.stops[start])

    def reach(self, start: int, stop: int, known: bool = False) -> float:
        """How far down the bands from ``start`` to ``stop`` reach, groups closed after them."""
        return self.lows[stop - 1] - (self._known if known else self.origins)[start]


def must_end(bands: Sequence[BandShape], start: int, at: int) -> bool:
    """Whether a page that begins with band ``start`` cannot hold band ``at``."""
    return bands[at].new_page or bands[at].turned != bands[start].turned


def placed(bands: Sequence[Band], spacing: float, runs: Sequence[BandRun]) -> Page:
    """The page that holds ``runs``, of the white space ``spacing``."""
    page = Page([], [], bands[runs[0].start].turned)
    given = _given(spacing)
    for run in runs:
        _place(bands, spacing, run, page, given)
    return page


def _resumed(bands: Sequence[BandShape]) -> dict[int, int]:
    """The bands that a page's head is for which heads bands before, but not the one above: the last
    of these by the first of those."""
    found: dict[int, int] = {}
    last: dict[int, int] = {}
    for index, band in enumerate(bands):
        for group in band.groups:
            if group.once:
                if last.get(group.number, index) < index - 1:
                    found[index] = last[group.number]
                last[group.number] = index
    return found


def _stretches(bands: Sequence[BandShape], resumed: Container[int]) -> list[int]:
    """For each band the end of those from it on that share lanes and may share a page."""
    found = [len(bands)] * len(bands)
    for index in range(len(bands) - 2, -1, -1):
        same = bands[index].lanes is bands[index + 1].lanes and index + 1 not in resumed
        if same and not must_end(bands, index, index + 1):
            found[index] = found[index + 1]
        else:
            found[index] = index + 1
    return found


def _fresh_ones(bands: Sequence[BandShape]) -> list[int]:
    """For each band the next after it that would rather begin a page, or the end."""
    found = [len(bands)] * len(bands)
    for index in range(len(bands) - 2, -1, -1):
        found[index] = index + 1 if bands[index + 1].fresh else found[index + 1]
    return found


def _frame(bands: Sequence[BandShape], index: int, resumed: Mapping[int, int]) -> Frame:
    groups = bands[index].groups
    before = bands[resumed.get(index, index - 1)].groups if index else ()
    room = [(group.once, group.above(group in before)) for group in groups]
    return Frame(
        _between(bands, index),
        sum(above for _, above in room),
        sum(above for once, above in room if not once),
        sum(group.below for group in groups),
    )


def _between(bands: Sequence[BandShape], index: int) -> float:
    """What groups take that close or open between a band and the one before it."""
    before = bands[index - 1].groups if index else ()
    closed = sum(group.below for group in before if group not in bands[index].groups)
    return closed + sum(group.above(False) for group in bands[index].groups if group not in before)


def _white(band: Band | BandShape, spacing: float, given: float) -> float:
    """The white space above a band where so much of it is kept."""
    return band.before * spacing + band.clear * given


def _given(spacing: float) -> float:
    """The share that bands give of what they can where so much of the white space is kept."""
    return max(0.0, min(1.0, (1 - spacing) / (1 - CLOSEST)))


def _closer(band: Band, given: float) -> Band:
    """``band`` lower by what it gives."""
    if not given or band.closer is None:
        return band
    less = band.give * given
    return replace(band, height=band.height - less, paint=band.closer(less))


def _place(bands: Sequence[Band], spacing: float, run: BandRun, page: Page, given: float) -> None:
    """Put the bands of a run on ``page``, with the groups around them."""
    running: list[Fragment] = []
    y = run.top
    for index in range(run.start, run.stop):
        band = _closer(bands[index], given)
        while running and running[-1].group not in band.groups:
            fragment = running.pop()
            y += fragment.group.below
            fragment.bottom, fragment.last = y, True
        if index > run.start:
            y += _white(band, spacing, given)
        before = bands[index - 1].groups if index else ()
        for group in band.groups:
            again = group in before or (run.resumes and group.once and index == run.start)
            if again and (index > run.start or (run.known and group.once)):  # it runs on
                continue
            fragment = Fragment(group, run.x, y, not again)
            page.fragments.append(fragment)
            running.append(fragment)
            y += group.above(again)
        page.placed.append(Placed(band, run.x, y))
        for fragment in running:
            fragment.bands.append((band, y))
        y += band.height
    following = bands[run.stop].groups if run.stop < len(bands) else ()
    while running:
        fragment = running.pop()
        y += fragment.group.below
        fragment.bottom, fragment.last = y, fragment.group not in following
