"""The shape of ``pattern.yaml``: what a designer may write, and in which words.

Keys are written with spaces (``cast on``, ``bind off``); the attribute has an underscore. An
``Amount`` is a number, a length with its unit, a formula, or one of these for each size.
The JSON Schema that ``bindoff schema`` prints is generated from these classes; each description
is what an editor shows on its key.
"""

import re
from calendar import monthrange
from typing import Annotated, Any, Literal

from pydantic import (
    AfterValidator,
    BaseModel,
    ConfigDict,
    Discriminator,
    Field,
    Tag,
    model_validator,
)

# More than these is a slip or an attack; they keep the longest build within seconds.
MOST_SIZES = 60
MOST_PIECES = 100
MOST_STEPS = 500
MOST_PHOTOS = 20

Plain = int | float | str
Amount = Annotated[
    Plain | tuple[Plain, ...] | dict[str, Plain],
    Field(
        description="A number, a length such as 21 cm, or a formula; or a list with one for each "
        "size in order; or a mapping from size name to one."
    ),
]
Markdown = Annotated[str, Field(description="Prose in Markdown; {{ name }} prints a figure.")]
RowText = Annotated[str, Field(description="A row in the row language, such as *k2, p2; repeat …")]
Rows = RowText | Annotated[tuple[RowText, ...], Field(min_length=1)]
Colour = Annotated[str, Field(pattern=r"^#[0-9a-fA-F]{6}$", examples=["#3d4a57"])]


def _real_day(text: str) -> str:
    year, month, day = (int(part) for part in text.split("-"))
    if year < 1 or not 1 <= month <= 12 or not 1 <= day <= monthrange(year, month)[1]:
        raise ValueError(
            f"there is no day {text}||Write the day as year-month-day, such as 2026-11-02"
        )
    return text


Day = Annotated[
    str,
    Field(pattern=r"^\d{4}-\d{2}-\d{2}$", examples=["2026-11-02"]),
    AfterValidator(_real_day),
]

# Language, script, region and variants of RFC 5646 (BCP 47), section 2.1; no extensions.
_TAG = (
    r"^[A-Za-z]{2,3}(-[A-Za-z]{4})?(-([A-Za-z]{2}|[0-9]{3}))?"
    r"(-([A-Za-z0-9]{5,8}|[0-9][A-Za-z0-9]{3}))*$"
)


def _language_tag(text: str) -> str:
    if not re.fullmatch(_TAG, text):
        raise ValueError(
            f"`{text}` is not the tag of a language"
            "||Write its short tag, such as en, de, pl, el, uk or pt-BR"
        )
    return text


Language = Annotated[
    str,
    Field(examples=["en", "pl"], json_schema_extra={"pattern": _TAG}),
    AfterValidator(_language_tag),
]


class Model(BaseModel):
    """What all parts of a pattern share: frozen, no unknown keys, spaces in key names."""

    model_config = ConfigDict(
        defer_build=True,  # one schema for the whole pattern, when it is needed
        frozen=True,
        extra="forbid",
        populate_by_name=False,
        allow_inf_nan=False,
        alias_generator=lambda name: name.rstrip("_").replace("_", " "),
    )


# ---------------------------------------------------------------- head


class Change(Model):
    """What a version changed, for readers of an earlier one."""

    version: str = Field(description="The version that brought the change.")
    date: Day = Field(description="The day it came out, year-month-day.")
    note: str = Field(description="What changed, in a sentence.")


class Photo(Model):
    """A photograph in the pattern's folder."""

    file: str = Field(description="The name of a JPEG or PNG file in the pattern's folder.")
    alt: str = Field(min_length=1, description="What a reader who can't see it needs to know.")
    caption: str = Field(default="", description="Words printed below the photograph.")


class Made(Model):
    """How the main pieces are made; a circular machine's needle count fixes every tube's."""

    by: Literal["hand", "machine"] = Field(
        default="hand", description="Whether the main pieces are knitted by hand or on a machine."
    )
    needles: int | None = Field(
        default=None, ge=4, le=400, description="How many needles the circular machine has."
    )

    @model_validator(mode="after")
    def _machine_has_needles(self) -> "Made":
        if self.by == "machine" and self.needles is None:
            raise ValueError("a machine needs its number of needles||Add `needles:` beside `by:`")
        return self


class Swatch(Model):
    """Raw measurements of a swatch: what was counted over what was measured."""

    stitches: float = Field(gt=0, description="Stitches counted across the width.")
    width: str = Field(description="The width they were counted over, such as 12 cm.")
    rounds: float = Field(gt=0, description="Rounds or rows counted up the height.")
    height: str = Field(description="The height they were counted over, such as 12 cm.")


class Gauge(Model):
    """Stitches and rounds over a length, or a measured swatch from which they follow."""

    stitches: float | None = Field(
        default=None, gt=0, description="Stitches over the length given as over."
    )
    rounds: float | None = Field(
        default=None, gt=0, description="Rounds or rows over the length given as over."
    )
    over: str = Field(default="10 cm", description="The length the gauge is counted over.")
    swatch: Swatch | None = Field(
        default=None, description="A measured swatch, instead of stitches and rounds."
    )
    state: Literal["washed", "unwashed"] = Field(
        default="washed", description="Whether the swatch was washed before it was measured."
    )
    worked: str = Field(
        default="", description="The fabric it is measured in, such as stockinette in the round."
    )
    tool: str = Field(default="", description="Needle size or machine tension used for it.")

    @model_validator(mode="after")
    def _one_way(self) -> "Gauge":
        counts = [name for name in ("stitches", "rounds") if getattr(self, name) is not None]
        if self.swatch is not None and counts:
            raise ValueError(
                "a gauge is given twice, as counts and as a swatch"
                "||Keep `stitches:` and `rounds:`, or keep `swatch:`"
            )
        if self.swatch is None and len(counts) < 2:
            missing = " and ".join(f"`{n}`" for n in ("stitches", "rounds") if n not in counts)
            raise ValueError(
                f"this gauge has no {missing}"
                "||Give `stitches:` and `rounds:` over 10 cm, or the `swatch:` you measured"
            )
        return self


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


class Size(BaseModel):
    """One size: body measurements by name (``head: 56 cm``), or ``like`` a standard body."""

    model_config = ConfigDict(defer_build=True, frozen=True, extra="allow")
    __pydantic_extra__: dict[str, str] = Field(init=False)

    like: str | None = Field(
        default=None, description="A body from the built-in tables, such as woman M."
    )
    gauge: Gauge | None = Field(
        default=None, description="The gauge of this size, where it has its own."
    )

    @property
    def body(self) -> dict[str, str]:
        """The body measurements as written, by name."""
        return dict(self.__pydantic_extra__ or {})


# ---------------------------------------------------------------- charts


NO_STITCH = "no stitch"
"""What a legend says of cells that are no stitch: they fill the grid where the count is smaller."""


class CellMeaning(Model):
    """What a grid character stands for: a yarn, a stitch, or a stitch in a yarn."""

    yarn: str | None = Field(default=None, description="The yarn it is worked in.")
    stitch: str | None = Field(default=None, description="The stitch it is worked as, such as p.")

    @model_validator(mode="after")
    def _means_something(self) -> "CellMeaning":
        if self.yarn is None and self.stitch is None:
            raise ValueError(
                "this character has no meaning||Give it a `yarn:`, a `stitch:` or both"
            )
        return self


class Chart(Model):
    """A grid file with its legend."""

    title: str = Field(description="The heading of the chart.")
    grid: str = Field(
        description="A text file with one character a stitch and one line a round, last round on "
        "top."
    )
    legend: dict[str, str | CellMeaning] = Field(
        description="What each character of the grid stands for: a yarn, a stitch, or both; or "
        "`no stitch` for a cell that is skipped where there are fewer stitches."
    )
    alt: str = Field(min_length=1, description="What the chart shows, in a sentence.")
    repeats: bool = Field(
        default=True, description="Whether the chart is repeated around, and boxed as a repeat."
    )


# ---------------------------------------------------------------- steps


class Step(Model):
    """What every step may carry: a yarn, and a remark printed after it."""

    yarn: str | None = Field(
        default=None, description="The yarn of this step, where it is not the piece's."
    )
    note: Markdown | None = Field(default=None, description="A remark printed after the step.")


class SectionStep(Step):
    """Opens a section with its heading."""

    section: str = Field(description="Begins a section with this heading.")


class SayStep(Step):
    """Prose that works no stitches."""

    say: Markdown = Field(description="Says something in your own words; it works no stitches.")


class CastOnStep(Step):
    """Casts on; the piece's live stitches start here."""

    cast_on: Amount = Field(description="Casts on this many stitches.")
    method: Literal["long-tail", "waste yarn"] = Field(
        default="long-tail", description="How the stitches are cast on."
    )


class WorkStep(Step):
    """Rows in the row language: ``rounds`` in all, or the list ``times`` over."""

    work: Rows = Field(
        description="Works a row such as *k2, p2; repeat from * to end, or a list of rows in turn."
    )
    rounds: Amount | None = Field(default=None, description="How many rounds or rows, in all.")
    times: Amount | None = Field(default=None, description="How often the list of rows is worked.")


class ChartStep(Step):
    """Works a chart, repeated around or placed once, for a number of rounds."""

    chart: str = Field(description="Works this chart, side by side as often as it fits.")
    rounds: Amount | None = Field(
        default=None, description="How many rounds; all of the chart once if not given."
    )


class EvenStep(Step):
    """Increases or decreases spread evenly over one round."""

    even: Literal["increase", "decrease"] = Field(
        description="Spreads increases or decreases evenly over one round."
    )
    to: Amount = Field(description="How many stitches there are after it.")
    with_: str | None = Field(
        default=None, description="The stitch to shape with: m1 or kfb, k2tog or ssk, and the like."
    )


class TaperStep(Step):
    """A shaping row worked at an even pace over a number of rounds until a count is reached."""

    taper: RowText = Field(
        description="Works this shaping row again and again at an even pace, plain rows between."
    )
    to: Amount = Field(description="How many stitches there are at the end of it.")
    over: Amount = Field(description="How many rounds or rows it takes in all.")
    every: Literal[1, 2] = Field(
        default=1, description="1 if any round may be shaped, 2 for every second one at most."
    )
    plain: Rows = Field(
        default="k all",
        description="The rows between; flat, right side then wrong side; without it they are "
        "knitted, and flat those on the wrong side purled.",
    )


class CrownStep(Step):
    """Decreases in wedges until a count is reached."""

    crown: Amount = Field(description="Decreases in this many wedges, as for the top of a hat.")
    to: Amount = Field(description="How many stitches are left at the top.")
    with_: str = Field(default="k2tog", description="The decrease, such as k2tog or ssk.")
    pace: Literal["every other", "every other, then every", "every"] = Field(
        default="every other, then every", description="In which rounds the decreases are worked."
    )


class BindOffStep(Step):
    """Binds off stitches; ``all`` ends the piece."""

    bind_off: Amount = Field(description="Binds off this many stitches, or all.")
    how: Markdown = Field(
        default="", description="How, such as loosely in rib; {{ name }} prints a figure."
    )


class GatherStep(Step):
    """Draws the yarn through all live stitches and closes them."""

    gather: Literal["all"] = Field(
        description="Draws the yarn through all stitches and closes them."
    )


class LeaveStep(Step):
    """Ends the piece with its stitches left live, for another piece to be joined to."""

    leave: Literal["live"] = Field(description="Leaves the stitches live for a join.")


class JoinStep(Step):
    """Joins all live stitches to those another piece left live, or to the piece's own start."""

    join: str = Field(description="The piece that left its stitches live, or `start`.")
    by: Literal["grafting", "three-needle bind-off"] = Field(
        default="grafting", description="How the two edges are joined."
    )


class PickUpStep(Step):
    """Starts a piece from stitches held earlier, with more picked up beside them."""

    held: Amount = Field(description="Puts this many held stitches back on the needles.")
    pick_up: Amount = Field(default=0, description="How many more are picked up beside them.")


class StripesStep(Step):
    """Knits the tube by the base-stripe plan."""

    stripes: Literal["from plan"] = Field(
        description="Knits the tube of the piece in the stripes of its colour plan."
    )


class EmbroiderStep(Step):
    """Embroiders what the stripes left over, by the embroidery plan."""

    embroider: Literal["from plan"] = Field(
        description="Embroiders the stitches of the picture that the stripes do not show."
    )


class EdgingStep(Step):
    """A crocheted edge along a length of the piece."""

    edging: Rows = Field(description="Crochets an edge with this row, or these rows.")
    along: Amount = Field(description="The length of the edge, such as 40 cm.")
    sides: tuple[Amount, ...] = Field(
        default=(),
        description="How many stitches the edging takes along each side in turn, with a corner "
        "between two sides; with them its rows are counted.",
    )


STEPS: dict[str, type[Step]] = {
    "section": SectionStep,
    "say": SayStep,
    "cast on": CastOnStep,
    "work": WorkStep,
    "chart": ChartStep,
    "even": EvenStep,
    "taper": TaperStep,
    "crown": CrownStep,
    "bind off": BindOffStep,
    "gather": GatherStep,
    "leave": LeaveStep,
    "join": JoinStep,
    "held": PickUpStep,
    "stripes": StripesStep,
    "embroider": EmbroiderStep,
    "edging": EdgingStep,
}


def _verb(step: Any) -> str | None:
    """Which kind of step a mapping is: the first of its keys that names one."""
    if isinstance(step, dict):
        return next((key for key in step if key in STEPS), None)
    return next((key for key, model in STEPS.items() if type(step) is model), None)


AnyStep = Annotated[
    Annotated[SectionStep, Tag("section")]
    | Annotated[SayStep, Tag("say")]
    | Annotated[CastOnStep, Tag("cast on")]
    | Annotated[WorkStep, Tag("work")]
    | Annotated[ChartStep, Tag("chart")]
    | Annotated[EvenStep, Tag("even")]
    | Annotated[TaperStep, Tag("taper")]
    | Annotated[CrownStep, Tag("crown")]
    | Annotated[BindOffStep, Tag("bind off")]
    | Annotated[GatherStep, Tag("gather")]
    | Annotated[LeaveStep, Tag("leave")]
    | Annotated[JoinStep, Tag("join")]
    | Annotated[PickUpStep, Tag("held")]
    | Annotated[StripesStep, Tag("stripes")]
    | Annotated[EmbroiderStep, Tag("embroider")]
    | Annotated[EdgingStep, Tag("edging")],
    Discriminator(_verb),
]


# ---------------------------------------------------------------- pieces


class Tube(Model):
    """A tube folded double: what is seen, the brim turned up, and what the ends gather in."""

    visible: Amount = Field(description="The depth that is seen when it is worn.")
    lining: Amount | Literal["same"] = Field(
        default="same", description="The depth of the inner layer, where it is not the same."
    )
    brim: Amount = Field(default="0 cm", description="How much is turned up as a brim.")
    gather: Amount = Field(
        default="0 cm", description="How much each end needs more so that it can be drawn closed."
    )


class Picture(Model):
    """A charted picture on the outer layer of a folded tube."""

    chart: str = Field(description="The chart that is seen on the outside.")
    start: Amount = Field(default=0, description="Rounds above the lower edge as worn.")
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


class TubeShape(Model):
    """A folded tube lying flat, for the schematic: its round, its depth, its brim."""

    shape: Literal["tube"] = Field(description="Which outline is drawn.")
    around: Amount = Field(description="The circumference.")
    depth: Amount = Field(description="The depth with the brim turned up.")
    brim: Amount | None = Field(default=None, description="The height of the brim.")


class HatShape(Model):
    """A hat with a crown lying flat: ``body`` is the straight part above the brim."""

    shape: Literal["hat"] = Field(description="Which outline is drawn.")
    around: Amount = Field(description="The circumference.")
    body: Amount = Field(description="From the edge to the start of the crown.")
    crown: Amount = Field(description="The height of the crown.")
    brim: Amount | None = Field(default=None, description="The height of the brim.")


class MittenShape(Model):
    """A mitten lying flat: ``hand`` runs from the cuff to the tip."""

    shape: Literal["mitten"] = Field(description="Which outline is drawn.")
    around: Amount = Field(description="The circumference of the hand.")
    cuff: Amount = Field(description="The length of the cuff.")
    to_thumb: Amount = Field(description="From the cuff to the thumb opening.")
    hand: Amount = Field(description="From the cuff to the tip.")
    thumb: Amount = Field(description="The length of the thumb.")


class PanelShape(Model):
    """A flat piece: a rectangle, or a trapezoid where the upper edge differs."""

    shape: Literal["panel"] = Field(description="Which outline is drawn.")
    lower_edge: Amount = Field(description="The width at the bottom.")
    height: Amount = Field(description="From the bottom to the top.")
    upper_edge: Amount | None = Field(
        default=None, description="The width at the top, where it differs."
    )


Schematic = Annotated[TubeShape | HatShape | MittenShape | PanelShape, Field(discriminator="shape")]


class Piece(Model):
    """One piece: what it starts from and the steps that make it."""

    title: str = Field(description="The heading of the piece.")
    make: int = Field(default=1, ge=1, le=100, description="How many of it are made.")
    worked: Literal["round", "flat"] = Field(
        default="round", description="In the round, or flat in rows that are turned."
    )
    gauge: str | None = Field(
        default=None, description="Which of the gauges it has, where it is not the main one."
    )
    yarn: str | None = Field(
        default=None, description="The yarn of every step that names none; else the first one."
    )
    tube: Tube | None = Field(
        default=None, description="The lengths of a tube that is folded double."
    )
    picture: Picture | None = Field(default=None, description="The picture on a folded tube.")
    colour_plan: ColourPlan = Field(
        default=ColourPlan(), description="How the stripes under a picture are chosen."
    )
    schematic: Schematic | None = Field(
        default=None, description="An outline of the piece with its measurements."
    )
    steps: tuple[AnyStep, ...] = Field(
        min_length=1,
        max_length=MOST_STEPS,
        description="What is done, in order, from the first to the last step.",
    )


class CustomStitch(Model):
    """A stitch of the designer's own: what it uses up, what it leaves, and how it is worked."""

    uses: int = Field(ge=0, le=100, description="Stitches it takes from the left needle.")
    makes: int = Field(ge=0, le=100, description="Stitches it leaves on the right needle.")
    name: str = Field(description="Its full name for the list of abbreviations.")
    how: str = Field(description="How it is worked, in a sentence.")
    symbol: str | None = Field(
        default=None, description="Its chart symbol by name, as `bindoff words` names it."
    )
    wrong_side: str | None = Field(
        default=None,
        description="The stitch that a wrong-side row works so that this one shows on the right "
        "side, such as p2tog for k2tog.",
    )
    mirror: str | None = Field(
        default=None, description="The stitch that leans the other way, such as ssk for k2tog."
    )


class Tool(Model):
    """A needle, hook or other tool, and what it is for."""

    name: str = Field(description="The tool, with its size.")
    use: str = Field(default="", description="What it is for, such as brim.")


class Silence(Model):
    """A check that does not count for this pattern, and why."""

    check: str = Field(description="Its id, as `bindoff check --list` names it.")
    because: str = Field(min_length=1, description="The reason, printed with what it finds.")


class Pattern(Model):
    """A whole pattern source."""

    title: str = Field(min_length=1, description="The name of the pattern.")
    designer: str = Field(min_length=1, description="Who designed it.")
    version: str = Field(min_length=1, description="Which version this is, such as 1.0.")
    date: Day = Field(description="The day of this version, year-month-day.")
    changes: tuple[Change, ...] = Field(
        default=(), description="What earlier readers should know: the changes of each version."
    )
    language: Language = Field(
        default="en", description="The language of your own words, as a tag such as en or pl."
    )
    terms: Literal["US", "UK"] = Field(
        default="US", description="Whose knitting terms and spelling are printed."
    )
    units: Literal["metric", "imperial", "both"] = Field(
        default="both", description="Which units lengths are printed in."
    )
    summary: str = Field(min_length=1, description="What it is, in a sentence or two.")
    skill: str = Field(default="", description="How hard it is and what a knitter should know.")
    contact: str = Field(default="", description="Where readers can write to you.")
    licence: Markdown | None = Field(
        default=None, description="What readers may do with it, where the usual words do not fit."
    )
    wearer: tuple[Literal["adult", "child", "infant"], ...] = Field(
        min_length=1, description="Who wears it; this decides which cautions are printed."
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
    notions: tuple[str, ...] = Field(default=(), description="What else is needed, a line each.")
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
    notes: Markdown | None = Field(
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
    finishing: Markdown | None = Field(
        default=None, description="What is done when all pieces are made."
    )
    care: Markdown | None = Field(
        default=None, description="How it is washed and dried, where the usual words do not fit."
    )
    silence: tuple[Silence, ...] = Field(
        default=(), description="Checks that do not count for this pattern, and why."
    )
