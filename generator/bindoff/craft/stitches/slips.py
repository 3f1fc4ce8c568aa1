"""Slipped stitches, which keep the yarn on one side of the work, and lifting them over."""

from bindoff.craft.entry import knit_entry
from bindoff.craft.symbols import Symbol, line

_V = line((0.24, 0.24), (0.5, 0.76), (0.76, 0.24))

STITCHES = (
    knit_entry(
        "sl",
        (1, 1),
        "slip",
        "Move the stitch to the right needle unworked; unless told otherwise purlwise, with the "
        "yarn on the wrong side of the work.",
        takes=("purlwise", "knitwise", "wyib", "wyif"),
        aliases=("slip",),
        written="sl{n}",
        spoken="slip {n}",
        loops=0,
        on_right_side="sl wyib",
        on_wrong_side="sl wyif",
        symbol=Symbol("V", _V, name="slip"),
    ),
    knit_entry(
        "sl wyib",
        (1, 1),
        "slip with yarn in back",
        "With the yarn at the back, move the stitch purlwise to the right needle unworked.",
        written="sl{n} wyib",
        spoken="slip {n} with yarn in back",
        loops=0,
        on_wrong_side="sl wyif",
        symbol=Symbol("V", _V, name="slip"),
        base="sl",
        how=("wyib",),
    ),
    knit_entry(
        "sl wyif",
        (1, 1),
        "slip with yarn in front",
        "With the yarn at the front, move the stitch purlwise to the right needle unworked.",
        written="sl{n} wyif",
        spoken="slip {n} with yarn in front",
        loops=0,
        on_wrong_side="sl wyib",
        symbol=Symbol(
            "V over a bar", (*_V, *line((0.24, 0.86), (0.76, 0.86))), name="slip yarn in front"
        ),
        base="sl",
        how=("wyif",),
    ),
    knit_entry(
        "psso",
        (0, -1),
        "pass slipped stitch over",
        "Lift the stitch slipped before over the one just worked and off the needle.",
        loops=0,
    ),
    knit_entry(
        "p2sso",
        (0, -2),
        "pass 2 slipped stitches over",
        "Lift the two stitches slipped before over the one just worked and off the needle.",
        loops=0,
    ),
)
