"""Slips in charts that grow and charts of cables, as an editor of drafts meets them.

They were written from the trade before any was run, and none was taken out because it is missed.
"""

from tests.faults.seeding import Fault, Swap, trade


def _lace(slip: str, finds: str, *swaps: tuple[str, str], **more: object) -> Fault:
    """A slip in the grid of the kerchief, whose edges grow by a stitch in every right-side row."""
    made = (Swap(before, after, "spindrift.grid") for before, after in swaps)
    return trade("chart", slip, "kerchief", finds, *made, **more)  # type: ignore[arg-type]


def _mosaic(slip: str, finds: str, *swaps: tuple[str, str], **more: object) -> Fault:
    """A slip in the grid of the cloth, each line of which is two rows in one yarn."""
    made = (Swap(before, after, "cobbles.grid") for before, after in swaps)
    return trade("chart", slip, "mosaic", finds, *made, **more)  # type: ignore[arg-type]


def _plait(slip: str, finds: str, *swaps: tuple[str, str], **more: object) -> Fault:
    """A slip in the grid of the plait, which is worked flat between purl stitches."""
    made = (Swap(before, after, "plait.grid") for before, after in swaps)
    return trade("chart", slip, "plait", finds, *made, **more)  # type: ignore[arg-type]


DRAWN = (
    # ---------------------------------------------------------------- lace that grows
    _lace(
        "the double decrease of a wave was drawn as a single one",
        "chart.count",
        ("..o^o.", "..o/o."),
        also=("chart.legend-unused",),
    ),
    _lace("a wave lacks one of its yarn overs", "chart.count", (r".o/.\o|", r"../.\o|")),
    _lace("a wave has a yarn over without its decrease", "chart.count", (r".o/.\o|", r".o..\o|")),
    _lace(
        "an increase at the edge was left out",
        "chart.count",
        ("xx..o...|......|...o..xx", "xx..o...|......|......xx"),
    ),
    _lace(
        "the last row forgets the increases of both edges, so that the repeat is not met again",
        "chart.width",
        ("..o.....|......|.....o..", "x.......|......|.......x"),
    ),
    _lace(
        "one edge grows by a stitch less than a repeat needs",
        "chart.width",
        ("..o.....|......|.....o..", "..o.....|......|.......x"),
    ),
    _lace(
        "the last row of one edge increases twice, by a cell too many",
        "chart.count",
        ("..o.....|......|.....o..", "..o.....|......|....oo.."),
    ),
    _lace(
        "a cell of the edge is shaded that is a stitch",
        "chart.count",
        ("xxx..o..|", "xxx..ox.|"),
    ),
    _lace("a cell is a stitch that should be shaded", "chart.count", ("xxx..o..|", "xx...o..|")),
    _lace("a shaded cell stands in the lace", "chart.count", (r".o/.\o|", r".o/x\o|")),
    _lace(
        "the shaded cell stands between stitches, not outside them",
        "",
        ("xxx..o..|", "xx..ox..|"),
        missed="crowns and leaves have shaded cells between stitches",
    ),
    _lace(
        "a row of the growing chart was drawn twice",
        "chart.count",
        ("x..o....|./o...|....o..x\n", "x..o....|./o...|....o..x\nx..o....|./o...|....o..x\n"),
    ),
    _lace(
        "a row of the growing chart was left out",
        "chart.count",
        ("xx..o...|......|...o..xx\n", ""),
    ),
    _lace("a cell of a row was lost", "grid.ragged", ("|./o...|", "|./o..|")),
    _lace(
        "the side of the repeat slipped by a cell in one row",
        "grid.marks",
        ("xx..o...|......|", "xx..o..|.......|"),
    ),
    trade(
        "chart",
        "the cast-on has a stitch too many for the growing chart",
        "kerchief",
        "chart.width",
        Swap("start: 10", "start: 11"),
        at=("chart: spindrift",),
    ),
    trade(
        "chart",
        "the growing chart stops before the waves are closed",
        "kerchief",
        "chart.part-repeat",
        Swap("count(passes * 12)", "count(passes * 12 - 4)"),
        at=("rounds: lace_rows",),
        also=("stated.width",),
    ),
    trade(
        "chart",
        "the rows between end with another edge than they begin with",
        "kerchief",
        "row.too-many",
        Swap("k2, p to last 2, k2", "k2, p to last 2, k3"),
    ),
    trade(
        "chart",
        "the rows between decrease a stitch",
        "kerchief",
        "chart.count",
        Swap("k2, p to last 2, k2", "k2, p2tog, p to last 2, k2"),
    ),
    trade(
        "chart",
        "the legend explains the holes as knit stitches",
        "kerchief",
        "chart.legend-twice",
        Swap('"o": yo', '"o": k'),
        also=("chart.count",),
    ),
    # ---------------------------------------------------------------- cables
    _plait("a cross was drawn over too few cells", "chart.cells", ("..RRRR|", "...RRR|")),
    _plait("a cross was drawn over too many cells", "chart.cells", ("..RRRR|", ".RRRRR|")),
    _plait(
        "a cross lies over the side of the repeat",
        "chart.cells",
        ("..RRRR|--", "...RRR|R-"),
    ),
    trade(
        "chart",
        "the legend names a cross of fewer stitches than are drawn",
        "plait",
        "chart.cells",
        Swap('"R": 2/2 RC', '"R": 2/1 RC'),
        at=("RRRR",),
    ),
    trade(
        "chart",
        "both crosses of the plait lean to the same side",
        "plait",
        "chart.legend-twice",
        Swap('"L": 2/2 LC', '"L": 2/2 RC'),
    ),
    trade(
        "chart",
        "the name of a cross is mistyped in the legend",
        "plait",
        "source.legend-meaning",
        Swap("2/2 LC}", "2/2 CL}"),
    ),
    _plait(
        "the plain row between two crosses was left out",
        "chart.odd",
        ("|--......|--\n|--..RRRR|--", "|--..RRRR|--"),
        at=("chart: plait",),
    ),
    trade(
        "chart",
        "a row before the plait puts its crosses on the wrong side",
        "plait",
        "chart.side",
        Swap("      - chart: plait", "      - work: k all\n      - chart: plait"),
        at=("chart: plait",),
    ),
    trade(
        "chart",
        "the stitches beside the last plait were forgotten in the count",
        "plait",
        "chart.width",
        Swap(", multiple = 8, plus = 2)", ", multiple = 8)"),
        at=("chart: plait",),
    ),
    trade(
        "chart",
        "a shaded cell takes the place of a purl stitch",
        "plait",
        "chart.count",
        Swap('"L": 2/2 LC}', '"L": 2/2 LC, "x": no stitch}'),
        Swap("|--LLLL..|--", "|-xLLLL..|--", "plait.grid"),
    ),
    trade(
        "chart",
        "a decrease got into a row of the plait",
        "plait",
        "chart.count",
        Swap('"L": 2/2 LC}', '"L": 2/2 LC, "/": k2tog}'),
        Swap("|--LLLL..|--", "|--LLLL./|--", "plait.grid"),
    ),
    _plait("a row of the plait has a cell too many", "grid.ragged", ("LLLL..|", "LLLL...|")),
    _plait(
        "a purl stitch stands in a strand of the plait",
        "chart.stray",
        ("LLLL..|", "LLLL-.|"),
    ),
    _plait(
        "a cross stands a stitch too far to the left",
        "",
        ("LLLL..|", ".LLLL.|"),
        missed="strands may meet anywhere",
    ),
    # ---------------------------------------------------------------- mosaic, cells that bind off
    _mosaic(
        "a cell of a mosaic line shows the other yarn above its own",
        "chart.slipped",
        (".#####\n", ".#.###\n"),
    ),
    _mosaic("a line of the mosaic was left out", "chart.slipped", ("...#..\n", "")),
    _mosaic(
        "the edge of a mosaic line is drawn in the yarn that is slipped",
        "",
        ("...#..\n", "...#.#\n"),
        missed="an edge may be slipped",
    ),
    trade(
        "chart",
        "the cloth begins in the yarn that the first line is worked in",
        "mosaic",
        "chart.ground",
        Swap("    yarn: slate\n    steps", "    yarn: foam\n    steps"),
        at=("..#...",),
    ),
    trade(
        "chart",
        "the mosaic stops between the two rows of a line",
        "mosaic",
        "chart.part-repeat",
        Swap("rounds: cobble_rows", "rounds: cobble_rows - 1"),
    ),
    trade(
        "chart",
        "the chart is no longer said to be a mosaic",
        "mosaic",
        "",
        Swap("    mode: mosaic\n", ""),
        missed="the same chart may be stranded",
    ),
    trade(
        "chart",
        "a row of lace binds off at its end",
        "kerchief",
        "chart.bind-off",
        Swap('"x": no stitch}', '"x": no stitch, "b": bind off}'),
        Swap("..o.....|......|.....o..", "bbo.....|......|.....o..", "spindrift.grid"),
    ),
)
