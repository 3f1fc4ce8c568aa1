"""How the drawings of an edition are made: how large, and whether in colour."""

from math import inf

from bindoff.records import Record


class Drawn(Record):
    """Charts, schematics and swatches of one edition; lengths in mm.

    A drawing has room ``width`` by ``height``, as much as it wants if nobody says; a piece of a
    chart, which has a page of its own, is ``sheet`` high at most, and on a page that lies on its
    side ``turned_width`` by ``turned_height``. The longer side of a chart's cell is from ``least``
    to ``largest`` as that allows, or from ``whole`` where that keeps the chart in one piece; a
    chart that would leave more room is repeated, and one that leaves the width ``key``, with cells
    of ``key_cell`` at least, has its key beside it. The map of a tube takes ``map`` of the width.
    ``numbers`` and ``letters`` are the type of charts and of schematics. Without ``colour`` nothing
    is filled: symbols alone tell the yarns, and the fabric is not shown. In drawings of techniques
    the yarn that moves has the colour ``thread``, what should stand out a little that of ``shade``,
    and another piece that of ``tint``. Unless ``painted``, what nobody reads a figure or a word
    from is left out: the fabric on the cover, drawings of techniques, numbers laid over charts.
    Their words stay, and checks need no more.
    """

    width: float = inf
    height: float = inf
    sheet: float = inf
    turned_width: float = inf
    turned_height: float = inf
    least: float = 4.0
    whole: float = 3.4
    largest: float = 6.0
    key: float = 0.0
    key_cell: float = 0.0
    map: float = inf
    numbers: float = 2.85
    letters: float = 3.2
    colour: bool = True
    thread: str = "#e8794a"
    shade: str = "#d9d9d9"
    tint: str = "#efefef"
    painted: bool = True


USUALLY = Drawn()
