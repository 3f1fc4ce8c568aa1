"""Knitting a tube by its stripe plan."""

from typing import Literal

from bindoff.source.model import Field
from bindoff.source.steps.step import Step


class StripesStep(Step):
    """Knits the tube by the base-stripe plan."""

    stripes: Literal["from plan"] = Field(
        description="Knits the tube of the piece in the stripes of its colour plan."
    )
