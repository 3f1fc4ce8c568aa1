"""Strands as shapes on paper, with each crossing drawn as it lies.

Every strand is painted whole; then the parts that lie over others again, in the order in which they
were made, each with a little white beside it.
"""

from bisect import bisect_right
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Literal

from bindoff.document.drawing import Path, Shape
from bindoff.document.yarn.curves import Cubic, Meeting, cubics, lengths, meetings, part, shape_of
from bindoff.document.yarn.knitting import Strand
from bindoff.records import Record

Command = tuple[str | float, ...]
Span = tuple[float, float]

OUTLINE = 0.26  # mm of the outline of yarn
_CASING = 0.3  # mm of white beside a strand that lies over another,
_CASING_WITHIN = 0.15  # and over one that is worked together with it
_RUN_ON = 0.09  # mm that yarn runs past its outline: ends that only met would leave a hair line
_SLANT = 0.5  # strands that cross at a smaller sine are taken as if at this


class Crossing(Record):
    """Two strands of a drawing, by number, and the place on each: ``over`` lies in front."""

    over: int
    at: float
    under: int
    there: float
    sine: float


def crossings(strands: Sequence[Strand]) -> Iterator[Crossing]:
    """Every crossing; who is in front follows from when and how the strands were made.

    The later strand says whether it passes in front or behind; of strands of one order the one
    of higher rank lies in front.
    """
    for meeting in meetings([cubics(strand.knots) for strand in strands]):
        one, other = strands[meeting.one], strands[meeting.other]
        early, late = _value(one, meeting.at, "order"), _value(other, meeting.there, "order")
        if early in other.along or late in one.along:
            continue
        if early != late:
            later = (one, meeting.at) if early > late else (other, meeting.there)
            first = (_value(*later, "front") > 0) == (early > late)
        else:
            mine = _value(one, meeting.at, "own")
            yours = _value(other, meeting.there, "own")
            first = mine > yours if mine != yours else meeting.at > meeting.there
        yield _crossing(meeting, first)


def _crossing(meeting: Meeting, first: bool) -> Crossing:
    a, p, b, q, sine = meeting.one, meeting.at, meeting.other, meeting.there, meeting.sine
    return Crossing(a, p, b, q, sine) if first else Crossing(b, q, a, p, sine)


def _value(strand: Strand, at: float, name: Literal["order", "front", "own"]) -> float:
    """A property of a strand between two knots; the order does not blend."""
    first = min(int(at), len(strand.knots) - 2)
    share = at - first
    before: float = getattr(strand.knots[first], name)
    after: float = getattr(strand.knots[first + 1], name)
    if name == "order":
        return before if share < 0.5 else after
    return before + (after - before) * share


class _Way:
    """The places along a strand, and how far from its start they lie."""

    def __init__(self, strand: Strand) -> None:
        self.curve = cubics(strand.knots)
        self._places, self._lengths = [0.0], [0.0]
        for number, cubic in enumerate(self.curve):
            steps = lengths(shape_of(cubic))
            begun = self._lengths[-1]
            for at, done in enumerate(steps[1:], 1):
                self._places.append(number + at / (len(steps) - 1))
                self._lengths.append(begun + done)
        self.length = self._lengths[-1]

    def far(self, place: float) -> float:
        """The way from the start to a place, mm."""
        return _between(self._places, self._lengths, place)

    def place(self, far: float) -> float:
        """The place that lies so far from the start."""
        return _between(self._lengths, self._places, far)

    def part(self, start: float, end: float, origin: tuple[float, float]) -> tuple[Command, ...]:
        """The commands that draw what lies between two distances from the start."""
        return drawn(part(self.curve, self.place(start), self.place(end)), origin)


def _between(these: Sequence[float], those: Sequence[float], value: float) -> float:
    at = min(max(bisect_right(these, value), 1), len(these) - 1)
    low, high = these[at - 1], these[at]
    share = (value - low) / (high - low) if high > low else 0.0
    return those[at - 1] + (those[at] - those[at - 1]) * min(max(share, 0.0), 1.0)


def drawn(curve: Iterable[Cubic], origin: tuple[float, float]) -> tuple[Command, ...]:
    """Cubics as commands of a path, y down, their (0, 0) at ``origin``."""
    x, y = origin
    found = list[Command]()
    for a, b, c, d in curve:
        if not found:
            found.append(("M", x + a[0], y - a[1]))
        found.append(("C", x + b[0], y - b[1], x + c[0], y - c[1], x + d[0], y - d[1]))
    return tuple(found)


def woven(
    strands: Sequence[Strand],
    colours: Mapping[str, str],
    origin: tuple[float, float] = (0.0, 0.0),
) -> tuple[Shape, ...]:
    """The strands as shapes, y down, their (0, 0) at ``origin``.

    ``colours`` gives those of the strands' parts by name, with ``ink`` and ``paper``.
    """
    ways = [_Way(strand) for strand in strands]
    over: dict[int, list[Span]] = defaultdict(list)
    under: dict[int, list[float]] = defaultdict(list)
    for each in crossings(strands):
        top, low = strands[each.over], strands[each.under]
        reach = low.thick / 2 + _CASING + top.thick / 2 * (1 - each.sine)
        over[each.over].append((ways[each.over].far(each.at), reach / max(each.sine, _SLANT)))
        under[each.under].append(ways[each.under].far(each.there))
    shapes = list[Shape]()
    for strand, way in zip(strands, ways, strict=True):
        shapes += _painted(strand, way, [(0.0, way.length)], colours, origin, whole=True)
    pieces = defaultdict[tuple[float, float, int], list[Span]](list)
    top_spans = defaultdict[tuple[float, float, int], list[Span]](list)
    for number, (strand, way) in enumerate(zip(strands, ways, strict=True)):
        for span in _spans(over[number], sorted(under[number]), way.length):
            pieces[_rank(strand, way, span, number)].append(span)
        for start, end in strand.above:
            span = way.far(start), way.far(end)
            top_spans[_rank(strand, way, span, number)].append(span)
    laid = set[int]()
    for rank in sorted({*pieces, *top_spans}):
        strand, way = strands[rank[2]], ways[rank[2]]
        if strand.ground and rank[1] > 0 and rank[2] not in laid:
            laid.add(rank[2])
            x, y = origin
            corners = [(x + a, y - b) for a, b in strand.ground]
            outline = (("M", *corners[0]), *(("L", *each) for each in corners[1:]), ("Z",))
            shapes.append(Path(outline, fill=colours["paper"]))
        cased = tuple(c for span in pieces[rank] for c in way.part(*span, origin))
        if cased:
            casing = _CASING_WITHIN if rank[1] else _CASING
            wide = strand.thick + 2 * casing
            shapes.append(Path(cased, stroke=colours["paper"], width=wide, cut=True))
        shapes += _painted(strand, way, pieces[rank] + top_spans[rank], colours, origin)
    return tuple(shapes)


def _rank(strand: Strand, way: _Way, span: Span, number: int) -> tuple[float, float, int]:
    middle = way.place((span[0] + span[1]) / 2)
    return _value(strand, middle, "order"), _value(strand, middle, "own"), number


def _spans(over: Sequence[Span], under: Sequence[float], length: float) -> Iterator[Span]:
    """The parts of a strand that are painted again, each to both sides of a place where it lies
    over, but no further than half way to the next place where it lies under."""
    found = list[Span]()
    for at, reach in sorted(over):
        nth = bisect_right(under, at)
        low, high = max(at - reach, 0.0), min(at + reach, length)
        if nth:
            low = max(low, (under[nth - 1] + at) / 2)
        if nth < len(under):
            high = min(high, (under[nth] + at) / 2)
        if found and low <= found[-1][1]:
            found[-1] = (found[-1][0], max(high, found[-1][1]))
        else:
            found.append((low, high))
    yield from found


def _painted(
    strand: Strand,
    way: _Way,
    spans: Sequence[Span],
    colours: Mapping[str, str],
    origin: tuple[float, float],
    whole: bool = False,
) -> Iterator[Path]:
    """Outline, yarn, and the parts of other colours, of what lies in ``spans``."""
    run_on = 0.0 if whole else _RUN_ON
    outline = tuple(c for span in spans for c in way.part(*span, origin))
    inside = tuple(c for a, b in spans for c in way.part(a - run_on, b + run_on, origin))
    inner = strand.thick - 2 * OUTLINE
    yield Path(outline, stroke=colours["ink"], width=strand.thick, cut=True)
    yield Path(inside, stroke=colours[strand.part], width=inner, cut=True)
    for start, end, name in strand.parts:
        first, last = way.far(start), way.far(end)
        shared = [
            (max(a - run_on, first), min(b + run_on, last))
            for a, b in spans
            if min(b + run_on, last) > max(a - run_on, first)
        ]
        commands = tuple(c for span in shared for c in way.part(*span, origin))
        if commands:
            yield Path(commands, stroke=colours[name], width=inner, cut=True)
