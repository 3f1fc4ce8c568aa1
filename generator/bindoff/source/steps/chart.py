"""Rounds of a chart."""

from typing import Annotated, Self

from bindoff.source.amount import Amount
from bindoff.source.model import Field, Model, RowText
from bindoff.source.steps.step import Step

Outside = (
    Annotated[int, Field(ge=0)]
    | RowText
    | Annotated[tuple[RowText, ...], Field(min_length=2, max_length=2)]
)
"""Stitches beside a chart: a number that is knitted (purled on the wrong side), or what is worked,
or the same for the right side and for the wrong side."""


class ChartPlace(Model):
    """The stitches of a row outside the chart, in the order of a right-side row."""

    after: Outside = Field(
        default=0,
        description="What stands before the chart: a number of knit stitches, such as 2; or what "
        "is worked, such as k2, or [k2, p2] for both sides.",
    )
    before: Outside = Field(default=0, description="What stands behind the chart, likewise.")


class ChartStep(Step):
    """Works a chart, repeated around or placed once, for a number of rounds."""

    chart: str = Field(description="Works this chart, side by side as often as it fits.")
    rounds: Amount | None = Field(
        default=None, description="How many rounds; all of the chart once if not given."
    )
    beside: ChartPlace | None = Field(
        default=None,
        alias="at",
        description="The stitches beside the chart, if it is not worked over all.",
    )
    across: Amount | None = Field(
        default=None,
        description="How many times side by side; as often as it fits if not given.",
    )

    def mirrored(self) -> Self:
        """What stood before the chart stands behind it."""
        place = self.beside
        if place is not None:
            place = place.with_values({"after": place.before, "before": place.after})
        return super().mirrored().with_values({"beside": place})
