"""Stitches with a shape of their own. Crosses by cable needle are made by rule, in ``cables``."""

from bindoff.craft.cables import cross_symbol
from bindoff.craft.entry import Lean, knit_entry
from bindoff.craft.symbols import Symbol, circle

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
)
