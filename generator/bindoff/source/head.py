"""The head of a pattern: its changes, photographs, tools, and how it is made."""

from typing import Annotated, Literal

from bindoff.source.model import Day, Field, Model, TextUse, Version, rule


class VersionChange(Model):
    """What a version changed, for readers of an earlier one."""

    version: Version = Field(description="The version that brought the change.")
    date: Day = Field(description="The day it came out, year-month-day.")
    note: Annotated[str, TextUse.TEXT] = Field(description="What changed, in a sentence.")


class Photo(Model):
    """A photograph in the pattern's folder."""

    file: str = Field(description="The name of a JPEG or PNG file in the pattern's folder.")
    alt: Annotated[str, TextUse.ALT] = Field(
        min_length=1, description="What a reader who can't see it needs to know."
    )
    caption: Annotated[str, TextUse.TEXT] = Field(
        default="", description="Words printed below the photograph."
    )


class Made(Model):
    """How the main pieces are made; a circular machine's needle count fixes every tube's."""

    by: Literal["hand", "machine"] = Field(
        default="hand", description="Whether the main pieces are knitted by hand or on a machine."
    )
    needles: int | None = Field(
        default=None, ge=4, le=400, description="How many needles the circular machine has."
    )

    @rule
    def _machine_has_needles(self) -> "Made":
        if self.by == "machine" and self.needles is None:
            raise ValueError("a machine needs its number of needles||Add `needles:` beside `by:`")
        return self


class Tool(Model):
    """A needle, hook or other tool, and what it is for."""

    name: Annotated[str, TextUse.MATERIAL] = Field(description="The tool, with its size.")
    use: Annotated[str, TextUse.MATERIAL] = Field(
        default="", description="What it is for, such as brim."
    )


class Silence(Model):
    """A check that does not count for this pattern, and why."""

    check: str = Field(description="Its id, as `bindoff check --list` names it.")
    because: str = Field(min_length=1, description="The reason, printed with what it finds.")
