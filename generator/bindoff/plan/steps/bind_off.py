"""Binding off, all stitches or some."""

from collections.abc import Mapping

from bindoff.diagnostics import Diagnostic, fail
from bindoff.plan import yarn as method
from bindoff.plan.bench import Bench, Outcome, States, no_rounds
from bindoff.plan.differences.matching import Keys
from bindoff.plan.differences.said import Facts, What
from bindoff.plan.differences.values import per_size
from bindoff.plan.measures import Measures
from bindoff.plan.picture import piece_gauges
from bindoff.plan.rowcount import LiveStitches
from bindoff.plan.steps import nothing
from bindoff.plan.steps.common import HOOK, method_facts
from bindoff.plan.steps.kind import Kind
from bindoff.plan.steps.live import how_to_open, live_stitches, stitches_are
from bindoff.plan.worked import Answers, Closed, Hand, WorkedStep
from bindoff.plan.yarn import Purpose, edging_yarn
from bindoff.records import Record, replace
from bindoff.source.steps.bind_off import BindOffStep


class BindOff(Record):
    """Stitches bound off per size; ``hooked`` with a crochet hook.

    ``start_mm`` is how long the edge is, per size, where they are the open loops of the first
    round; empty where they are those on the needles.
    """

    stitches: tuple[int, ...]
    hooked: bool = False
    start_mm: tuple[float, ...] = ()


_BindOff = WorkedStep[BindOffStep, BindOff]


def _work(
    bench: Bench, index: int, step: BindOffStep, yarn: str, states: States
) -> Outcome[BindOff]:
    amount = step.bind_off
    if amount.written == "start" and "start" not in bench.measures.source.pattern.measures:
        return _of_start(bench, index, step, states)
    live = live_stitches(bench, index, states)
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
    return BindOff(counts, bench.machine), after, no_rounds(states)


def _of_start(bench: Bench, index: int, step: BindOffStep, states: States) -> Outcome[BindOff]:
    """The open loops at the foot of the first round, each slip-stitched with a hook."""
    place = step.bind_off.span
    if not all(state.start for state in states):
        raise fail(
            "piece.open-loops",
            "the piece's start has no open loops to bind off",
            f"{how_to_open(bench, index, states)}, or take this step out",
            place,
        )
    if step.by != "ordinary":
        raise fail(
            "piece.open-loops",
            f"`by: {step.by}` is not for open loops, which are bound off with a hook",
            "Take `by:` out",
            step.place.of("by").span,
        )
    loops = tuple(state.start for state in states)
    gauges = piece_gauges(bench.measures, bench.piece)
    long = tuple(gauge.width_of(count) for gauge, count in zip(gauges, loops, strict=True))
    after = tuple(replace(state, start=0) for state in states)
    return BindOff(loops, True, long), after, no_rounds(states)


def _closes(step: _BindOff) -> Closed | None:
    if step.detail.start_mm:
        return None
    return Closed(step.detail.stitches, method.BindOffKind(step.step.by), step.step.how)


def _thread(step: _BindOff, yarn: str, size: int) -> Mapping[Purpose, float]:
    if yarn != step.yarn or not step.detail.start_mm:
        return {}
    return {Purpose.BIND_OFF: edging_yarn(step.detail.start_mm[size], ("sl st",))}


def _tools(step: _BindOff) -> tuple[str, ...]:
    return (HOOK,) if step.detail.hooked else ()


def _techniques(step: _BindOff, flat: bool) -> tuple[str, ...]:
    if step.detail.start_mm:
        return ("live-edges",)
    return () if step.step.by == "ordinary" else (f"{step.step.by}-bind-off",)


def _facts(measures: Measures, step: _BindOff, keys: Keys) -> Facts:
    closed = per_size(measures, step.detail.stitches)
    by = "" if step.step.by == "ordinary" else step.step.by
    of = "open loops of the first round" if step.detail.start_mm else ""
    how = ", ".join(words for words in (of, by, step.step.how) if words)
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
        thread=_thread,
        tools=_tools,
        techniques=_techniques,
        facts=_facts,
        stops=nothing.stops,
        heading=nothing.heading,
        idle=True,
        hand=Hand.WORKED,
    ),
)
