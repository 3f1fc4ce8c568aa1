"""The designer's own words among the steps, and the yarn that they take."""

from collections.abc import Mapping

from bindoff.plan.bench import Bench, Outcome, States, no_rounds
from bindoff.plan.differences.matching import Keys
from bindoff.plan.differences.said import Facts, Said, Subject, What
from bindoff.plan.differences.values import fine, per_size, prose_of
from bindoff.plan.measures import Measures
from bindoff.plan.steps import nothing
from bindoff.plan.steps.kind import Kind
from bindoff.plan.values import Kind as Unit
from bindoff.plan.worked import Answers, Hand, WorkedStep
from bindoff.plan.yarn import Purpose
from bindoff.records import Record
from bindoff.source.formula import Quantity
from bindoff.source.lengths import parse_ball, parse_length, parse_yarn
from bindoff.source.steps.say import SayStep


class Taken(Record):
    """The yarn (mm) that the words take; its two ends where they don't say how much."""

    mm: float


_Say = WorkedStep[SayStep, Taken | None]


def _work(bench: Bench, _: int, step: SayStep, yarn: str, states: States) -> Outcome[Taken | None]:
    if step.takes is not None:
        written = bench.measures.source.pattern.yarns[yarn]
        grams, metres = parse_ball(written.ball, written.place.of("ball").text_span)
        mm = parse_yarn(step.takes, metres / grams, step.place.of("takes").span)
    elif step.yarn is not None:
        wishes = bench.piece.colour_plan
        mm = 2 * parse_length(wishes.tail, wishes.place.of("tail").span)
    else:
        return None, states, no_rounds(states)
    return Taken(mm), states, no_rounds(states)


def _thread(step: _Say, yarn: str, _: int) -> Mapping[Purpose, float]:
    if step.detail is None or step.yarn != yarn:
        return {}
    return {Purpose.EMBROIDERY: step.detail.mm}


def _facts(measures: Measures, step: _Say, keys: Keys) -> Facts:
    facts: dict[Subject, Mapping[str, Said]] = {(What.SAY, ""): prose_of(measures, step.step.say)}
    if step.detail is not None:
        mm = Quantity(fine(step.detail.mm), Unit.LENGTH)
        facts[What.THREAD, keys.yarn(step.yarn)] = per_size(measures, [mm] * len(measures.sizes))
    return facts


KIND = Kind(
    SayStep,
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
        hand=Hand.WORKED,
    ),
)
