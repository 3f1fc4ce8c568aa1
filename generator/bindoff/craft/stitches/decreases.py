"""Decreases. Layers, leans and wrong-side partners: common practice, no source, but where said."""

from bindoff.craft.entry import Lean, knit_entry
from bindoff.craft.symbols import LEAN_RIGHT, Symbol, dotted, image, line, mirrored

LEFT, RIGHT, CENTRED = Lean.LEFT, Lean.RIGHT, Lean.CENTRED

_LEGS = (*line((0.5, 0.5), (0.5, 0.84)), *line((0.5, 0.5), (0.82, 0.84)))
_FEET = (*_LEGS, *line((0.5, 0.5), (0.86, 0.62)))

_K2TOG = Symbol("stroke leaning right", LEAN_RIGHT, name="k2tog")
_SSK = image(_K2TOG, "ssk", "stroke leaning left")
_K3TOG = Symbol("three-legged stroke leaning right", (*LEAN_RIGHT, *_LEGS), name="k3tog")
_SSSK = image(_K3TOG, "sssk", "three-legged stroke leaning left")
_K4TOG = Symbol("four-legged stroke leaning right", (*LEAN_RIGHT, *_FEET), name="k4tog")
_K2TOG_TBL = Symbol(
    "stroke leaning left with a bar at its head",
    (*mirrored(LEAN_RIGHT), *line((0.18, 0.36), (0.42, 0.12))),
    name="k2tog tbl",
)
_K3TOG_TBL = Symbol(
    "three-legged stroke leaning left with a bar at its head",
    (*mirrored((*LEAN_RIGHT, *_LEGS)), *line((0.18, 0.36), (0.42, 0.12))),
    name="k3tog tbl",
)
_SK2P = Symbol(
    "stroke leaning left with a leg and a bar on top",
    (
        *mirrored(LEAN_RIGHT),
        *line((0.5, 0.5), (0.24, 0.82)),
        *line((0.44, 0.18), (0.72, 0.18)),
    ),
    name="sk2p",
)
_TRIPOD = Symbol(
    "upright tripod",
    (*line((0.5, 0.18), (0.5, 0.82)), *line((0.2, 0.82), (0.5, 0.18), (0.8, 0.82))),
    name="centred double decrease",
)

STITCHES = (
    knit_entry(
        "k2tog",
        (2, 1),
        "knit 2 together",
        "Knit the next two stitches as if they were one.",
        lean=RIGHT,
        takes=("tbl",),
        mirror="ssk",
        on_wrong_side="p2tog",
        symbol=_K2TOG,
    ),
    knit_entry(
        "k3tog",
        (3, 1),
        "knit 3 together",
        "Knit the next three stitches as if they were one.",
        lean=RIGHT,
        takes=("tbl",),
        mirror="sssk",
        on_wrong_side="p3tog",
        symbol=_K3TOG,
    ),
    knit_entry(
        "k4tog",
        (4, 1),
        "knit 4 together",
        "Knit the next four stitches as if they were one.",
        lean=RIGHT,
        on_wrong_side="p4tog",
        symbol=_K4TOG,
        loose=("k4tog",),
    ),
    knit_entry(
        "p2tog",
        (2, 1),
        "purl 2 together",
        "Purl the next two stitches as if they were one.",
        lean=LEFT,
        takes=("tbl",),
        mirror="ssp",
        on_wrong_side="k2tog",
        symbol=dotted(_K2TOG, "p2tog", 0.74, 0.72),
    ),
    knit_entry(
        "p3tog",
        (3, 1),
        "purl 3 together",
        "Purl the next three stitches as if they were one.",
        lean=LEFT,
        takes=("tbl",),
        mirror="sssp",
        on_wrong_side="k3tog",
        symbol=dotted(_K3TOG, "p3tog", 0.28, 0.34),
    ),
    knit_entry(
        "p4tog",
        (4, 1),
        "purl 4 together",
        "Purl the next four stitches as if they were one.",
        lean=LEFT,
        on_wrong_side="k4tog",
        symbol=dotted(_K4TOG, "p4tog", 0.28, 0.34),
        loose=("p4tog",),
    ),
    knit_entry(
        "ssk",
        (2, 1),
        "slip, slip, knit",
        "Slip two stitches knitwise one after the other, then knit both together through the "
        "back of their loops.",
        lean=LEFT,
        spoken="slip 2 one at a time and knit them together",
        mirror="k2tog",
        on_wrong_side="ssp",
        symbol=_SSK,
    ),
    knit_entry(
        "ssp",
        (2, 1),
        "slip, slip, purl",
        "Slip two stitches knitwise one after the other, move them back, and purl both "
        "together through the back of their loops.",
        lean=RIGHT,
        spoken="slip 2 one at a time and purl them together",
        mirror="p2tog",
        on_wrong_side="ssk",
        symbol=dotted(_SSK, "ssp", 0.26, 0.72),
    ),
    knit_entry(
        "sssk",
        (3, 1),
        "slip, slip, slip, knit",
        "Slip three stitches knitwise one after the other, then knit them together through "
        "the back of their loops.",
        lean=LEFT,
        spoken="slip 3 one at a time and knit them together",
        mirror="k3tog",
        on_wrong_side="sssp",
        symbol=_SSSK,
    ),
    knit_entry(
        "sssp",
        (3, 1),
        "slip, slip, slip, purl",
        "Slip three stitches knitwise one after the other, move them back, and purl them "
        "together through the back of their loops.",
        lean=RIGHT,
        spoken="slip 3 one at a time and purl them together",
        mirror="p3tog",
        on_wrong_side="sssk",
        symbol=dotted(_SSSK, "sssp", 0.72, 0.34),
        loose=("sssp",),
    ),
    knit_entry(
        "skp",
        (2, 1),
        "slip 1, knit 1, pass slipped stitch over",
        "Slip one stitch knitwise, knit the next, and lift the slipped stitch over it.",
        lean=LEFT,
        aliases=("skpo",),
        spoken="slip 1 and pass it over knit 1",
        mirror="k2tog",
        on_wrong_side="ssp",
        symbol=_SSK,
    ),
    knit_entry(
        "sk2p",
        (3, 1),
        "slip 1, knit 2 together, pass slipped stitch over",
        "Slip one stitch knitwise, knit two together, and lift the slipped stitch over.",
        lean=LEFT,
        aliases=("sk2po",),
        spoken="slip 1 and pass it over knit 2 together",
        mirror="k3tog",
        on_wrong_side="p2tog-pnso",
        symbol=_SK2P,
        loose=("sk2po",),
    ),
    knit_entry(
        "p2tog-pnso",
        (3, 1),
        "purl 2 together, pass next stitch over",
        "Purl two together, put the new stitch back on the left needle, lift the next stitch over "
        "it, and slip it to the right needle.",
        lean=RIGHT,
        spoken="purl 2 together and pass the next stitch over",
        mirror="p3tog",
        on_wrong_side="sk2p",
        symbol=dotted(_SK2P, "p2tog-pnso", 0.76, 0.44),
        loose=("p2tog-pnso",),
    ),
    knit_entry(
        "s2kp",
        (3, 1),
        "slip 2 together, knit 1, pass slipped stitches over",
        "Slip two stitches knitwise at once, knit the next, and lift both slipped stitches "
        "over it.",
        lean=CENTRED,
        aliases=("s2kp2", "s2kpo"),
        spoken="slip 2 at once and pass them over knit 1",
        on_wrong_side="cddp",
        symbol=_TRIPOD,
        loose=("s2kpo",),
    ),
    knit_entry(
        "cdd",
        (3, 1),
        "centered double decrease",
        "Slip two stitches knitwise at once, knit the next, and lift both slipped stitches "
        "over it; the middle stitch ends on top.",
        lean=CENTRED,
        uk_name="centred double decrease",
        on_wrong_side="cddp",
        symbol=_TRIPOD,
    ),
    knit_entry(
        "cddp",
        (3, 1),
        "centered double decrease, purled",
        "Slip two stitches knitwise one after the other, move them back, slip the two at once "
        "through the back of their loops, purl the next, and lift both slipped stitches over it.",
        lean=CENTRED,
        uk_name="centred double decrease, purled",
        on_wrong_side="cdd",
        symbol=dotted(_TRIPOD, "purled centred double decrease", 0.76, 0.3),
        loose=("cddp",),
    ),
    knit_entry(
        "k2tog tbl",
        (2, 1),
        "knit 2 together through back loops",
        "Knit the next two stitches as if they were one, through the back of their loops.",
        lean=LEFT,
        aliases=("k2togtbl", "k2togb"),
        mirror="k2tog",
        on_wrong_side="p2tog tbl",
        symbol=_K2TOG_TBL,
        base="k2tog",
        how=("tbl",),
        loose=(
            "k2togtbl",
            "k2togb",
        ),
    ),
    knit_entry(
        "p2tog tbl",
        (2, 1),
        "purl 2 together through back loops",
        "Purl the next two stitches as if they were one, through the back of their loops.",
        lean=RIGHT,
        aliases=("p2togtbl", "p2togb"),
        mirror="p2tog",
        on_wrong_side="k2tog tbl",
        symbol=dotted(_K2TOG_TBL, "p2tog tbl", 0.26, 0.74),
        base="p2tog",
        how=("tbl",),
        loose=(
            "p2togtbl",
            "p2togb",
        ),
    ),
    knit_entry(
        "k3tog tbl",
        (3, 1),
        "knit 3 together through back loops",
        "Knit the next three stitches as if they were one, through the back of their loops.",
        lean=LEFT,
        aliases=("k3togtbl", "k3togb"),
        mirror="k3tog",
        on_wrong_side="p3tog tbl",
        symbol=_K3TOG_TBL,
        base="k3tog",
        how=("tbl",),
        loose=(
            "k3togtbl",
            "k3togb",
        ),
    ),
    knit_entry(
        "p3tog tbl",
        (3, 1),
        "purl 3 together through back loops",
        "Purl the next three stitches as if they were one, through the back of their loops.",
        lean=RIGHT,
        aliases=("p3togtbl", "p3togb"),
        mirror="p3tog",
        on_wrong_side="k3tog tbl",
        symbol=dotted(_K3TOG_TBL, "p3tog tbl", 0.76, 0.3),
        base="p3tog",
        how=("tbl",),
        loose=(
            "p3togtbl",
            "p3togb",
        ),
    ),
)
