"""Increases. The majority's way round of make 1 left and right: common practice, no source."""

from bindoff.craft.entry import Lean, knit_entry
from bindoff.craft.symbols import Commands, Symbol, circle, dotted, image, line

_FOOT_LEFT: Commands = (
    ("M", 0.64, 0.16),
    ("L", 0.64, 0.56),
    ("C", 0.64, 0.86, 0.4, 0.88, 0.24, 0.72),
)
_FORK = (*line((0.22, 0.2), (0.5, 0.52), (0.78, 0.2)), *line((0.5, 0.52), (0.5, 0.82)))

_M1L = Symbol("hook with its foot to the left", _FOOT_LEFT, name="make 1 left")
_M1R = image(_M1L, "make 1 right", "hook with its foot to the right")
_M1 = Symbol(
    "cup on a stem",
    (*line((0.5, 0.56), (0.5, 0.84)), ("M", 0.24, 0.2), ("C", 0.24, 0.68, 0.76, 0.68, 0.76, 0.2)),
    name="make 1",
)
_RLI = Symbol(
    "stroke leaning right with a bar at its foot",
    (*line((0.3, 0.82), (0.7, 0.18)), *line((0.12, 0.82), (0.48, 0.82))),
    name="lifted increase right",
)
_LLI = image(_RLI, "lifted increase left", "stroke leaning left with a bar at its foot")
_KFB = Symbol("fork", _FORK, name="kfb")
_KYOK = Symbol(
    "fork of three",
    (*_FORK, *line((0.5, 0.16), (0.5, 0.52))),
    name="kyok",
)

STITCHES = (
    knit_entry(
        "yo",
        (0, 1),
        "yarn over",
        "Lay the yarn over the right needle from front to back, which leaves a hole.",
        aliases=("yfwd", "yrn", "yon", "yfrn"),
        symbol=Symbol("open circle", circle(0.5, 0.5, 0.29), name="yarn over"),
        loose=("yfrn",),
    ),
    knit_entry(
        "byo",
        (0, 1),
        "backward yarn over",
        "Lay the yarn over the right needle from back to front, which leaves a hole.",
        symbol=Symbol(
            "open circle over a bar",
            (*circle(0.5, 0.4, 0.25), *line((0.24, 0.84), (0.76, 0.84))),
            name="backward yarn over",
        ),
    ),
    knit_entry(
        "m1",
        (0, 1),
        "make 1",
        "Lift the strand before the next stitch onto the left needle and knit it twisted.",
        abbreviation="M1",
        on_wrong_side="m1p",
        symbol=_M1,
    ),
    knit_entry(
        "m1l",
        (0, 1),
        "make 1 left",
        "Lift the strand before the next stitch from front to back and knit through its back.",
        lean=Lean.LEFT,
        twists=True,
        abbreviation="M1L",
        mirror="m1r",
        on_wrong_side="m1lp",
        symbol=_M1L,
    ),
    knit_entry(
        "m1r",
        (0, 1),
        "make 1 right",
        "Lift the strand before the next stitch from back to front and knit through its front.",
        lean=Lean.RIGHT,
        twists=True,
        abbreviation="M1R",
        mirror="m1l",
        on_wrong_side="m1rp",
        symbol=_M1R,
    ),
    knit_entry(
        "m1p",
        (0, 1),
        "make 1 purlwise",
        "Lift the strand before the next stitch onto the left needle and purl it twisted.",
        abbreviation="M1P",
        on_wrong_side="m1",
        symbol=dotted(_M1, "make 1 purlwise", 0.5, 0.26),
    ),
    knit_entry(
        "m1lp",
        (0, 1),
        "make 1 left purlwise",
        "Lift the strand before the next stitch from front to back and purl through its back.",
        lean=Lean.LEFT,
        twists=True,
        aliases=("m1pl",),
        abbreviation="M1LP",
        mirror="m1rp",
        on_wrong_side="m1l",
        symbol=dotted(_M1L, "make 1 left purlwise", 0.32, 0.36),
        loose=(
            "m1lp",
            "m1pl",
        ),
    ),
    knit_entry(
        "m1rp",
        (0, 1),
        "make 1 right purlwise",
        "Lift the strand before the next stitch from back to front and purl through its front.",
        lean=Lean.RIGHT,
        twists=True,
        aliases=("m1pr",),
        abbreviation="M1RP",
        mirror="m1lp",
        on_wrong_side="m1r",
        symbol=dotted(_M1R, "make 1 right purlwise", 0.68, 0.36),
        loose=(
            "m1rp",
            "m1pr",
        ),
    ),
    knit_entry(
        "lli",
        (0, 1),
        "left lifted increase",
        "Lift the left leg of the stitch two rows below the last one worked onto the left needle, "
        "and knit it.",
        lean=Lean.LEFT,
        twists=True,
        abbreviation="LLI",
        mirror="rli",
        on_wrong_side="llpi",
        symbol=_LLI,
        loose=("lli",),
    ),
    knit_entry(
        "rli",
        (0, 1),
        "right lifted increase",
        "Lift the right leg of the stitch below the next one onto the left needle, and knit it.",
        lean=Lean.RIGHT,
        twists=True,
        abbreviation="RLI",
        mirror="lli",
        on_wrong_side="rlpi",
        symbol=_RLI,
        loose=("rli",),
    ),
    knit_entry(
        "llpi",
        (0, 1),
        "left lifted purl increase",
        "Lift the left leg of the stitch two rows below the last one worked onto the left needle, "
        "and purl it.",
        lean=Lean.LEFT,
        twists=True,
        abbreviation="LLPI",
        mirror="rlpi",
        on_wrong_side="lli",
        symbol=dotted(_LLI, "lifted increase left, purled", 0.74, 0.24),
        loose=("llpi",),
    ),
    knit_entry(
        "rlpi",
        (0, 1),
        "right lifted purl increase",
        "Lift the right leg of the stitch below the next one onto the left needle, and purl it.",
        lean=Lean.RIGHT,
        twists=True,
        abbreviation="RLPI",
        mirror="llpi",
        on_wrong_side="rli",
        symbol=dotted(_RLI, "lifted increase right, purled", 0.26, 0.24),
        loose=("rlpi",),
    ),
    knit_entry(
        "kfb",
        (1, 2),
        "knit front and back",
        "Knit the stitch, keep it on the left needle, and knit it again through its back.",
        spoken="knit into the front and back",
        loops=2,
        on_wrong_side="pfb",
        symbol=_KFB,
    ),
    knit_entry(
        "pfb",
        (1, 2),
        "purl front and back",
        "Purl the stitch, keep it on the left needle, and purl it again through its back.",
        spoken="purl into the front and back",
        loops=2,
        on_wrong_side="kfb",
        symbol=dotted(_KFB, "pfb", 0.78, 0.74),
    ),
    knit_entry(
        "kyok",
        (1, 3),
        "knit, yarn over, knit into one stitch",
        "Knit the stitch, keep it on the left needle, lay the yarn over the right needle, and knit "
        "the stitch again.",
        loops=3,
        on_wrong_side="pyop",
        symbol=_KYOK,
        loose=("kyok",),
    ),
    knit_entry(
        "pyop",
        (1, 3),
        "purl, yarn over, purl into one stitch",
        "Purl the stitch, keep it on the left needle, lay the yarn over the right needle, and purl "
        "the stitch again.",
        loops=3,
        on_wrong_side="kyok",
        symbol=dotted(_KYOK, "pyop", 0.24, 0.7),
        loose=("pyop",),
    ),
)
