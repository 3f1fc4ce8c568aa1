"""What may be written for a folded tube, its picture and its stripes."""

from typing import Literal

from pydantic import Field

from bindoff.source.amount import NO_LENGTH, NONE, Amount
from bindoff.source.model import Model


class Tube(Model):
    """A tube folded double: what is seen, the brim turned up, and what the ends gather in."""

    visible: Amount = Field(description="The depth that is seen when it is worn.")
    lining: Literal["same"] | Amount = Field(
        default="same", description="The depth of the inner layer, where it is not the same."
    )
    brim: Amount = Field(
        default=NO_LENGTH,
        json_schema_extra={"default": "0 cm"},
        description="How much is turned up as a brim.",
    )
    gather: Amount = Field(
        default=NO_LENGTH,
        json_schema_extra={"default": "0 cm"},
        description="How much each end needs more so that it can be drawn closed.",
    )


class Picture(Model):
    """A charted picture on the outer layer of a folded tube."""

    chart: str = Field(description="The chart that is seen on the outside.")
    start: Amount = Field(
        default=NONE,
        json_schema_extra={"default": 0},
        description="Rounds above the lower edge as worn.",
    )
    mirror: bool = Field(default=False, description="The grid is half the tube; mirror it.")
    ground: str = Field(description="The yarn of the rest of the tube.")
    above: str | None = Field(default=None, description="The yarn above the picture.")


class ColourPlan(Model):
    """The weights and limits of the base-stripe plan."""

    minutes_per_stitch: float = Field(
        default=0.5, ge=0, description="How long one embroidered stitch takes you, in minutes."
    )
    minutes_per_change: float = Field(
        default=5.0, ge=0, description="How long a change of yarn takes you, ends and all."
    )
    shortest_stripe: int = Field(
        default=1, ge=1, description="How many rounds a stripe has at the least."
    )
    never_base: tuple[str, ...] = Field(
        default=(), description="Yarns that are only embroidered, never knitted as a stripe."
    )
    stranded: bool | Literal["laid in by hand"] = Field(
        default=False,
        description="Whether rounds of the picture may be knitted in two yarns where no float "
        "is too long; a machine feeds one yarn, so there the yarns are laid in by hand.",
    )
    strand: str = Field(default="60 cm", description="The longest strand to embroider with.")
    tail: str = Field(default="15 cm", description="What is left at each end of a strand.")
