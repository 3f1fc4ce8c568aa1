"""A cord of a few stitches that is knitted without turning."""

from bindoff.document.drawing import Drawing
from bindoff.document.techniques.paper import Inks, arrow, rod, sheet, tip, yarn
from bindoff.document.yarn.curves import through
from bindoff.document.yarn.knitting import Fabric, Strand, plain

_NEEDLE = 2.0  # mm
_LATER = 500.0  # the order of the yarn that goes on


def i_cord(inks: Inks) -> Drawing:
    """Three stitches at the right tip of a needle, and the yarn that comes back behind them."""
    wale, thick, columns, rows = 6.2, 1.3, 3, 3
    fabric = Fabric(wale, plain(rows, columns), thick)
    top = rows - 1
    level = fabric.base(top) + fabric.height - 0.4 * fabric.rise
    half = columns / 2 * wale
    needle = [(-half - 9.0, level, 1.0)]
    for at in range(columns):
        middle = fabric.place(top, at)
        needle += [(middle - 0.27 * wale, level, -1.0), (middle + 0.27 * wale, level, 1.0)]
    end = half + 1.5
    needle.append((end, level, 1.0))
    foot = fabric.base(top)
    back = [
        (-half + 0.1 * wale, foot, 0.0),
        (-half - 1.6, foot + 0.5 * fabric.rise, -1.0),
        (-0.5 * half, foot + 1.15 * fabric.rise, -1.0),
        (0.5 * half, foot + 1.15 * fabric.rise, -1.0),
        (half + 4.0, foot + 0.4 * fabric.rise, 1.0),
        (half + 10.0, foot - 0.2 * fabric.rise, 1.0),
    ]
    thread = Strand(through(back, _LATER), thick, "thread")
    shapes = list(yarn([*fabric.strands(), thread, rod(needle, _NEEDLE)], inks))
    shapes.append(tip(end, level, _NEEDLE, inks, long=-4.5))
    shapes += arrow([(-half, level + 4.2), (half, level + 4.2)], inks)
    return sheet(shapes)
