"""What may be written for a chart and its legend."""

from typing import Annotated, Literal

from bindoff.diagnostics import PatternError
from bindoff.source.lengths import parse_length
from bindoff.source.model import Field, Model, RowText, Rule, TextUse, Title, rule

NO_STITCH = "no stitch"
"""What a legend says of cells that are no stitch: they fill the grid where the count is smaller."""


NO_COLOUR = (NO_STITCH, "not worked", "w&t")
"""What a legend says of cells in which no yarn is worked."""


class CellMeaning(Model):
    """What a grid character stands for: a yarn, a stitch, or a stitch in a yarn."""

    yarn: str | None = Field(default=None, description="The yarn it is worked in.")
    stitch: str | None = Field(default=None, description="The stitch it is worked as, such as p.")

    @rule
    def _means_something(self) -> "CellMeaning":
        if self.yarn is None and self.stitch is None:
            raise ValueError(
                "this character has no meaning||Give it a `yarn:`, a `stitch:` or both"
            )
        return self


class Columns(Model):
    """Which cells of a chart are repeated, counted in the order a right-side row works them."""

    before: int = Field(default=0, ge=0, description="Cells before the repeat: the right edge.")
    repeat: int = Field(ge=1, description="Cells of the repeat.")
    after: int = Field(default=0, ge=0, description="Cells after the repeat: the left edge.")
    centre: int | None = Field(
        default=None,
        ge=1,
        description="Cells between two repeats, each of so many cells, that are worked equally "
        "often: the spine of a shawl.",
    )

    @property
    def sections(self) -> tuple[int, ...]:
        """The cells of each section, from the right edge to the left."""
        if self.centre is None:
            return (self.before, self.repeat, self.after)
        return (self.before, self.repeat, self.centre, self.repeat, self.after)


_PLAIN = {"k": "k", "knit": "k", "p": "p", "purl": "p"}

_LEAST_CELL_MM, _MOST_CELL_MM = 2.0, 20.0


def _millimetres(written: str) -> float:
    """A length in mm, 0 for what is none."""
    try:
        return parse_length(written)
    except PatternError:
        return 0.0


def _a_size_in_print(written: str | None) -> str | None:
    if written is not None and not _LEAST_CELL_MM <= _millimetres(written) <= _MOST_CELL_MM:
        raise ValueError(
            f"no chart is printed with cells of {written}"
            f"||Write a length from {_LEAST_CELL_MM:g} to {_MOST_CELL_MM:g} mm, such as 5 mm"
        )
    return written


GridFiles = str | tuple[str, ...] | dict[str, str]
"""A grid file for all sizes, or one for each: in order, or by the name of the size."""


class Chart(Model):
    """A grid file, or one for each size, with its legend."""

    title: Title = Field(description="The heading of the chart.")
    grid: GridFiles = Field(
        description="A text file with one character a stitch and one line a round, last round on "
        "top; or one for each size in order, or by size name, where sizes have charts of their own."
    )
    legend: dict[str, str | CellMeaning] = Field(
        description="What each character of the grid stands for: a yarn, a stitch, or both; or "
        "`no stitch` for a cell that is skipped where there are fewer stitches; where a row turns "
        "early, `w&t` for the stitch that is wrapped and `not worked` for those beyond the turn."
    )
    alt: Annotated[str, TextUse.ALT] = Field(
        min_length=1, description="What the chart shows, in a sentence."
    )
    columns: Columns | None = Field(
        default=None,
        description="Edge stitches, worked once beside the repeat; two `|` in every line of the "
        "grid say the same, and four part two repeats.",
    )
    rows: Literal["all", "right side"] = Field(
        default="all",
        description="Which rows the grid draws: all, or only those of the right side (every other "
        "round where it is worked in the round).",
    )
    other_rows: RowText | None = Field(
        default=None,
        description="The rows between, where only right-side rows are drawn: purl if not given "
        "(knit in the round).",
    )
    first_row: Literal["right side", "wrong side"] = Field(
        default="right side",
        description="On which side the chart begins where it is worked in rows.",
    )
    mode: Literal["intarsia", "mosaic", "slip stitch"] | None = Field(
        default=None,
        description="How its colours are worked if no yarn is carried behind: in intarsia, each "
        "area with a yarn of its own; in mosaic, each line is two rows in one yarn, and the "
        "stitches of other yarns are slipped; in slip stitch, each line is one such row.",
    )
    cell: Annotated[str | None, Rule(_a_size_in_print)] = Field(
        default=None,
        description="How large a cell is printed, its longer side: from 2 to 20 mm; as large as "
        "the page allows, from 4 to 7 mm, if not given, or from 3.4 mm where that keeps it on one "
        "page; large print has 8 mm and more.",
    )
    sheet: Literal["upright", "landscape", "one"] = Field(
        default="upright",
        description="How a chart too large for a page is parted: for upright pages or for those "
        "on their side; or upright, with a file of one large sheet besides.",
    )
    repeats: bool = Field(
        default=True, description="Whether the chart is repeated around, and boxed as a repeat."
    )

    @property
    def cell_mm(self) -> float | None:
        """The longer side of a cell in print, if it is given."""
        return None if self.cell is None else _millimetres(self.cell)

    @rule
    def _pairs_begin_on_the_right_side(self) -> "Chart":
        if self.mode == "mosaic" and (self.rows != "all" or self.first_row == "wrong side"):
            raise ValueError(
                "each line of a mosaic chart is a right-side row and the wrong-side row after it"
                "||Take out `rows:` and `first row:`"
            )
        if self.mode == "mosaic" and self.other_rows and not self.second:
            raise ValueError(
                "the second row of a mosaic line is knitted or purled"
                "||Write `other rows: knit` or `other rows: purl`"
            )
        return self

    @property
    def slipped(self) -> bool:
        """Whether each row is worked in one yarn and the stitches of others are slipped."""
        return self.mode in ("mosaic", "slip stitch")

    @property
    def second(self) -> str:
        """The stitch of the second row of each line of a mosaic chart; empty if none is said."""
        return _PLAIN.get((self.other_rows or "").strip().lower(), "")

    def for_size(self, index: int, size: str) -> "Chart":
        """The chart as if the grid of that size had been written alone."""
        match self.grid:
            case str():
                return self
            case dict():
                return self.with_values({"grid": self.grid[size]})
            case _:
                return self.with_values({"grid": self.grid[index]})

    @property
    def files(self) -> tuple[str, ...]:
        """The grid files, each once."""
        match self.grid:
            case str():
                return (self.grid,)
            case dict():
                return tuple(dict.fromkeys(self.grid.values()))
            case _:
                return tuple(dict.fromkeys(self.grid))
