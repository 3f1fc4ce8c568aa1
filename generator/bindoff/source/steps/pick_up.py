"""Starting from held stitches, with more picked up."""

from typing import Self

from bindoff.source.amount import NONE, Amount
from bindoff.source.held import Held
from bindoff.source.model import Field
from bindoff.source.otherside import other_words
from bindoff.source.steps.step import Step


class PickUpStep(Step):
    """Starts a piece from stitches held earlier, with more picked up beside them."""

    held: Held = Field(
        description="Puts held stitches back on the needles: how many, or their names."
    )
    pick_up: Amount = Field(
        default=NONE,
        json_schema_extra={"default": 0},
        description="How many more are picked up beside them.",
    )
    along: str | None = Field(default=None, description="Where these are picked up: along what.")

    def mirrored(self) -> Self:
        """It takes up the groups of the other side, from the other end."""
        along = other_words(self.along) if self.along else None
        return super().mirrored().with_values({"held": self.held.mirrored(), "along": along})
