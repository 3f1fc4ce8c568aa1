"""Floats: how far a yarn passes behind stitches of another in stranded rounds."""

from dataclasses import dataclass
from enum import StrEnum

from generator.plan.colour.grid import ColourGrid

LONGEST_FLOAT_MM = 25.4
"""About one inch of width: the usual limit of knitting handbooks."""


class LimitRule(StrEnum):
    """How the limit in stitches is made whole."""

    FLOOR = "floor"
    ROUND = "round"


@dataclass(frozen=True, slots=True)
class FloatRun:
    """``yarn`` passes behind ``length`` stitches of round ``round_``.

    ``first`` is the first stitch passed (from 1, right-most), ``last`` the last one; ``last`` is
    less than ``first`` where the float crosses the start of the round.
    """

    round_: int
    yarn: str
    first: int
    last: int
    length: int


@dataclass(frozen=True, slots=True)
class LongFloat:
    """A float over the limit, and the stitches (from 1) behind which to catch it."""

    run: FloatRun
    limit: int
    catches: tuple[int, ...]


def float_limit(
    stitches_per_10cm: float,
    rule: LimitRule = LimitRule.FLOOR,
    longest_mm: float = LONGEST_FLOAT_MM,
) -> int:
    """The most stitches a float may pass at this gauge; at least 1."""
    raise NotImplementedError


def float_runs(grid: ColourGrid) -> tuple[FloatRun, ...]:
    """Every float of every round with two yarns or more, by round, then yarn order, then stitch."""
    raise NotImplementedError


def long_floats(grid: ColourGrid, limit: int) -> tuple[LongFloat, ...]:
    """The floats that pass more than ``limit`` stitches."""
    raise NotImplementedError
