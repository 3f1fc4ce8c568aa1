"""All live stitches worked as a round cord, whose rows all begin at the same stitch."""

from bindoff.diagnostics import Diagnostic
from bindoff.english import how_many
from bindoff.plan.bench import Bench, Outcome, State, States
from bindoff.plan.differences.matching import Keys
from bindoff.plan.differences.said import Facts, What
from bindoff.plan.differences.values import fine, per_size
from bindoff.plan.gauge import round_to
from bindoff.plan.measures import Measures
from bindoff.plan.picture import piece_gauges
from bindoff.plan.rowbyrow import work_rows
from bindoff.plan.shapedrows import PLAIN
from bindoff.plan.steps import nothing
from bindoff.plan.steps.common import needles, yarn_facts
from bindoff.plan.steps.kind import Kind
from bindoff.plan.values import Kind as Unit
from bindoff.plan.worked import Answers, Hand, WorkedStep
from bindoff.records import Record, replace
from bindoff.source.formula import Quantity
from bindoff.source.rowlang.syntax import Row
from bindoff.source.steps.cord import CordStep

LEAST, MOST = 2, 8  # stitches: of one there is no round, over more the yarn behind stays open


class Cord(Record):
    """A cord: its ``lengths`` (mm) and ``stitches`` per size."""

    lengths: tuple[float, ...]
    stitches: tuple[int, ...]


_Cord = WorkedStep[CordStep, Cord]


def _work(bench: Bench, index: int, step: CordStep, yarn: str, states: States) -> Outcome[Cord]:
    """Rounds of plain stitches up to the length; in a flat piece the rows go on after them."""
    lengths = bench.measures.lengths(step.cord)
    bench.refuse(
        (size, fault)
        for size, state in enumerate(states)
        if (fault := _fault(bench, index, step, state)) is not None
    )
    gauges = piece_gauges(bench.measures, bench.piece)
    rounds = [
        max(1, round_to(mm / gauge.round_mm)) for mm, gauge in zip(lengths, gauges, strict=True)
    ]
    unturned = tuple(replace(state, flat=False) for state in states)
    after, worked = work_rows(bench, index, yarn, unturned, [[PLAIN] * count for count in rounds])
    detail = Cord(lengths, tuple(state.live for state in states))
    again = (replace(now, flat=then.flat) for now, then in zip(after, states, strict=True))
    return detail, tuple(again), worked


def _fault(bench: Bench, index: int, step: CordStep, state: State) -> Diagnostic | None:
    if state.live == 0:
        return bench.nothing_live(index)
    if not LEAST <= state.live <= MOST:
        return Diagnostic(
            "cord.stitches",
            f"a cord is worked of {LEAST} to {MOST} stitches, and there "
            f"{'is' if state.live == 1 else 'are'} {how_many(state.live, 'live stitch')}",
            "Change the count before it, or knit a tube in the round",
            step.place.of("cord").span,
        )
    if state.wrong_side:
        return Diagnostic(
            "cord.side",
            "a cord shows its right side all around, and here a wrong-side row is next",
            "Work one row more, or one less, before it",
            step.place.of("cord").span,
        )
    return None


def _rows(_: _Cord) -> tuple[Row, ...]:
    return (PLAIN,)


def _techniques(_: _Cord, __: bool) -> tuple[str, ...]:
    return ("i-cord",)


def _facts(measures: Measures, step: _Cord, keys: Keys) -> Facts:
    lengths = [Quantity(fine(mm), Unit.LENGTH) for mm in step.detail.lengths]
    return {**yarn_facts(measures, step, keys), (What.CORD, ""): per_size(measures, lengths)}


KIND = Kind(
    CordStep,
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
        techniques=_techniques,
        facts=_facts,
        stops=nothing.stops,
        heading=nothing.heading,
        idle=False,
        hand=Hand.WORKED,
    ),
)
