"""Shaping spread evenly over one round."""

from typing import Literal

from bindoff.source.amount import Amount
from bindoff.source.model import Field
from bindoff.source.steps.step import Step


class EvenStep(Step):
    """Increases or decreases spread evenly over one round."""

    even: Literal["increase", "decrease"] = Field(
        description="Spreads increases or decreases evenly over one round."
    )
    to: Amount = Field(description="How many stitches there are after it.")
    with_: str | None = Field(
        default=None, description="The stitch to shape with: m1 or kfb, k2tog or ssk, and the like."
    )
