"""Rows in the row language, worked in turn."""

from dataclasses import dataclass

from bindoff.diagnostics import fail
from bindoff.plan.bench import Bench, Outcome, States
from bindoff.plan.bindoffs import Doubt, settle
from bindoff.plan.differences.meeting import Keys
from bindoff.plan.differences.rowfacts import row_facts
from bindoff.plan.differences.said import Facts, What
from bindoff.plan.measures import Measures
from bindoff.plan.steps import nothing
from bindoff.plan.steps.common import needles, yarn_facts
from bindoff.plan.steps.kind import Kind
from bindoff.plan.worked import Answers, Hand, WorkedStep
from bindoff.source.models import WorkStep
from bindoff.source.rowlang.syntax import Row


@dataclass(frozen=True, slots=True)
class Rows:
    """Rows in the row language, worked in turn for ``rounds`` rounds per size.

    ``doubt`` is set where a binding off among them fits in two readings.
    """

    rows: tuple[Row, ...]
    rounds: tuple[int, ...]
    doubt: Doubt | None = None


_Rows = WorkedStep[WorkStep, Rows]


def _work(bench: Bench, index: int, step: WorkStep, yarn: str, states: States) -> Outcome[Rows]:
    """The rows of a ``work`` step in turn, for so many rounds or times."""
    rows = bench.rows(step.place.of("work"))
    if step.rounds is not None and step.times is not None:
        raise fail(
            "step.rounds-and-times",
            "`rounds` and `times` are both given",
            "Keep one: `rounds` counts rounds in all, `times` counts how often the list is worked",
            step.place.of("times").key_span,
        )
    if step.rounds is not None:
        rounds = bench.measures.counts(step.rounds)
    elif step.times is not None:
        rounds = tuple(times * len(rows) for times in bench.measures.counts(step.times))
    else:
        rounds = (len(rows),) * len(states)
    bench.refuse_endless(index, states, rounds)
    rows, doubt = settle(bench, states, rows, rounds)
    plans = [[rows[i % len(rows)] for i in range(count)] for count in rounds]
    after, worked = bench.work(index, yarn, states, plans)
    return Rows(rows, rounds, doubt), after, worked


def _rows(step: _Rows) -> tuple[Row, ...]:
    return step.detail.rows


def _facts(measures: Measures, step: _Rows, keys: Keys) -> Facts:
    rows = row_facts(measures, What.ROW, step.detail.rows)
    return {**yarn_facts(measures, step, keys), **rows}


KIND = Kind(
    WorkStep,
    _work,
    Answers(
        rows=_rows,
        in_turn=True,
        charts=nothing.charts,
        tubes=nothing.tubes,
        pictures=nothing.pictures,
        begins=nothing.stitches,
        closes=nothing.stitches,
        thread=nothing.thread,
        tools=needles,
        techniques=nothing.techniques,
        facts=_facts,
        stops=nothing.stops,
        heading=nothing.heading,
        idle=False,
        hand=Hand.WORKED,
    ),
)
