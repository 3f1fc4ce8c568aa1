"""What may be written for a stitch of the designer's own."""

from typing import Annotated

from bindoff.source.model import Field, Model, TextUse


class CustomStitch(Model):
    """A stitch of the designer's own: what it uses up, what it leaves, and how it is worked."""

    uses: int = Field(ge=0, le=100, description="Stitches it takes from the left needle.")
    makes: int = Field(ge=0, le=100, description="Stitches it leaves on the right needle.")
    name: Annotated[str, TextUse.STITCH] = Field(
        description="Its full name for the list of abbreviations."
    )
    how: Annotated[str, TextUse.STITCH] = Field(description="How it is worked, in a sentence.")
    symbol: str | None = Field(
        default=None,
        description="Its chart symbol by name: a mark such as star, or the symbol of another "
        "stitch, as `bindoff words` names it; a mark that is free if not given.",
    )
    wrong_side: str | None = Field(
        default=None,
        description="The stitch that a wrong-side row works so that this one shows on the right "
        "side, such as p2tog for k2tog.",
    )
    mirror: str | None = Field(
        default=None, description="The stitch that leans the other way, such as ssk for k2tog."
    )
