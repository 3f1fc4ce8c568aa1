"""A heading between steps."""

from bindoff.source.model import Field, Title
from bindoff.source.steps.step import Step


class SectionStep(Step):
    """Opens a section with its heading."""

    section: Title = Field(description="Begins a section with this heading.")
