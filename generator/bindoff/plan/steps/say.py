"""The designer's own words among the steps."""

from bindoff.plan.differences.matching import Keys
from bindoff.plan.differences.said import Facts, What
from bindoff.plan.differences.values import prose_of
from bindoff.plan.measures import Measures
from bindoff.plan.steps import nothing
from bindoff.plan.steps.kind import Kind
from bindoff.plan.worked import Answers, Hand, WorkedStep
from bindoff.source.steps.say import SayStep

_Say = WorkedStep[SayStep, None]


def _facts(measures: Measures, step: _Say, keys: Keys) -> Facts:
    return {(What.SAY, ""): prose_of(measures, step.step.say)}


KIND = Kind(
    SayStep,
    nothing.work,
    Answers(
        rows=nothing.rows,
        in_turn=False,
        charts=nothing.charts,
        tubes=nothing.tubes,
        pictures=nothing.pictures,
        begins=nothing.stitches,
        closes=nothing.stitches,
        thread=nothing.thread,
        tools=nothing.tools,
        techniques=nothing.techniques,
        facts=_facts,
        stops=nothing.stops,
        heading=nothing.heading,
        idle=True,
        hand=Hand.WORKED,
    ),
)
