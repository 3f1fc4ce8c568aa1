"""What stands in a chart alone: a cell that is no stitch, stitches bound off or cast on, and those
that a row leaves on the needle where it turns early.

In a row these are words of their own, with a number: ``bind off 3``. One cell for each stitch that
is bound off or cast on: common practice, no source.
"""

from bindoff.craft.entry import Loop, Wording, knit_entry
from bindoff.craft.symbols import Commands, Symbol, line
from bindoff.records import replace

_ARCH: Commands = (("M", 0.2, 0.8), ("C", 0.2, 0.06, 0.8, 0.06, 0.8, 0.8))
_CUP: Commands = (
    ("M", 0.2, 0.22),
    ("C", 0.2, 0.9, 0.8, 0.9, 0.8, 0.22),
    *line((0.34, 0.22), (0.66, 0.22)),
)

BIND_OFF, CAST_ON = "bound off", "cast-on"
"""Ids of their own: ``bind off`` and ``cast on`` are what a row says."""

WRAPPED, NOT_WORKED = "wrapped where the row turns", "not worked"
"""The stitch that is wrapped at a turn, which a legend calls ``w&t``, and those beyond it."""

BEYOND = (WRAPPED, NOT_WORKED)
"""Stitches that stay on the needle as they are. A mark of its own on the turning stitch and grey
cells beyond it are common practice, no source; the hatching says it without a colour."""

_HATCHED: Commands = (
    *line((0.12, 0.5), (0.5, 0.12)),
    *line((0.12, 0.88), (0.88, 0.12)),
    *line((0.5, 0.88), (0.88, 0.5)),
)
_COLLAR: Commands = (
    *line((0.5, 0.12), (0.5, 0.88)),
    ("M", 0.2, 0.56),
    ("C", 0.2, 0.34, 0.8, 0.34, 0.8, 0.56),
    ("C", 0.8, 0.78, 0.2, 0.78, 0.2, 0.56),
    ("Z",),
)

STITCHES = (
    knit_entry(
        "no stitch",
        (0, 0),
        "no stitch",
        "The chart keeps a cell free here; pass over it and work the next.",
        loops=0,
        symbol=Symbol("shaded cell", shade="#bdbdbd", name="no stitch"),
        loop=Loop.NONE,
    ),
    replace(
        knit_entry(
            BIND_OFF,
            (1, 0),
            "bind off",
            "Lift the stitch over the next one worked and off the needle; the stitch left on the "
            "right needle after the last one bound off is the next stitch of the row.",
            abbreviation="bind off",
            written="bind off {n}",
            spoken="bind off {n}",
            symbol=Symbol("arch", _ARCH, name="bind off"),
        ),
        uk=Wording("cast off", "cast off", "cast off {n}", "cast off {n}"),
    ),
    knit_entry(
        CAST_ON,
        (0, 1),
        "cast on",
        "Make a new stitch on the right needle with the working yarn.",
        abbreviation="cast on",
        written="cast on {n}",
        spoken="cast on {n}",
        symbol=Symbol("cup with a bar across its mouth", _CUP, name="cast on"),
    ),
    knit_entry(
        WRAPPED,
        (1, 1),
        "wrap and turn",
        "Take the next stitch to the right needle, bring the yarn round it, put it back, and turn "
        "the work.",
        abbreviation="w&t",
        loops=0,
        symbol=Symbol("upright stroke with a ring around it", _COLLAR, name="wrap and turn"),
        loop=Loop.NONE,
    ),
    knit_entry(
        NOT_WORKED,
        (1, 1),
        "not worked",
        "Leave the stitch on the needle: the row has turned before it.",
        loops=0,
        symbol=Symbol("hatched cell", _HATCHED, shade="#e4e4e4", name="not worked"),
        loop=Loop.NONE,
    ),
)
