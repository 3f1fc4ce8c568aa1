"""Casting on: a piece begins with new stitches."""

from dataclasses import dataclass, replace

from bindoff.plan import yarn as method
from bindoff.plan.bench import Bench, Outcome, States, no_rounds
from bindoff.plan.differences.meeting import Keys
from bindoff.plan.differences.said import Facts
from bindoff.plan.measures import Measures
from bindoff.plan.rowcount import Needle
from bindoff.plan.steps import nothing
from bindoff.plan.steps.common import WAITING, method_facts, yarn_facts
from bindoff.plan.steps.kind import Kind
from bindoff.plan.steps.live import must_be_empty
from bindoff.plan.worked import Answers, Begun, Hand, WorkedStep
from bindoff.source.models import CastOnStep


@dataclass(frozen=True, slots=True)
class CastOn:
    """Stitches cast on per size."""

    stitches: tuple[int, ...]


_CastOn = WorkedStep[CastOnStep, CastOn]


def _work(bench: Bench, index: int, step: CastOnStep, yarn: str, states: States) -> Outcome[CastOn]:
    counts = bench.measures.counts(step.cast_on, least=1)
    must_be_empty(bench, index, states)
    open_foot = step.method == "waste yarn"
    after = tuple(
        replace(state, needle=Needle(count), start=count if open_foot else 0)
        for state, count in zip(states, counts, strict=True)
    )
    return CastOn(counts), after, no_rounds(states)


def _begins(step: _CastOn) -> Begun:
    return Begun((step.detail.stitches,), method.CastOn(step.step.method))


def _tools(step: _CastOn) -> tuple[str, ...]:
    return (WAITING,) if step.step.method == "waste yarn" else ()


def _techniques(step: _CastOn, flat: bool) -> tuple[str, ...]:
    return ("long-tail-cast-on",) if step.step.method == "long-tail" else ()


def _facts(measures: Measures, step: _CastOn, keys: Keys) -> Facts:
    return {**yarn_facts(measures, step, keys), **method_facts(step.step.method)}


KIND = Kind(
    CastOnStep,
    _work,
    Answers(
        rows=nothing.rows,
        in_turn=False,
        charts=nothing.charts,
        tubes=nothing.tubes,
        pictures=nothing.pictures,
        begins=_begins,
        closes=nothing.stitches,
        thread=nothing.thread,
        tools=_tools,
        techniques=_techniques,
        facts=_facts,
        stops=nothing.stops,
        heading=nothing.heading,
        idle=True,
        hand=Hand.OWN,
    ),
)
