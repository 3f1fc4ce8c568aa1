"""How many groups of stitches wait at once, from the piece that holds them to the one that takes
them up."""

from bindoff.checks.context import Context
from bindoff.checks.walk import parts_of, steps_of
from bindoff.plan.steps.pick_up_along import PickedUp
from bindoff.plan.worked import StepPlan
from bindoff.source.rowlang.syntax import Alter, CountChange


def held_at_once(context: Context) -> int:
    """The most groups that wait at one time. One that no step is seen to take up is not counted
    beyond its own step, as it may be taken up in words."""
    steps = [at.step for at in steps_of(context)]
    last = {name: index for index, step in enumerate(steps) for name in _taken(step)}
    waiting, most = set[str](), 0
    for index, step in enumerate(steps):
        waiting -= set(_taken(step))
        waiting |= {name for name in _held(step) if last.get(name, -1) > index}
        most = max(most, len(waiting))
    return most


def _held(step: StepPlan) -> list[str]:
    """The names under which the rows of a step hold stitches."""
    return [part.group for part in _alters(step) if part.change is CountChange.HOLD and part.group]


def _taken(step: StepPlan) -> list[str]:
    """The names of the groups that a step takes up again."""
    names = [part.group for part in _alters(step) if part.change is not CountChange.HOLD]
    if isinstance(step.detail, PickedUp):
        names += [name for part in step.detail.parts for name in part.names]
    held = getattr(step.step, "held", None)
    return [name for name in (*names, str(getattr(held, "written", ""))) if name]


def _alters(step: StepPlan) -> list[Alter]:
    return [part for row in step.all_rows for part in parts_of(row) if isinstance(part, Alter)]
