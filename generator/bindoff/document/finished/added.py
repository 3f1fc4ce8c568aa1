"""What is knitted on its own and put on a finished piece: a flap that hangs from its lower edge,
and the strip that ties its top."""

from collections.abc import Iterator
from math import cos, hypot, pi, sin

from bindoff.document.finished.courses import Course, Courses, courses_of
from bindoff.document.finished.laidflat import Patch
from bindoff.document.finished.strips import Strip
from bindoff.document.voice import Voice
from bindoff.plan.gauge import Gauge
from bindoff.plan.outlines.choose import outline_of
from bindoff.plan.outlines.shapes import Line, Outline, Point
from bindoff.plan.picture import piece_gauges
from bindoff.plan.steps.edging import Edged
from bindoff.plan.worked import PiecePlan
from bindoff.source.shape import PanelShape

_EDGE = 5.0  # mm: as high as a row of crochet is drawn
_NARROW = 12  # stitches: a strip that something is tied with has no more
_KNOT = 0.6  # of a strip's width: its knot,
_DRAWN_IN = 0.45  # ... and the strip where it comes out of it
_APART = (66, 58, 46, 36)  # degrees from straight down: how an end of a strip falls, from its knot
_LONGEST = 0.5  # of the piece's height: more of an end would hide what is below


def hanging(voice: Voice, piece: PiecePlan, size: int) -> Iterator[Patch | Strip]:
    """The pieces that hang from the lower edge of ``piece``, behind it, each with its edging.

    The lower edge of ``piece`` lies at height 0.
    """
    for other in voice.plan.pieces:
        written = voice.plan.source.pattern.pieces[other.key]
        shape = written.schematic
        if not isinstance(shape, PanelShape) or shape.hangs_from != piece.key:
            continue
        outline = outline_of(voice.plan.measures, voice.plan.pieces, other.key)[0].shapes[0]
        top = min(y for _, y in outline)
        hung = tuple((x, y - top) for x, y in outline)
        rows = next(iter(courses_of(voice, other, size)), ())
        if not rows:
            continue
        gauge = piece_gauges(voice.plan.measures, written)[size]
        yarn = edging_yarn(other)
        if yarn:
            yield _edged(hung, yarn, gauge)
        yield Patch(hung, tuple(reversed(rows)), down=True, around=False, gauge=gauge)


def hangs(voice: Voice, piece: PiecePlan) -> list[str]:
    """The titles of the pieces that hang from ``piece``."""
    pieces = voice.plan.source.pattern.pieces.values()
    shapes = [(each.title, each.schematic) for each in pieces]
    return [t for t, s in shapes if isinstance(s, PanelShape) and s.hangs_from == piece.key]


def _edged(outline: Line, yarn: str, gauge: Gauge) -> Strip:
    """A row of crochet around all sides of a hanging piece but the upper one."""
    low, high = max(y for _, y in outline), min(y for _, y in outline)
    bottom = [x for x, y in outline if y == low]
    top = [x for x, y in outline if y == high]
    inner = ((min(top), high), (min(bottom), low), (max(bottom), low), (max(top), high))
    outer = tuple((x + (_EDGE if x > 0 else -_EDGE), y + _EDGE * (y == low)) for x, y in inner)
    crochet = Gauge(gauge.stitch_mm, _EDGE)
    return Strip(inner, outer, (Course((yarn,)),), across=True, gauge=crochet)


def edging_yarn(piece: PiecePlan) -> str:
    """The yarn of the crochet along the edges of a piece; none where it has no such edge."""
    return next((step.yarn for step in piece.steps if isinstance(step.detail, Edged)), "")


# ---------------------------------------------------------------- ties


def tie_of(voice: Voice, piece: PiecePlan, size: int) -> PiecePlan | None:
    """What ties a tube at its top: a narrow strip, if the pattern has one."""
    others = [each for each in voice.plan.pieces if each is not piece and each.steps]
    ties = [each for each in others if _fewest(each, size) <= _NARROW]
    return min(ties, key=lambda each: _fewest(each, size)) if ties else None


def _fewest(piece: PiecePlan, size: int) -> int:
    """The stitches a piece begins with."""
    return next((s.after[size].stitches for s in piece.steps if s.begins is not None), _NARROW + 1)


def tied(voice: Voice, tie: PiecePlan, outline: Outline, size: int) -> Iterator[Patch | Strip]:
    """A strip around the neck of an ``outline``, its two ends, and the knot they come from."""
    rows = next(iter(courses_of(voice, tie, size)), ())
    if not rows:
        return
    band = outline.shapes[-1]
    written = voice.plan.source.pattern.pieces[tie.key]
    gauge = piece_gauges(voice.plan.measures, written)[size]
    wide = _fewest(tie, size) * gauge.stitch_mm
    left, right = min(x for x, _ in band), max(x for x, _ in band)
    middle = (min(y for _, y in band) + max(y for _, y in band)) / 2
    half = wide * _KNOT / 2
    high = max(y for _, y in outline.shapes[0]) - middle
    left_over = len(rows) * gauge.round_mm - 2 * (right - left) - 4 * half
    long = min(max(left_over / 2, 2 * half), _LONGEST * high)
    yarn = edging_yarn(tie)
    yield Patch(band, rows, turn=pi / 2, around=False)
    for side in (-1, 1):
        yield from _end((0.0, middle), side, long, wide / 2, rows, yarn)
    knot = ((-half, -half), (half, -half), (half, half), (-half, half))
    yield Patch(_rounded(knot, middle), rows, turn=pi / 2, around=False)


def _end(
    start: Point, side: int, long: float, half: float, rows: Courses, yarn: str
) -> Iterator[Strip]:
    """An end of a strip that falls to one side, with a crocheted stitch along both of its edges."""
    x, y = start
    line = [start]
    for degrees in _APART:
        angle = degrees * pi / 180
        x, y = x + side * sin(angle) * long / len(_APART), y + cos(angle) * long / len(_APART)
        line.append((x, y))
    one, other = _beside(line, -half), _beside(line, half)
    if yarn:
        crochet = (Course((yarn,)),)
        for edge, far in ((one, -half - _EDGE), (other, half + _EDGE)):
            yield Strip(edge, _beside(line, far), crochet)
    yield Strip(one, other, rows)


def _beside(line: list[Point], away: float) -> Line:
    """The line that runs ``away`` to the right of one that goes down, nearer where it begins."""
    found = []
    wider = (1 - _DRAWN_IN) / (len(line) - 1)
    for at, (x, y) in enumerate(line):
        (a, b), (c, d) = line[max(0, at - 1)], line[min(len(line) - 1, at + 1)]
        long = hypot(c - a, d - b)
        far = away * (_DRAWN_IN + wider * at) / long
        found.append((x + far * (d - b), y - far * (c - a)))
    return tuple(found)


def _rounded(corners: Line, middle: float) -> Line:
    """A square without its corners, around a height."""
    found: list[Point] = []
    for at, (x, y) in enumerate(corners):
        for other in (corners[at - 1], corners[(at + 1) % len(corners)]):
            found.append((x + (other[0] - x) * 0.25, middle + y + (other[1] - y) * 0.25))
    return tuple(found)
