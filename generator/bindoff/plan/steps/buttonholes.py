"""Buttonholes spread evenly along a band.

Between neighbouring ones lie (all stitches - those before and behind - those of the holes) over
one less than there are holes; where that is not whole, the gaps differ by one stitch (common
practice, no source).
"""

from bindoff.diagnostics import Diagnostic, fail
from bindoff.english import are, how_many, verb
from bindoff.plan.bench import Bench, Outcome, States
from bindoff.plan.differences.matching import Keys
from bindoff.plan.differences.rowfacts import row_facts
from bindoff.plan.differences.said import Facts, What
from bindoff.plan.differences.values import per_size
from bindoff.plan.measures import Measures
from bindoff.plan.rowbyrow import work_rows
from bindoff.plan.shapedrows import PLAIN, PURLED
from bindoff.plan.spacing import even_groups
from bindoff.plan.steps import nothing
from bindoff.plan.steps.common import needles, yarn_facts
from bindoff.plan.steps.kind import Kind
from bindoff.plan.worked import Answers, Hand, WorkedStep
from bindoff.records import Record
from bindoff.source.rowlang.syntax import Row
from bindoff.source.steps.buttonholes import ButtonholesStep

MOST_HOLES = 200
"""Buttonholes of a band at the most; beyond it is a slip of the pen."""
_OVER = 2  # a yarn over and two stitches together; and the least that is bound off


class Holes(Record):
    """Buttonholes of one size: ``gaps`` are the stitches before the first, between neighbours, and
    behind the last; ``over`` those of each hole."""

    gaps: tuple[int, ...]
    over: int

    @property
    def number(self) -> int:
        """How many there are."""
        return len(self.gaps) - 1

    @property
    def places(self) -> tuple[tuple[int, int], ...]:
        """The first and the last stitch of each, counted from 1 as the row is worked."""
        found, place = [], 0
        for gap in self.gaps[:-1]:
            found.append((place + gap + 1, place + gap + self.over))
            place += gap + self.over
        return tuple(found)


class Buttonholes(Record):
    """The holes of each size, and the rows of the band they are worked in.

    ``bound_off`` says that they take two rows: ``left`` are the stitches between them, per size.
    An upright band has the row ``hole`` and the numbers of the rows that work it, ``in_rows``, of
    its ``rounds``, per size.
    """

    holes: tuple[Holes, ...]
    rows: tuple[Row, ...]
    bound_off: bool
    left: tuple[int, ...]
    hole: Row | None = None
    in_rows: tuple[tuple[int, ...], ...] = ()
    rounds: tuple[int, ...] = ()


_Buttonholes = WorkedStep[ButtonholesStep, Buttonholes]


def _work(
    bench: Bench, index: int, step: ButtonholesStep, yarn: str, states: States
) -> Outcome[Buttonholes]:
    if step.along is not None or step.hole is not None:
        return _upright(bench, index, step, yarn, states)
    bound_off = step.by == "binding off"
    counts = bench.measures.counts
    numbers = counts(step.buttonholes, least=1)
    over = counts(step.over, least=1) if step.over else (_OVER,) * len(states)
    if not bound_off and set(over) != {_OVER}:
        raise fail(
            "buttonholes.over",
            "a yarn over and the two stitches beside it make a hole of 2 stitches",
            "Take out `over:`, or write `by: binding off`",
            step.over.span if step.over else step.place.span,
        )
    first = counts(step.first_after, least=1)
    last = counts(step.last_before, least=1) if step.last_before else first
    rows = bench.rows(step.place.of("rows")) if "rows" in step.model_fields_set else ()
    ends = zip(first, last, strict=True)
    each = zip(states, numbers, over, ends, strict=True)
    bench.refuse(
        (size, _no_room(step, state.live, number, own, *end))
        for size, (state, number, own, end) in enumerate(each)
        if state.live - sum(end) - number * own < number - 1 or number > MOST_HOLES
    )
    ends = zip(first, last, strict=True)
    holes = tuple(
        spread(state.live, number, own, *end)
        for state, number, own, end in zip(states, numbers, over, ends, strict=True)
    )
    worked_in = (rows[0], rows[-1]) if rows else _usual(bench, states)
    taken = worked_in if bound_off else worked_in[:1]
    after, worked = work_rows(bench, index, yarn, states, [taken] * len(states))
    left = tuple(
        state.live - each.number * each.over if bound_off else state.live
        for state, each in zip(states, holes, strict=True)
    )
    return Buttonholes(holes, taken, bound_off, left), after, worked


def _upright(
    bench: Bench, index: int, step: ButtonholesStep, yarn: str, states: States
) -> Outcome[Buttonholes]:
    """A band that grows upward: rows in turn, and the row with a hole instead of some of them.

    In rows that are turned the holes lie on the right side: so pairs of rows are spread.
    """
    if step.along is None or step.hole is None:
        raise fail(
            "buttonholes.hole",
            "an upright band says how many rows it has and which row has a buttonhole",
            "Write both `along:` with the number of rows and `hole:` with the row",
            step.place.span,
        )
    counts = bench.measures.counts
    rounds, numbers = counts(step.along, least=1), counts(step.buttonholes, least=1)
    first = counts(step.first_after)
    last = counts(step.last_before) if step.last_before else first
    bench.refuse_endless(index, states, rounds)
    unit = 2 if bench.flat else 1
    late = int(bench.flat and states[0].wrong_side)
    each = zip(rounds, numbers, first, last, strict=True)
    units = [((n - late) // unit, k, -(-a // unit), -(-z // unit)) for n, k, a, z in each]
    bench.refuse(
        (size, _no_rows(step, rounds[size], number))
        for size, (whole, number, before, behind) in enumerate(units)
        if whole - before - behind - number < number - 1 or number > MOST_HOLES
    )
    holes = tuple(spread(whole, k, 1, before, behind) for whole, k, before, behind in units)
    in_rows = tuple(
        tuple((place - 1) * unit + 1 + late for place, _ in size.places) for size in holes
    )
    written = "rows" in step.model_fields_set
    rows = bench.rows(step.place.of("rows")) if written else _usual(bench, states)
    (hole,) = bench.rows(step.place.of("hole"))
    plans = [
        [
            hole if number in own else rows[(number - 1) % len(rows)]
            for number in range(1, count + 1)
        ]
        for own, count in zip(map(frozenset, in_rows), rounds, strict=True)
    ]
    after, worked = work_rows(bench, index, yarn, states, plans)
    bench.refuse(
        (size, _uneven(step, before.live, done.live))
        for size, (before, done) in enumerate(zip(states, after, strict=True))
        if before.live != done.live
    )
    live = tuple(state.live for state in after)
    return Buttonholes(holes, rows, False, live, hole, in_rows, rounds), after, worked


def _usual(bench: Bench, states: States) -> tuple[Row, ...]:
    """Plain rows that are all knitted as seen from the right side."""
    if not bench.flat:
        return (PLAIN, PLAIN)
    return (PURLED, PLAIN) if states[0].wrong_side else (PLAIN, PURLED)


def _no_rows(step: ButtonholesStep, rounds: int, number: int) -> Diagnostic:
    return Diagnostic(
        "buttonholes.room",
        f"{how_many(number, 'buttonhole')} {verb(number, 'does', 'do')} not fit into "
        f"{how_many(rounds, 'row')} of the band",
        "Work fewer of them, or more rows; in rows that are turned each takes a pair",
        step.buttonholes.span,
    )


def _uneven(step: ButtonholesStep, before: int, after: int) -> Diagnostic:
    return Diagnostic(
        "buttonholes.hole",
        f"the band has {how_many(before, 'stitch')} before its buttonholes and {after} after them",
        "Work as many together as yarn overs are made, as in `k2, yo, k2tog, k to end`",
        step.place.of("hole").span,
    )


def spread(live: int, number: int, over: int, before: int, behind: int) -> Holes:
    """``number`` holes of ``over`` stitches along ``live``, between ``before`` and ``behind``.

    A single one lies ``before`` stitches in. Raises ``ValueError`` where neighbours would touch.
    """
    free = live - before - behind - number * over
    if free < number - 1:
        raise ValueError(f"{number} holes of {over} do not fit into {live} stitches")
    if number == 1:
        return Holes((before, live - before - over), over)
    return Holes((before, *even_groups(free, number - 1, centred=True), behind), over)


def _no_room(
    step: ButtonholesStep, live: int, number: int, over: int, before: int, behind: int
) -> Diagnostic:
    return Diagnostic(
        "buttonholes.room",
        f"{are(live, 'stitch')} live, too few for {how_many(number, 'buttonhole')} of {over}, with "
        f"{before} before the first and {behind} behind the last",
        "Work fewer of them, or smaller ones",
        step.buttonholes.span,
    )


def _rows(step: _Buttonholes) -> tuple[Row, ...]:
    hole = step.detail.hole
    return step.detail.rows if hole is None else (*step.detail.rows, hole)


def _techniques(step: _Buttonholes, flat: bool) -> tuple[str, ...]:
    return ("buttonholes",) if step.detail.bound_off else ("small-buttonholes",)


def _facts(measures: Measures, step: _Buttonholes, keys: Keys) -> Facts:
    places = [", ".join(f"{a} to {b}" for a, b in each.places) for each in step.detail.holes]
    if step.detail.hole is not None:
        rows = [", ".join(map(str, each)) for each in step.detail.in_rows]
        return {
            **yarn_facts(measures, step, keys),
            **row_facts(measures, What.ROW, _rows(step)),
            (What.PACE, ""): per_size(measures, [f"buttonholes in rows {each}" for each in rows]),
        }
    return {
        **yarn_facts(measures, step, keys),
        **row_facts(measures, What.ROW, step.detail.rows),
        (What.PACE, ""): per_size(measures, [f"buttonholes in stitches {each}" for each in places]),
    }


KIND = Kind(
    ButtonholesStep,
    _work,
    Answers(
        rows=_rows,
        in_turn=True,
        charts=nothing.charts,
        tubes=nothing.tubes,
        pictures=nothing.pictures,
        begins=nothing.stitches,
        closes=nothing.stitches,
        thread=nothing.thread,
        tools=needles,
        techniques=_techniques,
        facts=_facts,
        stops=nothing.stops,
        heading=nothing.heading,
        idle=False,
        hand=Hand.WORKED,
    ),
)
