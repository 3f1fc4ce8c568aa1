"""The top of a ring closed, or left open: a tube whose ends are joined."""

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
    """How the top of a ring is closed, and the way around the ring in mm, per size."""

    by: str
    around_mm: tuple[float, ...]


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
    around = (gauge.height_of(s.rounds) for gauge, s in zip(gauges, states, strict=True))
    return ClosedTop(step.by, tuple(around)), states, no_rounds(states)


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
