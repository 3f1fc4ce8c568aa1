"""What a piece is after each of its rows: how wide, how high, and at which edge it grew."""

from bindoff.plan.rowcount import Counted
from bindoff.records import Record


class Level(Record):
    """One size after one row.

    ``stitches`` are live, of which the row worked ``worked``. ``fewest`` and ``most`` are the rows
    below, along the stitches that had the fewest of them and the most. ``right``, ``middle`` and
    ``left`` are the stitches that a flat row added at either edge, as seen from the right side, and
    between; less than none where it took some away. ``apart`` says that it left two parts, with a
    gap between them. ``markers`` are places on the stitches of a round. ``cast_on`` and
    ``bound_off`` are the stitches of it that were cast on and bound off.
    """

    stitches: int
    worked: int
    fewest: int
    most: int
    right: int = 0
    middle: int = 0
    left: int = 0
    apart: bool = False
    flat: bool = False
    markers: tuple[int, ...] = ()
    cast_on: int = 0
    bound_off: int = 0


class Ends(Record):
    """How many stitches a row adds where it begins, between, and where it ends."""

    first: int = 0
    middle: int = 0
    last: int = 0


NO_ENDS = Ends()


def ends_of(counted: Counted) -> Ends:
    """Where a row adds and takes stitches: near its start, its end, or between.

    What is bound off or held up to the end belongs to it, and so does a third of the row; changes
    that the row does not tell singly are taken as half at either end.
    """
    change = counted.produced - counted.consumed
    if not counted.shifts:
        return NO_ENDS
    if not counted.shifts_told:
        return Ends(change // 2, 0, change - change // 2)
    begin, end, first, last = 0, counted.consumed, 0, 0
    shifts = list(counted.shifts)
    while shifts and shifts[0][0] == begin and shifts[0][2] == 0:
        _, used, _ = shifts.pop(0)
        begin, first = begin + used, first - used
    while shifts and shifts[-1][0] + shifts[-1][1] == end and shifts[-1][2] == 0:
        _, used, _ = shifts.pop()
        end, last = end - used, last - used
    third = (end - begin) / 3
    first += sum(made - used for place, used, made in shifts if place + used / 2 < begin + third)
    last += sum(made - used for place, used, made in shifts if place + used / 2 > end - third)
    return Ends(first, change - first - last, last)


def level_of(
    counted: Counted,
    stitches: int,
    rows: tuple[int, int],
    markers: tuple[int, ...],
    turned: bool,
    flat: bool,
) -> Level:
    """The level after a row that leaves so many ``stitches`` and ``rows``, the fewest and the most;
    ``turned`` says that it was worked on the wrong side."""
    ends = ends_of(counted) if flat else NO_ENDS
    right, left = (ends.last, ends.first) if turned else (ends.first, ends.last)
    apart = flat and bool(counted.cuts.cuts) and ends.middle < 0
    return Level(
        stitches=stitches,
        worked=counted.produced,
        fewest=rows[0],
        most=rows[1],
        right=right,
        middle=ends.middle,
        left=left,
        apart=apart,
        flat=flat,
        markers=markers,
        cast_on=counted.cast_on,
        bound_off=counted.bound_off,
    )
