"""The tube: a fixed number of needles; folded double with a turned-up brim, or of one layer."""

import math
from collections.abc import Sequence
from enum import StrEnum
from typing import Literal

from bindoff.craft.ease import EaseRule
from bindoff.plan.gauge import Gauge
from bindoff.plan.values import Value
from bindoff.records import Record, replace


class Fit(Record):
    """How a finished circumference sits on one body measure.

    ``ease`` is finished minus body in mm (negative: the piece stretches); ``ease_percent`` the
    same in % of the body; ``served`` whether it lies within the ease that was asked for.
    """

    body_mm: float
    circumference: Value
    ease: Value
    ease_percent: float
    served: bool


class GaugeRange(Record):
    """Stitches per 10 cm that fit one body: from the loosest to the tightest fabric.

    ``loosest`` gives the largest circumference allowed (0 stitches where there is no limit).
    """

    loosest: float
    tightest: float


class TubePart(StrEnum):
    """The parts of a tube; one that is not folded has its outer parts alone."""

    LINING_GATHER = "lining gather"
    LINING = "lining"
    LINING_BRIM = "lining brim"
    OUTER_BRIM = "outer brim"
    OUTER = "outer"
    OUTER_GATHER = "outer gather"


class Segment(Record):
    """A part of the tube, from round ``first`` to round ``last`` inclusive (rounds count from 1).

    ``rounds`` says how the number of rounds follows from the length.
    """

    part: TubePart
    first: int
    last: int
    rounds: Value


class TubeRounds(Record):
    """A tube worked in one go: its parts in knitting order.

    Of a tube folded to two layers the fold lies after round ``fold_after``, which is ``None`` for
    one of one layer. ``markers`` are the stitches that carry the half round markers (stitch 1
    alone where the number of needles is odd). Rounds start ``start`` stitches after the wearer's
    left side, counted over the front.
    """

    needles: int
    segments: tuple[Segment, ...]
    fold_after: int | None
    markers: tuple[int, ...]
    start: int = 0

    @property
    def front(self) -> int:
        """The stitch that begins the front half, on the wearer's left."""
        return -self.start % self.needles + 1

    @property
    def total_rounds(self) -> int:
        """All rounds of the tube."""
        return self.segments[-1].last

    def segment(self, part: TubePart) -> Segment | None:
        """That part, or ``None`` where the tube has none (no brim, no gather allowance)."""
        return next((segment for segment in self.segments if segment.part is part), None)


def above_the_tie(tube: TubeRounds, gauge: Gauge) -> float:
    """How far the last rounds stand above what gathers them, in mm: whole rounds, whatever length
    was asked for."""
    end = tube.segment(TubePart.OUTER_GATHER)
    return gauge.height_of(end.last - end.first + 1) if end else 0.0


def circumference(needles: int, gauge: Gauge) -> Value:
    """Finished circumference, in mm, of a tube on a fixed number of needles."""
    _check_needles(needles)
    exact = gauge.width_of(needles)
    inputs = (("needles", float(needles)), ("stitch width", gauge.stitch_mm))
    return Value(exact, exact, "needles x stitch width", inputs, error_mm=0.0)


def fit(needles: int, gauge: Gauge, body_mm: float, rule: EaseRule) -> Fit:
    """How the tube sits on a body measure, and whether the ease is within ``rule``."""
    around = circumference(needles, gauge)
    served = rule.holds(body_mm, around.exact)
    ease = around.exact - body_mm
    inputs = (("circumference", around.exact), ("body", body_mm))
    value = Value(ease, ease, "circumference - body", inputs, error_mm=0.0)
    return Fit(body_mm, around, value, 100 * ease / body_mm, served)


def sizes_served(
    needles: int | Sequence[int], gauge: Gauge, bodies_mm: Sequence[float], rule: EaseRule
) -> tuple[Fit, ...]:
    """One ``Fit`` a size, in the order given: which of them this gauge serves, with what ease.

    ``needles`` are those of all sizes, or one number a size.
    """
    counts = [needles] * len(bodies_mm) if isinstance(needles, int) else needles
    return tuple(
        fit(count, gauge, body_mm, rule) for count, body_mm in zip(counts, bodies_mm, strict=True)
    )


def gauge_needed(needles: int, finished_mm: float) -> Value:
    """Stitches per 10 cm that give a finished circumference, rounded to a tenth.

    ``error_mm`` is how far the circumference at the rounded gauge is from the one asked for.
    """
    _check_needles(needles)
    _check_length("the finished circumference", finished_mm)
    exact = 100 * needles / finished_mm
    rounded = max(0.1, round(exact, 1))
    inputs = (("needles", float(needles)), ("circumference", finished_mm))
    error = 100 * needles / rounded - finished_mm
    return Value(exact, rounded, "100 mm x needles / circumference", inputs, error_mm=error)


def gauges_fitting(needles: int, body_mm: float, rule: EaseRule) -> GaugeRange:
    """The gauges at which a tube of so many needles has the asked-for ease on a body."""
    _check_needles(needles)
    low, high = rule.finished_range(body_mm)
    return GaugeRange(
        loosest=100 * needles / high,
        tightest=100 * needles / low if low > 0 else math.inf,
    )


def half_round_markers(needles: int) -> tuple[int, int]:
    """The stitches that begin each half: 1 and N / 2 + 1. Raises ``ValueError`` for an odd N."""
    _check_needles(needles)
    if needles % 2:
        raise ValueError(f"{needles} needles do not divide into two halves")
    return 1, needles // 2 + 1


def folded_tube(
    needles: int,
    gauge: Gauge,
    depth_mm: float,
    brim_mm: float = 0.0,
    gather_mm: float = 0.0,
    lining_depth_mm: float | None = None,
    lining_gauge: Gauge | None = None,
    start: Literal["lining", "outer"] = "lining",
) -> TubeRounds:
    """Rounds of a folded double tube, in knitting order.

    ``depth_mm`` is what is seen when worn. A turned-up brim folds both layers, so ``brim_mm``
    counts in both, and ``gather_mm`` is the allowance at either end of the tube. The lining has
    the depth and gauge of the outer layer unless they are given. ``start`` says which end is
    cast on. Raises ``ValueError`` for lengths that are negative or not finite, or no depth.
    """
    _check_needles(needles)
    lining_mm = depth_mm if lining_depth_mm is None else lining_depth_mm
    inner = gauge if lining_gauge is None else lining_gauge
    _check_length("the depth", depth_mm)
    _check_length("the depth of the lining", lining_mm)
    _check_length("the brim", brim_mm, zero=True)
    _check_length("the gather allowance", gather_mm, zero=True)
    lining = (
        (TubePart.LINING_GATHER, gather_mm, inner),
        (TubePart.LINING, lining_mm, inner),
        (TubePart.LINING_BRIM, brim_mm, inner),
    )
    outer = (
        (TubePart.OUTER_BRIM, brim_mm, gauge),
        (TubePart.OUTER, depth_mm, gauge),
        (TubePart.OUTER_GATHER, gather_mm, gauge),
    )
    if start == "lining":
        before, after = _segments(lining, 1), outer
    else:
        before, after = _segments(outer[::-1], 1), lining[::-1]
    fold_after = before[-1].last
    segments = before + _segments(after, fold_after + 1)
    return TubeRounds(needles, segments, fold_after, _markers(needles))


def single_tube(needles: int, gauge: Gauge, length_mm: float, gather_mm: float = 0.0) -> TubeRounds:
    """Rounds of a tube of one layer: all of it is seen, but for what its last end gathers in.

    Raises ``ValueError`` for lengths that are negative or not finite, or no length.
    """
    _check_needles(needles)
    _check_length("the length", length_mm)
    _check_length("the gather allowance", gather_mm, zero=True)
    parts = ((TubePart.OUTER, length_mm, gauge), (TubePart.OUTER_GATHER, gather_mm, gauge))
    return TubeRounds(needles, _segments(parts, 1), None, _markers(needles))


def usual_starts(tube: TubeRounds) -> dict[str, int]:
    """Where rounds may start as worn, in stitches after the wearer's left side."""
    return {"left": 0, "back": 3 * tube.needles // 4, "right": tube.needles // 2}


def starting_at(tube: TubeRounds, start: int) -> TubeRounds:
    """The same tube with rounds that start ``start`` stitches after the wearer's left side."""
    markers = tuple(sorted((each - 1 - start) % tube.needles + 1 for each in tube.markers))
    return replace(tube, start=start, markers=markers)


def _markers(needles: int) -> tuple[int, ...]:
    return half_round_markers(needles) if needles % 2 == 0 else (1,)


def _segments(
    parts: Sequence[tuple[TubePart, float, Gauge]], first_round: int
) -> tuple[Segment, ...]:
    segments: list[Segment] = []
    first = first_round
    for part, length_mm, gauge in parts:
        if length_mm == 0:
            continue
        rounds = gauge.rounds_for(length_mm)
        last = first + round(rounds.rounded) - 1
        segments.append(Segment(part, first, last, rounds))
        first = last + 1
    return tuple(segments)


def _check_needles(needles: int) -> None:
    if needles < 1:
        raise ValueError(f"a tube needs at least 1 needle, not {needles}")


def _check_length(what: str, length_mm: float, zero: bool = False) -> None:
    if not math.isfinite(length_mm) or length_mm < 0 or (length_mm == 0 and not zero):
        raise ValueError(f"{what} must be {'0 or more' if zero else 'above 0'}, not {length_mm:g}")
