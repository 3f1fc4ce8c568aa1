"""Stitches that shape or cross, drawn from their entries in the stitch book; a row that turns."""

from collections.abc import Sequence

from bindoff.craft.entry import Loop
from bindoff.craft.stitches import standard_book
from bindoff.document.drawing import Drawing, Shape
from bindoff.document.techniques.paper import (
    Inks,
    Point,
    arrow,
    named,
    number,
    rod,
    sheet,
    tip,
    yarn,
)
from bindoff.document.yarn.curves import through
from bindoff.document.yarn.knitting import (
    WALES_A_COURSE,
    Cell,
    Fabric,
    Row,
    Strand,
    plain,
    raised,
    worked,
)
from bindoff.records import replace

_WALE = 5.6
_THICK = _WALE / 5


def decreases(inks: Inks) -> Drawing:
    """Two stitches knitted as one, leaning right and leaning left."""
    rows = (("k", "k2tog", "k"), ("k", "ssk", "k"))
    return named([(_shaped(row, inks), row[1]) for row in rows], inks)


def eyelet(inks: Inks) -> Drawing:
    """A yarn over and, to its left, the two stitches after it knitted as one; two rows above."""
    book = standard_book()
    stitches = [book.named(name) for name in ("k", "k", "k2tog", "yo", "k", "k")]
    first, below = plain(2, sum(each.consumes for each in stitches))
    below, row = worked(below, stitches)
    above = plain(2, len(row.cells), 3.0)
    fabric = Fabric(_WALE, (first, below, row, *above), _THICK)
    return sheet(yarn(fabric.strands(), inks))


def two_row_hole(inks: Inks) -> Drawing:
    """Three stitches bound off, each over the next on its left, and three cast on above them."""
    beside, hole, high = 3, 3, 1.5
    columns = 2 * beside + hole
    inside = range(beside, beside + hole)
    low = tuple(
        Cell(push=-_OVER, own=float(columns - at), rise=_LOW, part="meant")
        if at in inside
        else Cell(rise=high, own=float(columns - at))
        for at in range(columns)
    )
    new = tuple(
        Cell(Loop.CAST_ON, own=1.0, part="meant") if at in inside else Cell()
        for at in range(columns)
    )
    rows = (*plain(2, columns), Row(low, 2.0), Row(new, 2.0 + high), *plain(2, columns, 3 + high))
    shapes = list(yarn(Fabric(_WALE, rows, _THICK).strands(), inks))
    side, rise = (columns / 2 + 1.2) * _WALE, _WALE / WALES_A_COURSE
    shapes += number(side, 2.6 * rise, "1", inks)
    shapes += number(side, (2.9 + high) * rise, "2", inks)
    return sheet(shapes)


_OVER, _LOW = 1.05, 0.35  # wales, courses: how far a stitch is drawn over the next, and how high


def increases(inks: Inks) -> Drawing:
    """The strand between two stitches, lifted and knitted twisted, leaning left and right."""
    rows = (("k", "m1l", "k"), ("k", "m1r", "k"))
    return named([(_shaped(row, inks), row[1]) for row in rows], inks)


def _shaped(names: Sequence[str], inks: Inks) -> tuple[Shape, ...]:
    """Plain fabric with one row of those stitches."""
    book = standard_book()
    stitches = [book.named(name) for name in names]
    low = plain(2, sum(each.consumes for each in stitches))
    change = raised if any(each.loop is Loop.RAISED for each in stitches) else worked
    below, row = change(low[-1], stitches)
    fabric = Fabric(_WALE, (low[0], below, row, *plain(1, len(row.cells), 3.0)), _THICK)
    return yarn(fabric.strands(), inks)


# ---------------------------------------------------------------- a cross

_PULLED = (-2.5, -1.3, -0.43, 0.43, 1.3, 2.5)  # wales: four stitches that cross draw together
_BASE = (Loop.PURL, *(Loop.KNIT,) * 4, Loop.PURL)


def cross(inks: Inks) -> Drawing:
    """Two stitches that pass over two others to the right."""
    wale, thick = 5.4, 1.1
    ground = tuple(Cell(loop) for loop in _BASE)
    own = (0.0, 1.0, 1.0, -1.0, -1.0, 0.0)
    crossed = tuple(
        Cell(
            loop,
            place=x,
            rise=2.0,
            own=rank,
            wide=0.72 if rank else 1.0,
            part="meant" if rank > 0 else "",
        )
        for loop, x, rank in zip(_BASE, _PULLED, own, strict=True)
    )
    after = tuple(
        Cell(loop, (parent,), x, hold=0.0)
        for loop, parent, x in zip(_BASE, (0, 3, 4, 1, 2, 5), _PULLED, strict=True)
    )
    rows = (
        Row(ground, 0.0),
        Row(ground, 1.0),
        Row(crossed, 2.0),
        Row(after, 4.0),
        Row(ground, 5.0),
    )
    fabric = Fabric(wale, rows, thick)
    strands = list(fabric.strands())
    cable = strands[2]
    ranked = [at for at, knot in enumerate(cable.knots) if knot.own > 0]
    first, second = ranked[0], ranked[7]
    above = tuple((at + a, at + b) for at in (first, second) for a, b in ((0.4, 2.6), (3.4, 5.6)))
    strands[2] = replace(cable, above=above, ground=_between(fabric, 2, (1, 2)))
    return sheet(yarn(strands, inks))


def _between(fabric: Fabric, row: int, cells: tuple[int, int]) -> tuple[Point, ...]:
    """The outline of what lies between the outer legs of neighbouring loops of a row."""
    height = 2.0 * fabric.rise + 3.0 * fabric.unit
    left, right = list[Point](), list[Point]()
    for step in range(5, 17):
        share = step / 20
        shift = share * share * (3 - 2 * share)
        y = fabric.base(row) + share * height
        for side, at, edge in ((left, cells[0], -0.2), (right, cells[1], 0.2)):
            foot, head = fabric.foot(row, at), fabric.head(row, at)
            side.append((foot + (head - foot) * shift + edge * fabric.wale, y))
    return (*left, *right[::-1])


# ---------------------------------------------------------------- a row that turns


def turn(inks: Inks) -> Drawing:
    """A row that ends before the others, its last stitch drawn up over the needle to two legs."""
    wale, thick, columns, done = 6.2, 1.3, 7, 4
    left = columns - done
    row = Row(((Cell(Loop.NONE),) * (left + 1) + (Cell(),) * (done - 1)), 2.0, "meant")
    fabric = Fabric(wale, (*plain(2, columns), row), thick)
    *below, worked_row = fabric.strands()
    x, y = fabric.foot(2, left), fabric.base(2)
    level = y + fabric.height - 0.4 * fabric.rise
    legs = list[Strand]()
    for side in (-1.0, 1.0):
        ends = [(x + side * 0.5 * wale, y, -1.0), (x + side * 0.2 * wale, y + 0.22 * wale, 1.0)]
        ends += [(x + side * 0.13 * wale, y + 0.6 * wale, 1.0), (x + side * 0.1 * wale, level, 1.0)]
        ends.append((x + side * 0.1 * wale, level + _NEEDLE / 2, 1.0))
        legs.append(Strand(through(ends, 2.0), thick, "meant"))
    places = [(x - 0.7 * wale, level, 0.0), (x - 0.3 * wale, level, -1.0)]
    places.append((x + 0.3 * wale, level, -1.0))
    for at in range(left + 1, columns):
        middle = fabric.place(2, at)
        places += [(middle - 0.27 * wale, level, 1.0), (middle + 0.27 * wale, level, -1.0)]
    places.append(((columns / 2 + 0.5) * wale, level, 1.0))
    needle = rod(places, _NEEDLE)
    shapes = list(yarn([*below, *legs, worked_row, needle], inks))
    shapes.append(tip(x - 0.7 * wale, level, _NEEDLE, inks))
    end = (columns / 2 + 0.5) * wale
    low, high = y + 0.3 * fabric.rise, level + 2.8
    for nth, (start, stop, height) in enumerate(((9.0, 2.0, low), (2.0, 9.0, high))):
        shapes += arrow([(end + start, height), (end + stop, height)], inks)
        shapes += number(end + 12.5, height, str(2 * nth + 1), inks)
    shapes += number(x, level + _NEEDLE / 2 + 3.0, "2", inks)
    return sheet(shapes)


_NEEDLE = 2.0  # mm
