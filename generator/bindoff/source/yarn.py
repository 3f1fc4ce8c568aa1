"""What may be written for a yarn."""

from bindoff.source.model import Colour, Field, Model


class YarnSwatch(Model):
    """A weighed swatch: how much yarn a counted number of stitches took."""

    stitches: int = Field(gt=0, description="All stitches of the swatch: its width times its rows.")
    grams: float = Field(
        gt=0,
        description="What the swatch weighs, in grams, without cast-on edge and tails, or weigh it "
        "with them and say so under edges weighed.",
    )
    edges_weighed: bool = Field(
        default=False,
        description="Whether its edges and tails were weighed with it; they are then taken off.",
    )
    scale: str = Field(
        default="1 g",
        pattern=r"^\d{1,3}(\.\d{1,3})? ?g$",
        examples=["1 g", "0.1 g"],
        description="The step in which your scale shows weights; the reserve follows from it.",
    )
    gauge: str | None = Field(
        default=None,
        description="Which of the gauges the swatch has, where it is not the main one.",
    )

    @property
    def scale_grams(self) -> float:
        """The scale's step in grams."""
        return float(self.scale.rstrip("g "))


class Yarn(Model):
    """A yarn in one colour."""

    name: str = Field(description="What the pattern calls this yarn.")
    colour: Colour = Field(description="Its colour for charts and pictures, such as #3d4a57.")
    weight: int = Field(ge=0, le=7, description="Yarn weight category, 0 lace to 7 jumbo.")
    fibre: str = Field(default="", description="What it is made of, such as 100 % wool.")
    ball: str = Field(
        examples=["50 g = 115 m"], description="Weight and length of a ball, as 50 g = 115 m."
    )
    swatch: YarnSwatch | None = Field(
        default=None, description="A weighed swatch; amounts of yarn are then taken from it."
    )
