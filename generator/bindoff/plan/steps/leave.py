"""Stitches left live for a later piece to be joined to."""

from bindoff.plan.bench import Bench, Outcome, States, no_rounds
from bindoff.plan.differences.matching import Keys
from bindoff.plan.differences.said import Facts, What
from bindoff.plan.differences.values import per_size
from bindoff.plan.measures import Measures
from bindoff.plan.steps import nothing
from bindoff.plan.steps.kind import Kind
from bindoff.plan.steps.live import emptied, live_stitches
from bindoff.plan.worked import Answers, Closed, Hand, WorkedStep
from bindoff.records import Record
from bindoff.source.steps.leave import LeaveStep


class Left(Record):
    """Stitches left live for a join, per size."""

    stitches: tuple[int, ...]


_Left = WorkedStep[LeaveStep, Left]


def _work(bench: Bench, index: int, step: LeaveStep, yarn: str, states: States) -> Outcome[Left]:
    live = live_stitches(bench, index, states)
    return Left(live), emptied(states), no_rounds(states)


def _closes(step: _Left) -> Closed:
    return Closed(step.detail.stitches, None)


def _facts(measures: Measures, step: _Left, keys: Keys) -> Facts:
    return {(What.CLOSED, ""): per_size(measures, step.detail.stitches)}


KIND = Kind(
    LeaveStep,
    _work,
    Answers(
        rows=nothing.rows,
        in_turn=False,
        charts=nothing.charts,
        tubes=nothing.tubes,
        pictures=nothing.pictures,
        begins=nothing.stitches,
        closes=_closes,
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
