"""Lanes: narrow columns side by side, down which a stretch of bands runs, one after the other.

A stretch that ends on its page is levelled: its lanes are as low and as alike as good breaks let
them be. One that does not fills them, and goes on overleaf.
"""

from collections.abc import Iterator

from bindoff.render.pdf.galley import CHEAPEST, NEVER, emptiness
from bindoff.render.pdf.stacking import BandRun, Filled, LaneEnds, LanesShape, Stack

_LONG_LANE = 100.0  # the cost of lanes as high as the page; levelled lanes are lower
_STEP = 4.0  # points: how finely lanes are levelled
_LEAST_LANE = 0.09  # of the frame: lanes that are cut are not begun in less room than this


def in_lanes(
    stack: Stack, start: int, lanes: LanesShape, top: float, height: float
) -> tuple[BandRun, ...]:
    """The stretch from ``start`` on in lanes that begin at ``top`` of a frame: all of it, levelled,
    if there is room, else as much as fits.

    Nothing where that would part what belongs together, but at the top of a page.
    """
    room, count = height - top, len(lanes.lefts)
    cuts = _levelled(stack, start, count, room)
    if not cuts:
        cuts, _, _ = _filled(stack, start, count, room)
        if top > 0 and (room < height * _LEAST_LANE or _broken(stack, cuts) == NEVER):
            return ()
    return tuple(_runs(start, lanes, top, cuts))


def _runs(start: int, lanes: LanesShape, top: float, cuts: LaneEnds) -> Iterator[BandRun]:
    for left, (end, bottom) in zip(lanes.lefts, cuts, strict=False):
        yield BandRun(start, end, left, top, top + bottom)
        start = end


def _levelled(stack: Stack, start: int, count: int, room: float) -> LaneEnds:
    """Lanes of like height that hold the whole stretch; nothing if it has no room."""
    stop, high = stack.stop(start), stack.all_high(start)
    if high > room * count:
        return []
    best: tuple[float, LaneEnds] = (NEVER, [])
    height = min(high / count, room)
    while True:
        cuts, low, broken = _filled(stack, start, count, height)
        if cuts and cuts[-1][0] == stop:
            cost = _LONG_LANE * low / room + broken
            if cost < best[0]:
                best = (cost, cuts)
            if len(cuts) < count or broken <= 0:
                break  # higher lanes can't be better
        if height >= room:
            break
        height = min(height + _STEP, room)
    return best[1]


def _broken(stack: Stack, cuts: LaneEnds) -> float:
    """The cost of the breaks after ``cuts``."""
    return sum(max(0.0, stack.keeps[end - 1]) for end, _ in cuts)


def _filled(stack: Stack, start: int, count: int, height: float) -> Filled:
    """At most ``count`` lanes of ``height``, each ended where that costs least.

    Remembered, because lanes of the same heights are tried for every page that they may stand on.
    """
    asked = start, count, height
    found = stack.filled.get(asked)
    if found is None:
        cuts = _ended(stack, start, count, height)
        low = max((bottom for _, bottom in cuts), default=0.0)
        found = stack.filled[asked] = cuts, low, _broken(stack, cuts[:-1])
    return found


def _ended(stack: Stack, start: int, count: int, height: float) -> LaneEnds:
    cuts: LaneEnds = []
    stop = stack.stop(start)
    while start < stop and len(cuts) < count:
        end = stack.fits(start, height)
        if end == start:
            break
        if end < stop:
            end = _end(stack, start, end, height)
        cuts.append((end, stack.reach(start, end)))
        start = end
    return cuts


def _end(stack: Stack, start: int, full: int, height: float) -> int:
    """Where a lane ends that could hold the bands from ``start`` to ``full``."""
    best, found = NEVER, full
    lows, keeps, origin = stack.lows, stack.keeps, stack.origins[start]
    for last in range(full - 1, start - 1, -1):
        empty = emptiness(lows[last] - origin, height)
        if empty + CHEAPEST >= best:
            break
        cost = keeps[last] + empty
        if cost < best:
            best, found = cost, last + 1
    return found
