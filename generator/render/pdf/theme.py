"""How the pages look, as data: type, spacing, page grid, colours and the few words of furniture.

All lengths are points. Text colours keep at least 7 to 1 against the paper (WCAG 2.2, 1.4.6), so
they survive a grey printer; the tints behind text are lighter than any grey that hurts reading.
"""

from dataclasses import dataclass, replace

MM = 72 / 25.4

PAPERS = {"a4": (210 * MM, 297 * MM), "letter": (612.0, 792.0)}


@dataclass(frozen=True, slots=True)
class Look:
    """A face, a size and a colour."""

    face: str
    size: float
    colour: str


@dataclass(frozen=True, slots=True)
class TextStyle:
    """How a block of text is set. ``before`` is the white space above it."""

    face: str
    size: float
    leading: float
    colour: str
    before: float = 0.0

    @property
    def look(self) -> Look:
        """The look of its plain characters."""
        return Look(self.face, self.size, self.colour)


@dataclass(frozen=True, slots=True)
class Colours:
    """The palette."""

    ink: str = "#1b2328"
    soft: str = "#47535a"  # captions and furniture
    accent: str = "#1d4a5c"  # headings, numerals, links
    warn: str = "#7a2416"  # safety notes
    rule: str = "#98a3a8"
    hairline: str = "#cdd4d7"
    tint: str = "#f1f4f5"
    warn_tint: str = "#fbf5f3"


@dataclass(frozen=True, slots=True)
class Words:
    """The words the pages add by themselves."""

    safety: str = "Safety"
    note: str = "Note"
    tip: str = "Tip"
    contents: str = "Contents"
    page: str = "page {page} of {pages}"
    version: str = "version {version}"
    sizes: str = "sizes {first} to {last}"
    size: str = "size {first}"
    continued: str = "continued"
    part: str = "part {part} of {parts}"


@dataclass(frozen=True, slots=True)
class Theme:
    """A complete look. ``measure`` limits the width of running text; tables and figures may be
    as wide as the page allows."""

    top: float
    bottom: float
    left: float
    right: float
    foot: float  # baseline of the running foot above the paper's edge
    measure: float
    title: TextStyle
    lead: TextStyle
    byline: TextStyle
    headings: tuple[TextStyle, TextStyle, TextStyle, TextStyle]
    under_heading: tuple[float, float, float, float]  # white space below, by level
    body: TextStyle
    small: TextStyle
    item: TextStyle
    term: TextStyle
    caption: TextStyle
    table: TextStyle
    table_small: TextStyle
    table_head: TextStyle
    label: TextStyle
    running: TextStyle
    gutter: float  # room for bullets and step numbers
    cell_gap: float  # white space between columns
    cell_pad: float  # white space above and below the text of a row
    columns: int  # in which notes may be set
    column_gap: float
    block_gap: float  # white space around tables, figures and notes
    pad: float  # inside a note
    label_wish: float  # drawings are enlarged until their lettering has this size,
    least_label: float  # and shrunk no further than to this
    emphasis: tuple[bool, bool]  # stressed text is bold, italic
    colours: Colours
    words: Words


def _default() -> Theme:
    c = Colours()
    body = TextStyle("sans", 9.75, 14.0, c.ink, before=6.0)
    return Theme(
        top=20 * MM,
        bottom=24 * MM,
        left=22 * MM,
        right=20 * MM,
        foot=13 * MM,
        measure=132 * MM,
        title=TextStyle("serif-bold", 32.0, 37.0, c.accent),
        lead=TextStyle("serif", 13.5, 20.0, c.ink, before=8.0),
        byline=TextStyle("sans", 9.75, 14.0, c.soft, before=6.0),
        headings=(
            TextStyle("serif-bold", 26.0, 31.0, c.accent, before=28.0),
            TextStyle("serif-bold", 17.5, 22.0, c.accent, before=27.0),
            TextStyle("sans-bold", 11.5, 15.0, c.ink, before=15.0),
            TextStyle("sans-bold", 9.75, 14.0, c.accent, before=12.0),
        ),
        under_heading=(10.0, 6.0, 3.5, 2.0),
        body=body,
        small=TextStyle("sans", 8.5, 12.0, c.soft, before=5.0),
        item=replace(body, before=3.5),
        term=TextStyle("sans-bold", 9.75, 14.0, c.ink),
        caption=TextStyle("sans-italic", 9.0, 12.5, c.soft, before=5.0),
        table=TextStyle("sans", 9.25, 12.5, c.ink),
        table_small=TextStyle("sans", 8.25, 11.5, c.ink),
        table_head=TextStyle("sans-bold", 9.25, 12.5, c.accent),
        label=TextStyle("sans-bold", 9.75, 14.0, c.accent),
        running=TextStyle("sans", 8.0, 10.0, c.soft),
        gutter=17.0,
        cell_gap=12.0,
        cell_pad=3.4,
        columns=2,
        column_gap=20.0,
        block_gap=13.0,
        pad=11.0,
        label_wish=0.0,
        least_label=5.0,
        emphasis=(False, True),
        colours=c,
        words=Words(),
    )


def _large() -> Theme:
    """18 pt and up, sans only, leading 150 %, one column, margins of an inch.

    After the American Printing House for the Blind and American Council of the Blind large-print
    guidelines.
    """
    c = Colours()
    inch = 72.0
    body = TextStyle("sans", 18.0, 27.0, c.ink, before=12.0)
    plain = TextStyle("sans", 18.0, 27.0, c.ink)
    bold = TextStyle("sans-bold", 18.0, 27.0, c.ink)
    return replace(
        _default(),
        top=inch * 0.9,
        bottom=inch * 1.1,
        left=inch,
        right=inch,
        foot=inch * 0.6,
        measure=inch * 6.5,
        title=TextStyle("sans-bold", 38.0, 46.0, c.accent),
        lead=TextStyle("sans", 21.0, 31.0, c.ink, before=12.0),
        byline=replace(body, before=10.0),
        headings=(
            TextStyle("sans-bold", 32.0, 40.0, c.accent, before=36.0),
            TextStyle("sans-bold", 27.0, 35.0, c.accent, before=36.0),
            TextStyle("sans-bold", 22.0, 30.0, c.ink, before=26.0),
            TextStyle("sans-bold", 18.5, 27.0, c.accent, before=18.0),
        ),
        under_heading=(16.0, 10.0, 7.0, 5.0),
        body=body,
        small=replace(body, before=9.0),
        item=replace(body, before=9.0),
        term=bold,
        caption=replace(plain, before=9.0, colour=c.soft),
        table=plain,
        table_small=plain,
        table_head=replace(bold, colour=c.accent),
        label=replace(bold, colour=c.accent),
        running=replace(plain, leading=22.0),
        gutter=36.0,
        cell_gap=16.0,
        cell_pad=5.0,
        columns=1,
        column_gap=28.0,
        block_gap=20.0,
        pad=16.0,
        label_wish=12.0,
        least_label=8.5,
        emphasis=(True, False),
    )


def theme(large_print: bool) -> Theme:
    """The one house theme, or its large-print form."""
    return _large() if large_print else _default()
