"""Knit and purl, plain and twisted."""

from bindoff.craft.entry import Loop, knit_entry
from bindoff.craft.symbols import Commands, Symbol, circle, dotted, line

_RIBBON: Commands = (
    ("M", 0.26, 0.82),
    ("C", 0.88, 0.42, 0.82, 0.16, 0.5, 0.16),
    ("C", 0.18, 0.16, 0.12, 0.42, 0.74, 0.82),
)
_TWISTED = Symbol("loop with crossed feet", _RIBBON, name="ktbl")
_ARROW = (*line((0.5, 0.16), (0.5, 0.82)), *line((0.28, 0.58), (0.5, 0.82), (0.72, 0.58)))
_WAYS = ("tbl", "below")

STITCHES = (
    knit_entry(
        "k",
        (1, 1),
        "knit",
        "With the yarn at the back, bring a new loop to the front through the stitch.",
        takes=_WAYS,
        aliases=("knit",),
        written="k{n}",
        spoken="knit {n}",
        on_wrong_side="p",
        symbol=Symbol("empty cell", name="knit"),
    ),
    knit_entry(
        "p",
        (1, 1),
        "purl",
        "With the yarn at the front, push a new loop to the back through the stitch.",
        takes=_WAYS,
        aliases=("purl",),
        written="p{n}",
        spoken="purl {n}",
        on_wrong_side="k",
        symbol=Symbol("dot", fills=circle(0.5, 0.5, 0.13), name="purl"),
        loop=Loop.PURL,
    ),
    knit_entry(
        "k tbl",
        (1, 1),
        "knit through back loop",
        "Knit the stitch through its back, which crosses its feet.",
        aliases=("kbl", "kb"),
        written="k{n} tbl",
        spoken="knit {n} through back loop",
        on_wrong_side="p tbl",
        symbol=_TWISTED,
        base="k",
        how=("tbl",),
        loose=(
            "kbl",
            "kb",
        ),
    ),
    knit_entry(
        "p tbl",
        (1, 1),
        "purl through back loop",
        "Purl the stitch through its back, which crosses its feet.",
        aliases=("pbl",),
        written="p{n} tbl",
        spoken="purl {n} through back loop",
        on_wrong_side="k tbl",
        symbol=dotted(_TWISTED, "ptbl", 0.5, 0.36),
        base="p",
        how=("tbl",),
        loose=("pbl",),
        loop=Loop.PURL,
    ),
    knit_entry(
        "k below",
        (1, 1),
        "knit into the stitch below",
        "Knit into the stitch one row below the next, and let both slip off the left needle.",
        written="k{n} below",
        spoken="knit {n} one row below",
        on_wrong_side="p below",
        symbol=Symbol(
            "arrow pointing down",
            _ARROW,
            name="knit below",
        ),
        base="k",
        how=("below",),
    ),
    knit_entry(
        "p below",
        (1, 1),
        "purl into the stitch below",
        "Purl into the stitch one row below the next, and let both slip off the left needle.",
        written="p{n} below",
        spoken="purl {n} one row below",
        on_wrong_side="k below",
        symbol=Symbol(
            "arrow pointing down with a dot",
            _ARROW,
            circle(0.76, 0.28, 0.1),
            name="purl below",
        ),
        base="p",
        how=("below",),
        loop=Loop.PURL,
    ),
    knit_entry(
        "ds",
        (1, 1),
        "double stitch",
        "With the yarn in front, slip the stitch purlwise and pull the yarn up over the needle to "
        "the back until two legs show; it counts as one stitch, and both legs are worked together "
        "later.",
        aliases=("mds", "dsk", "dsp"),
        loops=0,
        symbol=Symbol(
            "two legs",
            (*line((0.36, 0.2), (0.44, 0.8)), *line((0.64, 0.2), (0.56, 0.8))),
            name="double stitch",
        ),
    ),
)
