"""What technique drawings share: colours, numbers, arrows, tools, and the sheet they lie on.

Places are millimetres with y up, as those of yarn; the shapes made of them have y down.
"""

from collections.abc import Iterable, Sequence
from itertools import chain
from math import atan2, cos, pi, sin

from bindoff.craft.symbols import circle
from bindoff.document.drawing import Drawing, Label, Lines, Path, Shape, moved, reach
from bindoff.document.lettering import CAP_HEIGHT
from bindoff.document.yarn.curves import Knot, cubics, through
from bindoff.document.yarn.knitting import Strand
from bindoff.document.yarn.weave import drawn, woven
from bindoff.records import Record, replace

Point = tuple[float, float]

LETTERS = 3.2  # mm, 9 points as captions are; the whole drawing grows with the type it is made for
EDGE = 0.6  # mm of white around all
STAGES_APART = 1.8  # mm; three stages in letters of 18 points keep to a page of large print
_NAMES_APART = 6.0
_DISC = 2.1  # mm, the radius of a number's disc
_OUTLINE, _SHAFT = 0.28, 0.35
_HEAD, _NOTCH = 2.1, 0.78  # mm of an arrow's head, and the share of it that is solid
_WHITE = 0.8  # mm of paper around marks, in all
_TOOL = 1.15  # mm, a blunt needle


class Inks(Record):
    """The colours of a drawing. ``thread`` is the one accent: the yarn that moves, or the stitch
    that is meant; ``shade`` tools and loops that lie on top; ``tint`` another piece's yarn."""

    thread: str = "#e8794a"
    shade: str = "#d9d9d9"
    tint: str = "#efefef"
    ink: str = "#000000"
    paper: str = "#ffffff"

    @property
    def by_part(self) -> dict[str, str]:
        """The colours by what they are for."""
        return {
            "ink": self.ink,
            "paper": self.paper,
            "yarn": self.paper,
            "other": self.tint,
            "top": self.shade,
            "tool": self.shade,
            "meant": self.thread,
            "thread": self.thread,
        }


# ---------------------------------------------------------------- yarn


def yarn(strands: Iterable[Strand], inks: Inks) -> tuple[Shape, ...]:
    """Strands with their crossings."""
    return woven(tuple(strands), inks.by_part)


def shifted(strands: Iterable[Strand], x: float, y: float) -> tuple[Strand, ...]:
    """The strands further right and up."""
    return tuple(
        _rebuilt(s, [_knot(k, k.x + x, k.y + y, k.dx, k.dy) for k in s.knots]) for s in strands
    )


def upside_down(strands: Iterable[Strand], about: float, part: str = "") -> tuple[Strand, ...]:
    """The strands mirrored in the level line at ``about``, which keeps what is in front there."""
    return tuple(
        _rebuilt(s, [_knot(k, k.x, 2 * about - k.y, k.dx, -k.dy) for k in s.knots], part)
        for s in strands
    )


def earlier(strands: Iterable[Strand], by: float) -> tuple[Strand, ...]:
    """The strands as if made earlier: what is made later says where it passes them."""
    return tuple(
        _rebuilt(s, [replace(knot, order=knot.order - by) for knot in s.knots]) for s in strands
    )


def on_its_side(strands: Iterable[Strand]) -> tuple[Strand, ...]:
    """The strands with right for up and up for left, a quarter turn against the clock."""
    return tuple(_rebuilt(s, [_knot(k, -k.y, k.x, -k.dy, k.dx) for k in s.knots]) for s in strands)


def bent(strands: Iterable[Strand], radius: float, round_: float, squeeze: float) -> list[Strand]:
    """The strands around a circle: a row ``round_`` mm long goes once around, clockwise from the
    top, and what lies at height 0 is ``radius`` from the middle, all below it further out."""

    def at(x: float, y: float) -> Point:
        turn = 2 * pi * x / round_
        far = radius - y * squeeze
        return far * sin(turn), far * cos(turn)

    found, step = [], 0.02
    for strand in strands:
        knots = []
        for knot in strand.knots:
            x, y = at(knot.x, knot.y)
            ahead = at(knot.x + knot.dx * step, knot.y + knot.dy * step)
            knots.append(_knot(knot, x, y, (ahead[0] - x) / step, (ahead[1] - y) / step))
        found.append(_rebuilt(strand, knots))
    return found


def _knot(knot: Knot, x: float, y: float, dx: float, dy: float) -> Knot:
    return Knot(x, y, dx, dy, knot.order, knot.front, knot.own)


def _rebuilt(strand: Strand, knots: Sequence[Knot], part: str = "") -> Strand:
    return Strand(
        tuple(knots), strand.thick, part or strand.part, strand.parts, strand.above, strand.along
    )


# ---------------------------------------------------------------- marks


def curve(points: Sequence[Point]) -> tuple[tuple[str | float, ...], ...]:
    """The commands of a smooth line through points."""
    return drawn(cubics(through([(x, y, 0.0) for x, y in points], 0.0)), (0.0, 0.0))


def polygon(points: Sequence[Point]) -> tuple[tuple[str | float, ...], ...]:
    """The commands of a closed outline of straight sides."""
    (x, y), *others = points
    return (("M", x, -y), *(("L", a, -b) for a, b in others), ("Z",))


def arrow(points: Sequence[Point], inks: Inks) -> tuple[Shape, ...]:
    """A movement: a thin line with a narrow head at its end, on a little white."""
    (ax, ay), (bx, by) = points[-2:]
    if len(points) > 2:
        last = cubics(through([(x, y, 0.0) for x, y in points], 0.0))[-1]
        ax, ay = last[2]
    angle = atan2(by - ay, bx - ax)
    neck = bx - _HEAD * _NOTCH * cos(angle), by - _HEAD * _NOTCH * sin(angle)
    shaft = curve([*points[:-1], neck])
    corners = ((0.0, 0.0), (-_HEAD, 0.33 * _HEAD), (-_HEAD * _NOTCH, 0.0), (-_HEAD, -0.33 * _HEAD))
    head = polygon([_turned(bx, by, angle, *each) for each in corners])
    return (
        Path(shaft, stroke=inks.paper, width=_SHAFT + _WHITE, cut=True),
        Path(shaft, stroke=inks.ink, width=_SHAFT, cut=True),
        Path(head, fill=inks.ink),
    )


def number(x: float, y: float, text: str, inks: Inks) -> tuple[Shape, ...]:
    """A stage's number, or a piece's letter, in a disc around (x, y)."""
    return (
        Path(circle(x, -y, _DISC + 0.3), fill=inks.paper),
        Path(circle(x, -y, _DISC), fill=inks.paper, stroke=inks.ink, width=_OUTLINE),
        label(x, y - LETTERS * CAP_HEIGHT / 2, text, inks, bold=True),
    )


def label(x: float, y: float, text: str, inks: Inks, bold: bool = False) -> Label:
    """A word or a figure with the middle of its baseline at (x, y)."""
    return Label(x, -y, text, LETTERS, "middle", inks.ink, bold)


def lines(
    segments: Iterable[tuple[Point, Point]],
    inks: Inks,
    width: float = 0.45,
    dash: tuple[float, float] | None = None,
) -> Lines:
    """Straight strokes."""
    return Lines(tuple((a, -b, c, -d) for (a, b), (c, d) in segments), inks.ink, width, dash)


def _turned(x: float, y: float, angle: float, along: float, across: float) -> Point:
    return (
        x + along * cos(angle) - across * sin(angle),
        y + along * sin(angle) + across * cos(angle),
    )


# ---------------------------------------------------------------- tools


def blunt_needle(x: float, y: float, angle: float, inks: Inks, long: float = 13.0) -> list[Shape]:
    """A blunt sewing needle whose eye is at (x, y) and which points at ``angle``, radians."""
    half = _TOOL / 2
    body: tuple[tuple[str, tuple[Point, ...]], ...] = (
        ("M", ((-1.4, 0),)),
        ("C", ((-1.4, half * 1.1), (0, half * 1.5), (1.8, half * 1.3))),
        ("L", ((long - 3.5, half * 0.8),)),
        ("C", ((long - 1.2, half * 0.7), (long, half * 0.5), (long, 0))),
        ("C", ((long, -half * 0.5), (long - 1.2, -half * 0.7), (long - 3.5, -half * 0.8))),
        ("L", ((1.8, -half * 1.3),)),
        ("C", ((0, -half * 1.5), (-1.4, -half * 1.1), (-1.4, 0))),
    )
    eye: tuple[tuple[str, tuple[Point, ...]], ...] = (
        ("M", ((-0.6, 0),)),
        ("C", ((-0.5, half * 0.55), (2.1, half * 0.55), (2.3, 0))),
        ("C", ((2.1, -half * 0.55), (-0.5, -half * 0.55), (-0.6, 0))),
    )
    outline, hole = (_placed(each, x, y, angle) for each in (body, eye))
    return [
        Path(outline, stroke=inks.paper, width=_WHITE),
        Path(outline, fill=inks.shade, stroke=inks.ink, width=_OUTLINE),
        Path(hole, fill=inks.paper, stroke=inks.ink, width=0.16),
    ]


def crochet_hook(x: float, y: float, angle: float, inks: Inks, long: float = 16.0) -> list[Shape]:
    """A crochet hook with its throat at (x, y), its head pointing at ``angle``, radians."""
    half = 0.95
    body: tuple[tuple[str, tuple[Point, ...]], ...] = (
        ("M", ((-long, half),)),
        ("L", ((-2.8, half),)),
        ("C", ((-1.0, half), (1.8, half * 0.9), (2.0, 0))),
        ("C", ((2.1, -half * 0.9), (1.1, -half * 1.15), (0.2, -half))),
        ("L", ((-0.5, -half * 0.65),)),
        ("C", ((0.0, -half * 0.2), (-0.4, half * 0.25), (-1.3, half * 0.1))),
        ("C", ((-2.6, -half * 0.2), (-3.4, -half), (-4.6, -half))),
        ("L", ((-long, -half),)),
    )
    outline = _placed(body, x, y, angle, close=False)
    return [
        Path(outline, stroke=inks.paper, width=_WHITE, cut=True),
        Path(outline, fill=inks.shade, stroke=inks.ink, width=_OUTLINE, cut=True),
    ]


def _placed(
    commands: Iterable[tuple[str, tuple[Point, ...]]],
    x: float,
    y: float,
    angle: float,
    close: bool = True,
) -> tuple[tuple[str | float, ...], ...]:
    found: list[tuple[str | float, ...]] = []
    for name, points in commands:
        places = [_turned(x, y, angle, *each) for each in points]
        found.append((name, *chain.from_iterable((a, -b) for a, b in places)))
    return (*found, ("Z",)) if close else tuple(found)


def rod(places: Sequence[tuple[float, float, float]], thick: float, order: float = 900.0) -> Strand:
    """A knitting needle through points, each (x, y, in front or behind there)."""
    return Strand(through(places, order), thick, "tool")


def tip(x: float, y: float, thick: float, inks: Inks, long: float = 4.5) -> Path:
    """The point of a needle whose level shaft of that thickness ends at (x, y), to the left."""
    half = thick / 2
    body: tuple[tuple[str, tuple[Point, ...]], ...] = (
        ("M", ((0.05, half - 0.13),)),
        ("C", ((-long * 0.5, half * 0.9), (-long * 0.9, half * 0.5), (-long, 0))),
        ("C", ((-long * 0.9, -half * 0.5), (-long * 0.5, -half * 0.9), (0.05, 0.13 - half))),
    )
    outline = _placed(body, x, y, 0.0, close=False)
    return Path(outline, fill=inks.shade, stroke=inks.ink, width=0.26, cut=True)


# ---------------------------------------------------------------- the sheet


def sheet(shapes: Iterable[Shape]) -> Drawing:
    """A drawing just as large as what lies on it, with a little white around."""
    found = tuple(shapes)
    left, top, right, low = reach(found)
    width, height = right - left + 2 * EDGE, low - top + 2 * EDGE
    return Drawing(width, height, tuple(moved(found, EDGE - left, EDGE - top)))


def stages(pictures: Sequence[Iterable[Shape]], inks: Inks) -> Drawing:
    """Stages from left to right on one base line, each with its number above its left edge."""
    found: list[Shape] = []
    at = 0.0
    highest = min(reach(tuple(each))[1] for each in map(tuple, pictures))
    for nth, picture in enumerate(pictures, 1):
        shapes = tuple(picture)
        left, _, right, _ = reach(shapes)
        indent = 2 * _DISC + 0.4
        found += number(at + _DISC, -highest - _DISC, str(nth), inks)
        found += moved(shapes, at + indent - left, 0.0)
        at += indent + right - left + STAGES_APART
    return sheet(found)


def named(pictures: Sequence[tuple[Iterable[Shape], str]], inks: Inks) -> Drawing:
    """Pictures side by side, each with its name below."""
    found: list[Shape] = []
    at = 0.0
    for picture, name in pictures:
        shapes = tuple(picture)
        left, _, right, low = reach(shapes)
        found += moved(shapes, at - left, -low)
        found.append(label(at + (right - left) / 2, -LETTERS - 0.6, name, inks, bold=True))
        at += right - left + _NAMES_APART
    return sheet(found)
