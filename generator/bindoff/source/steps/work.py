"""Rows in the row language."""

from typing import Literal, Self

from bindoff.source.amount import Amount
from bindoff.source.model import Field, Model, Rows
from bindoff.source.otherside import other_name
from bindoff.source.steps.step import Step


class Stripe(Model):
    """Rounds or rows in one yarn."""

    yarn: str = Field(description="The yarn of the stripe.")
    rounds: Amount = Field(description="How many rounds or rows it has; 0 in a size without it.")


class WorkStep(Step):
    """Rows in the row language: ``rounds`` in all, or the list ``times`` over."""

    work: Rows = Field(
        description="Works a row such as *k2, p2; repeat from * to end, or a list of rows in turn."
    )
    rounds: Amount | None = Field(default=None, description="How many rounds or rows, in all.")
    repeat_last: int | None = Field(
        default=None,
        ge=1,
        description="How many rows at the end of the list are repeated once all are worked, until "
        "there are as many as `rounds` says.",
    )
    until: Amount | None = Field(
        default=None,
        description="Works until so much is knitted, such as 14 cm: the length is printed, and the "
        "nearest number of rounds or rows that are whole lists is worked.",
    )
    from_: Literal["start", "here"] = Field(
        default="start",
        description="Where that length is measured from: the start of the piece, or here.",
    )
    parts: str | None = Field(
        default=None,
        description="Names of what stays on the needles where the row holds stitches between, in "
        "order, with commas.",
    )
    times: Amount | None = Field(
        default=None,
        description="How often the list of rows is worked, or the stripes of `in stripes:`.",
    )
    in_stripes: tuple[Stripe, ...] = Field(
        default=(),
        max_length=40,
        description="The yarns that the rows are worked in, one stripe after the other, and again "
        "from the first until all are worked.",
    )

    def mirrored(self) -> Self:
        """The parts of its rows come from the other end, under the names of the other side."""
        parts = ", ".join(map(other_name, reversed(self.parts.split(",")))) if self.parts else None
        return super().mirrored().with_values({"parts": parts})
