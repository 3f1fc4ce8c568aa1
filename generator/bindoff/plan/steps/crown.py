"""Decreases in wedges, all sizes as one list."""

from bindoff.diagnostics import Diagnostic, fail
from bindoff.english import how_many, verb
from bindoff.plan.bench import Bench, Outcome, States
from bindoff.plan.crown import AlignedCrown, align_crowns
from bindoff.plan.differences.matching import Keys
from bindoff.plan.differences.rowfacts import instruction
from bindoff.plan.differences.said import Facts, Listing, What
from bindoff.plan.differences.values import per_size
from bindoff.plan.measures import Measures
from bindoff.plan.rowbyrow import work_rows
from bindoff.plan.shapedrows import PLAIN, wedge_row
from bindoff.plan.steps import nothing
from bindoff.plan.steps.common import needles, yarn_facts
from bindoff.plan.steps.kind import Kind
from bindoff.plan.worked import Answers, Hand, WorkedStep
from bindoff.records import Record
from bindoff.source.amount import Amount
from bindoff.source.rowlang.syntax import Repeat, Row
from bindoff.source.steps.crown import CrownStep


class Crowned(Record):
    """A crown in wedges, all sizes as one list; ``rows`` are its decrease rounds."""

    crown: AlignedCrown
    rows: tuple[Row, ...]


_Crown = WorkedStep[CrownStep, Crowned]


def _work(bench: Bench, index: int, step: CrownStep, yarn: str, states: States) -> Outcome[Crowned]:
    """Decreases in wedges, all sizes as one list."""
    wedges = _same(bench, step.crown)
    target = _same(bench, step.to)
    stitch = bench.book.find(step.with_)
    if stitch is None or (stitch.consumes, stitch.produces) != (2, 1):
        raise fail(
            "crown.with",
            f"`{step.with_}` is not a stitch that makes one of two",
            "Write a decrease such as k2tog or ssk",
            step.place.of("with").span,
        )
    if target % wedges:
        raise fail(
            "crown.top",
            f"{how_many(target, 'stitch')} at the top {verb(target, 'is', 'are')} not the same "
            "number "
            f"in each of {wedges} wedges",
            f"Write {wedges}, or a multiple of it",
            step.to.span,
        )
    bench.refuse(
        (size, fault)
        for size, state in enumerate(states)
        if (fault := _crown_fault(step, state.live, wedges, target)) is not None
    )
    fewest = bench.measures.source.crown_starts.get((bench.key, index))
    aligned = align_crowns([state.live for state in states], wedges, target, step.pace, fewest)
    stitch = bench.book.mirrored(stitch) if bench.mirrored else stitch
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
    after, worked = work_rows(bench, index, yarn, states, plans)
    return Crowned(aligned, rows), after, worked


def _same(bench: Bench, amount: Amount) -> int:
    """A count that must be the same in all sizes."""
    counts = bench.measures.counts(amount, least=1)
    if len(set(counts)) > 1:
        raise fail(
            "crown.sizes",
            "the numbers of a crown are the same in all sizes, and these are not",
            "Write one number",
            amount.span,
        )
    return counts[0]


def _crown_fault(step: CrownStep, live: int, wedges: int, target: int) -> Diagnostic | None:
    if live < target:
        return Diagnostic(
            "crown.start",
            f"there {verb(live, 'is', 'are')} {how_many(live, 'live stitch')}, fewer than the "
            f"{target} the crown is to end with",
            "Check `to:`, or the count before the crown",
            step.to.span,
        )
    if live % wedges:
        below = live // wedges * wedges
        return Diagnostic(
            "crown.wedges",
            f"{how_many(live, 'live stitch')} {verb(live, 'does', 'do')} not divide into {wedges} "
            "wedges",
            f"{below} or {below + wedges} do: use `stitches(…, multiple = {wedges})` where the "
            "count is made",
            step.crown.span,
        )
    return None


def _rows(step: _Crown) -> tuple[Row, ...]:
    return step.detail.rows


def one_wedge(row: Row) -> Row:
    """What one wedge of a crown round says; the round repeats it."""
    (repeat,) = row.parts
    assert isinstance(repeat, Repeat)
    return Row(repeat.parts)


def _facts(measures: Measures, step: _Crown, keys: Keys) -> Facts:
    sizes = range(len(measures.sizes))
    rounds = [
        [
            (round_, row)
            for round_, row in zip(step.detail.crown.rounds, step.detail.rows, strict=True)
            if round_.worked[size]
        ]
        for size in sizes
    ]
    lists: list[Listing] = [
        tuple((each.work, each.after[size], each.plain_after) for each, _ in rounds[size])
        for size in sizes
    ]
    plain = [sum(each.plain_after for each, _ in worked) for worked in rounds]
    starts = [
        instruction(measures, one_wedge(worked[0][1]), size) if worked else None
        for size, worked in enumerate(rounds)
    ]
    return {
        **yarn_facts(measures, step, keys),
        (What.CROWN_START, ""): per_size(measures, starts),
        (What.DECREASE_ROUNDS, ""): per_size(measures, [len(worked) for worked in rounds]),
        (What.PLAIN_ROUNDS, ""): per_size(measures, plain),
        (What.CROWN, ""): per_size(measures, lists),
    }


KIND = Kind(
    CrownStep,
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
