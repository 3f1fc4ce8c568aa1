"""Buttonholes in a row of a band."""

from typing import Literal, Self

from bindoff.source.amount import Amount
from bindoff.source.model import Field, Rows, RowText
from bindoff.source.steps.step import Step


class ButtonholesStep(Step):
    """Works buttonholes evenly along a band, over two rows or with yarn overs in one."""

    buttonholes: Amount = Field(description="Works so many buttonholes evenly along the band.")
    by: Literal["binding off", "yarn over"] = Field(
        default="binding off",
        description="Stitches bound off and cast on again in the row after it, or a yarn over "
        "and two stitches together, for a small button.",
    )
    over: Amount | None = Field(
        default=None, description="How many stitches are bound off for each; 2 if not given."
    )
    first_after: Amount = Field(
        description="How many stitches, or rows of an upright band, lie before the first of them."
    )
    last_before: Amount | None = Field(
        default=None,
        description="How many lie behind the last; as many as before the first if not given.",
    )
    along: Amount | None = Field(
        default=None,
        description="How many rows of an upright band are worked in all, with a buttonhole in "
        "some of them; then the row with the hole is given.",
    )
    hole: RowText | None = Field(
        default=None,
        description="The row with a buttonhole of an upright band, such as k2, yo, k2tog, k to "
        "end; it leaves as many stitches as it finds.",
    )
    rows: Rows = Field(
        default=("k all", "p all"),
        description="The row of the band that they are worked in, and the row after it; of an "
        "upright band all its rows, in turn.",
    )

    def mirrored(self) -> Self:
        """What lay before the first lies behind the last."""
        ends = {"first_after": self.last_before or self.first_after}
        if self.last_before is not None:
            ends["last_before"] = self.first_after
        return super().mirrored().with_values(ends)
