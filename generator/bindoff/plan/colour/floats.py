"""Floats: how far a yarn passes behind stitches of another in stranded rounds."""

from collections.abc import Sequence
from enum import StrEnum
from itertools import pairwise
from math import floor

from bindoff.plan.colour.grid import ColourGrid
from bindoff.records import Record

LONGEST_FLOAT_MM = 25.4
"""About one inch of width: the usual limit of knitting handbooks."""


class LimitRule(StrEnum):
    """How the limit in stitches is made whole."""

    FLOOR = "floor"
    ROUND = "round"


class FloatRun(Record):
    """``yarn`` passes behind ``length`` stitches of round ``round_``.

    ``first`` is the first stitch passed (from 1, right-most), ``last`` the last one; ``last`` is
    less than ``first`` where the float crosses the start of the round.
    """

    round_: int
    yarn: str
    first: int
    last: int
    length: int


class LongFloat(Record):
    """A float over the limit, and the stitches (from 1) behind which to catch it."""

    run: FloatRun
    limit: int
    catches: tuple[int, ...]


def float_limit(
    stitches_per_10cm: float,
    rule: LimitRule = LimitRule.FLOOR,
    longest_mm: float = LONGEST_FLOAT_MM,
) -> int:
    """The most stitches a float may pass at this gauge; at least 1.

    Raises ``ValueError`` when the gauge or the length is not above 0.
    """
    if stitches_per_10cm <= 0 or longest_mm <= 0:
        raise ValueError("gauge and longest float must be above 0")
    # A millionth of a stitch, so that a width that is a whole number of stitches stays one.
    exact = longest_mm * stitches_per_10cm / 100 + 1e-6
    return max(1, floor(exact + 0.5 if rule is LimitRule.ROUND else exact))


def float_runs(grid: ColourGrid) -> tuple[FloatRun, ...]:
    """Every float of every round with two yarns or more.

    By round, then by first use of the yarn from stitch 1 on, then by stitch. In a tube the run
    across the start of the round counts as one, within its own round; a yarn with a single stitch
    passes all the others. In a flat piece nothing floats beyond a yarn's outermost stitches.
    """
    return tuple(
        FloatRun(round_, yarn, first, _stitch_after(first, length - 1, grid.width), length)
        for round_, cells in enumerate(grid.rounds, start=1)
        for yarn, places in _places(cells).items()
        for first, length in _gaps(places, grid.width, grid.wraps)
    )


def longest_floats(cells: Sequence[str], wraps: bool) -> dict[str, tuple[int, int]]:
    """Per yarn of one round: its longest float, and the longest run of its own stitches.

    The run of its own stitches is the longest float of a single yarn knitted in all the others'
    places.
    """
    width = len(cells)
    spans: dict[str, tuple[int, int]] = {}
    for yarn, places in _places(cells).items():
        others = [at for at in range(1, width + 1) if cells[width - at] != yarn]
        own = max((length for _, length in _gaps(others, width, wraps)), default=0)
        spans[yarn] = (max((length for _, length in _gaps(places, width, wraps)), default=0), own)
    return spans


def long_floats(grid: ColourGrid, limit: int) -> tuple[LongFloat, ...]:
    """The floats that pass more than ``limit`` stitches, with where to catch each."""
    return tuple(
        LongFloat(
            run,
            limit,
            tuple(
                _stitch_after(run.first, passed - 1, grid.width)
                for passed in catches(run.length, limit)
            ),
        )
        for run in float_runs(grid)
        if run.length > limit
    )


def catches(length: int, limit: int) -> tuple[int, ...]:
    """Which of ``length`` passed stitches (from 1) to catch a float behind, evenly spread.

    As few as leave no free piece over ``limit``; a caught stitch belongs to no free piece.
    Raises ``ValueError`` for a limit below 1.
    """
    if limit < 1:
        raise ValueError("a float limit is at least 1 stitch")
    count = max(0, -(-(length - limit) // (limit + 1)))
    return tuple(nth * (length + 1) // (count + 1) for nth in range(1, count + 1))


def _places(cells: Sequence[str]) -> dict[str, list[int]]:
    """Stitch numbers of each yarn, ascending, yarns in order of first use from stitch 1."""
    places: dict[str, list[int]] = {}
    for stitch, yarn in enumerate(reversed(cells), start=1):
        places.setdefault(yarn, []).append(stitch)
    return places


def _gaps(places: Sequence[int], width: int, wraps: bool) -> list[tuple[int, int]]:
    """First stitch and length of each run between a yarn's own stitches."""
    gaps = [(here + 1, there - here - 1) for here, there in pairwise(places) if there - here > 1]
    around = places[0] + width - places[-1] - 1 if places else 0
    if wraps and around:
        gaps.append((places[-1] % width + 1, around))
    return gaps


def _stitch_after(stitch: int, steps: int, width: int) -> int:
    """The stitch ``steps`` further on around a round."""
    return (stitch - 1 + steps) % width + 1
