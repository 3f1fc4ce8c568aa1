"""Several shapings over the same rows."""

from typing import Literal

from bindoff.source.amount import Amount
from bindoff.source.model import Field, Model, Rows
from bindoff.source.steps.step import Step


class Shaping(Model):
    """One of them: what is worked where, from which row on and how often."""

    title: str = Field(min_length=1, description="What is shaped, such as armhole.")
    at_: Literal["start", "end", "before marker", "after marker"] = Field(
        description="Where in the row."
    )
    work: Rows = Field(
        description="What is worked there, such as k1, ssk; or a list, one for each time in order."
    )
    from_: Amount = Field(description="The row of this step in which it is worked first.")
    every: Amount | None = Field(
        default=None, description="It is worked again in every so many rows; 2 where none is said."
    )
    times: Amount | None = Field(
        default=None, description="How often in all; once for each entry of a list."
    )


class TogetherStep(Step):
    """Shapes in several places over the same rows, each with its own start and pace."""

    together: tuple[Shaping, ...] = Field(
        min_length=2, max_length=12, description="The shapings that run together."
    )
    over: Amount = Field(description="How many rounds or rows it takes in all.")
    plain: Rows = Field(
        default=("k all", "p all"),
        description="What is worked between and beside them: a row of one stitch, or two in turn.",
    )
