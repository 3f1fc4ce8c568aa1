"""Binding off."""

from typing import Annotated, Literal

from bindoff.source.amount import Amount
from bindoff.source.model import Field, Markdown, TextUse
from bindoff.source.steps.step import Step


class BindOffStep(Step):
    """Binds off stitches: ``all`` of them, or the open loops of the ``start``."""

    bind_off: Amount = Field(
        description="Binds off this many stitches, or all; or start, the open loops of a cast-on "
        "with waste yarn."
    )
    by: Literal["ordinary", "sewn", "i-cord", "picot", "tubular"] = Field(
        default="ordinary", description="By which method, with its explanation."
    )
    how: Annotated[Markdown, TextUse.STEP] = Field(
        default="", description="How, such as loosely in rib; {{ name }} prints a figure."
    )
