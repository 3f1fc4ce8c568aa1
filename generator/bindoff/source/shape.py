"""The outlines that a schematic may have."""

from typing import Annotated, Literal

from bindoff.source.amount import Amount
from bindoff.source.model import Field, Model


class Outline(Model):
    """What all outlines have: dimensions."""

    @property
    def dimensions(self) -> dict[str, Amount]:
        """Those that are given, by the key they are written under, in the order of the keys."""
        return {
            str(field.alias): amount
            for name, field in type(self).model_fields.items()
            if isinstance(amount := getattr(self, name), Amount)
        }


class TubeShape(Outline):
    """A folded tube lying flat, for the schematic: its round, its depth, its brim, and the tuft
    above a tied top."""

    shape: Literal["tube"] = Field(description="Which outline is drawn.")
    around: Amount = Field(description="The circumference.")
    depth: Amount = Field(description="The depth with the brim turned up.")
    brim: Amount | None = Field(default=None, description="The height of the brim.")
    tuft: Amount | None = Field(
        default=None, description="What stands above the tie, where a strip ties the top."
    )


class HatShape(Outline):
    """A hat with a crown lying flat: ``body`` is the straight part above the brim."""

    shape: Literal["hat"] = Field(description="Which outline is drawn.")
    around: Amount = Field(description="The circumference.")
    body: Amount = Field(description="From the edge to the start of the crown.")
    crown: Amount = Field(description="The height of the crown.")
    brim: Amount | None = Field(default=None, description="The height of the brim.")


class MittenShape(Outline):
    """A mitten lying flat: ``hand`` runs from the cuff to the tip."""

    shape: Literal["mitten"] = Field(description="Which outline is drawn.")
    around: Amount = Field(description="The circumference of the hand.")
    cuff: Amount = Field(description="The length of the cuff.")
    to_thumb: Amount = Field(description="From the cuff to the thumb opening.")
    hand: Amount = Field(description="From the cuff to the tip.")
    thumb: Amount = Field(description="The length of the thumb.")


class PanelShape(Outline):
    """A flat piece: a rectangle, or a trapezoid where the upper edge differs."""

    shape: Literal["panel"] = Field(description="Which outline is drawn.")
    lower_edge: Amount = Field(description="The width at the bottom.")
    height: Amount = Field(description="From the bottom to the top.")
    upper_edge: Amount | None = Field(
        default=None, description="The width at the top, where it differs."
    )
    hangs_from: str | None = Field(
        default=None,
        description="The piece from whose lower edge it hangs, as schematic and cover show.",
    )


class RingShape(Outline):
    """A tube or strip joined to a ring, such as a cowl, standing on its edge."""

    shape: Literal["ring"] = Field(description="Which outline is drawn.")
    length: Amount = Field(description="The length of the ring, all round.")
    width: Amount = Field(description="Its width, from edge to edge.")


class RowsShape(Outline):
    """The outline that follows from the rows of the piece, and of those that take up its
    stitches."""

    shape: Literal["from rows"] = Field(description="Which outline is drawn.")


GivenShape = TubeShape | HatShape | MittenShape | PanelShape | RingShape
"""Outlines with stated dimensions."""

Schematic = Annotated[GivenShape | RowsShape, Field(discriminator="shape")]
