"""At a circular machine: casting on, and the tube folded and joined."""

from math import cos, pi, sin

from bindoff.craft.symbols import Commands, circle
from bindoff.document.drawing import Drawing, Path, Shape
from bindoff.document.lettering import CAP_HEIGHT
from bindoff.document.techniques.paper import LETTERS, Inks, Point, label, lines, sheet, yarn
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
        x, y, near = _ACROSS * cos(turn), _DEEP * sin(turn), -sin(turn)
        hook = 0.75 if x > 0 else -0.75  # outwards
        top = y + _STAND
        stand = [(x, y - 1.4), (x, top - 0.9), (x + hook, top), (x + 2 * hook, top - 0.9)]
        posts.append(Strand(through([(*each, 0.0) for each in stand], near), _NEEDLE, "tool"))
        slots.append(((x - 0.8, y - 1.4), (x + 0.8, y - 1.4)))
        if nth < _LAID:
            outside = 1 if nth % 2 else -1
            far_x, far_y = _ACROSS + outside * _OUT, _DEEP + outside * _OUT * 0.75
            front = 1.0 if (outside > 0) == (near > 0) else -1.0
            path.append((far_x * cos(turn), far_y * sin(turn) + _HIGH, front))
    x, y, _ = path[0]
    begun = (x + 7.0, y + 5.0, 1.0), (x + 2.6, y + 1.5, 1.0)
    turn = _turn(_LAID) - 0.12
    x, y = (_ACROSS + 2.6) * cos(turn), (_DEEP + 2.0) * sin(turn) + _HIGH
    feed = (x, y, 1.0), (x - 4.4, y + 4.0, 1.0), (x - 5.6, y + 7.6, 1.0)
    thread = Strand(through([*begun, *path, *feed], 50.0), _THREAD, "thread")
    marks = list[Shape]()
    for nth in range(4):
        turn = _turn(nth)
        x, y = _ACROSS * cos(turn), _DEEP * sin(turn) - 2.2
        marks.append(label(x, y - LETTERS * CAP_HEIGHT, str(nth + 1), inks, bold=True))
    marks.append(label(2.0, -1.0, "inside", inks))
    marks.append(label(_ACROSS * 0.46, -_DEEP - 5.4, "front", inks))
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
