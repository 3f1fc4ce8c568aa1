"""The top closed, or left open, of a tube whose ends are joined.

A folded tube stands on its fold, and its joined ends are the top. One of a single layer becomes a
ring that lies double: the way around it is as long as the tube, and its two edges are folds.
"""

from collections.abc import Mapping

from bindoff.diagnostics import fail
from bindoff.plan.bench import Bench, Outcome, States, no_rounds
from bindoff.plan.differences.matching import Keys
from bindoff.plan.differences.said import Facts
from bindoff.plan.measures import Measures
from bindoff.plan.picture import piece_gauges
from bindoff.plan.steps import nothing
from bindoff.plan.steps.common import method_facts
from bindoff.plan.steps.kind import Kind
from bindoff.plan.tube import above_the_tie
from bindoff.plan.worked import Answers, Hand, WorkedStep
from bindoff.plan.yarn import Purpose
from bindoff.records import Record
from bindoff.source.steps.close import CloseStep
from bindoff.source.steps.join import JoinStep

TIMES_AROUND: Mapping[str, float] = {"gathering": 2.0, "flat seam": 1.5}
"""Yarn that a closing takes over the way around the ring: twice through the edge; a seam of half
the way at three times its length. Common practice, no source. A strip or a cord is a piece of its
own."""


class ClosedTop(Record):
    """How the top is closed, the way around it in mm and how far below its edge, per size.

    ``folded`` says that the tube is folded, its ends joined at the top.
    """

    by: str
    around_mm: tuple[float, ...]
    below_mm: tuple[float, ...]
    folded: bool


_Close = WorkedStep[CloseStep, ClosedTop]


def _work(
    bench: Bench, index: int, step: CloseStep, yarn: str, states: States
) -> Outcome[ClosedTop]:
    if not any(
        isinstance(each, JoinStep) and each.join == "start" for each in bench.piece.steps[:index]
    ):
        raise fail(
            "piece.no-ring",
            "there is no ring whose top could be closed here",
            "Put this step after `- join: start`, which makes a tube a ring",
            bench.span(index),
        )
    gauges = piece_gauges(bench.measures, bench.piece)
    tubes = [plan.tube for plan in bench.tubes]
    folded = bool(tubes) and all(tube.fold_after is not None for tube in tubes)
    if folded:
        sides = zip(gauges, tubes, strict=True)
        around = [gauge.width_of(tube.needles) for gauge, tube in sides]
    else:
        around = [gauge.height_of(s.rounds) for gauge, s in zip(gauges, states, strict=True)]
    below = map(above_the_tie, tubes, gauges)
    closed = ClosedTop(step.by, tuple(around), tuple(below) if folded else (), folded)
    return closed, states, no_rounds(states)


def _thread(step: _Close, yarn: str, size: int) -> Mapping[Purpose, float]:
    times = TIMES_AROUND.get(step.detail.by, 0.0)
    if yarn != step.yarn or not times:
        return {}
    return {Purpose.BIND_OFF: times * step.detail.around_mm[size]}


def _facts(measures: Measures, step: _Close, keys: Keys) -> Facts:
    return method_facts(step.detail.by)


KIND = Kind(
    CloseStep,
    _work,
    Answers(
        rows=nothing.rows,
        in_turn=False,
        charts=nothing.charts,
        tubes=nothing.tubes,
        pictures=nothing.pictures,
        begins=nothing.stitches,
        closes=nothing.stitches,
        thread=_thread,
        tools=nothing.tools,
        techniques=nothing.techniques,
        facts=_facts,
        stops=nothing.stops,
        heading=nothing.heading,
        idle=True,
        hand=Hand.ANY,
    ),
)
