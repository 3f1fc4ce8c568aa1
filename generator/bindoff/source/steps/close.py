"""Closing the top of a ring."""

from typing import Literal

from bindoff.source.model import Field
from bindoff.source.steps.step import Step


class CloseStep(Step):
    """Closes the ring that a tube is after `join: start`, or says that it stays open."""

    close: Literal["top"] = Field(
        description="Closes the upper edge of a tube whose ends are joined to a ring."
    )
    by: Literal["gathering", "tie", "flat seam", "drawstring", "left open"] = Field(
        description="How it is closed, or that it is left open, as a cowl is."
    )
