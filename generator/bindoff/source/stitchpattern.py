"""What may be written for a stitch pattern: rows under a name, which other rows are worked in."""

from typing import Annotated, Literal

from bindoff.source.model import Field, Model, RowText, Title

MOST_ROWS = 200


class StitchPattern(Model):
    """Rows that are repeated over and over, across the fabric and up."""

    title: Title = Field(
        default="", description="What it is called in print, such as Seed stitch; else its name."
    )
    rows: Annotated[tuple[RowText, ...], Field(min_length=1, max_length=MOST_ROWS)] = Field(
        description="Its rows or rounds in order, each as it is worked."
    )
    worked: Literal["round", "flat"] | None = Field(
        default=None,
        description="Whether these are rounds or rows that are turned; as the piece is if not "
        "given.",
    )
    first_row: Literal["right side", "wrong side"] = Field(
        default="right side", description="On which side it begins where it is written in rows."
    )
    multiple: int | None = Field(
        default=None, ge=1, description="Stitches of its repeat, to be checked against the rows."
    )
    plus: int | None = Field(
        default=None, ge=0, description="Stitches besides, to be checked against the rows."
    )
