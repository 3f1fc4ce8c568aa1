"""Rounds of a chart."""

from pydantic import Field

from bindoff.source.amount import Amount
from bindoff.source.steps.step import Step


class ChartStep(Step):
    """Works a chart, repeated around or placed once, for a number of rounds."""

    chart: str = Field(description="Works this chart, side by side as often as it fits.")
    rounds: Amount | None = Field(
        default=None, description="How many rounds; all of the chart once if not given."
    )
