"""Decreases in wedges."""

from typing import Literal

from bindoff.source.amount import Amount
from bindoff.source.model import Field
from bindoff.source.steps.step import Step


class CrownStep(Step):
    """Decreases in wedges until a count is reached."""

    crown: Amount = Field(description="Decreases in this many wedges, as for the top of a hat.")
    to: Amount = Field(description="How many stitches are left at the top.")
    with_: str = Field(default="k2tog", description="The decrease, such as k2tog or ssk.")
    pace: Literal["every other", "every other, then every", "every"] = Field(
        default="every other, then every", description="In which rounds the decreases are worked."
    )
