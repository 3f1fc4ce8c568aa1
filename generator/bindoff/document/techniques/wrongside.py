"""The wrong side of fabric in two yarns: their floats."""

from collections.abc import Sequence

from bindoff.craft.entry import Loop
from bindoff.document.drawing import Drawing
from bindoff.document.techniques.paper import Inks, lines, number, sheet, yarn
from bindoff.document.yarn.curves import Knot, eased
from bindoff.document.yarn.knitting import Cell, Fabric, Row, Strand, loop_knots
from bindoff.records import replace

_WALE, _COURSE, _THICK = 5.8, 5.4, 1.12
ROUNDS = ("AAAAAAAAA", "ABAAABBAA", "AAABAAAAB", "AAAAAAAAA")
"""The yarn of each stitch, the lowest round first."""
_LEVELS = {"A": 0.42, "B": -0.12}
"""How far above the foot of its round the floats of a yarn pass, in courses."""
_NAMED = {"A": 2, "B": 1}
"""The round at whose right end a yarn floats, and has its name beside it."""
_TAIL = 0.66  # of a wale: how far a yarn goes on beside its last stitch
_AIR, _LED, _LEADER = 0.5, 5.5, 0.2  # mm from a yarn's end to its line, to its name; its weight
_CLEAR = 0.62  # of a wale: a float is level so far from its yarn's stitches


def floats(inks: Inks) -> Drawing:
    """Two rounds in two yarns, seen from inside: floats of one pass above those of the other."""
    cells = tuple(Cell(Loop.PURL) for _ in ROUNDS[0])
    rows = tuple(Row(cells, float(nth)) for nth in range(len(ROUNDS)))
    fabric = Fabric(_WALE, rows, _THICK, _COURSE)
    strands = [
        one_yarn(fabric, nth, stitches, which)
        for nth, stitches in enumerate(ROUNDS)
        for which in sorted(set(stitches))
    ]
    shapes = list(yarn(strands, inks))
    end = (len(cells) / 2 + _TAIL - 0.5) * _WALE
    for which, nth in _NAMED.items():
        y = fabric.base(nth) + _LEVELS[which] * fabric.rise
        shapes.append(lines([((end + _AIR, y), (end + _LED, y))], inks, _LEADER))
        shapes += number(end + _LED, y, which, inks)
    return sheet(shapes)


def one_yarn(fabric: Fabric, row: int, stitches: Sequence[str], which: str) -> Strand:
    """A yarn of a round: its own stitches, and floats between them. That which is laid in second
    lies behind the first wherever it is knitted, as it is worked later."""
    order = row + (0.25 if which == "B" else 0.0)
    sinker, level = fabric.base(row), fabric.base(row) + _LEVELS[which] * fabric.rise
    places = [at for at, each in enumerate(stitches) if each == which]
    feet = [fabric.foot(row, place) for place in places]
    left, right = (fabric.foot(row, at) for at in (0, len(stitches) - 1))
    left, right = left - _TAIL * _WALE, right + _TAIL * _WALE

    def between(start: float, end: float, *, float_: bool) -> list[Knot]:
        """The yarn from one foot to the next: a sinker, or a float."""
        if not float_:
            return [Knot((start + end) / 2, sinker, fabric.unit * 3.1, 0.0, order, 1.0)]
        ends = (start + _CLEAR * _WALE, end - _CLEAR * _WALE)
        return [Knot(x, level, fabric.unit * 3.1, 0.0, order, 1.0) for x in ends]

    knots = list[Knot]()
    if places[0]:
        knots += between(left - _CLEAR * _WALE, feet[0], float_=True)
    else:
        knots.append(Knot(left, sinker, fabric.unit * 3.1, 0.0, order, 1.0))
    for nth, place in enumerate(places):
        if nth:
            knots += between(feet[nth - 1], feet[nth], float_=place > places[nth - 1] + 1)
        knots += [replace(each, order=order) for each in loop_knots(fabric, row, place)]
    if places[-1] < len(stitches) - 1:
        knots += between(feet[-1], right + _CLEAR * _WALE, float_=True)
    else:
        knots.append(Knot(right, sinker, fabric.unit * 3.1, 0.0, order, 1.0))
    return Strand(eased(knots), _THICK, "thread" if which == "B" else "yarn")
