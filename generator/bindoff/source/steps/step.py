"""What every step may carry."""

from typing import Annotated, Self

from pydantic import Field

from bindoff.source.model import Markdown, Model, TextUse
from bindoff.source.otherside import other_words


class Step(Model):
    """What every step may carry: a yarn, and a remark printed after it."""

    yarn: str | None = Field(
        default=None, description="The yarn of this step, where it is not the piece's."
    )
    note: Annotated[Markdown | None, TextUse.STEP] = Field(
        default=None, description="A remark printed after the step."
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
            if any(isinstance(each, TextUse) for each in field.metadata)
        }
        other = {name: other_words(text) for name, text in texts.items() if isinstance(text, str)}
        if self.in_mirror is not None:
            other["say" if "say" in texts else "note"] = self.in_mirror
        return self.with_values(other)
