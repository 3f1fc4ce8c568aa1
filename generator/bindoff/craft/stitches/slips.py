"""Slipped stitches, which keep the yarn on one side of the work, and lifting them over."""

from bindoff.craft.entry import Loop, knit_entry
from bindoff.craft.symbols import Symbol, line

_V = line((0.24, 0.24), (0.5, 0.76), (0.76, 0.24))
_UNDER_BAR = (*line((0.2, 0.14), (0.8, 0.14)), *line((0.24, 0.3), (0.5, 0.8), (0.76, 0.3)))
_V_KNITWISE = Symbol("V under a bar", _UNDER_BAR, name="slip knitwise")
_V_KNITWISE_IN_FRONT = Symbol(
    "V between two bars",
    (*line((0.2, 0.14), (0.8, 0.14)), *_V, *line((0.24, 0.88), (0.76, 0.88))),
    name="slip knitwise yarn in front",
)

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
        loop=Loop.SLIPPED,
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
        loop=Loop.SLIPPED,
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
        loop=Loop.SLIPPED,
    ),
    knit_entry(
        "sl knitwise",
        (1, 1),
        "slip knitwise",
        "Move the stitch unworked to the right needle as if to knit, which turns it, with the yarn "
        "on the wrong side of the work.",
        written="sl{n} knitwise",
        spoken="slip {n} knitwise",
        loops=0,
        on_right_side="sl knitwise wyib",
        on_wrong_side="sl knitwise wyif",
        symbol=_V_KNITWISE,
        base="sl",
        how=("knitwise",),
        loop=Loop.SLIPPED,
    ),
    *(
        knit_entry(
            f"sl knitwise {way}",
            (1, 1),
            f"slip knitwise with yarn in {place}",
            f"With the yarn at the {place}, move the stitch unworked to the right needle as if to "
            "knit, which turns it.",
            written=f"sl{{n}} knitwise {way}",
            spoken=f"slip {{n}} knitwise with yarn in {place}",
            loops=0,
            on_wrong_side=f"sl knitwise {other}",
            symbol=symbol,
            base="sl",
            how=("knitwise", way),
        )
        for way, other, place, symbol in (
            ("wyib", "wyif", "back", _V_KNITWISE),
            ("wyif", "wyib", "front", _V_KNITWISE_IN_FRONT),
        )
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
