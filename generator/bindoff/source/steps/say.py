"""Prose between steps."""

from typing import Annotated

from bindoff.source.model import Field, Markdown, TextUse
from bindoff.source.steps.step import Step


class SayStep(Step):
    """Prose that works no stitches."""

    say: Annotated[Markdown, TextUse.STEP] = Field(
        description="Says something in your own words; it works no stitches."
    )
    takes: str | None = Field(
        default=None,
        description="How much of the `yarn:` of this step its words take, such as embroidery or a "
        "cord: a length or a weight, in one size as in the other.",
        examples=["3 m", "2 g"],
    )
