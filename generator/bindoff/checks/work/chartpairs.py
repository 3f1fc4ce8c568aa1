"""A round of one piece of a pair that is worked in the chart of the other."""

from collections.abc import Iterator

from bindoff.checks.context import Context
from bindoff.checks.engine import Finding
from bindoff.plan.worked import PiecePlan, StepPlan


def charts_exchanged(context: Context, left: PiecePlan, right: PiecePlan) -> Iterator[Finding]:
    """A step that works a chart of the other piece, between two steps that work one of its own,
    which the other piece has nowhere."""
    for one, other in ((left, right), (right, left)):
        worked = [step for step in one.steps if step.charts]
        there = _charts(*other.steps)
        for index, step in enumerate(worked):
            beside = _charts(*worked[max(index - 1, 0) : index], *worked[index + 1 : index + 2])
            strange = _charts(step) & there
            rest = _charts(*worked[:index], *worked[index + 1 :])
            if strange and beside and not beside & there and not strange & rest:
                yield Finding(
                    f"{_titles(context, strange)} is the chart of the other piece: the steps "
                    f"beside it work {_titles(context, beside)}",
                    step.rows[0].span or step.span if step.rows else step.span,
                    "Name the chart of this piece",
                )


def _charts(*steps: StepPlan) -> set[str]:
    return {chart.chart for step in steps for chart in step.charts}


def _titles(context: Context, keys: set[str]) -> str:
    return " and ".join(context.pattern.charts[key].title for key in sorted(keys))
