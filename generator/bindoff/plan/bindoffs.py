"""Finds out by the stitch count how a row that binds off and goes on is meant."""

from collections.abc import Iterator, Mapping, Sequence
from itertools import product

from bindoff.plan.bench import MOST_LIVE, MOST_MARKERS, Bench, State, States
from bindoff.plan.rowcount import LiveStitches, RowMismatch, after_row, count_on
from bindoff.records import Record
from bindoff.source.rowlang.bindoffs import next_is_plain, read_as, reads_twice
from bindoff.source.rowlang.syntax import Kept, Row

_MOST_ROWS = 4
"""Rows that are read in all combinations; more are all read alike."""

Reading = Mapping[Row, Row]
"""Rows as written, and as they are read."""


class Doubt(Record):
    """A row that binds off and goes on, and fits in two readings.

    ``taken`` is the reading it is counted in; ``stitches`` are live after the step, per size, in
    that one, ``others`` in the other.
    """

    row: Row
    taken: Kept
    stitches: tuple[int, ...]
    others: tuple[int, ...]


def settle(
    bench: Bench, states: States, rows: Sequence[Row], rounds: Sequence[int]
) -> tuple[tuple[Row, ...], Doubt | None]:
    """``rows`` as they are read when worked in turn for ``rounds`` rounds per size.

    The reading is the first that fits in all sizes; rows that fit in none stay as they are, and
    are refused when they are worked. Another one that fits too and leaves other counts is a doubt.
    """
    open_ = tuple(row for row in dict.fromkeys(rows) if reads_twice(row))
    if not open_:
        return tuple(rows), None
    taken: tuple[Reading, tuple[int, ...]] | None = None
    for reading in _readings(open_):
        after = _after(bench, states, [reading.get(row, row) for row in rows], rounds)
        if after is None:
            continue
        if taken is None:
            taken = reading, after
        elif after != taken[1]:
            row = next(row for row in open_ if reading[row] != taken[0][row])
            beside = taken[0][row] == read_as(row, Kept.BESIDE)
            kept = Kept.BESIDE if beside else Kept.FIRST
            doubt = Doubt(taken[0][row], kept, taken[1], after)
            return tuple(taken[0].get(each, each) for each in rows), doubt
    if taken is None:
        return tuple(rows), None
    return tuple(taken[0].get(row, row) for row in rows), None


def _readings(rows: tuple[Row, ...]) -> Iterator[Reading]:
    """Every way to read the rows, the likeliest first."""
    each = [_ways(row) for row in rows]
    if len(rows) > _MOST_ROWS:
        for kept in Kept:
            yield {row: read_as(row, kept) for row in rows}
        return
    for read in product(*each):
        yield dict(zip(rows, read, strict=True))


def _ways(row: Row) -> tuple[Row, Row]:
    first, beside = (read_as(row, kept) for kept in Kept)
    return (first, beside) if next_is_plain(row) else (beside, first)


def _after(
    bench: Bench, states: States, rows: Sequence[Row], rounds: Sequence[int]
) -> tuple[int, ...] | None:
    """The live stitches of every size after the rows; ``None`` if a row does not fit."""
    found: list[int] = []
    for size, (state, count) in enumerate(zip(states, rounds, strict=True)):
        needle = _worked(bench, size, state, [rows[n % len(rows)] for n in range(count)])
        if needle is None:
            return None
        found.append(needle.left + needle.right)
    return tuple(found)


def _worked(bench: Bench, size: int, state: State, rows: Sequence[Row]) -> LiveStitches | None:
    needle, numbers, flat = state.needle, bench.measures.numbers(size), state.flat
    for row in rows:
        try:
            counted = count_on(row, needle, numbers, bench.book, flat=flat)
        except RowMismatch:
            return None
        needle = after_row(needle, counted, flat=flat)
        flat = counted.flat_after(flat)
        markers = len(needle.left_markers) + len(needle.right_markers)
        if needle.left + needle.right > MOST_LIVE or markers > MOST_MARKERS:
            return None
    return needle
