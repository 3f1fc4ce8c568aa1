"""What may be written for a tube from the machine: its zones, wanted stripes and picture."""

from typing import Literal

from bindoff.source.amount import NO_LENGTH, NONE, Amount
from bindoff.source.model import Field, Model, rule


class ZoneYarns(Model):
    """The yarn of each zone that has one of its own."""

    lining: str | None = Field(default=None, description="The yarn of the inner layer.")
    brim: str | None = Field(default=None, description="The yarn of the brim, both its layers.")
    brim_outside: str | None = Field(
        default=None,
        description="The yarn of the layer that is seen when the brim is turned up, where it is "
        "not that of both.",
    )
    brim_inside: str | None = Field(
        default=None,
        description="The yarn of the layer that a turned-up brim hides, where it is not that of "
        "both.",
    )
    body: str | None = Field(default=None, description="The yarn of what is seen.")
    gather: str | None = Field(default=None, description="The yarn of what the ends gather in.")

    def of(self, zone: str) -> str | None:
        """The yarn of a zone, by its key; ``None`` where it has none of its own."""
        own: str | None = getattr(self, zone)
        return own or (self.brim if zone in ("brim_outside", "brim_inside") else None)


class WantedStripe(Model):
    """A stripe where the designer wants it, measured on the finished piece."""

    from_: str = Field(
        description="How far above or below an edge, such as 3 cm above rim, 4 rounds below top."
    )
    rounds: Amount = Field(description="How high it is, in rounds or as a length.")
    yarn: str = Field(description="The yarn of the stripe.")
    on: Literal["body", "brim"] = Field(
        default="body", description="Whether it lies on what is seen or on the turned-up brim."
    )


MOTIF_PLACES = ("front", "back", "left", "right", "sides", "front and back")
"""Where a motif may be placed, as the wearer calls it."""


class Motif(Model):
    """A chart placed on a tube, where it is seen upright when the piece is worn."""

    chart: str = Field(description="The chart; its stitches in the yarn of the tube are ground.")
    at_: str | int | None = Field(
        default=None,
        json_schema_extra={"examples": list(MOTIF_PLACES)},
        description="Where its middle lies, seen by the wearer; or the stitch of the round that is "
        "its first, its right-most one.",
    )
    around: bool = Field(default=False, description="Whether it is repeated all around the tube.")
    above_rim: str | int | None = Field(
        default=None,
        description="How far above the lower edge as worn it begins, such as 4 rounds or 3 cm.",
    )
    below_top: str | int | None = Field(
        default=None, description="How far below the top it ends, such as 2 rounds or 3 cm."
    )
    mirror: bool = Field(
        default=False,
        description="Turned from left to right; of two or of a row of them, every second one.",
    )
    on: Literal["body", "brim"] = Field(
        default="body", description="Whether it lies on what is seen or on the turned-up brim."
    )
    sizes: tuple[str, ...] = Field(
        default=(), description="The sizes that have it, where not all do."
    )

    @rule
    def _one_place(self) -> "Motif":
        if isinstance(self.at_, str) and self.at_ not in MOTIF_PLACES:
            raise ValueError(
                f"`{self.at_}` is no place on a tube"
                f"||Write {', '.join(MOTIF_PLACES)}, or the number of a stitch"
            )
        if (self.at_ is None) == (not self.around):
            raise ValueError(
                "a motif has either `at:` or `around: true`"
                "||Write `at: front`, back, left, right, sides, front and back or a stitch, or "
                "`around: true`"
            )
        if self.above_rim is not None and self.below_top is not None:
            raise ValueError(
                "a motif has `above rim:` or `below top:`, not both"
                "||Its height follows from its chart: take one of them out"
            )
        return self


class Tube(Model):
    """A tube in zones: folded double with a brim and a lining, or of one layer.

    Each zone is as long as a length says or as a count of rounds.
    """

    visible: Amount | None = Field(
        default=None, description="The depth that is seen when a folded tube is worn."
    )
    length: Amount | None = Field(
        default=None, description="The length of a tube of one layer, which is not folded."
    )
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
    yarns: ZoneYarns = Field(
        default=ZoneYarns(),
        description="Yarns of zones that are not in the main yarn.",
    )
    start_of_round: Literal["left", "right", "back"] | None = Field(
        default=None,
        description="Where rounds start as worn: a side, or the middle of the back; if it is not "
        "given, on the wearer's left, or where no motif is split.",
    )
    stripes: tuple[WantedStripe, ...] = Field(
        default=(), max_length=200, description="Stripes that the colour plan keeps as they are."
    )

    @rule
    def _one_or_two_layers(self) -> "Tube":
        if (self.visible is None) == (self.length is None):
            raise ValueError(
                "a tube has either `visible:` or `length:`"
                "||Write `visible:` for a tube folded double, `length:` for one of one layer"
            )
        layers = {"brim_outside", "brim_inside"} & self.yarns.model_fields_set
        if layers and "brim" not in self.model_fields_set:
            named = " and ".join(f"`{each.replace('_', ' ')}:`" for each in sorted(layers))
            raise ValueError(
                f"{named} {'has' if len(layers) == 1 else 'have'} a yarn, and the tube has no brim"
                "||Say in `brim:` how deep it is, or take the yarn out"
            )
        folded = {"lining", "brim"} & self.model_fields_set
        if self.length is not None and folded:
            raise ValueError(
                "a tube of one layer has no "
                + " and no ".join(f"`{name}:`" for name in sorted(folded))
                + "||Take it out, or write `visible:` for a tube folded double"
            )
        return self


class Picture(Model):
    """A charted picture on what is seen of a tube."""

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
    minutes_per_end: float = Field(
        default=0.0,
        ge=0,
        description="How long weaving in one end takes you, in minutes; with it, the ends of "
        "embroidery strands count too, and a yarn that is carried up saves its two ends.",
    )
    carry: int = Field(
        default=0,
        ge=0,
        le=20,
        description="For how many rounds at the most a yarn that rests is carried up inside the "
        "tube; after more it is cut.",
    )
    tail: str = Field(
        default="15 cm", description="What is left at each end of a yarn and of a strand."
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
