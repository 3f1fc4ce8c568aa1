"""What every step may carry."""

from typing import Annotated, Self

from bindoff.source.model import Field, Markdown, Model, TextUse
from bindoff.source.otherside import other_words

REMARKS = ("first", "note")
"""The keys of the remarks that any step may have, in the order in which they are printed."""

STEP_TEXTS = (*REMARKS, "say")
"""The keys of a step whose words are about the work at that place."""


class Step(Model):
    """What every step may carry: a yarn, and remarks printed before and after it."""

    yarn: str | None = Field(
        default=None, description="The yarn of this step, where it is not the piece's."
    )
    first: Annotated[Markdown | None, TextUse.STEP] = Field(
        default=None,
        description="What a maker has to know before the step's own words, such as where it "
        "begins.",
    )
    note: Annotated[Markdown | None, TextUse.STEP] = Field(
        default=None, description="A remark printed after the step."
    )
    remove_markers: bool = Field(
        default=False,
        description="All markers on the needles come off as this step comes to them.",
    )
    in_mirror: Annotated[Markdown | None, TextUse.STEP] = Field(
        default=None,
        description="The words or the remark of this step in a piece that mirrors its own, where "
        "more changes than left and right.",
    )

    def mirrored(self) -> Self:
        """The step as it is written for the piece that mirrors its own: left for right in words.

        Its rows stay as they are written; the plan reads them from their other end.
        """
        texts = {
            name: getattr(self, name)
            for name, field in type(self).model_fields.items()
            if field.use
        }
        other = {name: other_words(text) for name, text in texts.items() if isinstance(text, str)}
        if self.in_mirror is not None:
            only_first = self.first is not None and self.note is None
            other["say" if "say" in texts else REMARKS[not only_first]] = self.in_mirror
        return self.with_values(other)
