"""Casting on."""

from typing import Literal, Self

from bindoff.source.amount import Amount
from bindoff.source.model import Field
from bindoff.source.otherside import other_name
from bindoff.source.steps.step import Step


class CastOnStep(Step):
    """Casts on; the piece's live stitches start here."""

    cast_on: Amount = Field(description="Casts on this many stitches.")
    method: (
        Literal[
            "long-tail",
            "cable",
            "knitted",
            "backward-loop",
            "tubular",
            "provisional",
            "waste yarn",
            "wound",
            "turkish",
            "german twisted",
            "crochet",
        ]
        | None
    ) = Field(
        default=None,
        description="How the stitches are cast on: long-tail if not given; on a machine wound "
        "around the needles, or with waste yarn.",
    )
    for_: str | None = Field(
        default=None,
        description="A name for the open loops of a provisional cast-on, by which a later step or "
        "piece takes them up.",
    )

    def mirrored(self) -> Self:
        """Its open loops have the name of the other side."""
        name = other_name(self.for_) if self.for_ else None
        return super().mirrored().with_values({"for_": name})
