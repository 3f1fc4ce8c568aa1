"""The tube knitted on the machine by its stripe plan."""

from collections import Counter

from bindoff.plan.bench import Bench, Outcome, States
from bindoff.plan.differences.matching import Keys
from bindoff.plan.differences.said import Facts, Listing, Stop, What
from bindoff.plan.differences.values import per_size
from bindoff.plan.measures import Measures
from bindoff.plan.picture import PicturePlan
from bindoff.plan.rowcount import LiveStitches
from bindoff.plan.steps import nothing
from bindoff.plan.steps.common import MACHINE, WAITING
from bindoff.plan.steps.kind import Kind
from bindoff.plan.steps.live import must_be_empty
from bindoff.plan.tube import TubePart
from bindoff.plan.worked import Answers, Hand, WorkedStep
from bindoff.records import Record, replace
from bindoff.source.steps.stripes import StripesStep


class Striped(Record):
    """The tube knitted by its stripe plan, per size."""

    plans: tuple[PicturePlan, ...]


_Stripes = WorkedStep[StripesStep, Striped]


def _work(
    bench: Bench, index: int, step: StripesStep, yarn: str, states: States
) -> Outcome[Striped]:
    must_be_empty(bench, index, states)
    worked = tuple(
        tuple(tuple(Counter(stitches).items()) for stitches in plan.knitted) for plan in bench.tubes
    )
    after = tuple(
        replace(
            state,
            needle=LiveStitches(plan.tube.needles),
            rounds=state.rounds + plan.tube.total_rounds,
            start=plan.tube.needles,
        )
        for state, plan in zip(states, bench.tubes, strict=True)
    )
    return Striped(bench.tubes), after, worked


def _tubes(step: _Stripes) -> tuple[PicturePlan, ...]:
    return step.detail.plans


def _tools(step: _Stripes) -> tuple[str, ...]:
    return (MACHINE, WAITING)


def _techniques(step: _Stripes, flat: bool) -> tuple[str, ...]:
    return ("cast-on-circular-machine", "off-the-machine")


def _facts(measures: Measures, step: _Stripes, keys: Keys) -> Facts:
    stranded = [_stranded(plan) for plan in step.detail.plans]
    plans = step.detail.plans
    return {
        (What.STRANDED, ""): per_size(measures, stranded),
        (What.FRONT, ""): per_size(
            measures, [each.tube.front if each.motifs else None for each in plans]
        ),
    }


def _stranded(plan: PicturePlan) -> Listing | None:
    """The rounds knitted in two yarns, ``None`` if there are none."""
    seconds = enumerate(plan.stripes.seconds, start=1)
    return tuple((number,) for number, second in seconds if second) or None


def _stops(step: _Stripes, keys: Keys) -> tuple[tuple[Stop, ...], ...]:
    return tuple(_stops_of(plan, keys) for plan in step.detail.plans)


def _stops_of(plan: PicturePlan, keys: Keys) -> tuple[Stop, ...]:
    def named(yarns: tuple[str, ...]) -> tuple[str, ...]:
        return tuple(keys.yarn(yarn) for yarn in yarns)

    tube = plan.tube
    ends = [Stop(tube.total_rounds, "end")]
    if tube.fold_after is not None:
        ends.append(Stop(tube.fold_after, "fold"))
    if inside := tube.segment(TubePart.LINING_BRIM):
        ends.append(Stop(inside.first - 1, "lining"))
    if outside := tube.segment(TubePart.OUTER_BRIM):
        ends.append(Stop(outside.last, "brim"))
    changes = [
        Stop(
            change.counter,
            "",
            named(change.drop),
            named(change.take_up),
            keys.yarn(change.base) if change.only_trades else "",
            named(change.rest),
            named(change.resume),
        )
        for change in plan.stripes.changes
    ]
    return tuple(sorted((*ends, *changes), key=lambda stop: stop.counter))


KIND = Kind(
    StripesStep,
    _work,
    Answers(
        rows=nothing.rows,
        in_turn=False,
        charts=nothing.charts,
        tubes=_tubes,
        pictures=nothing.pictures,
        begins=nothing.stitches,
        closes=nothing.stitches,
        thread=nothing.thread,
        tools=_tools,
        techniques=_techniques,
        facts=_facts,
        stops=_stops,
        heading=nothing.heading,
        idle=True,
        hand=Hand.WORKED,
    ),
)
