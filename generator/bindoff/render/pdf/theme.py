"""How the pages look, read from ``themes/``: type, spacing, page grid, colours; and the few words
the pages add. All lengths are points."""

import tomllib
from functools import cache
from pathlib import Path
from typing import Any

from bindoff.records import Record, replace

MM = 72 / 25.4

_THEMES = Path(__file__).with_name("themes")

PAPERS = {"a4": (210 * MM, 297 * MM), "letter": (612.0, 792.0)}


class Look(Record):
    """A face, a size and a colour; a letter may stand in a ``ring``."""

    face: str
    size: float
    colour: str
    ring: bool = False


class TextStyle(Record):
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


class Colours(Record):
    """The palette."""

    ink: str
    accent: str
    warn: str
    rule: str
    hairline: str
    tint: str
    lane_tint: str
    warn_tint: str


class Words(Record):
    """The words the pages add by themselves."""

    safety: str = "Safety"
    note: str = "Note"
    tip: str = "Tip"
    contents: str = "Contents"
    page: str = "page {page} of {pages}"
    version: str = "version {version}"
    copy: str = "Copy for {reader}"
    sizes: str = "sizes {first} to {last}"
    size: str = "size {first}"
    sizes_are: str = "Sizes"
    all_sizes: str = "all sizes"
    continued: str = "continued"
    part: str = "part {part} of {parts}"
    large_print: str = "large print"
    print_saver: str = "print saver"
    letter: str = "US Letter"
    grey: str = "in grey"


class Theme(Record):
    """A complete look.

    An upright page is ``width`` wide between its margins, if its paper allows. ``side`` of that is
    a column for titles and numbers, its gutter included; 0 where there is none. ``measure`` limits
    the width of running text; tables and figures may be as wide as the page allows. ``lane`` is the
    least that the figures of a size take where every size has a place of its own.
    """

    top: float
    bottom: float
    left: float
    right: float
    foot: float  # baseline of the running foot above the paper's edge
    width: float
    side: float
    measure: float
    lane: float
    title: TextStyle
    lead: TextStyle
    byline: TextStyle
    headings: tuple[TextStyle, TextStyle, TextStyle, TextStyle]
    under_heading: tuple[float, float, float, float]  # white space below, by level
    body: TextStyle
    small: TextStyle
    note: TextStyle  # what stands in columns: techniques, care, notes
    item: TextStyle
    term: TextStyle
    caption: TextStyle
    table: TextStyle
    table_small: TextStyle
    table_head: TextStyle
    label: TextStyle
    step: TextStyle  # the number of a step; its `before` is above the step
    figure: TextStyle  # of a size in its lane
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
    cover_art: float  # of the room that a cover has for its picture
    cover_bleeds: bool  # which may run off the paper
    lines: float  # the share of their width that lines are drawn with
    emphasis: tuple[bool, bool]  # stressed text is bold, italic
    colours: Colours
    words: Words

    @property
    def of_notes(self) -> "Theme":
        """The same with all that is running text set as notes are."""
        note = self.note

        def fine(style: TextStyle) -> TextStyle:
            before = min(style.before, note.before)
            return replace(style, size=note.size, leading=note.leading, before=before)

        return replace(
            self,
            body=note,
            item=fine(self.item),
            label=fine(self.label),
            term=fine(self.term),
            step=replace(self.step, leading=note.leading),
        )

    @property
    def of_close_lists(self) -> "Theme":
        """The same with lists set small and close."""
        small = self.small
        item = replace(small, before=self.item.before / 2)
        return replace(self, body=small, item=item, label=small, gutter=0.0)


@cache
def theme(name: str, grey: bool = False) -> Theme:
    """The theme of ``themes/<name>.toml``, over the one it names as its ``base``.

    In ``grey`` what has a colour is black: the grey of a dark colour would be printed as dots.
    """
    data = _read(name)
    del data["drawings"]
    colours = Colours(**data["colours"])
    if grey:
        colours = replace(colours, accent=colours.ink, warn=colours.ink, warn_tint=colours.tint)
    headings = data["headings"]
    setting = dict(data["setting"])
    emphasis = (setting.pop("bold_emphasis"), setting.pop("italic_emphasis"))
    values: dict[str, Any] = {
        **{key: value * MM for key, value in data["page"].items()},
        **{key: _style(value, colours) for key, value in data["styles"].items()},
        **data["space"],
        **setting,
        "headings": tuple(_style(each, colours) for each in headings),
        "under_heading": tuple(each["under"] for each in headings),
        "emphasis": emphasis,
    }
    return Theme(**values, colours=colours, words=Words())


def drawings(name: str, paper: str) -> dict[str, Any]:
    """How large drawings are that suit the theme of ``themes/<name>.toml``; millimetres. What
    depends on the paper is that of ``paper``."""
    found: dict[str, Any] = _read(name)["drawings"]
    return {key: value[paper] if isinstance(value, dict) else value for key, value in found.items()}


def _read(name: str) -> dict[str, Any]:
    data = tomllib.loads(_THEMES.joinpath(f"{name}.toml").read_text("utf-8"))
    if "base" not in data:
        return data
    found = _read(data.pop("base"))
    for key, value in data.items():
        found[key] = {**found[key], **value} if isinstance(value, dict) else value
    return found


def _style(data: dict[str, Any], colours: Colours) -> TextStyle:
    return TextStyle(
        data["face"],
        float(data["size"]),
        float(data["leading"]),
        getattr(colours, data["colour"]),
        float(data.get("before", 0)),
    )
