"""Joining live stitches to others."""

from typing import Literal, Self

from bindoff.source.model import Field
from bindoff.source.otherside import other_name
from bindoff.source.steps.step import Step


class JoinStep(Step):
    """Joins all live stitches to others: left live, held by name, of the start, or half to half."""

    join: str = Field(
        description="The piece that left its stitches live, a name for which stitches are held, "
        "`start` for the open loops the piece was cast on with, or `itself` for one half of the "
        "stitches to the other."
    )
    by: Literal["grafting", "three-needle bind-off", "slip stitch", "sewing"] = Field(
        default="grafting", description="How the two edges are joined."
    )

    edge: Literal["end", "start"] = Field(
        default="end",
        description="Which loops `itself` joins half to half: those live at the end, or the open "
        "ones the piece starts with.",
    )

    def mirrored(self) -> Self:
        """It joins to what has the name of the other side."""
        return super().mirrored().with_values({"join": other_name(self.join)})
