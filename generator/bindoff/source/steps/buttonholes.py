"""Buttonholes in a row of a band."""

from typing import Literal, Self

from pydantic import Field

from bindoff.source.amount import Amount
from bindoff.source.model import Rows
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
    first_after: Amount = Field(description="How many stitches lie before the first of them.")
    last_before: Amount | None = Field(
        default=None,
        description="How many lie behind the last; as many as before the first if not given.",
    )
    rows: Rows = Field(
        default=("k all", "p all"),
        description="The row of the band that they are worked in, and the row after it.",
    )

    def mirrored(self) -> Self:
        """What lay before the first lies behind the last."""
        ends = {"first_after": self.last_before or self.first_after}
        if self.last_before is not None:
            ends["last_before"] = self.first_after
        return super().mirrored().with_values(ends)
