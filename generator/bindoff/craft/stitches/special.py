"""Stitches with a shape of their own. Crosses by cable needle are made by rule, in ``cables``."""

from bindoff.craft.cables import cross_symbol
from bindoff.craft.entry import Lean, Stitch, knit_entry
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


STITCHES = (
    knit_entry(
        "mb",
        (1, 1),
        "make bobble",
        "Work the bobble as the notes say, ending with the single stitch you began with.",
        abbreviation="MB",
        loops=5,
        symbol=Symbol("large dot", fills=circle(0.5, 0.5, 0.3), name="bobble"),
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
