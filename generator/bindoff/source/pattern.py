"""The whole of what may be written."""

from typing import Annotated, Literal

from bindoff.source.amount import Amount
from bindoff.source.chart import Chart
from bindoff.source.gauge import Gauge
from bindoff.source.head import Made, Photo, Silence, Tool, VersionChange
from bindoff.source.model import Day, Field, Language, Markdown, Model, TextUse, Title, Version
from bindoff.source.ownstitch import CustomStitch
from bindoff.source.piece import Piece
from bindoff.source.size import Size
from bindoff.source.stitchpattern import StitchPattern
from bindoff.source.yarn import Yarn

# More than these is a slip or an attack; they keep the longest build within seconds.
MOST_SIZES = 60
MOST_PIECES = 100
MOST_PHOTOS = 20
MOST_KEYWORDS = 40

Keyword = Annotated[str, Field(min_length=1, max_length=60)]
EditionName = Literal[
    "letter", "large print", "print saver", "grey", "card", "single sizes", "html", "epub"
]


class Pattern(Model):
    """A whole pattern source."""

    title: Title = Field(description="The name of the pattern.")
    designer: str = Field(min_length=1, description="Who designed it.")
    version: Version = Field(description="Which version this is, such as 1.0.")
    date: Day = Field(description="The day of this version, year-month-day.")
    changes: tuple[VersionChange, ...] = Field(
        default=(), description="What earlier readers should know: the changes of each version."
    )
    language: Language = Field(
        default="en", description="The language of your own words, as a tag such as en or pl."
    )
    terms: Literal["US", "UK"] = Field(
        default="US", description="Whose knitting terms and spelling are printed."
    )
    vocabulary: Literal["modern", "old"] = Field(
        default="modern",
        description="Whose words the rows are written in: old has narrow, over, seam and plain.",
    )
    abbreviations: Literal["house", "as written"] = Field(
        default="house",
        description="Whether stitches are printed under the house's abbreviations or under yours, "
        "as the first row that has each writes it.",
    )
    units: Literal["metric", "imperial", "both"] = Field(
        default="both", description="Which units lengths are printed in."
    )
    summary: Annotated[str, TextUse.HEAD] = Field(
        min_length=1, description="What it is, in a sentence or two."
    )
    skill: Annotated[str, TextUse.HEAD] = Field(
        default="", description="How hard it is and what a knitter should know."
    )
    contact: str = Field(default="", description="Where readers can write to you.")
    licence: Annotated[Markdown | None, TextUse.TEXT] = Field(
        default=None, description="What readers may do with it, where the usual words do not fit."
    )
    keywords: tuple[Keyword, ...] = Field(
        default=(),
        max_length=MOST_KEYWORDS,
        description="Words by which a buyer finds it, in shops and in the files themselves.",
    )
    editions: tuple[EditionName, ...] = Field(
        default=(),
        description="The editions that `bindoff pack` puts into the shop folder beside the "
        "pattern itself; all of them where this is left out.",
    )
    wearer: tuple[Literal["adult", "child", "infant"], ...] = Field(
        min_length=1, description="Who wears it; this decides which cautions are printed."
    )
    worn: bool = Field(
        default=True,
        description="Whether it goes on a body; `false` for what is only named like clothing, such "
        "as a stocking for the mantelpiece.",
    )
    photos: tuple[Photo, ...] = Field(
        default=(), max_length=MOST_PHOTOS, description="Photographs to print."
    )
    made: Made = Field(default=Made(), description="By hand, or on a machine with its needles.")
    gauge: Gauge = Field(description="The main gauge: stitches and rounds over a length.")
    gauges: dict[str, Gauge] = Field(
        default={}, description="Further gauges by name, for pieces in another fabric."
    )
    yarns: dict[str, Yarn] = Field(
        min_length=1, description="The yarns, each under a short name that steps and charts use."
    )
    tools: tuple[Tool, ...] = Field(default=(), description="Needles, hooks and other tools.")
    notions: Annotated[tuple[str, ...], TextUse.MATERIAL] = Field(
        default=(), description="What else is needed, a line each."
    )
    hazards: tuple[Literal["small parts", "cords", "pompom", "magnets", "button cells"], ...] = (
        Field(
            default=(),
            description="Parts that call for a caution: hard eyes, bells and zippers go by small "
            "parts, elastic by cords, tassels and fringes by pompom.",
        )
    )
    sizes: dict[str, Size] = Field(
        min_length=1,
        max_length=MOST_SIZES,
        description="The sizes in order, each with the body it is for.",
    )
    measures: dict[str, Amount] = Field(
        default={}, description="Named figures for each size, by plain arithmetic on other names."
    )
    finished: dict[str, Amount] = Field(
        min_length=1, description="The finished measurements to print, by what they are called."
    )
    charts: dict[str, Chart] = Field(
        default={}, description="The charts, each under a short name that steps use."
    )
    stitches: dict[str, CustomStitch] = Field(
        default={}, description="Stitches of your own that the rows use."
    )
    stitch_patterns: dict[str, StitchPattern] = Field(
        default={},
        description="Stitch patterns by name, which rows are worked in: in seed to last 3 "
        "stitches, in pattern to marker.",
    )
    notes: Annotated[Markdown | None, TextUse.TEXT] = Field(
        default=None, description="What a knitter should read before the start."
    )
    techniques: tuple[str, ...] = Field(
        default=(), description="Explanations to print besides those the steps call for."
    )
    pieces: dict[str, Piece] = Field(
        min_length=1,
        max_length=MOST_PIECES,
        description="The pieces in the order they are made, with their steps.",
    )
    finishing: Annotated[Markdown | None, TextUse.TEXT] = Field(
        default=None, description="What is done when all pieces are made."
    )
    care: Annotated[Markdown | None, TextUse.TEXT] = Field(
        default=None, description="How it is washed and dried, where the usual words do not fit."
    )
    silence: tuple[Silence, ...] = Field(
        default=(), description="Checks that do not count for this pattern, and why."
    )

    def needles(self, size: str) -> int | None:
        """The machine's needles for a size, ``None`` where no number is given."""
        return self.sizes[size].needles or self.made.needles

    @property
    def titles(self) -> tuple[str, ...]:
        """Its own title and those of its pieces."""
        return self.title, *(piece.title for piece in self.pieces.values())

    def on_machine(self, key: str) -> bool:
        """Whether all rounds or rows of the piece ``key`` are cranked on the machine."""
        return self.pieces[key].made == "machine"
