"""Knitted fabric as strands of yarn: rows of loops, each drawn through those below it.

The loop is K. Crane's, *A Simple Parametric Model of Plain-Knit Yarns*, 2023: from the middle of
one sinker to the next, x = t + a sin 2t and y = h cos t, with a = 1.5, h = 4 and wales 2 pi apart.
Scaled to a wale w it agrees with what was measured: courses w / 1.3 apart and a loop 3.89 w long
(Munden 1959), neighbouring heads w / 4 apart (Peirce 1947, from memory).
"""

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import cos, pi, radians, sin

from bindoff.craft.entry import Lean, Loop, Stitch
from bindoff.document.yarn.curves import Knot, eased, through
from bindoff.records import Record, replace

SWING, HALF_HEIGHT = 1.5, 4.0  # Crane's a and h, in units of a wale / 2 pi
WALES_A_COURSE = 1.3  # Munden 1959: relaxed plain fabric, washed
_STEPS = 8  # cubics of a loop: it strays 0.0026 w from the true curve
_STEP = 2 * pi / _STEPS
_LEGS = radians(140)  # a knit loop lies in front so far to both sides of its head
_OVERLAP = 3.0  # units that a head reaches beyond the next row's sinkers, whatever the row gauge
_TAIL = 0.16  # of a wale: how far the yarn of a row runs past the feet of its outer loops
_TOGETHER = 0.06  # of a wale: loops worked as one draw together
_BESIDE_RAISED = 0.8  # of a wale: a raised loop stands so near its neighbours

_ARCH = (
    (-0.47, 0.30),
    (-0.44, 0.52),
    (-0.39, 0.74),
    (-0.24, 0.94),
    (0.0, 1.0),
    (0.24, 0.94),
    (0.39, 0.74),
    (0.44, 0.52),
    (0.47, 0.30),
)
"""A yarn over: x in wales, y in heights of a loop."""
_RAISED_FOOT = ((0.30, 0.06), (0.19, 0.26), (0.0, 0.50), (-0.19, 0.72), (-0.19, 0.92))
_CAST_ON_FOOT = ((0.34, 0.0), (0.16, 0.14), (-0.02, 0.33), (-0.24, 0.66), (-0.20, 0.92))
"""The second foot of a loop whose feet cross; the first is its image."""


class Cell(Record):
    """A loop of a row. ``parents`` are places in the row below (``None``: the one it stands over).

    ``place`` is where it stands, in wales; ``own`` ranks it among loops worked together; ``rise``
    is its height in courses; ``hold`` how far its foot goes to its parents instead of its own
    place; ``push`` moves its head aside, in wales. ``part`` names the colour of this loop alone.
    """

    loop: Loop = Loop.KNIT
    parents: tuple[int, ...] | None = None
    place: float | None = None
    own: float = 0.0
    wide: float = 1.0
    rise: float = 1.0
    hold: float = 0.5
    push: float = 0.0
    part: str = ""


class Row(Record):
    """A row of loops, ``part`` naming the colour of its yarn; ``base`` is its height in courses."""

    cells: tuple[Cell, ...]
    base: float
    part: str = "yarn"
    tail: float = _TAIL


class Strand(Record):
    """A length of yarn ``thick`` mm across. ``parts`` are (from, to, colour's name) along its
    knots; what lies in ``above`` is on top of everything, and ``ground`` is an outline that hides
    what is beneath it there. It runs along rows of the orders in ``along`` and does not cross them.
    """

    knots: tuple[Knot, ...]
    thick: float
    part: str = "yarn"
    parts: tuple[tuple[float, float, str], ...] = ()
    above: tuple[tuple[float, float], ...] = ()
    along: tuple[float, ...] = ()
    ground: tuple[tuple[float, float], ...] = ()


class Fabric(Record):
    """Rows from the first made, wales and courses in mm apart, of yarn ``thick`` mm across."""

    wale: float
    rows: tuple[Row, ...]
    thick: float
    course: float = 0.0

    @property
    def rise(self) -> float:
        """The distance of two rows."""
        return self.course or self.wale / WALES_A_COURSE

    @property
    def unit(self) -> float:
        """Crane's unit in mm."""
        return self.wale / (2 * pi)

    @property
    def height(self) -> float:
        """The height of a plain loop."""
        return self.rise + _OVERLAP * self.unit

    def place(self, row: int, cell: int) -> float:
        """Where a loop stands by nature, mm from the middle of its row."""
        cells = self.rows[row].cells
        own = cells[cell].place
        return (cell - (len(cells) - 1) / 2 if own is None else own) * self.wale

    def foot(self, row: int, cell: int) -> float:
        """Where a loop begins: between its own place and that of its parents."""
        own, parents = self.place(row, cell), _parents(self.rows[row].cells[cell], cell)
        if not row or not parents:
            return own
        below = sum(self.place(row - 1, each) for each in parents) / len(parents)
        hold = self.rows[row].cells[cell].hold
        return own * (1 - hold) + below * hold

    def head(self, row: int, cell: int) -> float:
        """Where a loop ends: where those that are drawn through it begin."""
        push = self.rows[row].cells[cell].push * self.wale
        above = self.rows[row + 1].cells if row + 1 < len(self.rows) else ()
        children = [at for at, each in enumerate(above) if cell in _parents(each, at)]
        if not children:
            return self.place(row, cell) + push
        return sum(self.foot(row + 1, each) for each in children) / len(children) + push

    def base(self, row: int) -> float:
        """The height of a row's sinkers."""
        return self.rows[row].base * self.rise

    def strands(self) -> Iterator[Strand]:
        """The yarn of every row."""
        for row in range(len(self.rows)):
            yield _strand(self, row)


def plain(rows: int, loops: int, base: float = 0.0, part: str = "yarn") -> tuple[Row, ...]:
    """Rows of plain loops, one course apart."""
    return tuple(Row((Cell(),) * loops, base + row, part) for row in range(rows))


def worked(below: Row, stitches: Sequence[Stitch], part: str = "meant") -> tuple[Row, Row]:
    """``below`` and the row that ``stitches`` make of it, from the left; what shapes is ``part``.

    Loops that are worked as one lie in the order that the stitch's lean says: the top one is that
    which comes to lie in front and shows, and it leans as the stitch does. (Common practice, no
    source: k2tog enters both loops from the left one, which then lies on top and leans right; ssk
    turns both and enters from the right one, on top and leaning left.)
    """
    old, cells, at = list(below.cells), list[Cell](), 0
    for stitch in stitches:
        parents = tuple(range(at, at + stitch.consumes))
        at += stitch.consumes
        for _ in range(max(stitch.produces, 0)):
            cells.append(Cell(stitch.loop, parents, part=part if stitch.shapes else ""))
        if len(parents) > 1 and stitch.lean is not None:
            top = parents[0] if stitch.lean is Lean.RIGHT else parents[-1]
            middle = (parents[0] + parents[-1]) / 2
            for each in parents:
                push = _TOGETHER if each < middle else -_TOGETHER if each > middle else 0.0
                own = 1.0 if each == top else -1.0
                old[each] = replace(old[each], own=own, push=push, part=_TOP * (each == top))
    return replace(below, cells=tuple(old)), Row(tuple(cells), below.base + 1, below.part)


_TOP = "top"


def raised(below: Row, stitches: Sequence[Stitch]) -> tuple[Row, Row]:
    """``below`` with a loop for every strand that ``stitches`` lift, and the row made of both.

    The lifted strand is an extra loop with crossed feet in the row below. Which foot lies on top:
    common practice, no source (make 1 left: the second foot, so that the loop leans left).
    """
    lower, upper, at = list[Cell](), list[Cell](), 0
    for stitch in stitches:
        if stitch.consumes:
            lower.append(replace(below.cells[at], parents=(at,)))
            at += 1
            upper.append(Cell(stitch.loop))
        else:
            lower.append(Cell(Loop.RAISED, (), own=_turn(stitch.lean), part="top"))
            upper.append(Cell(part="meant"))
    places = _spread(lower)
    old = (replace(each, place=x) for each, x in zip(lower, places, strict=True))
    return replace(below, cells=tuple(old)), Row(tuple(upper), below.base + 1, below.part)


def _spread(cells: Sequence[Cell]) -> list[float]:
    """Places of a row in which raised loops are crowded between their neighbours."""
    ways = [_BESIDE_RAISED if Loop.RAISED in (a.loop, b.loop) else 1.0 for a, b in pairwise(cells)]
    places = [sum(ways[:at]) for at in range(len(cells))]
    return [x - places[-1] / 2 for x in places]


def _turn(lean: Lean | None) -> float:
    return -1.0 if lean is Lean.RIGHT else 1.0


def _parents(cell: Cell, at: int) -> tuple[int, ...]:
    if cell.parents is not None:
        return cell.parents
    return () if cell.loop in (Loop.OPEN, Loop.RAISED, Loop.CAST_ON, Loop.NONE) else (at,)


def side_of(loop: Loop) -> float:
    """1 where the legs lie in front of the row below, -1 where they lie behind it."""
    return -1.0 if loop is Loop.PURL else 1.0


def _strand(fabric: Fabric, row: int) -> Strand:
    cells, tail = fabric.rows[row].cells, fabric.rows[row].tail
    y, order = fabric.base(row), float(row)
    level = fabric.unit * (1 + 2 * SWING) * _STEP
    knots, parts = list[Knot](), list[tuple[float, float, str]]()
    last = -1
    for at, cell in enumerate(cells):
        if cell.loop is Loop.NONE:
            continue
        foot = fabric.foot(row, at)
        if last < 0:
            x = foot - fabric.wale * (0.5 + tail)
            knots.append(Knot(x, y, level, 0.0, order, -side_of(cell.loop)))
        elif Loop.OPEN not in (cells[last].loop, cell.loop):
            before = fabric.foot(row, last)
            span = (foot - before) / fabric.wale
            front = -(side_of(cells[last].loop) + side_of(cell.loop)) / 2
            knots.append(Knot((before + foot) / 2, y, level * span, 0.0, order, front))
        start = len(knots)
        knots += loop_knots(fabric, row, at)
        if cell.part:
            more = 1.5 if cell.loop is Loop.OPEN else 0.5
            parts.append((start - more, len(knots) - 1 + more, cell.part))
        last = at
    if last >= 0:
        x = fabric.foot(row, last) + fabric.wale * (0.5 + tail)
        knots.append(Knot(x, y, level, 0.0, order, -side_of(cells[last].loop)))
    return Strand(eased(knots), fabric.thick, fabric.rows[row].part, tuple(parts))


def loop_knots(fabric: Fabric, row: int, at: int) -> tuple[Knot, ...]:
    """The knots of one loop from foot to foot, without the sinkers beside it."""
    cell, order = fabric.rows[row].cells[at], float(row)
    foot, head = fabric.foot(row, at), fabric.head(row, at)
    y = fabric.base(row)
    height = cell.rise * fabric.rise + _OVERLAP * fabric.unit
    match cell.loop:
        case Loop.OPEN:
            wide = fabric.wale * cell.wide
            arch = [(head + a * wide, y + b * height, 1.0) for a, b in _ARCH]
            return through(arch, order, cell.own)
        case Loop.RAISED:
            return _crossed(_RAISED_FOOT, fabric, cell, (foot, head, y, height), order)
        case Loop.CAST_ON:
            return _crossed(_CAST_ON_FOOT, fabric, cell, (foot, head, y, height), order)
        case Loop.KNIT | Loop.PURL | Loop.SLIPPED:
            return tuple(_loop(fabric, cell, (foot, head, y, height), order))
        case Loop.NONE:
            return ()


def _loop(
    fabric: Fabric, cell: Cell, where: tuple[float, float, float, float], order: float
) -> Iterator[Knot]:
    """Crane's loop, moved sideways on its way from foot to head."""
    foot, head, y, height = where
    across, up = fabric.unit * cell.wide, height / (2 * HALF_HEIGHT)
    for step in range(1 - _STEPS // 2, _STEPS // 2):
        t = step * _STEP
        share = (1 + cos(t)) / 2
        shift = share * share * (3 - 2 * share)
        slope = 3 * share * (1 - share) * -sin(t)  # of the shift, by t
        yield Knot(
            foot + (head - foot) * shift + across * (t + SWING * sin(2 * t)),
            y + HALF_HEIGHT * (1 + cos(t)) * up,
            (across * (1 + 2 * SWING * cos(2 * t)) + (head - foot) * slope) * _STEP,
            -HALF_HEIGHT * sin(t) * up * _STEP,
            order,
            side_of(cell.loop) * (1 - abs(t) / _LEGS),
            cell.own,
        )


def _crossed(
    second: Sequence[tuple[float, float]],
    fabric: Fabric,
    cell: Cell,
    where: tuple[float, float, float, float],
    order: float,
) -> tuple[Knot, ...]:
    """A loop whose feet cross; ``own`` above 0 has its second foot on top."""
    foot, head, y, height = where
    wide = fabric.wale * cell.wide

    def points(sign: float) -> list[tuple[float, float, float]]:
        return [
            (foot + sign * x * wide, y + up * height, -1.0 if up < 0.3 else 1.0) for x, up in second
        ]

    rising, falling = points(-1.0), points(1.0)[::-1]
    way = through([*rising, (head, y + height, 1.0), *falling], order)
    ranks = [-cell.own] * len(rising) + [0.0] + [cell.own] * len(falling)
    return tuple(replace(knot, own=own) for knot, own in zip(way, ranks, strict=True))
