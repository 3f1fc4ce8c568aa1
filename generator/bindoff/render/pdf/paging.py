"""Where pages end: of all ways to cut a galley, the one that costs least.

A page costs what its break costs and the emptiness it leaves, so headings stay with their text,
rows stay whole, short tables move to the next page rather than being cut, and white space is spread
over pages rather than heaped on one. Where that fills a page, white space between its bands gives
way a little, or grows a little.

Everything is placed before anything is drawn: the number of pages is known, nothing is drawn twice.
"""

from bisect import insort
from collections.abc import Iterator, Sequence
from functools import lru_cache
from heapq import heappop, heappush
from math import ceil
from typing import NamedTuple

from bindoff.diagnostics import PatternError, fail
from bindoff.records import replace
from bindoff.render.pdf.galley import CHEAPEST, NEVER, Band, Page, emptiness
from bindoff.render.pdf.lanes import in_lanes
from bindoff.render.pdf.stacking import (
    CLOSEST,
    BandRun,
    BandShape,
    Galley,
    Stack,
    must_end,
    placed,
    shapes_of,
)

_PAGE = 120.0  # the cost of a page
_CUT_LANES = 10.0  # the cost of lanes that go on overleaf,
_CUT_ENTRIES = 40.0  # ... and of those of a list of terms, where one looks things up
_FEW_LINES = 70.0  # points: lanes are not cut for less that goes on overleaf,
_STRAY = 40.0  # ... which costs so much
_FORCED = 10_000.0  # the cost of a break that must not be, where there is no other
_RUNT = 300.0  # the cost of a last page with next to nothing on it
_RUNT_SHARE = 0.5  # of the frame's height: less than that begins to cost,
_SHORT = 70.0  # ... at most so much more where it is a little less,
_SHORT_COST = 600.0  # ... which grows as fast as this
_STALE = 25.0  # the cost of a page on which begins, low down, what would rather begin a page
_LOW = 0.5  # of the frame's height
_LOOKED_AT = 6  # ways to end a page, the best, from which pages are looked for further
_SPACINGS = (1.0, 1.12, 1.25, 0.9, 0.8, CLOSEST)  # of the white space between bands
_ROUNDED = 1.0  # points: more than what a page holds is ever rounded by
_CLOSE = 20.0  # the cost of a page without such white space, or with twice as much
_MANY = 60  # pages: so long a galley has all its white space, and fills lanes that go on overleaf
_SHORTER = (0.95, 0.9, 0.85, 0.75, 0.65)  # of the frame: where lanes may go on overleaf too
_GAP = 0.14  # of the frame's height: more that stays empty is seen,
_SEEN = 15.0  # ... which costs this,
_GAP_COST = 600.0  # ... and so much more for a whole page


def paginate(bands: Sequence[Band], height: float, turned_height: float) -> list[Page]:
    """Cut ``bands`` into pages whose frames are ``height`` high.

    Raises ``PatternError`` (id ``pdf.layout``) when a band is higher than the frame.
    """
    if not bands:
        return []
    cuts = _cut(shapes_of(bands), height, turned_height)
    return [placed(bands, spacing, runs) for spacing, runs in cuts]


@lru_cache(maxsize=16)  # most of what is written of a pattern leaves its lines as high as they are
def _cut(
    shapes: tuple[BandShape, ...], height: float, turned_height: float
) -> tuple[tuple[float, tuple[BandRun, ...]], ...]:
    """Each page: the share of its white space, and the runs on it."""
    galley = Galley(shapes)
    stacks = [Stack(galley, _SPACINGS[0])]
    if not _is_long(stacks[0], height):
        stacks += [Stack(galley, spacing) for spacing in _SPACINGS[1:]]
    ends = _cheapest(stacks, height, turned_height)
    return tuple((end.stack.spacing, tuple(end.runs())) for end in ends)


class _End(NamedTuple):
    """A way to end a page: after ``stop``, which is on the last of its stretches."""

    stack: Stack
    stretches: tuple[tuple[BandRun, ...], ...]
    stop: int
    filled: float

    @property
    def start(self) -> int:
        return self.stretches[0][0].start

    def runs(self) -> list[BandRun]:
        """The runs on the page."""
        *whole, last = (run for stretch in self.stretches for run in stretch)
        low = last.top + self.stack.reach(last.start, self.stop, last.known)
        return [*whole, replace(last, stop=self.stop, bottom=low)]


def _cheapest(stacks: Sequence[Stack], height: float, turned_height: float) -> list[_End]:
    """The pages that cost least, each with the white space of one of ``stacks``."""
    bands = stacks[0].bands
    rest = _least_costs(stacks[-1], height, turned_height)
    costs = {0: (0.0, 0)}  # of the pages before one that begins with a band, and where the last of
    ways: dict[int, _End] = {}  # ... them begins, the least of those that cost alike; that page
    waiting = [(rest[0], 0)]  # by what all pages cost at least
    gone: set[int] = set()
    stuck: list[int] = []
    while waiting:
        _, start = heappop(waiting)
        if start == len(bands):
            break
        if start in gone:
            continue
        gone.add(start)
        room = turned_height if bands[start].turned else height
        ends = [(cost, end) for stack in stacks for cost, end in _best(stack, start, room)]
        if not ends:
            stuck.append(start)
        for cost, end in ends:
            total = costs[start][0] + cost + _CLOSE * abs(1 - end.stack.spacing)
            if (total, start) < costs.get(end.stop, (NEVER, 0)):
                costs[end.stop], ways[end.stop] = (total, start), end
                heappush(waiting, (total + rest[end.stop], end.stop))
    if len(bands) not in costs:
        raise _too_high(bands[min(stuck)])
    found: list[_End] = []
    at = len(bands)
    while at:
        found.append(ways[at])
        at = ways[at].start
    return found[::-1]


def _least_costs(closest: Stack, height: float, turned_height: float) -> list[float]:
    """What the pages cost at least that begin with each band, or with none: so many pages as their
    bands fill without white space between them. No page holds more, so that none is passed over
    that could belong to the cheapest."""
    pages, found = 0.0, [0.0]
    for index in range(len(closest.bands) - 1, -1, -1):
        band = closest.bands[index]
        room = (turned_height if band.turned else height) + _ROUNDED
        lanes = len(band.lanes.lefts) if band.lanes else 1
        pages += closest.high(index) / (room * lanes)
        found.append((_PAGE + CHEAPEST) * ceil(pages))
    return found[::-1]


def _too_high(band: BandShape) -> PatternError:
    return fail(
        "pdf.layout",
        f"a {band.what} is higher than the page",
        "Make it shorter, cut it in parts, or choose another paper",
    )


def _best(stack: Stack, start: int, height: float) -> list[tuple[float, _End]]:
    """The best ends of the page that begins with ``start``, with its cost, the cheapest first."""
    bands = stack.bands
    found: list[tuple[float, int, _End]] = []
    fullest: _End | None = None
    fresh = stack.fresh_after(start)
    stale = False
    for end in _ends(stack, start, height):
        if fullest is None:
            fullest = end
            stale = _is_low(stack, fresh, end, height)
            whole = end.stop == len(bands)
            if must_end(bands, start, end.stop) if not whole else not (stale and fresh < end.stop):
                return [(_PAGE + _runt(end.filled, height), end)]
        empty = _PAGE + _emptiness(end.filled, height)
        if end.stop == len(bands):
            empty = _PAGE + _runt(end.filled, height)
        if stale and fresh < end.stop:
            empty += _STALE
        if len(found) >= _LOOKED_AT and empty + CHEAPEST >= found[_LOOKED_AT - 1][0]:
            break
        cost = empty + _keep(stack, end.stop)
        if cost < NEVER:
            insort(found, (cost, -end.stop, end))
    if fullest and not found:  # no break is allowed
        return [(_PAGE + _FORCED, fullest)]
    return [(cost, end) for cost, _, end in found[:_LOOKED_AT]]


def _runt(filled: float, height: float) -> float:
    """The cost of a last page that is less than half full."""
    short = max(0.0, 1 - filled / (height * _RUNT_SHARE))
    return _RUNT * short + min(_SHORT, _SHORT_COST * short)


def _emptiness(filled: float, height: float) -> float:
    """The cost of leaving a page empty below ``filled``: little, where it is hardly seen."""
    gap = 1 - filled / height - _GAP
    return emptiness(filled, height) + (_SEEN + _GAP_COST * gap if gap > 0 else 0.0)


def _is_low(stack: Stack, fresh: int, fullest: _End, height: float) -> bool:
    """Whether the band ``fresh`` would begin in the lower half of the page."""
    for run in (run for stretch in fullest.stretches for run in stretch):
        if run.start <= fresh < run.stop:
            above = stack.reach(run.start, fresh, run.known) if fresh > run.start else 0.0
            return run.top + above >= _LOW * height
    return False


def _keep(stack: Stack, stop: int) -> float:
    """The cost of the break before ``stop``."""
    before, after = stack.bands[stop - 1], stack.bands[stop]
    if after.lanes is None or after.lanes is not before.lanes:
        return before.keep
    left = stack.reach(stop, stack.stop(stop))
    cut = _CUT_ENTRIES if before.what == "entry" else _CUT_LANES
    return before.keep + cut + (_STRAY if left < _FEW_LINES else 0.0)


def _ends(stack: Stack, start: int, height: float) -> Iterator[_End]:
    """The ways to end the page that begins with ``start``, the fullest first."""
    stretches = tuple(_on_page(stack, start, height))
    for number in range(len(stretches), 0, -1):
        held = stretches[:number]
        last = held[-1][-1]
        yield _End(stack, held, last.stop, max(run.bottom for run in held[-1]))
        if stack.bands[last.start].lanes is None:
            for stop in range(last.stop - 1, last.start, -1):
                yield _End(stack, held, stop, last.top + stack.reach(last.start, stop, last.known))
        elif _is_long(stack, height):
            continue
        elif last.stop < stack.stop(last.start) or _is_closing(stack, last.stop, height):
            yield from _shorter(stack, held, height)


def _is_long(stack: Stack, height: float) -> bool:
    return stack.lows[-1] > _MANY * height


def _is_closing(stack: Stack, stop: int, height: float) -> bool:
    """Whether what follows ``stop`` would leave a closing page nearly empty."""
    return stop < len(stack.bands) and stack.after(stop) < height * _RUNT_SHARE


def _shorter(stack: Stack, held: tuple[tuple[BandRun, ...], ...], height: float) -> Iterator[_End]:
    """The ways to end a page in lanes that go on overleaf before they are full, or whole."""
    *above, lanes = held
    first, stop = lanes[0], lanes[-1].stop
    for share in _SHORTER:
        shape = stack.bands[first.start].lanes
        runs = in_lanes(stack, first.start, shape, first.top, height * share) if shape else ()
        if runs and runs[-1].stop < stop:
            stop = runs[-1].stop
            yield _End(stack, (*above, runs), stop, max(run.bottom for run in runs))


def _on_page(stack: Stack, start: int, height: float) -> list[tuple[BandRun, ...]]:
    """What the page that begins with ``start`` can hold, by stretches that share lanes."""
    bands = stack.bands
    found: list[tuple[BandRun, ...]] = []
    at, y = start, 0.0
    while at < len(bands) and not (at > start and must_end(bands, start, at)):
        top = y + (stack.white(at) if at > start else 0.0)
        lanes = bands[at].lanes
        runs = (
            in_lanes(stack, at, lanes, top, height)
            if lanes
            else _down(stack, at, top, height, start)
        )
        if runs:
            found.append(runs)
        if not runs or runs[-1].stop < stack.stop(at):
            break
        y = max(run.bottom for run in runs)
        at = runs[-1].stop
    return found


def _down(stack: Stack, start: int, top: float, height: float, first: int) -> tuple[BandRun, ...]:
    """The bands from ``start`` on that fit below ``top``, across the page that begins with
    ``first``."""
    above = stack.resumed(start)
    known = above is not None and above >= first
    stop = stack.fits(start, height - top, known)
    if stop == start:
        return ()
    bottom = top + stack.reach(start, stop, known)
    return (BandRun(start, stop, 0.0, top, bottom, above is not None, known),)
