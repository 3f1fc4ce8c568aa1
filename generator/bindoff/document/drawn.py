"""How the drawings of an edition are made: how large, and whether in colour."""

from bindoff.records import Record

# What both A4 and US Letter hold inside their margins, less the chart's heading and caption.
PAGE_WIDTH_MM = 165.0
PAGE_HEIGHT_MM = 190.0


class Drawn(Record):
    """Charts, schematics and swatches of one edition; lengths in mm.

    The longer side of a chart's cell is from ``least`` to ``largest`` as the page allows. A page
    has room for drawings ``page`` wide, and ``key`` of that is what a chart's key takes that can
    stand beside it. ``numbers`` and ``letters`` are the type of charts and of schematics. Without
    ``colour`` nothing is filled: symbols alone tell the yarns, and the fabric is not shown.
    """

    least: float = 4.0
    largest: float = 6.0
    numbers: float = 2.3
    letters: float = 3.2
    page: float = PAGE_WIDTH_MM
    key: float = 62.0
    colour: bool = True


USUALLY = Drawn()
LARGE = Drawn(8.0, 10.0, numbers=6.35, letters=6.35, page=158.0, key=75.0)
"""For large print: type of 18 pt (6.35 mm), and margins of an inch, so that nothing is shrunk to
fit."""
UNFILLED = Drawn(colour=False)
"""For the print saver: lines and symbols on white paper."""
