"""Joining live stitches to others."""

from typing import Literal

from pydantic import Field

from bindoff.source.steps.step import Step


class JoinStep(Step):
    """Joins all live stitches to those another piece left live, or to the piece's own start."""

    join: str = Field(description="The piece that left its stitches live, or `start`.")
    by: Literal["grafting", "three-needle bind-off", "slip stitch"] = Field(
        default="grafting", description="How the two edges are joined."
    )
