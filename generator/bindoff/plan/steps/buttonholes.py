"""Buttonholes spread evenly along a band.

Between neighbouring ones lie (all stitches - those before and behind - those of the holes) over
one less than there are holes; where that is not whole, the gaps differ by one stitch (common
practice, no source).
"""

from bindoff.diagnostics import Diagnostic, fail
from bindoff.english import are, how_many
from bindoff.plan.bench import Bench, Outcome, States
from bindoff.plan.differences.matching import Keys
from bindoff.plan.differences.rowfacts import row_facts
from bindoff.plan.differences.said import Facts, What
from bindoff.plan.differences.values import per_size
from bindoff.plan.measures import Measures
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
    """

    holes: tuple[Holes, ...]
    rows: tuple[Row, ...]
    bound_off: bool
    left: tuple[int, ...]


_Buttonholes = WorkedStep[ButtonholesStep, Buttonholes]


def _work(
    bench: Bench, index: int, step: ButtonholesStep, yarn: str, states: States
) -> Outcome[Buttonholes]:
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
    turned = states[0].wrong_side
    usual = ((PURLED, PLAIN) if turned else (PLAIN, PURLED)) if bench.flat else (PLAIN, PLAIN)
    worked_in = (rows[0], rows[-1]) if rows else usual
    taken = worked_in if bound_off else worked_in[:1]
    after, worked = bench.work(index, yarn, states, [taken] * len(states))
    left = tuple(
        state.live - each.number * each.over if bound_off else state.live
        for state, each in zip(states, holes, strict=True)
    )
    return Buttonholes(holes, taken, bound_off, left), after, worked


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
    return step.detail.rows


def _techniques(step: _Buttonholes, flat: bool) -> tuple[str, ...]:
    return ("buttonholes",) if step.detail.bound_off else ("small-buttonholes",)


def _facts(measures: Measures, step: _Buttonholes, keys: Keys) -> Facts:
    places = [", ".join(f"{a} to {b}" for a, b in each.places) for each in step.detail.holes]
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
