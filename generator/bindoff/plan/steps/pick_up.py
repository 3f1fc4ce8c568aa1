"""Held stitches put back on the needles, with more picked up beside them."""

from dataclasses import dataclass, replace

from bindoff.diagnostics import Diagnostic
from bindoff.plan.bench import Bench, Outcome, States, no_rounds
from bindoff.plan.differences.meeting import Keys
from bindoff.plan.differences.said import Facts, What
from bindoff.plan.differences.values import per_size
from bindoff.plan.measures import Measures
from bindoff.plan.nouns import how_many, verb
from bindoff.plan.rowcount import Needle
from bindoff.plan.steps import nothing
from bindoff.plan.steps.common import yarn_facts
from bindoff.plan.steps.kind import Kind
from bindoff.plan.steps.live import must_be_empty
from bindoff.plan.worked import Answers, Begun, Hand, WorkedStep
from bindoff.source.models import PickUpStep


@dataclass(frozen=True, slots=True)
class PickUp:
    """Held stitches put back on the needles and stitches picked up beside them, per size."""

    held: tuple[int, ...]
    picked_up: tuple[int, ...]


_PickUp = WorkedStep[PickUpStep, PickUp]


def _work(bench: Bench, index: int, step: PickUpStep, yarn: str, states: States) -> Outcome[PickUp]:
    must_be_empty(bench, index, states)
    held = bench.measures.counts(step.held)
    written = _in_a_row(step.held.place.text)
    more = bench.measures.counts(step.pick_up)
    bench.refuse(
        (
            size,
            Diagnostic(
                "piece.held",
                f"{how_many(count, 'held stitch')} {verb(count, 'is', 'are')} put back, but "
                f"{state.held} {verb(state.held, 'is', 'are')} held"
                if state.held
                else "no stitches are held here to be put back",
                "Make the number the same as in the row that holds them"
                if state.held
                else f"Hold them in a row before, as in `hold {written} stitches`",
                step.held.span,
            ),
        )
        for size, (state, count) in enumerate(zip(states, held, strict=True))
        if count != state.held or count == 0
    )
    after = tuple(
        replace(state, needle=Needle(count + extra), held=0)
        for state, count, extra in zip(states, held, more, strict=True)
    )
    return PickUp(held, more), after, no_rounds(states)


def _in_a_row(written: str) -> str:
    """How a row says the number that a step writes: a name in braces, a formula as a gap."""
    if written.isdigit() and int(written):
        return written
    return f"{{{written}}}" if written.isidentifier() else "…"


def _begins(step: _PickUp) -> Begun:
    return Begun((step.detail.held, step.detail.picked_up), None)


def _techniques(step: _PickUp, flat: bool) -> tuple[str, ...]:
    return ("held-thumb",)


def _facts(measures: Measures, step: _PickUp, keys: Keys) -> Facts:
    return {
        **yarn_facts(measures, step, keys),
        (What.HELD, ""): per_size(measures, step.detail.held),
        (What.PICKED_UP, ""): per_size(measures, step.detail.picked_up),
    }


KIND = Kind(
    PickUpStep,
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
        tools=nothing.tools,
        techniques=_techniques,
        facts=_facts,
        stops=nothing.stops,
        heading=nothing.heading,
        idle=True,
        hand=Hand.OWN,
    ),
)
