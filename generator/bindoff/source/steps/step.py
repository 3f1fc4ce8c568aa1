"""What every step may carry."""

from typing import Annotated

from pydantic import Field

from bindoff.source.model import Markdown, Model, TextUse


class Step(Model):
    """What every step may carry: a yarn, and a remark printed after it."""

    yarn: str | None = Field(
        default=None, description="The yarn of this step, where it is not the piece's."
    )
    note: Annotated[Markdown | None, TextUse.STEP] = Field(
        default=None, description="A remark printed after the step."
    )
