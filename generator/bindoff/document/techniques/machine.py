"""At a circular machine: casting on, and the tube folded and joined."""

from math import cos, pi, sin

from bindoff.craft.symbols import Commands, circle
from bindoff.document.drawing import Drawing, Path, Shape
from bindoff.document.lettering import CAP_HEIGHT
from bindoff.document.techniques.paper import (
    LETTERS,
    Inks,
    Point,
    arrow,
    curve,
    label,
    lines,
    sheet,
    stages,
    yarn,
)
from bindoff.document.yarn.curves import through
from bindoff.document.yarn.knitting import Strand

_ACROSS, _DEEP = 27.0, 8.6  # mm, half the ring of needles as seen from above the near side
_NEEDLES, _LAID = 18, 14  # needles shown, and how many the yarn has passed
_BEGIN = 1.2 * pi  # where the first needle stands, from the right against the clock
_OUT = 1.5  # mm that the yarn passes outside or inside the ring
_STAND, _HIGH = 5.2, 1.6  # mm, a needle, and how far up it the yarn lies
_NEEDLE, _THREAD = 1.1, 1.1


def cast_on(inks: Inks) -> Drawing:
    """The ring of needles, with the yarn laid behind and in front of them by turns."""
    outer = _ellipse(_ACROSS + 4.6, _DEEP + 4.6, -3.4)
    inner = _ellipse(_ACROSS - 4.2, _DEEP - 2.4, -0.2)
    rims = (
        Path(outer, fill=inks.paper, stroke=inks.ink, width=0.45),
        Path(inner, fill=inks.tint, stroke=inks.ink, width=0.45),
    )
    posts, slots = list[Strand](), list[tuple[Point, Point]]()
    path = list[tuple[float, float, float]]()
    for nth in range(_NEEDLES):
        turn = _turn(nth)
        x, y, near = -_ACROSS * cos(turn), _DEEP * sin(turn), -sin(turn)
        hook = 0.75 if x > 0 else -0.75  # outwards
        top = y + _STAND
        stand = [(x, y - 1.4), (x, top - 0.9), (x + hook, top), (x + 2 * hook, top - 0.9)]
        posts.append(Strand(through([(*each, 0.0) for each in stand], near), _NEEDLE, "tool"))
        slots.append(((x - 0.8, y - 1.4), (x + 0.8, y - 1.4)))
        if nth < _LAID:
            outside = 1 if nth % 2 else -1
            far_x, far_y = _ACROSS + outside * _OUT, _DEEP + outside * _OUT * 0.75
            front = 1.0 if (outside > 0) == (near > 0) else -1.0
            path.append((-far_x * cos(turn), far_y * sin(turn) + _HIGH, front))
    x, y, _ = path[0]
    begun = (x - 7.0, y + 5.0, 1.0), (x - 2.6, y + 1.5, 1.0)
    turn = _turn(_LAID) - 0.12
    x, y = -(_ACROSS + 2.6) * cos(turn), (_DEEP + 2.0) * sin(turn) + _HIGH
    feed = (x, y, 1.0), (x + 4.4, y + 4.0, 1.0), (x + 5.6, y + 7.6, 1.0)
    thread = Strand(through([*begun, *path, *feed], 50.0), _THREAD, "thread")
    marks = list[Shape]()
    for nth in range(4):
        turn = _turn(nth)
        x, y = -_ACROSS * cos(turn), _DEEP * sin(turn) - 2.2
        marks.append(label(x, y - LETTERS * CAP_HEIGHT, str(nth + 1), inks, bold=True))
    marks.append(label(2.0, -1.0, "inside", inks))
    marks.append(label(-_ACROSS * 0.66, -_DEEP - 5.0, "front", inks))
    far_to_near = sorted(posts, key=lambda post: post.knots[0].order)
    return sheet([*rims, lines(slots, inks, 0.35), *yarn([*far_to_near, thread], inks), *marks])


def _turn(nth: float) -> float:
    return _BEGIN + 2 * pi * (nth + 0.25) / _NEEDLES


def _ellipse(across: float, deep: float, y: float) -> Commands:
    """An ellipse around (0, ``y``), reaching so far across and up."""
    return tuple(
        (name, *(float(n) * deep / across - y if at % 2 else n for at, n in enumerate(numbers)))
        for name, *numbers in circle(0.0, 0.0, across)
    )


_WALL, _HALF, _LAYERS = 1.5, 5.2, 2.2  # mm: a layer cut through, half the tube, two layers apart
_TALL = 21.0


def folding(inks: Inks) -> Drawing:
    """A tube cut through: one half pushed up inside the other, then the ends joined."""
    half, inner = _TALL / 2, _HALF - _LAYERS
    whole = [*_rim(_HALF, _TALL, inks), *_rim(_HALF, 0.0, inks)]
    for side in (-1.0, 1.0):
        x = side * _HALF
        whole += _wall([(x, 0.0), (x, half)], inks.shade, inks)
        whole += _wall([(x, half), (x, _TALL)], inks.paper, inks)
    fold = ((-_HALF - 2.6, half), (_HALF + 2.6, half))
    whole.append(lines([fold], inks, 0.5, (2.2, 1.1)))
    pushed = _folded(inner, inks)
    pushed += arrow([(0.0, -0.6), (0.0, half - 2.0)], inks)
    joined = _folded(inner, inks)
    for side in (-1.0, 1.0):
        rise = [(inner, half - 0.3), (inner + 0.3, half + 1.2), (_HALF - 0.3, half + 1.2)]
        over = [(side * x, y) for x, y in (*rise, (_HALF, half - 0.3))]
        joined += _wall(over, inks.thread, inks)
    return stages([whole, pushed, joined], inks)


def _folded(inner: float, inks: Inks) -> list[Shape]:
    """The tube folded, its ends on one height."""
    half = _TALL / 2
    found = [*_rim(_HALF, half, inks), *_rim(inner, half, inks)]
    for side in (-1.0, 1.0):
        turn = [(_HALF, 0.2), (_HALF - 0.3, -1.0), (inner + 0.3, -1.0), (inner, 0.2)]
        found += _wall([(side * inner, 0.0), (side * inner, half)], inks.shade, inks)
        found += _wall([(side * _HALF, 0.0), (side * _HALF, half)], inks.paper, inks)
        found += _wall([(side * x, y) for x, y in turn], inks.shade, inks)
    return found


def _rim(across: float, y: float, inks: Inks) -> list[Shape]:
    """The end of a round layer, seen a little from above."""
    return [Path(_ellipse(across, 0.22 * across, y), stroke=inks.ink, width=0.2)]


def _wall(points: list[Point], colour: str, inks: Inks) -> tuple[Path, Path]:
    """A layer of fabric cut through."""
    way = curve(points)
    return (
        Path(way, stroke=inks.ink, width=_WALL, cut=True),
        Path(way, stroke=colour, width=_WALL - 0.56, cut=True),
    )
