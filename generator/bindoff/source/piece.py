"""What may be written for a piece."""

from typing import Annotated, Literal, Self

from bindoff.source.model import Field, Model, TextUse, Title, rule
from bindoff.source.otherside import other_words
from bindoff.source.shape import Schematic
from bindoff.source.steps.registry import AnyStep
from bindoff.source.tube import ColourPlan, Motif, Picture, Tube
from bindoff.source.yamltree import Place

# More than these is a slip or an attack; they keep the longest build within seconds.
MOST_STEPS = 500


class Column(Model):
    """A column of stitches along which rounds and lengths are counted."""

    name: Annotated[str, TextUse.STEP] = Field(
        min_length=1, description="What it is called, such as centre back."
    )
    stitch: Literal["start", "middle", "end"] = Field(
        description="Which stitch of a round, or of a right-side row: the first, the one in the "
        "middle, or the last."
    )

    def mirrored(self) -> Self:
        """The column of the piece that mirrors this one."""
        other = {"start": "end", "end": "start"}.get(self.stitch, self.stitch)
        return self.with_values({"name": other_words(self.name), "stitch": other})


class Piece(Model):
    """One piece: what it starts from and the steps that make it."""

    title: Title = Field(description="The heading of the piece.")
    make: int = Field(default=1, ge=1, le=100, description="How many of it are made.")
    worked: Literal["round", "flat"] = Field(
        default="round", description="In the round, or flat in rows that are turned."
    )
    made: Literal["hand", "machine"] = Field(
        default="hand",
        description="Whether its rounds or rows are worked by hand or cranked on the machine of "
        "the head; the tube of a piece is always cranked.",
    )
    gauge: str | None = Field(
        default=None, description="Which of the gauges it has, where it is not the main one."
    )
    yarn: str | None = Field(
        default=None, description="The yarn of every step that names none; else the first one."
    )
    counted_at: Column | None = Field(
        default=None,
        description="The column along which rounds and lengths of a piece with short rows are "
        "counted; where the fewest rows were worked if not given.",
    )
    tube: Tube | None = Field(default=None, description="The zones of a tube from the machine.")
    picture: Picture | None = Field(default=None, description="The picture on a tube.")
    motifs: tuple[Motif, ...] = Field(
        default=(), max_length=50, description="Charts placed on a tube, in place of a picture."
    )
    colour_plan: ColourPlan = Field(
        default=ColourPlan(),
        description="How the stripes under a picture are chosen.",
    )
    schematic: Schematic | None = Field(
        default=None, description="An outline of the piece with its measurements."
    )
    mirror_of: str | None = Field(
        default=None,
        description="The piece of which this is the mirror image, such as left_front; it then has "
        "no steps of its own.",
    )
    steps: tuple[AnyStep, ...] = Field(
        default=(),
        max_length=MOST_STEPS,
        description="What is done, in order, from the first to the last step.",
    )

    @rule
    def _steps_or_mirror(self) -> Self:
        if self.mirror_of is None and not self.steps:
            raise ValueError(
                "a piece is made in steps, and this one has none"
                "||Add `steps:` with what is done, or `mirror of:` with the piece it mirrors"
            )
        if self.mirror_of is not None and self.steps:
            raise ValueError(
                "a piece that mirrors another has no steps of its own"
                "||Take out `steps:`, or `mirror of:`"
            )
        if self.mirror_of is not None and (self.tube or self.picture or self.motifs):
            raise ValueError(
                "a tube from the machine is not mirrored"
                "||Take out `mirror of:`, and place the picture on the other half of the tube"
            )
        return self

    @property
    def pictured(self) -> tuple[tuple[str, Place], ...]:
        """The charts on its tube, of the picture or of the motifs, each with where it is named."""
        named: tuple[Picture | Motif, ...] = (
            *((self.picture,) if self.picture else ()),
            *self.motifs,
        )
        return tuple((each.chart, each.place.of("chart")) for each in named)
