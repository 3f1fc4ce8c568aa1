"""Casting on."""

from typing import Literal

from pydantic import Field

from bindoff.source.amount import Amount
from bindoff.source.steps.step import Step


class CastOnStep(Step):
    """Casts on; the piece's live stitches start here."""

    cast_on: Amount = Field(description="Casts on this many stitches.")
    method: Literal["long-tail", "waste yarn"] = Field(
        default="long-tail", description="How the stitches are cast on."
    )
