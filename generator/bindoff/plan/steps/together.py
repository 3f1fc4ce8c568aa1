"""Several shapings over the same rows, worked row by row in every size."""

from collections.abc import Iterator, Mapping, Sequence

from bindoff.diagnostics import Diagnostic, PatternError, fail
from bindoff.english import how_many
from bindoff.plan.bench import Bench, Outcome, State, States
from bindoff.plan.differences.matching import Keys
from bindoff.plan.differences.rowfacts import row_facts
from bindoff.plan.differences.said import Facts, What
from bindoff.plan.differences.values import per_size
from bindoff.plan.measures import Measures
from bindoff.plan.mirrored import begins_a_row, row_beside
from bindoff.plan.rowbyrow import work_rows
from bindoff.plan.rowcount import after_row, count_on
from bindoff.plan.steps import nothing
from bindoff.plan.steps.common import needles, yarn_facts
from bindoff.plan.steps.kind import Kind
from bindoff.plan.worked import Answers, Hand, WorkedStep
from bindoff.records import Record
from bindoff.source.rowlang.stitches import StitchBook
from bindoff.source.rowlang.syntax import (
    Alter,
    Count,
    CountChange,
    Fill,
    Marker,
    MarkerAct,
    Part,
    Row,
    Target,
    ToEnd,
    ToLast,
    ToMarker,
    Work,
)
from bindoff.source.steps.together import Shaping, TogetherStep

_OTHER_END = {
    "start": "end",
    "end": "start",
    "before marker": "after marker",
    "after marker": "before marker",
}
_USUAL = 2  # rows from one time to the next where none are said: both edges turn to the right side


class Shaped(Record):
    """One shaping: ``works`` are its row texts, ``rows`` the rows of each size that work one."""

    title: str
    at: str
    works: tuple[Row, ...]
    rows: tuple[tuple[int, ...], ...]

    def in_row(self, size: int, number: int) -> Row | None:
        """What it works in a row of a size."""
        rows = self.rows[size]
        if number not in rows:
            return None
        return self.works[rows.index(number) % len(self.works)]


class Together(Record):
    """Shapings over the same ``rounds`` rows per size; ``worked`` are all rows of each size, and
    ``stitches`` the live ones after each."""

    shapings: tuple[Shaped, ...]
    rounds: tuple[int, ...]
    plain: tuple[Row, ...]
    worked: tuple[tuple[Row, ...], ...]
    stitches: tuple[tuple[int, ...], ...]


_Together = WorkedStep[TogetherStep, Together]


def _work(
    bench: Bench, index: int, step: TogetherStep, yarn: str, states: States
) -> Outcome[Together]:
    rounds = bench.measures.counts(step.over, least=1)
    bench.refuse_endless(index, states, rounds)
    plain = _plain(bench, step)
    shapings: list[Shaped] = []
    findings: list[Diagnostic] = []
    for each in step.together:
        try:
            shapings += _shaped(bench, each, rounds)
        except PatternError as error:
            findings += error.findings
    if findings:
        raise PatternError(findings)
    plans = [
        [_row(bench, shapings, size, number, plain, state) for number in range(1, count + 1)]
        for size, (state, count) in enumerate(zip(states, rounds, strict=True))
    ]
    after, worked = work_rows(bench, index, yarn, states, plans)
    stitches = tuple(
        tuple(_counts(bench, size, state, rows))
        for size, (state, rows) in enumerate(zip(states, plans, strict=True))
    )
    rows = tuple(tuple(each) for each in plans)
    return Together(tuple(shapings), rounds, plain, rows, stitches), after, worked


def _plain(bench: Bench, step: TogetherStep) -> tuple[Row, ...]:
    """The plain rows, each of one stitch to its end.

    Raises:
        PatternError: ``together.plain`` for any other row.
    """
    rows = bench.rows(step.place.of("plain")) if "plain" in step.model_fields_set else ()
    for row in rows:
        if not (len(row.parts) == 1 and isinstance(row.parts[0], Fill)):
            raise fail(
                "together.plain",
                "the plain rows beside several shapings are of one stitch each",
                "Write `k all` or `p all`, or work the pattern in steps of its own",
                row.span,
            )
    if rows:
        return rows
    knit, purl = Row((Fill("k", ToEnd()),)), Row((Fill("p", ToEnd()),))
    return (knit, purl) if bench.flat else (knit,)


def _shaped(bench: Bench, each: Shaping, rounds: Sequence[int]) -> tuple[Shaped, ...]:
    """A shaping with its rows in every size; in a mirrored piece one for each of its works.

    Raises:
        PatternError: ``together.long`` where it needs more rows than the step has, and
            ``together.work`` for what has no fixed number of stitches.
    """
    works = bench.rows(each.place.of("work"))
    for row in works:
        if not all(isinstance(part, Work) or _is_counted(part) for part in row.parts):
            raise fail(
                "together.work",
                "what is shaped beside others has a fixed number of stitches",
                "Write stitches with their numbers, such as `k1, ssk` or `bind off 3`",
                row.span,
            )
    counts = bench.measures.counts
    first = counts(each.from_, least=1)
    every = counts(each.every, least=1) if each.every else (_USUAL,) * len(rounds)
    times = counts(each.times) if each.times else (len(works),) * len(rounds)
    rows = tuple(
        tuple(begin + pace * number for number in range(often))
        for begin, pace, often in zip(first, every, times, strict=True)
    )
    found: tuple[Shaped, ...] = (Shaped(each.title, each.at_, works, rows),)
    if bench.mirrored:
        found = tuple(_at_the_other_edge(bench, each, works, rows))
    each_size = zip(*(shaping.rows for shaping in found), strict=True)
    lasts = [[own[-1] for own in size if own] for size in each_size]
    bench.refuse(
        (
            size,
            Diagnostic(
                "together.long",
                f"`{each.title}` is worked last in row {max(last)}, and the step has "
                f"{how_many(count, 'row')}",
                "Give more rows in `over:`, or fewer times, or an earlier start",
                each.place.of("title").span,
            ),
        )
        for size, (last, count) in enumerate(zip(lasts, rounds, strict=True))
        if last and max(last) > count
    )
    return found


def _at_the_other_edge(
    bench: Bench, each: Shaping, works: tuple[Row, ...], rows: tuple[tuple[int, ...], ...]
) -> Iterator[Shaped]:
    """A shaping of a mirrored piece, each of its ``works`` by itself: what is worked only where a
    row begins comes in the row beside, all else at the other end of its own row."""
    for index, work in enumerate(works):
        own = tuple(size[index :: len(works)] for size in rows)
        if bench.flat and begins_a_row(work):
            yield Shaped(each.title, each.at_, (work,), tuple(map(_beside, own)))
        else:
            yield Shaped(each.title, _OTHER_END[each.at_], (work,), own)


def _beside(rows: tuple[int, ...]) -> tuple[int, ...]:
    return tuple(row_beside(number) for number in rows)


def _is_counted(part: Part) -> bool:
    return isinstance(part, Alter) and not isinstance(part.amount, Target)


# ---------------------------------------------------------------- one row


def _row(
    bench: Bench,
    shapings: Sequence[Shaped],
    size: int,
    number: int,
    plain: tuple[Row, ...],
    state: State,
) -> Row:
    """What a size works in a row: all that is shaped in it, and one stitch between."""
    numbers = bench.measures.numbers(size)
    turn = number - 1 + (state.wrong_side if bench.flat else 0)
    base = plain[turn % len(plain)]
    (fill,) = base.parts
    assert isinstance(fill, Fill)
    by_place: dict[str, list[Part]] = {}
    for each in shapings:
        own = each.in_row(size, number)
        if own is not None:
            by_place.setdefault(each.at, []).extend(own.parts)
    start, end = by_place.get("start", []), by_place.get("end", [])
    before, after = by_place.get("before marker", []), by_place.get("after marker", [])
    parts: list[Part] = [*start]
    if before or after:
        short = _uses(before, numbers, bench.book)
        fill_to = Fill(fill.stitch, ToMarker(short), fill.how, fill.yarn)
        parts += [fill_to, *before, Marker(MarkerAct.SLIP), *after]
    left = _uses(end, numbers, bench.book)
    parts += [Fill(fill.stitch, ToLast(left) if left else ToEnd(), fill.how, fill.yarn), *end]
    return Row(tuple(parts), base.yarn, base.span)


def _uses(parts: Sequence[Part], numbers: Mapping[str, int], book: StitchBook) -> int:
    """How many live stitches the parts use; a number without a value is told when it is worked."""

    def value(count: Count) -> int:
        return count if isinstance(count, int) else numbers.get(count.name, 0)

    used = 0
    for part in parts:
        if isinstance(part, Work):
            used += book[part.stitch].consumes * value(part.times)
        elif isinstance(part, Alter) and not isinstance(part.amount, Target):
            takes = part.change in (CountChange.BIND_OFF, CountChange.HOLD)
            used += value(part.amount) if takes else 0
    return used


def _counts(bench: Bench, size: int, state: State, rows: Sequence[Row]) -> Iterator[int]:
    """The live stitches after each row, which is known to fit."""
    needle, numbers, flat = state.needle, bench.measures.numbers(size), state.flat
    for row in rows:
        counted = count_on(row, needle, numbers, bench.book, flat=flat)
        needle, flat = after_row(needle, counted, flat=flat), counted.flat_after(flat)
        yield needle.left + needle.right


# ---------------------------------------------------------------- answers


def _rows(step: _Together) -> tuple[Row, ...]:
    return tuple(dict.fromkeys(row for rows in step.detail.worked for row in rows))


def _facts(measures: Measures, step: _Together, keys: Keys) -> Facts:
    works = [row for each in step.detail.shapings for row in each.works]
    paces = {
        (What.PACE, str(number)): per_size(
            measures, [f"{each.title} in rows {', '.join(map(str, rows))}" for rows in each.rows]
        )
        for number, each in enumerate(step.detail.shapings, start=1)
    }
    return {**yarn_facts(measures, step, keys), **row_facts(measures, What.ROW, works), **paces}


KIND = Kind(
    TogetherStep,
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
