"""The shape of ``pattern.yaml``: what a designer may write, and in which words.

Keys are written with spaces (``cast on``, ``bind off``); the attribute has an underscore. An
``Amount`` is a number, a length with its unit, a formula, or one of these for each size.
The JSON Schema that ``bindoff schema`` prints is generated from these classes.
"""

from typing import Annotated, Any, Literal

from pydantic import BaseModel, ConfigDict, Discriminator, Field, Tag, model_validator

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
Colour = Annotated[str, Field(pattern=r"^#[0-9a-fA-F]{6}$", examples=["#3d4a57"])]


class Model(BaseModel):
    """What all parts of a pattern share: frozen, no unknown keys, spaces in key names."""

    model_config = ConfigDict(
        frozen=True,
        extra="forbid",
        populate_by_name=False,
        alias_generator=lambda name: name.rstrip("_").replace("_", " "),
    )


# ---------------------------------------------------------------- head


class Change(Model):
    """What a version changed, for readers of an earlier one."""

    version: str
    date: str
    note: str


class Photo(Model):
    """A photograph in the pattern's folder."""

    file: str
    alt: str = Field(min_length=1, description="What a reader who can't see it needs to know.")
    caption: str = ""


class Made(Model):
    """How the main pieces are made; a circular machine's needle count fixes every tube's."""

    by: Literal["hand", "machine"] = "hand"
    needles: int | None = Field(default=None, ge=4, le=400)

    @model_validator(mode="after")
    def _machine_has_needles(self) -> "Made":
        if self.by == "machine" and self.needles is None:
            raise ValueError("a machine needs its number of needles||Add `needles:` beside `by:`")
        return self


class Swatch(Model):
    """Raw measurements of a swatch: what was counted over what was measured."""

    stitches: float = Field(gt=0)
    width: str
    rounds: float = Field(gt=0)
    height: str


class Gauge(Model):
    """Stitches and rounds over a length, or a measured swatch from which they follow."""

    stitches: float | None = Field(default=None, gt=0)
    rounds: float | None = Field(default=None, gt=0)
    over: str = "10 cm"
    swatch: Swatch | None = None
    state: Literal["washed", "unwashed"] = "washed"
    worked: str = ""
    tool: str = Field(default="", description="Needle size or machine tension used for it.")

    @model_validator(mode="after")
    def _one_way(self) -> "Gauge":
        counted = self.stitches is not None and self.rounds is not None
        if counted == (self.swatch is not None):
            raise ValueError(
                "a gauge needs stitches and rounds, or a swatch, and not both"
                "||Give `stitches:` and `rounds:` over 10 cm, or the `swatch:` you measured"
            )
        return self


class YarnSwatch(Model):
    """A weighed swatch: how much yarn a counted number of stitches took."""

    stitches: int = Field(gt=0)
    grams: float = Field(gt=0)


class Yarn(Model):
    """A yarn in one colour."""

    name: str
    colour: Colour
    weight: int = Field(ge=0, le=7, description="Yarn weight category, 0 lace to 7 jumbo.")
    fibre: str = ""
    ball: str = Field(examples=["50 g = 115 m"])
    swatch: YarnSwatch | None = None


class Size(BaseModel):
    """One size: body measurements by name (``head: 56 cm``), or ``like`` a standard body."""

    model_config = ConfigDict(frozen=True, extra="allow")
    __pydantic_extra__: dict[str, str] = Field(init=False)

    like: str | None = None
    gauge: Gauge | None = None

    @property
    def body(self) -> dict[str, str]:
        """The body measurements as written, by name."""
        return dict(self.__pydantic_extra__ or {})


# ---------------------------------------------------------------- charts


class CellMeaning(Model):
    """What a grid character stands for: a yarn, a stitch, or a stitch in a yarn."""

    yarn: str | None = None
    stitch: str | None = None


class Chart(Model):
    """A grid file with its legend."""

    title: str
    grid: str
    legend: dict[str, str | CellMeaning]
    alt: str = Field(min_length=1, description="What the chart shows, in a sentence.")
    repeats: bool = True


# ---------------------------------------------------------------- steps


class Step(Model):
    """What every step may carry: a yarn, and a remark printed after it."""

    yarn: str | None = None
    note: Markdown | None = None


class SectionStep(Step):
    """Opens a section with its heading."""

    section: str


class SayStep(Step):
    """Prose that works no stitches."""

    say: Markdown


class CastOnStep(Step):
    """Casts on; the piece's live stitches start here."""

    cast_on: Amount
    method: Literal["long-tail", "waste yarn"] = "long-tail"


class WorkStep(Step):
    """Rows in the row language: ``rounds`` in all, or the list ``times`` over."""

    work: RowText | tuple[RowText, ...]
    rounds: Amount | None = None
    times: Amount | None = None


class ChartStep(Step):
    """Works a chart, repeated around or placed once, for a number of rounds."""

    chart: str
    rounds: Amount | None = None


class EvenStep(Step):
    """Increases or decreases spread evenly over one round."""

    even: Literal["increase", "decrease"]
    to: Amount
    with_: str | None = None


class TaperStep(Step):
    """A shaping row worked at an even pace over a number of rounds until a count is reached."""

    taper: RowText
    to: Amount
    over: Amount
    every: Literal[1, 2] = 1
    plain: RowText | tuple[RowText, ...] = Field(
        default="k all", description="The rows between; flat, right side then wrong side."
    )


class CrownStep(Step):
    """Decreases in wedges until a count is reached."""

    crown: Amount
    to: Amount
    with_: str = "k2tog"
    pace: Literal["every other", "every other, then every", "every"] = "every other, then every"


class BindOffStep(Step):
    """Binds off stitches; ``all`` ends the piece."""

    bind_off: Amount
    how: str = ""


class GatherStep(Step):
    """Draws the yarn through all live stitches and closes them."""

    gather: Literal["all"]


class PickUpStep(Step):
    """Starts a piece from stitches held earlier, with more picked up beside them."""

    held: Amount
    pick_up: Amount = 0


class StripesStep(Step):
    """Knits the tube by the base-stripe plan."""

    stripes: Literal["from plan"]


class EmbroiderStep(Step):
    """Embroiders what the stripes left over, by the embroidery plan."""

    embroider: Literal["from plan"]


class EdgingStep(Step):
    """A crocheted edge along a length of the piece."""

    edging: RowText | tuple[RowText, ...]
    along: Amount


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
    | Annotated[PickUpStep, Tag("held")]
    | Annotated[StripesStep, Tag("stripes")]
    | Annotated[EmbroiderStep, Tag("embroider")]
    | Annotated[EdgingStep, Tag("edging")],
    Discriminator(_verb),
]


# ---------------------------------------------------------------- pieces


class Tube(Model):
    """A tube folded double: what is seen, the brim turned up, and what the ends gather in."""

    visible: Amount
    lining: Amount | Literal["same"] = "same"
    brim: Amount = "0 cm"
    gather: Amount = "0 cm"


class Picture(Model):
    """A charted picture on the outer layer of a folded tube."""

    chart: str
    start: Amount = Field(default=0, description="Rounds between the brim and the picture.")
    mirror: bool = Field(default=False, description="The grid is half the tube; mirror it.")
    ground: str = Field(description="The yarn of the rest of the tube.")
    above: str | None = Field(default=None, description="The yarn above the picture.")


class ColourPlan(Model):
    """The weights and limits of the base-stripe plan."""

    minutes_per_stitch: float = Field(default=0.5, ge=0)
    minutes_per_change: float = Field(default=5.0, ge=0)
    shortest_stripe: int = Field(default=1, ge=1)
    never_base: tuple[str, ...] = ()


class TubeShape(Model):
    """A folded tube lying flat, for the schematic: its round, its depth, its brim."""

    shape: Literal["tube"]
    around: Amount
    depth: Amount
    brim: Amount | None = None


class HatShape(Model):
    """A hat with a crown lying flat: ``body`` is the straight part above the brim."""

    shape: Literal["hat"]
    around: Amount
    body: Amount
    crown: Amount
    brim: Amount | None = None


class MittenShape(Model):
    """A mitten lying flat: ``hand`` runs from the cuff to the tip."""

    shape: Literal["mitten"]
    around: Amount
    cuff: Amount
    to_thumb: Amount
    hand: Amount
    thumb: Amount


class PanelShape(Model):
    """A flat piece: a rectangle, or a trapezoid where the upper edge differs."""

    shape: Literal["panel"]
    lower_edge: Amount
    height: Amount
    upper_edge: Amount | None = None


Schematic = Annotated[TubeShape | HatShape | MittenShape | PanelShape, Field(discriminator="shape")]


class Piece(Model):
    """One piece: what it starts from and the steps that make it."""

    title: str
    make: int = Field(default=1, ge=1)
    worked: Literal["round", "flat"] = "round"
    gauge: str | None = None
    yarn: str | None = None
    tube: Tube | None = None
    picture: Picture | None = None
    colour_plan: ColourPlan = ColourPlan()
    schematic: Schematic | None = None
    steps: tuple[AnyStep, ...] = Field(min_length=1)


class CustomStitch(Model):
    """A stitch of the designer's own: what it uses up, what it leaves, and how it is worked."""

    uses: int = Field(ge=0)
    makes: int = Field(ge=0)
    name: str
    how: str


class Tool(Model):
    """A needle, hook or other tool, and what it is for."""

    name: str
    use: str = ""


class Silence(Model):
    """A check that does not count for this pattern, and why."""

    check: str = Field(description="Its id, as `bindoff check --list` names it.")
    because: str = Field(min_length=1, description="The reason, printed with what it finds.")


class Pattern(Model):
    """A whole pattern source."""

    title: str = Field(min_length=1)
    designer: str = Field(min_length=1)
    version: str = Field(min_length=1)
    date: str = Field(pattern=r"^\d{4}-\d{2}-\d{2}$", description="ISO date of this version.")
    changes: tuple[Change, ...] = ()
    language: str = "en"
    terms: Literal["US", "UK"] = "US"
    units: Literal["metric", "imperial", "both"] = "both"
    summary: str = Field(min_length=1)
    skill: str = ""
    contact: str = ""
    licence: Markdown | None = None
    wearer: tuple[Literal["adult", "child", "infant"], ...] = Field(min_length=1)
    photos: tuple[Photo, ...] = ()
    made: Made = Made()
    gauge: Gauge
    gauges: dict[str, Gauge] = {}
    yarns: dict[str, Yarn] = Field(min_length=1)
    tools: tuple[Tool, ...] = ()
    notions: tuple[str, ...] = ()
    hazards: tuple[Literal["small parts", "cords", "pompom"], ...] = ()
    sizes: dict[str, Size] = Field(min_length=1)
    measures: dict[str, Amount] = {}
    finished: dict[str, Amount] = Field(min_length=1)
    charts: dict[str, Chart] = {}
    stitches: dict[str, CustomStitch] = {}
    notes: Markdown | None = None
    techniques: tuple[str, ...] = ()
    pieces: dict[str, Piece] = Field(min_length=1)
    finishing: Markdown | None = None
    care: Markdown | None = None
    silence: tuple[Silence, ...] = ()
