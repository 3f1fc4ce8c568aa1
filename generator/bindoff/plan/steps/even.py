"""Increases or decreases spread evenly over one round."""

from bindoff.diagnostics import Diagnostic, fail
from bindoff.english import how_many, verb
from bindoff.plan.bench import Bench, Outcome, States
from bindoff.plan.differences.matching import Keys
from bindoff.plan.differences.rowfacts import instruction
from bindoff.plan.differences.said import Facts, What
from bindoff.plan.differences.values import per_size
from bindoff.plan.measures import Measures
from bindoff.plan.rowbyrow import work_rows
from bindoff.plan.shapedrows import shaped_row
from bindoff.plan.spacing import Spacing, flat, in_the_round
from bindoff.plan.steps import nothing
from bindoff.plan.steps.common import needles, yarn_facts
from bindoff.plan.steps.kind import Kind
from bindoff.plan.worked import Answers, Hand, WorkedStep
from bindoff.records import Record
from bindoff.source.rowlang.stitches import Stitch
from bindoff.source.rowlang.syntax import Row
from bindoff.source.steps.even import EvenStep


class Even(Record):
    """One round of evenly spread shaping per size; ``None`` where a size needs none."""

    rows: tuple[Row | None, ...]


_Even = WorkedStep[EvenStep, Even]


def _work(bench: Bench, index: int, step: EvenStep, yarn: str, states: States) -> Outcome[Even]:
    """Increases or decreases spread evenly over one round."""
    targets = bench.measures.counts(step.to, least=1)
    stitch = _even_stitch(bench, step)
    bench.refuse(
        (size, fault)
        for size, (state, target) in enumerate(zip(states, targets, strict=True))
        if (fault := _even_fault(bench, step, stitch, state.live, target)) is not None
    )
    rows = tuple(
        _even_row(bench, stitch, state.live, target)
        for state, target in zip(states, targets, strict=True)
    )
    after, worked = work_rows(
        bench, index, yarn, states, [[] if row is None else [row] for row in rows]
    )
    return Even(rows), after, worked


def _even_stitch(bench: Bench, step: EvenStep) -> Stitch:
    """The stitch to shape with, which must change the count by one."""
    growing = step.even == "increase"
    wanted = ((0, 1), (1, 2)) if growing else ((2, 1),)
    stitch = bench.book.find(step.with_ or ("m1" if growing else "k2tog"))
    if stitch is None or (stitch.consumes, stitch.produces) not in wanted:
        raise fail(
            "even.with",
            f"`{step.with_}` is not a stitch that {step.even}s by one",
            f"Write {'m1 or kfb' if growing else 'k2tog or ssk'}, or another that does",
            step.place.of("with").span,
        )
    return bench.book.mirrored(stitch) if bench.mirrored else stitch


def _even_fault(
    bench: Bench, step: EvenStep, stitch: Stitch, live: int, target: int
) -> Diagnostic | None:
    change = target - live if step.even == "increase" else live - target
    if live == 0:
        return Diagnostic(
            "even.nothing",
            "there are no live stitches to shape",
            "Take this step out, or put it where stitches are on the needles",
            step.place.span,
        )
    if change < 0:
        other = "decrease" if step.even == "increase" else "increase"
        return Diagnostic(
            "even.direction",
            f"to come from {live} to {how_many(target, 'stitch')} is no {step.even}",
            f"Check the count in `to:`, or write `even: {other}`",
            step.to.span,
        )
    try:
        _even_row(bench, stitch, live, target)
    except ValueError:
        return Diagnostic(
            "even.room",
            f"{how_many(live, 'stitch')} {verb(live, 'has', 'have')} no room for "
            f"{how_many(change, step.even)} in one {bench.row_word}",
            "Shape in two steps, one after the other, with a count between",
            step.to.span,
        )
    return None


def _even_row(bench: Bench, stitch: Stitch, live: int, target: int) -> Row | None:
    """The shaping row; raises ``ValueError`` where it has no room."""
    if live == target:
        return None
    if not bench.flat:
        return _spread(in_the_round(live, abs(target - live)), stitch, target)
    try:
        return _spread(flat(live, abs(target - live)), stitch, target)
    except ValueError:  # no room for whole groups at both edges: then half a group at each
        return _spread(flat(live, abs(target - live), halve_first=True), stitch, target)


def _spread(spacing: Spacing, stitch: Stitch, target: int) -> Row:
    if target < spacing.stitches:
        return shaped_row(spacing.decrease_row(), stitch.id)
    return shaped_row(spacing.increase_row("kfb" if stitch.consumes else "m1"), stitch.id)


def _rows(step: _Even) -> tuple[Row, ...]:
    return tuple(dict.fromkeys(row for row in step.detail.rows if row is not None))


def _facts(measures: Measures, step: _Even, keys: Keys) -> Facts:
    rows = [
        instruction(measures, row, size) if row else None
        for size, row in enumerate(step.detail.rows)
    ]
    return {**yarn_facts(measures, step, keys), (What.ROW, "1"): per_size(measures, rows)}


KIND = Kind(
    EvenStep,
    _work,
    Answers(
        rows=_rows,
        in_turn=False,
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
        idle=True,
        hand=Hand.WORKED,
    ),
)
