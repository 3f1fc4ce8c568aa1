"""Binding off."""

from typing import Annotated, Literal

from pydantic import Field

from bindoff.source.amount import Amount
from bindoff.source.model import Markdown, TextUse
from bindoff.source.steps.step import Step


class BindOffStep(Step):
    """Binds off stitches; ``all`` ends the piece."""

    bind_off: Amount = Field(description="Binds off this many stitches, or all.")
    by: Literal["ordinary", "sewn", "i-cord", "tubular"] = Field(
        default="ordinary", description="By which method, with its explanation."
    )
    how: Annotated[Markdown, TextUse.STEP] = Field(
        default="", description="How, such as loosely in rib; {{ name }} prints a figure."
    )
