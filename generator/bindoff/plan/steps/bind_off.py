"""Binding off, all stitches or some."""

from dataclasses import replace

from bindoff.diagnostics import Diagnostic, fail
from bindoff.plan import yarn as method
from bindoff.plan.bench import Bench, Outcome, States, no_rounds
from bindoff.plan.differences.matching import Keys
from bindoff.plan.differences.said import Facts, What
from bindoff.plan.differences.values import per_size
from bindoff.plan.measures import Measures
from bindoff.plan.rowcount import LiveStitches
from bindoff.plan.steps import nothing
from bindoff.plan.steps.common import method_facts
from bindoff.plan.steps.kind import Kind
from bindoff.plan.steps.live import live_stitches, stitches_are
from bindoff.plan.worked import Answers, Closed, Hand, WorkedStep
from bindoff.records import Record
from bindoff.source.steps.bind_off import BindOffStep


class BindOff(Record):
    """Stitches bound off per size."""

    stitches: tuple[int, ...]


_BindOff = WorkedStep[BindOffStep, BindOff]


def _work(
    bench: Bench, index: int, step: BindOffStep, yarn: str, states: States
) -> Outcome[BindOff]:
    live = live_stitches(bench, index, states)
    amount = step.bind_off
    counts = live if amount.written == "all" else bench.measures.counts(amount, least=1)
    bench.refuse(
        (
            size,
            Diagnostic(
                "piece.bind-off",
                f"{stitches_are(count)} to be bound off, but only {stitches_are(had)} live",
                "Write `all`, or a smaller number",
                step.bind_off.span,
            ),
        )
        for size, (count, had) in enumerate(zip(counts, live, strict=True))
        if count > had
    )
    if bench.mirrored and bench.flat and counts != live:
        raise fail(
            "mirror.row",
            f"in `{bench.key}`, stitches are bound off at the beginning of the row beside this one",
            "Bind them off in a row, in a list with the one after it: "
            "`work: [bind off 6 and k to end, p all]`",
            bench.span(index),
        )
    if bench.machine and step.by != "ordinary":
        raise fail(
            "machine.bind-off",
            f"`by: {step.by}` is not for a piece made on a machine",
            "Take `by:` out, and bind off with a hook from needle to needle",
            step.place.of("by").span,
        )
    after = tuple(
        replace(state, needle=LiveStitches(state.live - count))
        for state, count in zip(states, counts, strict=True)
    )
    return BindOff(counts), after, no_rounds(states)


def _closes(step: _BindOff) -> Closed:
    return Closed(step.detail.stitches, method.BindOffKind(step.step.by), step.step.how)


def _techniques(step: _BindOff, flat: bool) -> tuple[str, ...]:
    return () if step.step.by == "ordinary" else (f"{step.step.by}-bind-off",)


def _facts(measures: Measures, step: _BindOff, keys: Keys) -> Facts:
    closed = per_size(measures, step.detail.stitches)
    by = "" if step.step.by == "ordinary" else step.step.by
    how = ", ".join(words for words in (by, step.step.how) if words)
    return {(What.CLOSED, ""): closed, **method_facts(how)}


KIND = Kind(
    BindOffStep,
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
