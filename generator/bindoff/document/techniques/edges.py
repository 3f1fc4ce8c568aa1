"""At an edge: joining two with a hook, picking stitches up, crocheting around a corner."""

from collections.abc import Iterator
from math import hypot

from bindoff.craft.entry import Loop
from bindoff.document.drawing import Drawing, Path, Shape
from bindoff.document.techniques.paper import (
    Inks,
    Point,
    arrow,
    earlier,
    label,
    lines,
    on_its_side,
    polygon,
    rod,
    sheet,
    tip,
    upside_down,
    yarn,
)
from bindoff.document.yarn.curves import Knot, eased, through
from bindoff.document.yarn.knitting import Cell, Fabric, Row, Strand, plain
from bindoff.records import replace

_LATER = 500.0  # the order of what is made when all else is knitted
_CHAIN = (
    (0.16, 0.42, -1.0),
    (-0.06, 0.72, 1.0),
    (-0.42, 1.3, 1.0),
    (-0.82, 1.32, 1.0),
    (-1.14, 0.8, 1.0),
)
"""Half a slip stitch worked to the left: x in wales, y in mm."""


def long_tail(inks: Inks) -> Drawing:
    """A row of loops with crossed feet, and the rows knitted on it."""
    loops = 7
    low = Row((Cell(Loop.CAST_ON, own=1.0, rise=0.75),) * loops, 0.0, "thread")
    rows = (low, *plain(2, loops, 0.75))
    return sheet(yarn(Fabric(6.4, rows, 6.4 / 5).strands(), inks))


def slip_stitch_join(inks: Inks) -> Drawing:
    """A chain through the open stitches of two edges at once."""
    wale, columns, made, lap = 6.4, 6, 5, 1.5
    edge = Fabric(wale, plain(2, columns), wale / 5)
    middle = edge.base(1) + edge.height - lap
    near = tuple(edge.strands())
    far = earlier(upside_down(near, middle, "other"), 10.0)
    chain = list[Strand]()
    for nth in range(made):
        x = edge.place(1, columns - 1 - nth)
        half = [(x + a * wale, middle + b, front) for a, b, front in _CHAIN]
        head = (x - 1.26 * wale, middle, 1.0)
        back = [(a, 2 * middle - b, front) for a, b, front in reversed(half)]
        knots = through([*half, head, *back], _LATER + nth)
        chain.append(Strand(knots, wale / 5 + 0.1, "thread"))
    return sheet(list(yarn([*far, *near, *chain], inks)))


def picking_up(inks: Inks) -> Drawing:
    """Loops drawn up between the edge stitch and the next, three for four rows."""
    wale, rows, shown = 6.2, 8, 3
    fabric = Fabric(wale, plain(rows, shown), 1.15)
    strands = list(fabric.strands())
    knitted = list[Strand]()
    for row in range(0, rows, 2):
        there, back = strands[row], strands[row + 1]
        knitted.append(_turned(fabric, row, there, back))
    lying = on_its_side(knitted)
    edge = (shown - 1) / 2 * wale  # where the outer stitches stand
    gap, top = edge - 0.5 * wale, edge + 1.25 * wale
    path = list[tuple[float, float, float]]()
    taken = [row for row in range(rows) if row % 4 != 3]
    heads = list[float]()
    for row in taken:
        x = -(fabric.base(row) + 0.8 * fabric.rise)
        heads.append(x)
        reach = fabric.rise
        path += [
            (x + 0.42 * reach, gap - 0.1 * wale, -1.0),
            (x + 0.16 * reach, gap + 0.12 * wale, 0.6),
            (x + 0.20 * reach, gap + 0.7 * wale, 1.0),
            (x + 0.34 * reach, top - 0.3 * wale, 1.0),
            (x, top, 1.0),
            (x - 0.34 * reach, top - 0.3 * wale, 1.0),
            (x - 0.20 * reach, gap + 0.7 * wale, 1.0),
            (x - 0.16 * reach, gap + 0.12 * wale, 0.6),
            (x - 0.42 * reach, gap - 0.1 * wale, -1.0),
        ]
    first, last = path[0], path[-1]
    path = [(first[0] + 4.0, first[1], -1.0), *path, (last[0] - 3.0, last[1], -1.0)]
    thread = Strand(through(path, _LATER), 1.15, "thread")
    level = top - 0.36 * wale
    places = [(heads[0] + 8.0, level, 1.0)]
    for x in heads:
        places += [(x + 0.3 * fabric.rise, level, -1.0), (x - 0.3 * fabric.rise, level, 1.0)]
    end = heads[-1] - 6.0
    places.append((end, level, 1.0))
    needle = rod(places, 1.9)
    shapes = list(yarn([*lying, thread, needle], inks))
    shapes.append(tip(end, level, 1.9, inks))
    for row in range(rows):
        x = -(fabric.base(row) + 0.8 * fabric.rise)
        text = "–" if row % 4 == 3 else str(row % 4 + 1)
        shapes.append(label(x, top + 1.6, text, inks, bold=True))
    return sheet(shapes)


def picking_up_stitches(inks: Inks) -> Drawing:
    """Loops drawn up through the middle of each stitch of a cast-on edge, which lies on top."""
    wale, columns = 6.2, 5
    low = Row((Cell(Loop.CAST_ON, own=1.0, rise=0.75),) * columns, 0.0)
    fabric = Fabric(wale, (low, *plain(2, columns, 0.75)), 1.15)
    edge = upside_down(fabric.strands(), 0.0)
    hole, top = -0.55 * fabric.rise, 1.9 * fabric.rise
    xs = [fabric.place(1, at) for at in reversed(range(columns))]
    path = [(xs[0] + 0.9 * wale, hole - 1.6, -1.0)]
    for x in xs:
        half = [
            (0.36, hole - 0.3, -1.0),
            (0.13, hole + 0.7, 0.6),
            (0.17, 0.6 * fabric.rise, 1.0),
            (0.27, top - 0.3 * wale, 1.0),
        ]
        path += [(x + aside * wale, y, front) for aside, y, front in half]
        path.append((x, top, 1.0))
        path += [(x - aside * wale, y, front) for aside, y, front in reversed(half)]
    path.append((xs[-1] - 0.8 * wale, hole - 1.0, -1.0))
    level = top - 0.36 * wale
    places = [(xs[0] + 1.2 * wale, level, 1.0)]
    for x in xs:
        places += [(x + 0.24 * wale, level, -1.0), (x - 0.24 * wale, level, 1.0)]
    end = xs[-1] - 0.9 * wale
    places.append((end, level, 1.0))
    thread = Strand(through(path, _LATER), 1.15, "thread")
    shapes = list(yarn([*edge, thread, rod(places, 1.9)], inks))
    shapes.append(tip(end, level, 1.9, inks))
    return sheet(shapes)


def _turned(fabric: Fabric, row: int, there: Strand, back: Strand) -> Strand:
    """Two rows worked to and fro as one length of yarn that turns at the right edge."""
    end = there.knots[-2].x + 0.5 * fabric.wale
    middle = (fabric.base(row) + fabric.base(row + 1)) / 2
    bend = Knot(end, middle, 0.0, fabric.rise * 0.8, row + 0.0, -1.0)
    returned = [replace(k, dx=-k.dx, dy=-k.dy) for k in reversed(back.knots[:-1])]
    return Strand(eased([*there.knots[:-1], bend, *returned]), fabric.thick)


def crochet_edge(inks: Inks) -> Drawing:
    """Single crochet along an edge to the left and around a corner, three stitches in one."""
    along = [((x, -1.5), (x, 4.6)) for x in (20.6, 16.2, 11.8, 7.4)]
    corner = [((2.0, -2.0), each) for each in ((2.9, 4.7), (-4.2, 4.2), (-4.7, -2.9))]
    down = [((1.5, -y), (-4.6, -y)) for y in (7.4, 11.8)]
    posts = [*along, *corner, *down]
    shapes = list(_panel(24.0, 15.0, inks))
    strands = list[Strand]()
    for nth, (foot, head) in enumerate(posts):
        part = "thread" if foot == corner[0][0] else "yarn"
        strands += _post(foot, head, float(nth), part)
    heads = [head for _, head in posts]
    for nth, head in enumerate(heads):
        before = heads[nth - 1] if nth else (head[0] + 4.4, head[1])
        part = "thread" if posts[nth][0] == corner[0][0] else "yarn"
        strands.append(_top(before, head, 100.0 + nth, part))
    shapes += yarn(strands, inks)
    for nth, (_, (x, y)) in enumerate(corner, 1):
        out_x, out_y = ((0.6, 3.4), (-3.0, 2.4), (-3.6, -1.0))[nth - 1]
        shapes.append(label(x + out_x, y + out_y - 0.6, str(nth), inks, bold=True))
    shapes += arrow([(15.0, 9.2), (8.6, 9.2)], inks)
    return sheet(shapes)


def _panel(wide: float, high: float, inks: Inks) -> Iterator[Shape]:
    """The corner of a knitted piece, its top left at (0, 0): a V for each stitch."""
    box = polygon([(0.0, 0.0), (wide, 0.0), (wide, -high), (0.0, -high)])
    yield Path(box, fill=inks.tint)
    stitch, row = 4.4, 3.4
    legs = list[tuple[Point, Point]]()
    for down in range(1, int(high / row)):
        for across in range(1, int(wide / stitch)):
            x, y = (across + 0.5) * stitch, -(down + 0.9) * row
            legs += [((x - 1.3, y + 1.9), (x - 0.2, y)), ((x + 1.3, y + 1.9), (x + 0.2, y))]
    yield lines(legs, inks, 0.2)
    yield lines([((0.0, -high), (0.0, 0.0)), ((0.0, 0.0), (wide, 0.0))], inks)


def _post(foot: Point, head: Point, order: float, part: str) -> Iterator[Strand]:
    """The upright part of a single crochet: two legs that meet in the edge, and their tie."""
    long = hypot(head[0] - foot[0], head[1] - foot[1])
    up = ((head[0] - foot[0]) / long, (head[1] - foot[1]) / long)

    def at(high: float, aside: float) -> tuple[float, float, float]:
        across = aside * _SPREAD
        x = foot[0] + up[0] * high * long - up[1] * across
        return x, foot[1] + up[1] * high * long + up[0] * across, 1.0

    legs = [(0.95, -1.0), (0.5, -0.7), (0.12, -0.35), (-0.06, 0.0)]
    path = [at(*each) for each in legs] + [at(high, -aside) for high, aside in legs[-2::-1]]
    yield Strand(through(path, order), _CROCHET, part)
    tie = [at(0.42, 1.15), at(0.5, 0.0), at(0.58, -1.15)]
    yield Strand(through(tie, order + 50.0), _CROCHET, part)


def _top(before: Point, head: Point, order: float, part: str) -> Strand:
    """The two loops on top of a stitch, which lie over the end of those before."""
    x, y = head[0] - before[0], head[1] - before[1]
    long = hypot(x, y)
    x, y = x / long, y / long

    def at(far: float, aside: float) -> tuple[float, float, float]:
        return head[0] + x * far - y * aside, head[1] + y * far + x * aside, 1.0

    half = [(-2.1, 0.25), (-1.2, 0.85), (0.4, 1.2), (1.8, 0.95)]
    path = [at(*each) for each in half] + [at(2.6, 0.0)]
    path += [at(far, -aside) for far, aside in half[::-1]]
    return Strand(through(path, order), _CROCHET, part)


_CROCHET, _SPREAD = 1.0, 1.15  # mm: the yarn, and how far a stitch's legs part
