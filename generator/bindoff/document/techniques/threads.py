"""What is done with a threaded needle: duplicate stitch, gathering, grafting, weaving in."""

from math import pi

from bindoff.craft.entry import Loop
from bindoff.document.drawing import Drawing, Shape
from bindoff.document.techniques.paper import (
    Inks,
    arrow,
    bent,
    blunt_needle,
    number,
    sheet,
    shifted,
    stages,
    upside_down,
    yarn,
)
from bindoff.document.yarn.curves import Knot, eased, through
from bindoff.document.yarn.knitting import Cell, Fabric, Row, Strand, loop_knots, plain

_LATER = 500.0  # the order of a thread that is sewn: after all that is knitted


def duplicate_stitch(inks: Inks) -> Drawing:
    """Up at the foot of a stitch, behind the stitch above, down at the foot."""
    wale = 5.2
    fabric = Fabric(wale, plain(4, 3), wale / 5)
    knitted = tuple(fabric.strands())
    y = fabric.base(1)
    foot = (0.0, y + 0.08 * wale, -1.0)
    # Over its stitch: before the head below, behind the legs above (see the crossings of a loop).
    fronts = (0.2, 1.0, 0.2, -1.0, 0.2, 1.0, 0.2)
    over = [
        (knot.x, knot.y, front)
        for knot, front in zip(loop_knots(fabric, 1, 1), fronts, strict=True)
    ][::-1]
    up = [
        foot,
        over[0],
        over[1],
        (0.72 * wale, y + 1.0 * wale, 1.0),
        (0.9 * wale, y + 1.7 * wale, 1.0),
    ]
    behind = [
        foot,
        *over[:5],
        (-0.62 * wale, y + 1.22 * wale, 1.0),
        (-0.95 * wale, y + 1.2 * wale, 1.0),
    ]
    down = [foot, *over, foot]
    pictures = list[list[Shape]]()
    for way, above in (
        (up, ((0.7, 4.0),)),
        (behind, ((0.7, 2.6),)),
        (down, ((0.7, 2.6), (5.4, 7.3))),
    ):
        knots = through(way, _LATER)
        thread = Strand(knots, wale / 5 + 0.35, "thread", above=above, along=(1.0,))
        shapes = list(yarn([*knitted, thread], inks))
        end = knots[-1]
        if way is up:
            shapes += blunt_needle(end.x, end.y - 0.2, pi / 2 - 0.1, inks, 9.0)
        elif way is behind:
            shapes += blunt_needle(end.x - 0.9, end.y, pi, inks, 7.5)
        else:
            shapes += arrow([(9.8, y + 2.2), (5.4, y - 1.2), (0.7, y + 0.1)], inks)
        pictures.append(shapes)
    return stages(pictures, inks)


def gathering(inks: Inks) -> Drawing:
    """A thread through each open stitch, and the ring drawn together."""
    wale = 5.0
    fabric = Fabric(wale, plain(3, 6), wale / 4.2)
    y = fabric.base(2) + fabric.height - 1.5 * fabric.thick
    path = [(3.45 * wale, y - 6.4, 1.0), (3.4 * wale, y - 2.4, 1.0), (3.05 * wale, y - 0.1, 1.0)]
    for nth in range(6):
        x = (2.5 - nth) * wale
        path += [(x + 0.3 * wale, y, -1.0), (x - 0.3 * wale, y, 1.0)]
    path.append((-3.2 * wale, y, 1.0))
    thread = Strand(through(path, _LATER), 1.15, "thread")
    row = list(yarn([*fabric.strands(), thread], inks))
    row += blunt_needle(-3.2 * wale - 1.0, y, pi, inks, 8.0)
    return stages([row, _ring(inks)], inks)


def _ring(inks: Inks) -> list[Shape]:
    """A round of open stitches from above, drawn up on its thread."""
    loops, wale, middle = 12, 4.4, 3.0
    fabric = Fabric(wale, plain(2, loops), wale / 4.4)
    top = fabric.base(1) + fabric.height
    half = loops * wale / 2
    strands = []
    for row, strand in enumerate(fabric.strands()):
        inner = strand.knots[1:-1]
        level = Knot(-half, fabric.base(row), inner[7].dx, 0.0, float(row), -1.0)
        end = Knot(half, fabric.base(row), inner[7].dx, 0.0, float(row), -1.0)
        strands.append(Strand((level, *inner, end), strand.thick))
    round_ = bent(shifted(strands, 0.0, -top), middle, loops * wale, 0.72)
    path = []
    for nth in range(loops):
        for side, front in ((-0.24, -1.0), (0.24, 1.0)):
            path.append(((nth + side - loops / 2 + 0.5) * wale, -1.25, front))
    path.append((path[0][0] + loops * wale, path[0][1], -1.0))
    knots = through(path, _LATER)
    (thread,) = bent([Strand(knots, 1.0, "thread")], middle, loops * wale, 0.72)
    return list(yarn(shifted([*round_, thread], 0.0, 10.0), inks))


def grafting(inks: Inks) -> Drawing:
    """A row sewn between two edges of open stitches, as if it were knitted."""
    wale, columns, sewn = 6.4, 6, 3
    lower = plain(2, columns)
    below = Fabric(wale, lower, wale / 4.5)
    row = Row(tuple(Cell(place=nth + 0.5, parents=(nth + sewn,)) for nth in range(sewn)), 2.0)
    whole = Fabric(wale, (*lower, row), wale / 4.5)
    middle = whole.base(2) + whole.height / 2
    other = upside_down(shifted(below.strands(), wale / 2, 0.0), middle, "other")
    fronts = (0.2, 1.0, 0.2, -1.0, 0.2, 1.0, 0.2)
    knots = list(_row(whole, sewn, fronts))
    tail = _TAIL_OF_GRAFT
    start = [(x * wale, whole.base(2) + y * wale, front) for x, y, front in tail]
    lead = through([*start, (knots[0].x, knots[0].y, knots[0].front)], _LATER)[:-1]
    thread = Strand(eased([*lead, *knots]), wale / 4.5 + 0.1, "thread")
    shapes = list(yarn([*below.strands(), *other, thread], inks))
    x, y, _ = start[0]
    shapes += blunt_needle(x - 1.0, y + 0.1, pi - 0.1, inks)
    edge = -columns / 2 * wale - 5.0
    shapes += number(edge, middle + 9.0, "A", inks)
    shapes += number(edge, middle - 9.0, "B", inks)
    return sheet(shapes)


_TAIL_OF_GRAFT = ((-1.35, 0.62, 1.0), (-0.72, 0.42, 1.0), (-0.16, 0.16, 1.0))


def _row(fabric: Fabric, loops: int, fronts: tuple[float, ...]) -> list[Knot]:
    """The knots of a sewn row, which passes both edges as a knitted one passes the edge below."""
    found = list[Knot]()
    y = fabric.base(2)
    level = fabric.unit * pi
    for at in range(loops):
        if at:
            x = (fabric.foot(2, at - 1) + fabric.foot(2, at)) / 2
            found.append(Knot(x, y, level, 0.0, _LATER, -1.0))
        found += [
            Knot(k.x, k.y, k.dx, k.dy, _LATER, front)
            for k, front in zip(loop_knots(fabric, 2, at), fronts, strict=True)
        ]
    last = fabric.foot(2, loops - 1) + 0.66 * fabric.wale
    return [*found, Knot(last, y, level, 0.0, _LATER, -1.0)]


def weaving_in(inks: Inks) -> Drawing:
    """An end led behind the bumps of a row, turned, and led back behind half as many."""
    wale, rows, columns = 6.0, 4, 8
    cells = (Cell(Loop.PURL),) * columns
    fabric = Fabric(wale, tuple(Row(cells, float(nth)) for nth in range(rows)), wale / 5)
    first, second = (fabric.base(nth) + _BUMP * fabric.rise for nth in (1, 2))
    path = [(4.3 * wale, first - 1.7 * wale, 1.0), (4.15 * wale, first - 0.6 * wale, 1.0)]
    for at in range(columns - 1, 1, -1):
        x = fabric.place(1, at)
        path += [(x + 0.5 * wale, first, 1.0), (x, first, -1.0)]
    x = fabric.place(1, 2) - 0.5 * wale
    path += [(x, first, 1.0), (x - 0.5 * wale, (first + second) / 2, 1.0), (x, second, 1.0)]
    for at in range(3, 6):
        x = fabric.place(2, at)
        path += [(x - 0.5 * wale, second, 1.0), (x, second, -1.0)]
    path.append((x + 0.55 * wale, second, 1.0))
    thread = Strand(through(path, _LATER), 1.2, "thread")
    return sheet(yarn([*fabric.strands(), thread], inks))


_BUMP = 0.35  # of a row: where an end passes behind the bumps of a row


def square_knot(inks: Inks) -> Drawing:
    """Two yarns that each lie around both legs of the other, their tails on one side."""
    old = _bow(-1.0, 0.0, "yarn")
    new = _bow(1.0, 1.0, "thread")
    return sheet(yarn([old, new], inks))


_BOW = (
    (21.0, 4.6, 0.0),
    (13.0, 2.1, 0.0),
    (7.6, 1.9, 1.0),  # over or under the other's bow,
    (3.6, 2.2, 1.0),
    (0.0, 3.4, -1.0),  # its side,
    (-3.6, 4.5, -1.0),
    (-6.7, 3.7, 1.0),
    (-8.2, 0.0, 1.0),  # and its legs
)
"""A yarn of the knot from its right end to the end of its bow: across, up, and how it passes the
other. What follows is the image below, and of the tail less."""


def _bow(side: float, order: float, part: str) -> Strand:
    """One yarn of a square knot. The one made later passes the other the opposite way."""
    back = [(x, -y, front) for x, y, front in _BOW[-2:1:-1]]
    tail = [(12.6, -2.3, 0.0), (15.8, -6.0, 0.0)]
    sign = -1.0 if order else 1.0
    way = [(side * x, y, sign * front) for x, y, front in (*_BOW, *back, *tail)]
    return Strand(through(way, order), 1.5, part)
