"""A heading above the steps after it."""

from bindoff.plan.differences.matching import Keys
from bindoff.plan.differences.said import Facts, What
from bindoff.plan.measures import Measures
from bindoff.plan.steps import nothing
from bindoff.plan.steps.kind import Kind
from bindoff.plan.worked import Answers, Hand, WorkedStep
from bindoff.source.steps.section import SectionStep

_Section = WorkedStep[SectionStep, None]


def _heading(step: _Section) -> str:
    return step.step.section


def _facts(measures: Measures, step: _Section, keys: Keys) -> Facts:
    return {(What.HEADING, ""): {"": step.step.section}}


KIND = Kind(
    SectionStep,
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
        heading=_heading,
        idle=True,
        hand=Hand.WORKED,
    ),
)
