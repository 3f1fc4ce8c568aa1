"""Casting on."""

from typing import Literal

from pydantic import Field

from bindoff.source.amount import Amount
from bindoff.source.steps.step import Step


class CastOnStep(Step):
    """Casts on; the piece's live stitches start here."""

    cast_on: Amount = Field(description="Casts on this many stitches.")
    method: Literal["long-tail", "waste yarn", "wound"] | None = Field(
        default=None,
        description="How the stitches are cast on: long-tail if not given; on a machine wound "
        "around the needles, or with waste yarn.",
    )
