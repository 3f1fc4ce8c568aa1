"""The galley: a long column of bands, and its cutting into pages and lanes.

A band is a strip of the column that is never cut: a line of text, a table row, a figure. What may
be parted is said by the bands themselves: ``keep`` is the cost of ending a page after one. A page
ends where the cost and the emptiness it leaves are least, so headings stay with their text, rows
stay whole and short tables move to the next page rather than being cut. A stretch of bands may ask
for lanes: it runs down one lane and on down the next, and where it ends its lanes are levelled.

Everything is placed before anything is drawn: the number of pages is known, nothing is drawn twice.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from typing import Protocol

from generator.diagnostics import fail
from generator.render.pdf.tagging import Writer

NEVER = float("inf")
"""The cost of a break that must not be."""

IN_TEXT = 3.0
"""The cost of ending a page inside a paragraph."""

IN_LIST = 1.0
"""The cost of ending a page between two entries of a list."""

_EMPTY_PAGE = 100.0  # the cost of leaving a whole page empty; it grows with the square
_LONG_LANE = 100.0  # the cost of lanes as high as the page; levelled lanes are lower
_STEP = 4.0  # points: how finely lanes are levelled
_LEAST_LANE = 0.14  # of the frame: lanes that are cut are not begun in less room than this
_RUNT = 14.0  # the cost of a last page with next to nothing on it
_RUNT_SHARE = 0.2  # of the frame's height: what is next to nothing


class Group(Protocol):
    """What frames neighbouring bands on each page they are on: a note's frame, a table's head."""

    @property
    def below(self) -> float:
        """The room it takes below its last band on a page."""

    def above(self, again: bool) -> float:
        """The room it takes above its first band on a page, ``again`` if it is continued there."""

    def paint(self, writer: Writer, left: float, fragment: "Fragment") -> None:
        """Draw it around ``fragment``, before the bands in it."""


@dataclass(frozen=True, slots=True, eq=False)
class Lanes:
    """Narrow columns side by side, by the left edge of each."""

    lefts: tuple[float, ...]


@dataclass(slots=True, eq=False)
class Band:
    """A strip of the column. ``paint`` gets the left edge of the frame and the strip's top.

    ``before`` is white space above, dropped at the top of a page or lane. ``turned`` bands stand on
    pages that lie on their side. ``what`` names its kind for messages and tests; ``name`` is that
    of a heading that links lead to.
    """

    height: float
    paint: Callable[[Writer, float, float], None]
    before: float = 0.0
    keep: float = 0.0
    groups: tuple[Group, ...] = ()
    what: str = "text"
    name: str = ""
    new_page: bool = False
    turned: bool = False
    lanes: Lanes | None = None


@dataclass(frozen=True, slots=True, eq=False)
class Placed:
    """A band with its place: right of the frame's left edge, and its top below the frame's."""

    band: Band
    x: float
    top: float


@dataclass(slots=True, eq=False)
class Fragment:
    """The part of a group that is in one lane of a page; ``x``, ``top`` and ``bottom`` as in
    ``Placed``."""

    group: Group
    x: float
    top: float
    first: bool
    bottom: float = 0.0
    last: bool = False
    bands: list[tuple[Band, float]] = field(default_factory=list)


@dataclass(slots=True, eq=False)
class Page:
    """What stands on a page."""

    placed: list[Placed]
    fragments: list[Fragment]
    turned: bool


def paginate(bands: Sequence[Band], height: float, turned_height: float) -> list[Page]:
    """Cut ``bands`` into pages whose frames are ``height`` high.

    Raises ``PatternError`` (id ``pdf.layout``) when a band is higher than the frame.
    """
    pages: list[Page] = []
    stretches = _stretches(bands)
    start = 0
    while start < len(bands):
        turned = bands[start].turned
        page, stop = _fill(bands, stretches, start, turned_height if turned else height)
        pages.append(page)
        start = stop
    return pages


# ------------------------------------------------------------ where a page ends


@dataclass(frozen=True, slots=True)
class _Run:
    """Bands one under another: ``start`` to ``stop``, from ``top`` to ``bottom``, in a lane."""

    start: int
    stop: int
    x: float
    top: float
    bottom: float


@dataclass(frozen=True, slots=True)
class _End:
    """A way to end a page: the runs on it, and how far down they reach."""

    runs: tuple[_Run, ...]
    filled: float

    @property
    def stop(self) -> int:
        return self.runs[-1].stop


def _fill(
    bands: Sequence[Band], stretches: Sequence[int], start: int, height: float
) -> tuple[Page, int]:
    ends = _ends(bands, stretches, start, height)
    if not ends:
        raise fail(
            "pdf.layout",
            f"a {bands[start].what} is higher than the page",
            "Make it shorter, cut it in parts, or choose another paper",
        )
    best = ends[-1]
    if best.stop < len(bands) and not _must_end(bands, start, best.stop):
        best = min(ends, key=lambda end: (_cost(bands, end, height), -end.stop))
        if bands[best.stop - 1].keep == NEVER:  # no break is allowed: take the fullest page
            best = ends[-1]
    return _placed(bands, best), best.stop


def _cost(bands: Sequence[Band], end: _End, height: float) -> float:
    empty = 1 - end.filled / height
    left = _left_over(bands, end.stop, height * _RUNT_SHARE) / (height * _RUNT_SHARE)
    keep = bands[end.stop - 1].keep
    return keep + _EMPTY_PAGE * empty * empty + _RUNT * max(0.0, 1 - left)


def _left_over(bands: Sequence[Band], stop: int, enough: float) -> float:
    """The height of what follows until a page must end, or at least ``enough``."""
    height = 0.0
    for index in range(stop, len(bands)):
        if height >= enough or (index > stop and _must_end(bands, stop, index)):
            break
        lanes = bands[index].lanes
        height += (bands[index].height + bands[index].before) / (len(lanes.lefts) if lanes else 1)
    return height


def _must_end(bands: Sequence[Band], start: int, at: int) -> bool:
    return bands[at].new_page or bands[at].turned != bands[start].turned


def _ends(bands: Sequence[Band], stretches: Sequence[int], start: int, height: float) -> list[_End]:
    """The ways to end the page that begins with ``start``."""
    ends: list[_End] = []
    done: tuple[_Run, ...] = ()
    at, y = start, 0.0
    while at < len(bands) and not (at > start and _must_end(bands, start, at)):
        stop = stretches[at]
        top = y + (bands[at].before if at > start else 0.0)
        lanes = bands[at].lanes
        if lanes is None:
            bottoms = _bottoms(bands, at, stop, height - top)
            ends += [
                _End((*done, _Run(at, at + count, 0.0, top, top + bottom)), top + bottom)
                for count, bottom in enumerate(bottoms, 1)
            ]
            if len(bottoms) < stop - at:
                break
            runs = ends[-1].runs[len(done) :]
        else:
            runs = _in_lanes(bands, at, stop, lanes, top, height)
            if not runs:
                break
            ends.append(_End((*done, *runs), max(run.bottom for run in runs)))
            if runs[-1].stop < stop:
                break
        done = (*done, *runs)
        y = max(run.bottom for run in runs)
        at = stop
    return ends


def _stretches(bands: Sequence[Band]) -> list[int]:
    """For each band the end of those from it on that share lanes and may share a page."""
    found = [len(bands)] * len(bands)
    for index in range(len(bands) - 2, -1, -1):
        same = bands[index].lanes is bands[index + 1].lanes
        if same and not _must_end(bands, index, index + 1):
            found[index] = found[index + 1]
        else:
            found[index] = index + 1
    return found


def _bottoms(bands: Sequence[Band], start: int, stop: int, height: float) -> list[float]:
    """How far down each band reaches, groups closed after it, of those that fit ``height``."""
    found: list[float] = []
    y = 0.0
    for index in range(start, stop):
        y = _top(bands, start, index, y) + bands[index].height
        bottom = y + sum(group.below for group in bands[index].groups)
        if bottom > height + 0.01:
            break
        found.append(bottom)
    return found


def _top(bands: Sequence[Band], start: int, index: int, y: float) -> float:
    """The top of band ``index`` of a run when what is above it in the run ends at ``y``."""
    band = bands[index]
    if index > start:
        gone = [group for group in bands[index - 1].groups if group not in band.groups]
        y += sum(group.below for group in gone) + band.before
    return y + sum(group.above(again) for group, again in _opened(bands, start, index))


def _opened(bands: Sequence[Band], start: int, index: int) -> list[tuple[Group, bool]]:
    """The groups that open above band ``index`` of a run, and whether each is continued."""
    before = bands[index - 1].groups if index else ()
    if index > start:
        return [(group, False) for group in bands[index].groups if group not in before]
    return [(group, group in before) for group in bands[index].groups]


# ------------------------------------------------------------ lanes


def _in_lanes(
    bands: Sequence[Band], start: int, stop: int, lanes: Lanes, top: float, height: float
) -> tuple[_Run, ...]:
    """The stretch in lanes: all of it, levelled, if there is room, else as much as fits.

    Nothing where that would part what belongs together, but at the top of a page.
    """
    room, count = height - top, len(lanes.lefts)
    cuts = _levelled(bands, start, stop, count, room)
    if not cuts:
        cuts = _lanes_of(bands, start, stop, count, room)
        if top > 0 and (room < height * _LEAST_LANE or _broken(bands, cuts) == NEVER):
            return ()
    runs = []
    at = start
    for left, (end, bottom) in zip(lanes.lefts, cuts, strict=False):
        runs.append(_Run(at, end, left, top, top + bottom))
        at = end
    return tuple(runs)


_Cuts = list[tuple[int, float]]
"""The end of each lane and how far down it reaches."""


def _levelled(bands: Sequence[Band], start: int, stop: int, count: int, room: float) -> _Cuts:
    """Lanes of like height that hold the whole stretch; nothing if it has no room."""
    high = 0.0
    for index in range(start, stop):
        high += bands[index].height
        if high > room * count:
            return []
    best: tuple[float, _Cuts] = (NEVER, [])
    height = min(high / count, room)
    while True:
        cuts = _lanes_of(bands, start, stop, count, height)
        if cuts and cuts[-1][0] == stop:
            tall = max(bottom for _, bottom in cuts)
            cost = _LONG_LANE * tall / room + _broken(bands, cuts[:-1])
            if cost < best[0]:
                best = (cost, cuts)
            if len(cuts) < count or _broken(bands, cuts[:-1]) <= 0:
                break  # higher lanes can't be better
        if height >= room:
            break
        height = min(height + _STEP, room)
    return best[1]


def _broken(bands: Sequence[Band], cuts: _Cuts) -> float:
    """The cost of the breaks after ``cuts``."""
    return sum(max(0.0, bands[end - 1].keep) for end, _ in cuts)


def _lanes_of(bands: Sequence[Band], start: int, stop: int, count: int, height: float) -> _Cuts:
    """At most ``count`` lanes of ``height``, each ended where that costs least."""
    cuts: _Cuts = []
    at = start
    while at < stop and len(cuts) < count:
        bottoms = _bottoms(bands, at, stop, height)
        if not bottoms:
            break
        if at + len(bottoms) == stop:
            end = len(bottoms)
        else:
            costs = [
                bands[at + index].keep + _EMPTY_PAGE * (1 - bottom / height) ** 2
                for index, bottom in enumerate(bottoms)
            ]
            end = min(range(len(costs)), key=lambda index: (costs[index], -index)) + 1
            if costs[end - 1] == NEVER:
                end = len(bottoms)
        cuts.append((at + end, bottoms[end - 1]))
        at += end
    return cuts


# ------------------------------------------------------------ places


def _placed(bands: Sequence[Band], end: _End) -> Page:
    page = Page([], [], bands[end.runs[0].start].turned)
    for run in end.runs:
        _place(bands, run, page)
    return page


def _place(bands: Sequence[Band], run: _Run, page: Page) -> None:
    """Put the bands of a run on ``page``, with the groups around them."""
    running: list[Fragment] = []
    y = run.top
    for index in range(run.start, run.stop):
        band = bands[index]
        while running and running[-1].group not in band.groups:
            fragment = running.pop()
            y += fragment.group.below
            fragment.bottom, fragment.last = y, True
        if index > run.start:
            y += band.before
        for group, again in _opened(bands, run.start, index):
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
