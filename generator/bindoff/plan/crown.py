"""Crowns: tubes of several sizes closed by decreases in wedges, worked as one list."""

import math
from collections.abc import Sequence
from typing import Literal

from bindoff.plan.gauge import Gauge, round_to
from bindoff.plan.values import Value
from bindoff.records import Record

Pace = Literal["every other", "every", "every other, then every"]

# Woolly Wormhead on crown shaping, 2016: the standard beanie loses 8 stitches every other round,
# 4 a round on average.
BEANIE_WEDGES = 8
BEANIE_PACE: Pace = "every other"


class AlignedRound(Record):
    """One decrease round shared by all sizes; per-size tuples in the pattern's size order.

    A size for which ``worked`` is false has not begun its crown: it skips the round and the
    plain rounds after it, and ``before`` and ``after`` both give its cast-on body's stitches.
    """

    work: int
    decreases: int
    plain_after: int
    worked: tuple[bool, ...]
    before: tuple[int, ...]
    after: tuple[int, ...]


class AlignedCrown(Record):
    """One list of decrease rounds for several sizes: larger sizes start earlier in it."""

    stitches: tuple[int, ...]
    wedges: int
    rounds: tuple[AlignedRound, ...]

    @property
    def total_rounds(self) -> tuple[int, ...]:
        """Decrease and plain rounds per size."""
        return tuple(
            sum(1 + step.plain_after for step in self.rounds if step.worked[size])
            for size in range(len(self.stitches))
        )


def align_crowns(
    stitches: Sequence[int],
    wedges: int = BEANIE_WEDGES,
    target: int | None = None,
    pace: Pace = BEANIE_PACE,
    fewest: int | None = None,
) -> AlignedCrown:
    """The crowns of several sizes as one list that the largest begins and the others join.

    One stitch a wedge goes in every decrease round, from each count to ``target`` (one a wedge
    unless given). "every other" puts a plain round after each decrease round but the last; "every"
    puts none; "every other, then every" leaves them out in the last third of the decrease rounds
    (rounded down), for a rounder top (common practice, no source). The last third is that of the
    smallest size, so no size works more than a third of its decrease rounds without a plain round
    between. ``fewest`` is the count of the smallest size where it is not among ``stitches``.

    Raises ``ValueError`` when the counts are not multiples of ``wedges`` or the target is higher.
    """
    if not stitches:
        raise ValueError("a crown needs at least one size")
    left = wedges if target is None else target
    _check_wedges(stitches, wedges, left)
    last = left // wedges
    decrease_rounds = [count // wedges - last for count in stitches]
    least = min(decrease_rounds) if fewest is None else fewest // wedges - last
    plain = _plain_rounds(max(decrease_rounds), least // 3, pace)
    rounds = []
    for i, plain_after in enumerate(plain):
        size_before = last + len(plain) - i
        worked = tuple(count >= size_before * wedges for count in stitches)
        before = tuple(min(count, size_before * wedges) for count in stitches)
        after = tuple(min(count, (size_before - 1) * wedges) for count in stitches)
        rounds.append(AlignedRound(size_before - 2, wedges, plain_after, worked, before, after))
    return AlignedCrown(tuple(stitches), wedges, tuple(rounds))


def flat_crown_rounds(stitches: int, gauge: Gauge) -> Value:
    """Rounds from the edge to the middle of a flat crown over ``stitches`` stitches.

    The crown as a flat disc on a cylinder, of radius circumference / 2 pi: Woolly Wormhead on crown
    shaping, 2016.
    """
    circumference = gauge.width_of(stitches)
    exact = circumference / math.tau / gauge.round_mm
    rounded = max(1, round_to(exact))
    return Value(
        exact,
        rounded,
        "circumference / 2 pi / round height, nearest",
        (("circumference", circumference), ("round height", gauge.round_mm)),
        error_mm=(rounded - exact) * gauge.round_mm,
    )


def flat_disc_decreases(gauge: Gauge) -> float:
    """Decreases a round, on average, that make a flat disc: 2 pi x stitches / rounds per length.

    Geometry: every round is shorter than the last by 2 pi round heights.
    """
    return math.tau / gauge.aspect


def _plain_rounds(count: int, fast: int, pace: Pace) -> tuple[int, ...]:
    """Plain rounds after each of ``count`` decrease rounds; none after the last."""
    slow = {"every other": count, "every": 0, "every other, then every": count - fast}[pace]
    return tuple(int(i < slow and i < count - 1) for i in range(count))


def _check_wedges(stitches: Sequence[int], wedges: int, target: int) -> None:
    if wedges < 1:
        raise ValueError(f"a crown needs at least 1 wedge, not {wedges}")
    if target < wedges or target % wedges:
        raise ValueError(
            f"{target} stitches at the top of a crown do not divide into {wedges} wedges"
        )
    for count in stitches:
        if count % wedges:
            raise ValueError(f"{count} stitches do not divide into {wedges} wedges")
        if count < target:
            raise ValueError(f"a crown can not start with {count} stitches and end with {target}")
