"""What the guide tells, topic by topic; a new group of keys needs its place here."""

from bindoff.records import Record


class Topic(Record):
    """A chapter: its ``name`` on the command line, its ``title``, and the ``groups`` of keys in it,
    by the names of their models. Its prose is ``templates/guide/<name>.md``. ``about`` are other
    words under which it is looked for."""

    name: str
    title: str
    groups: tuple[str, ...] = ()
    about: tuple[str, ...] = ()


TOPICS = (
    Topic("head", "The head", ("Pattern", "Made", "Photo", "Tool", "VersionChange", "Silence")),
    Topic(
        "yarn",
        "Gauge and yarn",
        ("Gauge", "Swatch", "Yarn", "YarnSwatch"),
        about=("amounts", "yarn amounts", "balls", "tension"),
    ),
    Topic("measures", "Sizes and measures", ("Size",), about=("formulas", "amount", "ease")),
    Topic("charts", "Charts", ("Chart", "Columns", "CellMeaning", "ChartPlace")),
    Topic("stitches", "Stitches and stitch patterns", ("CustomStitch", "StitchPattern")),
    Topic(
        "pieces",
        "Pieces",
        (
            "Piece",
            "Column",
            "RowsShape",
            "HatShape",
            "MittenShape",
            "PanelShape",
            "RingShape",
            "TubeShape",
        ),
    ),
    Topic(
        "steps",
        "Steps",
        (
            "Step",
            "SectionStep",
            "SayStep",
            "CastOnStep",
            "WorkStep",
            "Stripe",
            "ChartStep",
            "EvenStep",
            "TaperStep",
            "TogetherStep",
            "Shaping",
            "ButtonholesStep",
            "CrownStep",
            "CordStep",
            "BindOffStep",
            "GatherStep",
            "PickUpStep",
            "PickUpAlongStep",
            "Edge",
            "LeaveStep",
            "JoinStep",
            "CloseStep",
            "StripesStep",
            "EmbroiderStep",
            "EdgingStep",
        ),
    ),
    Topic(
        "machine",
        "Tubes from the circular machine",
        ("Tube", "ZoneYarns", "WantedStripe", "Picture", "Motif", "ColourPlan"),
    ),
    Topic(
        "rows",
        "Rows",
        about=("row", "marker", "markers", "crochet", "repeat", "repeats", "abbreviations"),
    ),
)

SHARED = ("yarn", "first", "note", "remove markers", "in mirror")
"""Keys that every step may have, told once, under ``Step``."""


class Helper(Record):
    """Helpers of formulas: how each is called, what it gives, and a line that works."""

    names: tuple[str, ...]
    gives: str
    example: str


HELPERS = (
    Helper(
        ("stitches", "stitches_up", "stitches_down"),
        "stitches for a width, to the nearest, always up or always down; with a multiple and how "
        "many more where a repeat must fit",
        "lower_edge: stitches(50 cm, multiple = 8, plus = 2)",
    ),
    Helper(
        ("rounds", "rounds_up", "rounds_down", "rows", "rows_up", "rows_down"),
        "rounds or rows for a height",
        "ribbed: rounds(4 cm)",
    ),
    Helper(("width",), "the width of so many stitches", "as_wide_as: width(96)"),
    Helper(("height",), "the height of so many rounds or rows", "as_high_as: height(60)"),
    Helper(
        ("nearest", "up", "down"),
        "a number as a multiple of another: the nearest, the next above, the next below",
        "wedges: nearest(90, 8)",
    ),
    Helper(
        ("slant",),
        "how long an edge is that leans so far over a height, as along a taper",
        "leaning_edge: slant(width(6), height(24))",
    ),
    Helper(("min", "max"), "the smaller or the larger of two", "longest: max(20 cm, 21 cm)"),
    Helper(
        ("count",),
        "a bare number, where stitches are to become rounds or the other way around",
        "every_fourth: count(96 / 4)",
    ),
)

GAUGES_OF_THEIR_OWN = (
    "With a further gauge called hand, the first four kinds exist again at its figures: "
    "hand_stitches, hand_rounds, hand_width, hand_height and so on."
)
