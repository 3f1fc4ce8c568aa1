"""Where pages end: of all ways to cut a galley, the one that costs least.

A page costs what its break costs and the emptiness it leaves, so headings stay with their text,
rows stay whole, short tables move to the next page rather than being cut, and white space is spread
over pages rather than heaped on one. Where it spares a page, white space between bands gives way a
little.

Everything is placed before anything is drawn: the number of pages is known, nothing is drawn twice.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from heapq import heappop, heappush

from generator.diagnostics import PatternError, fail
from generator.render.pdf.galley import NEVER, Band, Page
from generator.render.pdf.lanes import in_lanes
from generator.render.pdf.stacking import Run, Stack, must_end, placed

_PAGE = 15.0  # the cost of a page
_EMPTY_PAGE = 100.0  # the cost of leaving a whole page empty; it grows with the square
_CUT_LANES = 10.0  # the cost of lanes that go on overleaf
_RUNT = 30.0  # the cost of a last page with next to nothing on it
_RUNT_SHARE = 0.3  # of the frame's height: what is next to nothing
_LOOKED_AT = 6  # ways to end a page, the best, from which pages are looked for further
_SPACINGS = (0.9, 0.8)  # of the white space between bands
_CLOSE = 40.0  # the cost of a document without such white space
_SPARED = 0.6  # of the frame: a last page that is fuller is not spared by giving way
_MANY = 60  # pages, of which one more or less is not noticed


def paginate(bands: Sequence[Band], height: float, turned_height: float) -> list[Page]:
    """Cut ``bands`` into pages whose frames are ``height`` high.

    Raises ``PatternError`` (id ``pdf.layout``) when a band is higher than the frame.
    """
    if not bands:
        return []
    way = best = _cheapest(bands, height, turned_height, 1.0)
    for spacing in _SPACINGS:
        if way.ends[-1].filled > _SPARED * height or len(way.ends) > _MANY:
            break
        way = _cheapest(bands, height, turned_height, spacing)
        if way.cost < best.cost:
            best = way
    return [placed(best.stack, end.runs) for end in best.ends]


@dataclass(frozen=True, slots=True)
class _End:
    """A way to end a page: the runs on it, and how far down they reach."""

    runs: tuple[Run, ...]
    filled: float

    @property
    def start(self) -> int:
        return self.runs[0].start

    @property
    def stop(self) -> int:
        return self.runs[-1].stop


@dataclass(frozen=True, slots=True)
class _Way:
    """A way to cut the galley."""

    cost: float
    ends: tuple[_End, ...]
    stack: Stack


def _cheapest(bands: Sequence[Band], height: float, turned_height: float, spacing: float) -> _Way:
    stack = Stack(bands, max(height, turned_height), spacing)
    costs = {0: 0.0}  # of the pages before one that begins with a band
    ways: dict[int, _End] = {}  # the last of these pages
    waiting = [0]
    stuck: list[int] = []
    while waiting and waiting[0] < len(bands):
        start = heappop(waiting)
        room = turned_height if bands[start].turned else height
        ends = _ends(stack, start, room)
        if not ends:
            stuck.append(start)
        for cost, end in _best(bands, ends, room):
            total = costs[start] + cost
            if end.stop not in costs:
                heappush(waiting, end.stop)
            if total < costs.get(end.stop, NEVER):
                costs[end.stop], ways[end.stop] = total, end
    if len(bands) not in costs:
        raise _too_high(bands[stuck[0]])
    found: list[_End] = []
    at = len(bands)
    while at:
        found.append(ways[at])
        at = ways[at].start
    cost = costs[len(bands)] + _CLOSE * (1 - spacing)
    return _Way(cost, tuple(reversed(found)), stack)


def _too_high(band: Band) -> PatternError:
    return fail(
        "pdf.layout",
        f"a {band.what} is higher than the page",
        "Make it shorter, cut it in parts, or choose another paper",
    )


def _best(bands: Sequence[Band], ends: Sequence[_End], height: float) -> list[tuple[float, _End]]:
    """The best of ``ends`` with the cost of their page, the cheapest first."""
    if not ends:
        return []
    last = ends[-1]
    if last.stop == len(bands) or must_end(bands, last.start, last.stop):
        runt = max(0.0, 1 - last.filled / (height * _RUNT_SHARE))
        return [(_PAGE + _RUNT * runt, last)]
    found = []
    for end in reversed(ends):
        keep = bands[end.stop - 1].keep
        if bands[end.stop].lanes and bands[end.stop].lanes is bands[end.stop - 1].lanes:
            keep += _CUT_LANES
        if keep < NEVER:
            found.append((_PAGE + keep + _EMPTY_PAGE * (1 - end.filled / height) ** 2, end))
    found.sort(key=lambda each: each[0])
    return found[:_LOOKED_AT] or [(_PAGE, last)]  # no break is allowed: take the fullest page


def _ends(stack: Stack, start: int, height: float) -> list[_End]:
    """The ways to end the page that begins with ``start``, the fullest last."""
    ends: list[_End] = []
    done: tuple[Run, ...] = ()
    at, y = start, 0.0
    bands = stack.bands
    while at < len(bands) and not (at > start and must_end(bands, start, at)):
        top = y + (stack.white(at) if at > start else 0.0)
        lanes = bands[at].lanes
        if lanes:
            runs = in_lanes(stack, at, lanes, top, height)
            if not runs:
                break
            ends.append(_End((*done, *runs), max(run.bottom for run in runs)))
        else:
            found = list(_one_by_one(stack, at, top, height))
            if not found:
                break
            ends += [_End((*done, run), run.bottom) for run in found]
            runs = (found[-1],)
        if runs[-1].stop < stack.stop(at):
            break
        done = (*done, *runs)
        y = max(run.bottom for run in runs)
        at = stack.stop(at)
    return ends


def _one_by_one(stack: Stack, start: int, top: float, height: float) -> Iterator[Run]:
    """The runs from ``start`` on of one band, of two and so on, as far as they fit."""
    for count, reach in enumerate(stack.reaches(start, height - top), start=1):
        yield Run(start, start + count, 0.0, top, top + reach)
