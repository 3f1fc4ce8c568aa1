"""A shaping row at an even pace, with plain rows between."""

from collections.abc import Iterator, Sequence

from bindoff.diagnostics import Diagnostic, fail
from bindoff.english import how_many, ordinal, verb
from bindoff.plan.bench import Bench, Outcome, State, States
from bindoff.plan.differences.matching import Keys
from bindoff.plan.differences.rowfacts import row_facts
from bindoff.plan.differences.said import Facts, What
from bindoff.plan.differences.values import per_size
from bindoff.plan.measures import Measures
from bindoff.plan.rowbyrow import work_rows
from bindoff.plan.rowcount import RowMismatch
from bindoff.plan.shapedrows import PLAIN, PURLED
from bindoff.plan.steps import nothing
from bindoff.plan.steps.common import needles, yarn_facts
from bindoff.plan.steps.kind import Kind
from bindoff.plan.taper import ShapeOn, Taper, least_rounds, taper
from bindoff.plan.worked import Answers, Hand, WorkedStep
from bindoff.records import Record
from bindoff.source.rowlang.syntax import Row
from bindoff.source.steps.taper import TaperStep


class Tapered(Record):
    """A shaping row at an even pace per size, and the plain rows between.

    ``change`` is what one shaping row adds (negative: takes away).
    """

    shaping: Row
    plain: tuple[Row, ...]
    tapers: tuple[Taper, ...]
    change: int


class _Asked(Record):
    """What is asked of a taper in one size: to come to ``target`` in so many rounds, by ``change``
    in each that is shaped, these at least ``every`` rounds apart, if that is said."""

    state: State
    target: int
    rounds: int
    change: int
    every: int | None

    @property
    def times(self) -> int:
        """Rounds to be shaped."""
        return (self.target - self.state.live) // self.change

    @property
    def rest(self) -> int:
        """Stitches that such rounds don't come to."""
        return (self.target - self.state.live) % self.change


_Taper = WorkedStep[TaperStep, Tapered]


def _work(bench: Bench, index: int, step: TaperStep, yarn: str, states: States) -> Outcome[Tapered]:
    """A shaping row at an even pace, with plain rows between."""
    (shaping,) = bench.rows(step.place.of("taper"))
    written = "plain" in step.model_fields_set
    plain = bench.rows(step.place.of("plain")) if written else _stockinette(bench)
    if step.in_ is not None:
        plain = (bench.row_in(step.in_, step.place.of("in")),)
    targets = bench.measures.counts(step.to)
    over = bench.measures.counts(step.over)
    change = _change(bench, step, shaping, states)
    paces = bench.measures.counts(step.every, least=1) if step.every else (None,) * len(states)
    asked = tuple(
        _Asked(state, target, rounds, change, pace)
        for state, target, rounds, pace in zip(states, targets, over, paces, strict=True)
    )
    usual, alike = _usual_pace(bench, asked), _alike(step, plain)
    bench.refuse(
        (size, fault)
        for size, each in enumerate(asked)
        for fault in _taper_faults(bench, step, each, usual, alike=alike)
    )
    shape_on: ShapeOn = "first" if bench.flat else "last"
    tapers = tuple(taper(each.rounds, each.times, each.every or usual, shape_on) for each in asked)
    bench.refuse(
        (size, fault)
        for size, (one, each) in enumerate(zip(asked, tapers, strict=True))
        for fault in _side_faults(bench, step, one, each, alike=alike)
    )
    plans = [
        _taper_rows(each, shaping, _from_side(bench, plain, state), shape_on)
        for state, each in zip(states, tapers, strict=True)
    ]
    after, worked = work_rows(bench, index, yarn, states, plans)
    return Tapered(shaping, plain, tapers, change), after, worked


def _change(bench: Bench, step: TaperStep, row: Row, states: States) -> int:
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
            step.place.of("taper").span,
        )
    if len(set(changes)) > 1:
        said = ", ".join(
            f"{change:+d} in {size}" for size, change in zip(bench.sizes, changes, strict=True)
        )
        raise fail(
            "taper.change",
            f"this row does not change all sizes alike: {said}",
            "Give a row with a fixed number of decreases or increases",
            step.place.of("taper").span,
        )
    return changes[0]


def _usual_pace(bench: Bench, asked: Sequence[_Asked]) -> int:
    """Any row may be shaped, but flat only every second one, on the right side, where a knitter
    sees the fabric; unless each row is (common practice, no source)."""
    each_row = all(one.rest == 0 and one.times == one.rounds for one in asked)
    return 1 if each_row or bench.machine or not bench.flat else 2


def _taper_faults(
    bench: Bench, step: TaperStep, asked: _Asked, usual: int, *, alike: bool
) -> Iterator[Diagnostic]:
    """Why a taper can't be worked: the first reason of one size."""
    every = asked.every or usual
    live, target, times = asked.state.live, asked.target, asked.times
    if times < 0:
        way = "increases" if asked.change > 0 else "decreases"
        yield Diagnostic(
            "taper.direction",
            f"the row {way}, and so it can't come from {live} to {how_many(target, 'stitch')}",
            "Check the count in `to:`, or the row",
            step.to.span,
        )
    elif asked.rest:
        near = sorted({live + times * asked.change, live + (times + 1) * asked.change})
        yield Diagnostic(
            "taper.count",
            f"{how_many(live, 'stitch')} {verb(live, 'does', 'do')} not come to {target} "
            f"by {asked.change:+d} in every shaping row",
            f"They come to {' or '.join(str(count) for count in near)}: write one of these, or "
            "change the count before",
            step.to.span,
        )
    elif (least := least_rounds(times, every)) > asked.rounds:
        seldom = f", at most every {ordinal(every)} one," if every > 1 else ""
        instead = ", or write `every: 1`" if every > 1 and not step.every and alike else ""
        yield Diagnostic(
            "taper.room",
            f"{how_many(times, f'shaping {bench.row_word}')}{seldom} "
            f"{verb(times, 'does', 'do')} not fit into {asked.rounds}",
            f"Give at least {least} in `over:`, or fewer stitches to shape{instead}",
            step.over.span,
        )


def _side_faults(
    bench: Bench, step: TaperStep, asked: _Asked, plan: Taper, *, alike: bool
) -> Iterator[Diagnostic]:
    """A row worked on the wrong side by words for the right side; where each row is shaped, or
    those between are ``alike`` on both sides, that is what was meant."""
    if not bench.flat or bench.machine:
        return
    state, both_sides = asked.state, asked.every is not None and asked.every % 2 == 1
    shaped = plan.shaping_rounds("first")
    wrong = [number for number in shaped if (number % 2 == 0) != state.wrong_side]
    meant = both_sides and alike
    if not wrong or meant or plan.rounds == plan.changes:
        return
    first = state.rounds + wrong[0]
    if both_sides:
        instead = "Take `every: 1` out" if asked.every == 1 else "Write an even number"
        yield Diagnostic(
            "taper.side",
            f"row {first}, a wrong-side row, would be shaped by the words for the right side",
            f"{instead}, so that right-side rows alone are shaped, or write the shaping "
            "rows of both sides under `work:`",
            step.place.of("every").span,
        )
    else:
        yield Diagnostic(
            "taper.side",
            f"the shaping would begin on row {first}, a wrong-side row",
            "Work an even number of rows before it" + (", or write `every: 1`" if alike else ""),
            step.place.of("every" if step.every else "taper").span,
        )


def _alike(step: TaperStep, plain: Sequence[Row]) -> bool:
    """Whether the rows between are the same on both sides, as of garter stitch."""
    return step.in_ is None and len(set(plain)) == 1


def _stockinette(bench: Bench) -> tuple[Row, ...]:
    """Plain rows that are all knitted as seen from the right side."""
    return (PLAIN, PURLED) if bench.flat else (PLAIN,)


def _from_side(bench: Bench, plain: tuple[Row, ...], state: State) -> tuple[Row, ...]:
    """The plain rows as they follow from the first row of a step. Flat, the first of two is worked
    on the right side, where the odd rows of a piece are."""
    if bench.flat and len(plain) == 2 and state.wrong_side:
        return plain[::-1]
    return plain


def _taper_rows(plan: Taper, shaping: Row, plain: tuple[Row, ...], shape_on: ShapeOn) -> list[Row]:
    """Every row of a taper. Flat, the first row of an interval is shaped (a right-side row);
    in the round, the last."""
    shaped = set(plan.shaping_rounds(shape_on))
    return [
        shaping if number in shaped else plain[(number - 1) % len(plain)]
        for number in range(1, plan.rounds + 1)
    ]


def _rows(step: _Taper) -> tuple[Row, ...]:
    return (step.detail.shaping, *step.detail.plain)


def _facts(measures: Measures, step: _Taper, keys: Keys) -> Facts:
    return {
        **yarn_facts(measures, step, keys),
        **row_facts(measures, What.SHAPING_ROW, (step.detail.shaping,)),
        **row_facts(measures, What.PLAIN_ROW, step.detail.plain),
        (What.PACE, ""): per_size(measures, step.detail.tapers),
    }


KIND = Kind(
    TaperStep,
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
        idle=False,
        hand=Hand.WORKED,
    ),
)
