"""Brioche: a slipped stitch and the yarn over it, which count as one stitch.

Words and ways of work: those of a brioche handbook's published list; partners and the two leaning
decreases: common practice, no source.
"""

from bindoff.craft.entry import Lean, Loop, knit_entry
from bindoff.craft.symbols import Symbol, circle, dotted, image, line, mirrored

_PEAK = line((0.2, 0.8), (0.5, 0.24), (0.8, 0.8))
_BAR = line((0.5, 0.24), (0.5, 0.8))
_BRK = Symbol("peak with a stem", (*_PEAK, *_BAR), name="brk")
_BRKYOBRK = Symbol(
    "peak with a stem and a ring above it",
    (
        *line((0.16, 0.86), (0.5, 0.44), (0.84, 0.86)),
        *line((0.5, 0.44), (0.5, 0.86)),
        *circle(0.5, 0.24, 0.14),
    ),
    name="brkyobrk",
)
_LEAN_LEFT = mirrored(line((0.14, 0.86), (0.86, 0.14)))
_BRLSL = Symbol(
    "two strokes leaning left, joined by a foot",
    (*_LEAN_LEFT, *line((0.44, 0.14), (0.86, 0.56)), *line((0.14, 0.14), (0.44, 0.14))),
    name="brLsl",
)

STITCHES = (
    knit_entry(
        "sl1yo",
        (1, 1),
        "slip 1 with a yarn over",
        "Bring the yarn to the front, slip the next stitch purlwise, and lay the yarn over the "
        "needle and the stitch to the back: both loops count as one stitch.",
        aliases=("slyo",),
        symbol=Symbol(
            "V under a ring",
            (*line((0.24, 0.44), (0.5, 0.86), (0.76, 0.44)), *circle(0.5, 0.24, 0.13)),
            name="sl1yo",
        ),
        loose=("sl1yo", "slyo"),
        loop=Loop.SLIPPED,
    ),
    knit_entry(
        "brk",
        (1, 1),
        "brioche knit",
        "Knit the stitch that was slipped in the row before together with the yarn over that lies "
        "over it.",
        written="brk{n}",
        spoken="brioche knit {n}",
        on_wrong_side="brp",
        symbol=_BRK,
        loose=("brk",),
    ),
    knit_entry(
        "brp",
        (1, 1),
        "brioche purl",
        "Purl the stitch that was slipped in the row before together with the yarn over that lies "
        "over it.",
        written="brp{n}",
        spoken="brioche purl {n}",
        on_wrong_side="brk",
        symbol=dotted(_BRK, "brp", 0.5, 0.56, 0.13),
        loose=("brp",),
    ),
    knit_entry(
        "brkyobrk",
        (1, 3),
        "brioche knit, yarn over, brioche knit into one stitch",
        "Work a brioche knit and keep the stitch on the left needle, lay the yarn over, work a "
        "brioche knit into it again, and let it slip off: three stitches of one.",
        loops=3,
        symbol=_BRKYOBRK,
        loose=("brkyobrk",),
    ),
    knit_entry(
        "brlsl",
        (3, 1),
        "brioche decrease leaning left",
        "Slip the first stitch with its yarn over knitwise, work the next two together as a "
        "brioche knit, and lift the slipped one over them.",
        abbreviation="brLsl",
        lean=Lean.LEFT,
        twists=True,  # worked on right-side rows only
        mirror="brrsl",
        symbol=_BRLSL,
        loose=("brlsl",),
    ),
    knit_entry(
        "brrsl",
        (3, 1),
        "brioche decrease leaning right",
        "Slip the first stitch with its yarn over knitwise, knit the next and lift the slipped one "
        "over it; put the result on the left needle, lift the stitch after it over it, and slip it "
        "back to the right needle.",
        abbreviation="brRsl",
        lean=Lean.RIGHT,
        twists=True,
        mirror="brlsl",
        symbol=image(_BRLSL, "brRsl", "two strokes leaning right, joined by a foot"),
        loose=("brrsl",),
    ),
)
