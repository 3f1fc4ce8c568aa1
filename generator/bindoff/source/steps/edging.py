"""A crocheted edge."""

from typing import Self

from bindoff.source.amount import Amount
from bindoff.source.model import Field, Rows
from bindoff.source.steps.step import Step


class EdgingStep(Step):
    """A crocheted edge along a length of the piece."""

    edging: Rows = Field(description="Crochets an edge with this row, or these rows.")
    along: Amount = Field(description="The length of the edge, such as 40 cm.")
    sides: tuple[Amount, ...] = Field(
        default=(),
        description="How many stitches the edging takes along each side in turn, with a corner "
        "between two sides; with them its rows are counted.",
    )
    around: bool = Field(
        default=False,
        description="The edge goes all around: the last of `sides:` ends in the corner where the "
        "first begins, and a row may begin or end with that corner.",
    )

    def mirrored(self) -> Self:
        """The sides come from the other end."""
        return super().mirrored().with_values({"sides": self.sides[::-1]})
