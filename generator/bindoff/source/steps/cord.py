"""A round cord, knitted of few stitches without turning."""

from bindoff.source.amount import Amount
from bindoff.source.model import Field
from bindoff.source.steps.step import Step


class CordStep(Step):
    """Works all live stitches, which are few, as a round cord."""

    cord: Amount = Field(
        description="Works all live stitches, 2 to 8, as a round cord (i-cord) of this length, "
        "such as 30 cm; the nearest number of rounds is worked."
    )
