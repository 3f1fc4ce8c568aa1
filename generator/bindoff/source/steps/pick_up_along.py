"""Starting by picking up stitches along edges."""

from typing import Annotated, Self

from bindoff.source.amount import Amount
from bindoff.source.held import Held
from bindoff.source.model import Field, Model, TextUse
from bindoff.source.otherside import other_name, other_words
from bindoff.source.steps.step import Step


class Edge(Model):
    """A part of what comes on the needles: an edge, held stitches, or new ones between."""

    edge: Annotated[str, TextUse.STEP] = Field(
        default="", description="The edge in words, such as the left front edge; not of held ones."
    )
    rows: Amount | None = Field(
        default=None,
        description="The rows of an edge along row ends: picked up at the ratio of the gauge.",
    )
    stitches: Amount | None = Field(
        default=None,
        description="The stitches of a cast-on or bound-off edge: one is picked up in each.",
    )
    of: str | None = Field(
        default=None,
        description="The piece that has the edge: its gauge counts, and without `rows` or "
        "`stitches` all its rows.",
    )
    pick_up: Amount | None = Field(
        default=None, description="How many are picked up, where the ratio is not to say it."
    )
    held: Held | None = Field(
        default=None, description="Names of held stitches that are knitted here, in order."
    )
    cast_on: Amount | None = Field(default=None, description="Stitches cast on here.")

    def mirrored(self) -> Self:
        """The edge of the other side."""
        return self.with_values(
            {
                "edge": other_words(self.edge),
                "of": other_name(self.of) if self.of else None,
                "held": self.held.mirrored() if self.held else None,
            }
        )


class PickUpAlongStep(Step):
    """Starts with stitches picked up along edges, with held and new ones between, in order."""

    pick_up_along: tuple[Edge, ...] = Field(
        min_length=1,
        max_length=40,
        description="The edges along which stitches are picked up, in order.",
    )
    to: Amount | None = Field(
        default=None,
        description="How many stitches there are then; those along rows are spread to fit.",
    )

    def mirrored(self) -> Self:
        """The edges of the other side, from the other end."""
        edges = tuple(each.mirrored() for each in reversed(self.pick_up_along))
        return super().mirrored().with_values({"pick_up_along": edges})
