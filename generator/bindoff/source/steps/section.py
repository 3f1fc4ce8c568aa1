"""A heading between steps."""

from typing import Annotated

from pydantic import Field

from bindoff.source.model import TextUse
from bindoff.source.steps.step import Step


class SectionStep(Step):
    """Opens a section with its heading."""

    section: Annotated[str, TextUse.TITLE] = Field(
        description="Begins a section with this heading."
    )
