"""Stitches picked up along an edge: how many of its rows, and which are skipped.

A stitch is wider than a row is high, so fewer stitches are picked up than there are rows: stitches
per length over rows per length, as with 18 stitches and 24 rows 3 in every 4 rows (common practice,
no source).
"""

from fractions import Fraction

from bindoff.plan.gauge import Gauge, round_to
from bindoff.plan.spacing import even_groups
from bindoff.records import Record

_MOST_ROWS = 8
"""A ratio that a knitter can keep in mind is told in so many rows at the most."""


class Skipped(Record):
    """``rows`` of which ``stitches`` are picked up, the others skipped evenly."""

    rows: int
    stitches: int

    @property
    def groups(self) -> tuple[int, ...]:
        """Neighbouring rows of which the last is skipped, in order; none where no row is."""
        left_out = self.rows - self.stitches
        return even_groups(self.rows, left_out) if left_out else ()

    @property
    def paces(self) -> tuple[tuple[int, int], ...]:
        """Every how many rows one is skipped, and how often, the longer way first."""
        left_out = self.rows - self.stitches
        if not left_out:
            return ()
        short, longer = divmod(self.rows, left_out)
        found = ((short + 1, longer), (short, left_out - longer))
        return tuple((pace, often) for pace, often in found if often)


def stitches_per_row(band: Gauge, edge: Gauge) -> float:
    """How many stitches of ``band`` are as wide as a row of ``edge`` is high."""
    return edge.round_mm / band.stitch_mm


def told_ratio(ratio: float) -> Fraction:
    """The ratio in few rows: 3/4, 2/3, 5/7, 5/8 and the like."""
    return Fraction(ratio).limit_denominator(_MOST_ROWS)


def along_rows(rows: int, ratio: float) -> int:
    """The stitches to pick up in ``rows`` at a ratio, to the nearest."""
    return round_to(rows * ratio)


def allotted(total: int, rows: tuple[int, ...]) -> tuple[int, ...]:
    """``total`` stitches shared out over edges of so many ``rows``, as nearly as whole ones can be.

    Shares that are rounded down the most get those that are left, the first edge first.
    """
    whole = sum(rows)
    if not whole:
        return (0,) * len(rows)
    exact = [Fraction(total * each, whole) for each in rows]
    shares = [int(each) for each in exact]
    order = sorted(range(len(rows)), key=lambda i: (shares[i] - exact[i], i))
    for index in order[: total - sum(shares)]:
        shares[index] += 1
    return tuple(shares)


def skipped(rows: int, stitches: int) -> Skipped:
    """Which rows are skipped so that ``stitches`` lie evenly along ``rows``, never two together.

    Raises ``ValueError`` where rows would have two stitches, or two rows together none.
    """
    left_out = rows - stitches
    if left_out < 0 or left_out > stitches:
        raise ValueError(f"{stitches} stitches can not lie evenly along {rows} rows")
    return Skipped(rows, stitches)
