"""Stitches with a shape of their own. Crosses by cable needle are made by rule, in ``cables``."""

from bindoff.craft.cables import cross_symbol
from bindoff.craft.entry import Lean, Loop, Stitch, knit_entry
from bindoff.craft.symbols import LEAN_RIGHT, Commands, Symbol, circle, dotted, line

_FIGURES: dict[int, Commands] = {
    5: line((0.64, 0.3), (0.4, 0.3), (0.38, 0.48), (0.62, 0.5), (0.62, 0.7), (0.38, 0.72)),
    7: line((0.36, 0.3), (0.64, 0.3), (0.46, 0.72)),
    9: (*circle(0.5, 0.4, 0.12), *line((0.62, 0.4), (0.58, 0.72))),
}
_OVAL: Commands = (
    ("M", 0.5, 0.14),
    ("C", 0.9, 0.14, 0.9, 0.86, 0.5, 0.86),
    ("C", 0.1, 0.86, 0.1, 0.14, 0.5, 0.14),
    ("Z",),
)


def _nupp(loops: int) -> Stitch:
    """So many loops of one stitch, which the row after it works together again."""
    inside = (loops - 1) // 2
    return knit_entry(
        f"nupp{loops}",
        (1, loops),
        f"nupp of {loops} loops",
        f"Knit into the next stitch and lay the yarn over, {inside} times, very loosely, and knit "
        f"into it once more: {loops} loops, which the next row works together.",
        loops=loops,
        symbol=Symbol(f"{loops} in an oval", (*_OVAL, *_FIGURES[loops]), name=f"nupp{loops}"),
        loose=(f"nupp{loops}",),
    )


def _small(figure: Commands) -> Commands:
    """A figure in the corner below the stroke of a decrease."""
    return tuple(
        (name, *(float(n) * 0.9 + (0.28 if place % 2 == 0 else 0.24) for place, n in enumerate(ns)))
        for name, *ns in figure
    )


def _together(loops: int) -> tuple[Stitch, Stitch]:
    """The loops of a nupp worked together: knitted or purled."""
    stroke = Symbol(
        f"stroke leaning right with {loops} below it",
        (*LEAN_RIGHT, *_small(_FIGURES[loops])),
        name=f"k{loops}tog",
    )
    knit = knit_entry(
        f"k{loops}tog",
        (loops, 1),
        f"knit {loops} together",
        f"Knit the next {loops} stitches or loops as if they were one.",
        lean=Lean.RIGHT,
        on_wrong_side=f"p{loops}tog",
        symbol=stroke,
        loose=(f"k{loops}tog",),
    )
    purl = knit_entry(
        f"p{loops}tog",
        (loops, 1),
        f"purl {loops} together",
        f"Purl the next {loops} stitches or loops as if they were one.",
        lean=Lean.LEFT,
        on_wrong_side=f"k{loops}tog",
        symbol=dotted(stroke, f"p{loops}tog", 0.26, 0.3),
        loose=(f"p{loops}tog",),
    )
    return knit, purl


_BOBBLE = Symbol("large dot", fills=circle(0.5, 0.5, 0.3), name="bobble")
_TURNS = {
    turns: Symbol(
        f"{words} rings side by side",
        tuple(
            command
            for at in range(turns)
            for command in circle(0.5 + (at - (turns - 1) / 2) * 0.28, 0.5, 0.13)
        ),
        name=f"{words} turns of yarn",
    )
    for turns, words in ((2, "two"), (3, "three"))
}
_BEAD: Commands = circle(0.5, 0.5, 0.2)
_BEAD_ON_STITCH = Symbol(
    "dot on an upright thread",
    (*line((0.5, 0.08), (0.5, 0.3)), *line((0.5, 0.7), (0.5, 0.92))),
    _BEAD,
    name="bead",
)
_BEAD_ON_FLOAT = Symbol(
    "dot on a level thread",
    (*line((0.08, 0.5), (0.3, 0.5)), *line((0.7, 0.5), (0.92, 0.5))),
    _BEAD,
    name="bead in front of a slip",
)

STITCHES = (
    knit_entry(
        "mb",
        (1, 1),
        "make bobble",
        "Work the bobble as the notes say, ending with the single stitch you began with.",
        abbreviation="MB",
        loops=5,
        on_wrong_side="mbw",
        symbol=_BOBBLE,
    ),
    knit_entry(
        "mbw",
        (1, 1),
        "make bobble on the wrong side",
        "On the wrong side, work the bobble as the notes say with purls for knits and knits for "
        "purls, and push it through to the right side.",
        abbreviation="MBW",
        loops=5,
        on_right_side="mb",
        symbol=_BOBBLE,
        loose=("mbw",),
    ),
    knit_entry(
        "pb",
        (1, 1),
        "place bead",
        "Draw the stitch through a bead with a fine hook, put it back, and knit it.",
        abbreviation="PB",
        on_wrong_side="pbw",
        symbol=_BEAD_ON_STITCH,
        loose=("pb",),
    ),
    knit_entry(
        "pbw",
        (1, 1),
        "place bead on the wrong side",
        "On the wrong side, draw the stitch through a bead with a fine hook, put it back, and purl "
        "it.",
        abbreviation="PBW",
        on_right_side="pb",
        symbol=_BEAD_ON_STITCH,
        loose=("pbw",),
    ),
    knit_entry(
        "slb",
        (1, 1),
        "slip with bead in front",
        "With the yarn in front, slide a strung bead up to the work and slip the stitch purlwise, "
        "so that the bead lies before it; take the yarn to the back.",
        abbreviation="SLB",
        loops=0,
        on_wrong_side="slbw",
        symbol=_BEAD_ON_FLOAT,
        loose=("slb",),
        loop=Loop.SLIPPED,
    ),
    knit_entry(
        "slbw",
        (1, 1),
        "slip with bead on the wrong side",
        "On the wrong side, with the yarn at the back, slide a strung bead up to the work and slip "
        "the stitch purlwise, so that the bead lies on the right side; bring the yarn to the "
        "front.",
        abbreviation="SLBW",
        loops=0,
        on_right_side="slb",
        symbol=_BEAD_ON_FLOAT,
        loose=("slbw",),
        loop=Loop.SLIPPED,
    ),
    *(
        knit_entry(
            f"{letter}w{turns}",
            (1, 1),
            f"{name} with {words} turns of yarn",
            f"{name.capitalize()} with the yarn {times} around the needle; drop the further turns "
            "in the next row, which makes a long stitch.",
            abbreviation=f"{letter}w{turns}".upper(),
            loops=turns,
            on_wrong_side=f"pw{turns}",
            on_right_side=f"kw{turns}",
            symbol=_TURNS[turns],
            loose=(f"{letter}w{turns}",),
        )
        for turns, words, times in ((2, "two", "twice"), (3, "three", "three times"))
        for letter, name in (("k", "knit"), ("p", "purl"))
    ),
    knit_entry(
        "edge stitch",
        (1, 1),
        "edge stitch",
        "Work it in the same way in every row, as the notes say or as you like best.",
        symbol=Symbol(
            "upright zigzag",
            line((0.36, 0.1), (0.64, 0.3), (0.36, 0.5), (0.64, 0.7), (0.36, 0.9)),
            name="edge stitch",
        ),
    ),
    knit_entry(
        "rt",
        (2, 2),
        "right twist",
        "Knit two together and keep them on the left needle, knit the first again, and let both "
        "slip off.",
        abbreviation="RT",
        lean=Lean.RIGHT,
        twists=True,
        loops=3,
        mirror="lt",
        on_wrong_side="1/1 RCW",
        symbol=cross_symbol("cable 1/1 right"),
        loose=("rt",),
    ),
    knit_entry(
        "lt",
        (2, 2),
        "left twist",
        "Knit the second stitch through its back, keep both on the left needle, knit the first, "
        "and let both slip off.",
        abbreviation="LT",
        lean=Lean.LEFT,
        twists=True,
        mirror="rt",
        on_wrong_side="1/1 LCW",
        loops=2,
        symbol=cross_symbol("cable 1/1 left"),
        loose=("lt",),
    ),
    *(_nupp(loops) for loops in _FIGURES),
    *(stitch for loops in _FIGURES for stitch in _together(loops)),
)
