"""Shaping at an even pace over many rounds."""

from bindoff.source.amount import Amount
from bindoff.source.model import Field, Rows, RowText
from bindoff.source.steps.step import Step


class TaperStep(Step):
    """A shaping row worked at an even pace over a number of rounds until a count is reached."""

    taper: RowText = Field(
        description="Works this shaping row again and again at an even pace, plain rows between."
    )
    to: Amount = Field(description="How many stitches there are at the end of it.")
    over: Amount = Field(description="How many rounds or rows it takes in all.")
    every: Amount | None = Field(
        default=None,
        description="Shaping rows lie so many rounds or rows apart, such as 4 for every 4th one, "
        "or a multiple of it where there is room for more; without it 1, but flat 2, the "
        "right-side rows, unless each row is shaped.",
    )
    plain: Rows = Field(
        default="k all",
        description="The rows between; flat, right side then wrong side; without it they are "
        "knitted, and flat those on the wrong side purled.",
    )
    in_: str | None = Field(
        default=None, description="The stitch pattern that the rows between are worked in."
    )
