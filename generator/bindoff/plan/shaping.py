"""Shaping steps worked in every size: spread over a round, tapered over many, or in wedges."""

from collections.abc import Iterator

from bindoff.diagnostics import Diagnostic, fail
from bindoff.plan.bench import Bench, Outcome, State, States
from bindoff.plan.crown import align_crowns
from bindoff.plan.rowcount import RowMismatch
from bindoff.plan.shapedrows import PLAIN, shaped_row, wedge_row
from bindoff.plan.spacing import Spacing, flat, in_the_round
from bindoff.plan.steps import Crowned, Even, Tapered
from bindoff.plan.taper import Taper, taper
from bindoff.source.models import CrownStep, EvenStep, TaperStep
from bindoff.source.rowlang.stitches import Stitch
from bindoff.source.rowlang.syntax import Row

# ---------------------------------------------------------------- evenly over one round


def work_even(bench: Bench, index: int, step: EvenStep, yarn: str, states: States) -> Outcome:
    """Increases or decreases spread evenly over one round."""
    targets = bench.counts(index, "to", least=1)
    stitch = _even_stitch(bench, index, step)
    bench.refuse(
        (size, fault)
        for size, (state, target) in enumerate(zip(states, targets, strict=True))
        if (fault := _even_fault(bench, index, step, stitch, state.live, target)) is not None
    )
    rows = tuple(
        _even_row(bench, stitch, state.live, target)
        for state, target in zip(states, targets, strict=True)
    )
    after, worked = bench.work(index, yarn, states, [[] if row is None else [row] for row in rows])
    return Even(rows), after, worked


def _even_stitch(bench: Bench, index: int, step: EvenStep) -> Stitch:
    """The stitch to shape with, which must change the count by one."""
    growing = step.even == "increase"
    wanted = ((0, 1), (1, 2)) if growing else ((2, 1),)
    stitch = bench.book.find(step.with_ or ("m1" if growing else "k2tog"))
    if stitch is None or (stitch.consumes, stitch.produces) not in wanted:
        raise fail(
            "even.with",
            f"`{step.with_}` is not a stitch that {step.even}s by one",
            f"Write {'m1 or kfb' if growing else 'k2tog or ssk'}, or another that does",
            bench.span(index, "with"),
        )
    return stitch


def _even_fault(
    bench: Bench, index: int, step: EvenStep, stitch: Stitch, live: int, target: int
) -> Diagnostic | None:
    change = target - live if step.even == "increase" else live - target
    if live == 0:
        return Diagnostic(
            "even.nothing",
            "there are no live stitches to shape",
            "Take this step out, or put it where stitches are on the needles",
            bench.span(index),
        )
    if change < 0:
        other = "decrease" if step.even == "increase" else "increase"
        return Diagnostic(
            "even.direction",
            f"to come from {live} to {target} stitches is no {step.even}",
            f"Check the count in `to:`, or write `even: {other}`",
            bench.span(index, "to"),
        )
    try:
        _even_row(bench, stitch, live, target)
    except ValueError:
        return Diagnostic(
            "even.room",
            f"{live} stitches have no room for {change} {step.even}s in one {bench.row_word}",
            "Shape in two steps, one after the other, with a count between",
            bench.span(index, "to"),
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


# ---------------------------------------------------------------- over many rounds


def work_taper(bench: Bench, index: int, step: TaperStep, yarn: str, states: States) -> Outcome:
    """A shaping row at an even pace, with plain rows between."""
    (shaping,) = bench.rows(index, "taper", step.taper)
    written = "plain" in step.model_fields_set
    plain = bench.rows(index, "plain", step.plain) if written else (PLAIN,)
    targets = bench.counts(index, "to")
    over = bench.counts(index, "over")
    change = _change(bench, index, shaping, states)
    bench.refuse(
        (size, fault)
        for size, state in enumerate(states)
        for fault in _taper_faults(bench, index, step, state, targets[size], over[size], change)
    )
    tapers = tuple(
        taper(rounds, (target - state.live) // change, step.every)
        for state, target, rounds in zip(states, targets, over, strict=True)
    )
    plans = [_taper_rows(bench, each, shaping, plain) for each in tapers]
    after, worked = bench.work(index, yarn, states, plans)
    return Tapered(shaping, plain, tapers, change), after, worked


def _change(bench: Bench, index: int, row: Row, states: States) -> int:
    """The stitches that the shaping row adds, the same in every size."""
    changes: list[int] = []
    found: list[tuple[int, Diagnostic]] = []
    for size, state in enumerate(states):
        try:
            counted = bench.count(row, state, bench.measures.numbers(size))
        except RowMismatch as error:
            found.append((size, bench.misfit(error, row.span, size, state)))
        else:
            changes.append(counted.live - state.needle.left)
    bench.refuse(found)
    if 0 in changes:
        raise fail(
            "taper.change",
            "this row leaves as many stitches as it finds, so it shapes nothing",
            "Put decreases or increases into it",
            bench.span(index, "taper"),
        )
    if len(set(changes)) > 1:
        said = ", ".join(
            f"{change:+d} in {size}" for size, change in zip(bench.sizes, changes, strict=True)
        )
        raise fail(
            "taper.change",
            f"this row does not change all sizes alike: {said}",
            "Give a row with a fixed number of decreases or increases",
            bench.span(index, "taper"),
        )
    return changes[0]


def _taper_faults(
    bench: Bench, index: int, step: TaperStep, state: State, target: int, rounds: int, change: int
) -> Iterator[Diagnostic]:
    """Why a taper can't be worked: the first reason of one size."""
    times, rest = divmod(target - state.live, change)
    if times < 0:
        way = "increases" if change > 0 else "decreases"
        yield Diagnostic(
            "taper.direction",
            f"the row {way}, and so it can't come from {state.live} to {target} stitches",
            "Check the count in `to:`, or the row",
            bench.span(index, "to"),
        )
    elif rest:
        near = sorted({state.live + times * change, state.live + (times + 1) * change})
        yield Diagnostic(
            "taper.count",
            f"{state.live} stitches do not come to {target} by {change:+d} in every shaping row",
            f"They come to {' or '.join(str(count) for count in near)}: write one of these, or "
            "change the count before",
            bench.span(index, "to"),
        )
    elif times * step.every > rounds:
        seldom = ", at most every second one," if step.every == 2 else ""
        yield Diagnostic(
            "taper.room",
            f"{times} shaping {bench.row_word}s{seldom} do not fit into {rounds}",
            f"Give at least {times * step.every} in `over:`, or fewer stitches to shape",
            bench.span(index, "over"),
        )
    elif bench.flat and step.every == 2 and state.rounds % 2 and times:
        yield Diagnostic(
            "taper.side",
            f"the shaping would begin on row {state.rounds + 1}, a wrong-side row",
            "Work an even number of rows before it, or write `every: 1`",
            bench.span(index, "every"),
        )


def _taper_rows(bench: Bench, plan: Taper, shaping: Row, plain: tuple[Row, ...]) -> list[Row]:
    """Every row of a taper. Flat, the first row of an interval is shaped (a right-side row);
    in the round, the last."""
    shaped = set(plan.shaping_rounds("first" if bench.flat else "last"))
    return [
        shaping if number in shaped else plain[(number - 1) % len(plain)]
        for number in range(1, plan.rounds + 1)
    ]


# ---------------------------------------------------------------- in wedges


def work_crown(bench: Bench, index: int, step: CrownStep, yarn: str, states: States) -> Outcome:
    """Decreases in wedges, all sizes as one list."""
    wedges = _same(bench, index, "crown")
    target = _same(bench, index, "to")
    stitch = bench.book.find(step.with_)
    if stitch is None or (stitch.consumes, stitch.produces) != (2, 1):
        raise fail(
            "crown.with",
            f"`{step.with_}` is not a stitch that makes one of two",
            "Write a decrease such as k2tog or ssk",
            bench.span(index, "with"),
        )
    if target % wedges:
        raise fail(
            "crown.top",
            f"{target} stitches at the top are not the same number in each of {wedges} wedges",
            f"Write {wedges}, or a multiple of it",
            bench.span(index, "to"),
        )
    bench.refuse(
        (size, fault)
        for size, state in enumerate(states)
        if (fault := _crown_fault(bench, index, state.live, wedges, target)) is not None
    )
    fewest = bench.measures.source.crown_starts.get((bench.key, index))
    aligned = align_crowns([state.live for state in states], wedges, target, step.pace, fewest)
    rows = tuple(wedge_row(round_.work, stitch.id) for round_ in aligned.rounds)
    plans = [
        [
            each
            for round_, row in zip(aligned.rounds, rows, strict=True)
            if round_.worked[size]
            for each in (row, *(PLAIN,) * round_.plain_after)
        ]
        for size in range(len(states))
    ]
    after, worked = bench.work(index, yarn, states, plans)
    return Crowned(aligned, rows), after, worked


def _same(bench: Bench, index: int, key: str) -> int:
    """A count that must be the same in all sizes."""
    counts = bench.counts(index, key, least=1)
    if len(set(counts)) > 1:
        raise fail(
            "crown.sizes",
            "the numbers of a crown are the same in all sizes, and these are not",
            "Write one number",
            bench.span(index, key),
        )
    return counts[0]


def _crown_fault(
    bench: Bench, index: int, live: int, wedges: int, target: int
) -> Diagnostic | None:
    if live < target:
        return Diagnostic(
            "crown.start",
            f"there are {live} live stitches, fewer than the {target} the crown is to end with",
            "Check `to:`, or the count before the crown",
            bench.span(index, "to"),
        )
    if live % wedges:
        below = live // wedges * wedges
        return Diagnostic(
            "crown.wedges",
            f"{live} live stitches do not divide into {wedges} wedges",
            f"{below} or {below + wedges} do: use `stitches(…, multiple = {wedges})` where the "
            "count is made",
            bench.span(index, "crown"),
        )
    return None
