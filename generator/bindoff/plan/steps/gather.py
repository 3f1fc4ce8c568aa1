"""The yarn drawn through all stitches, which closes them."""

from bindoff.plan import yarn as method
from bindoff.plan.bench import Bench, Outcome, States, no_rounds
from bindoff.plan.differences.matching import Keys
from bindoff.plan.differences.said import Facts, What
from bindoff.plan.differences.values import per_size
from bindoff.plan.measures import Measures
from bindoff.plan.steps import nothing
from bindoff.plan.steps.kind import Kind
from bindoff.plan.steps.live import emptied, live_stitches
from bindoff.plan.worked import Answers, Closed, Hand, WorkedStep
from bindoff.records import Record, replace
from bindoff.source.steps.gather import GatherStep


class Gather(Record):
    """Live stitches drawn together per size; ``both_ends`` of a tube from the machine."""

    stitches: tuple[int, ...]
    both_ends: bool = False


_Gather = WorkedStep[GatherStep, Gather]


def _work(bench: Bench, index: int, step: GatherStep, yarn: str, states: States) -> Outcome[Gather]:
    live, both = live_stitches(bench, index, states), bool(bench.tubes)
    after = tuple(replace(state, start=0 if both else state.start) for state in emptied(states))
    return Gather(live, both), after, no_rounds(states)


def _closes(step: _Gather) -> Closed:
    both = step.detail.both_ends
    by = method.BindOffKind.GATHERED_ENDS if both else method.BindOffKind.GATHERED
    return Closed(step.detail.stitches, by)


_FEW = 12  # stitches to gather; the words of the step say enough for so many


def _techniques(step: _Gather, flat: bool) -> tuple[str, ...]:
    return ("gathered-closing",) if max(step.detail.stitches) > _FEW else ()


def _facts(measures: Measures, step: _Gather, keys: Keys) -> Facts:
    return {(What.CLOSED, ""): per_size(measures, step.detail.stitches)}


KIND = Kind(
    GatherStep,
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
        techniques=_techniques,
        facts=_facts,
        stops=nothing.stops,
        heading=nothing.heading,
        idle=True,
        hand=Hand.WORKED,
    ),
)
