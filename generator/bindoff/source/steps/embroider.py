"""Embroidering by the plan."""

from typing import Literal

from bindoff.source.model import Field
from bindoff.source.steps.step import Step


class EmbroiderStep(Step):
    """Embroiders what the stripes left over, by the embroidery plan."""

    embroider: Literal["from plan"] = Field(
        description="Embroiders the stitches of the picture that the stripes do not show."
    )
