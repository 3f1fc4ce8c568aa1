"""Leaving stitches live for a join."""

from typing import Literal

from bindoff.source.model import Field
from bindoff.source.steps.step import Step


class LeaveStep(Step):
    """Ends the piece with its stitches left live, for another piece to be joined to."""

    leave: Literal["live"] = Field(description="Leaves the stitches live for a join.")
