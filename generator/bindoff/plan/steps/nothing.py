"""The answers to each question of kinds of steps that have nothing to say to it."""

from collections.abc import Mapping

from bindoff.plan.bench import Bench, Outcome, States, no_rounds
from bindoff.plan.differences.matching import Keys
from bindoff.plan.differences.said import Facts, Stop
from bindoff.plan.measures import Measures
from bindoff.plan.picture import PicturePlan
from bindoff.plan.worked import ChartRows, StepPlan
from bindoff.plan.yarn import Purpose
from bindoff.source.rowlang.syntax import Row
from bindoff.source.steps.step import Step


def work(_: Bench, __: int, ___: Step, ____: str, states: States) -> Outcome[None]:
    """It works nothing, and leaves the stitches as they are."""
    return None, states, no_rounds(states)


def rows(_: StepPlan) -> tuple[Row, ...]:
    """It has no rows in the row language."""
    return ()


def charts(_: StepPlan) -> tuple[ChartRows, ...]:
    """It works no chart."""
    return ()


def tubes(_: StepPlan) -> tuple[PicturePlan, ...]:
    """It knits no tube on the machine."""
    return ()


def pictures(_: StepPlan) -> tuple[PicturePlan, ...]:
    """It embroiders nothing."""
    return ()


def stitches(_: StepPlan) -> None:
    """It goes on with the stitches that are on the needles: it begins, or closes, none."""


def thread(_: StepPlan, __: str, ___: int) -> Mapping[Purpose, float]:
    """It takes no yarn besides its rounds."""
    return {}


def tools(_: StepPlan) -> tuple[str, ...]:
    """It needs no tool."""
    return ()


def techniques(_: StepPlan, __: bool) -> tuple[str, ...]:
    """It needs no explanation."""
    return ()


def facts(_: Measures, __: StepPlan, ___: Keys) -> Facts:
    """It has nothing to compare besides its counts and its note."""
    return {}


def stops(_: StepPlan, __: Keys) -> tuple[tuple[Stop, ...], ...]:
    """No counter stops in it."""
    return ()


def heading(_: StepPlan) -> str:
    """It is no heading."""
    return ""
