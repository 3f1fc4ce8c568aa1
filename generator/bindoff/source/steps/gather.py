"""Drawing the yarn through all stitches."""

from typing import Literal

from bindoff.source.model import Field
from bindoff.source.steps.step import Step


class GatherStep(Step):
    """Draws the yarn through all live stitches and closes them."""

    gather: Literal["all"] = Field(
        description="Draws the yarn through all stitches and closes them."
    )
