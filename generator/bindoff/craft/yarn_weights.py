"""Yarn weight categories 0 to 7. The ranges are guidelines; a pattern's own gauge rules."""

import math

from bindoff.records import Record

SOURCE = "Craft Yarn Council, Standard Yarn Weight System"


class YarnWeight(Record):
    """A category: stitches over 4 in of stockinette stitch and the tools usually taken.

    Ranges run from low to high; ``None`` is an open end. ``needle_us`` and ``hook_us`` print the
    range as the standard names it.
    """

    number: int
    name: str
    words: tuple[str, ...]
    stitches_low: int | None
    stitches_high: int
    needle_mm_low: float
    needle_mm_high: float | None
    needle_us: tuple[str, str | None]
    hook_mm_low: float
    hook_mm_high: float | None
    hook_us: tuple[str, str | None]
    source: str = SOURCE


# Categories 6 and 7 are given from memory of the standard's current edition.
YARN_WEIGHTS = (
    YarnWeight(
        number=0,
        name="Lace",
        words=("thread", "cobweb", "light fingering"),
        stitches_low=33,
        stitches_high=40,
        needle_mm_low=1.5,
        needle_mm_high=2.25,
        needle_us=("000", "1"),
        hook_mm_low=1.4,
        hook_mm_high=2.25,
        hook_us=("steel 8", "B-1"),
    ),
    YarnWeight(
        number=1,
        name="Super Fine",
        words=("sock", "fingering", "baby"),
        stitches_low=27,
        stitches_high=32,
        needle_mm_low=2.25,
        needle_mm_high=3.25,
        needle_us=("1", "3"),
        hook_mm_low=2.25,
        hook_mm_high=3.5,
        hook_us=("B-1", "E-4"),
    ),
    YarnWeight(
        number=2,
        name="Fine",
        words=("sport", "baby"),
        stitches_low=23,
        stitches_high=26,
        needle_mm_low=3.25,
        needle_mm_high=3.75,
        needle_us=("3", "5"),
        hook_mm_low=3.5,
        hook_mm_high=4.5,
        hook_us=("E-4", "7"),
    ),
    YarnWeight(
        number=3,
        name="Light",
        words=("DK", "light worsted"),
        stitches_low=21,
        stitches_high=24,
        needle_mm_low=3.75,
        needle_mm_high=4.5,
        needle_us=("5", "7"),
        hook_mm_low=4.5,
        hook_mm_high=5.5,
        hook_us=("7", "I-9"),
    ),
    YarnWeight(
        number=4,
        name="Medium",
        words=("worsted", "afghan", "aran"),
        stitches_low=16,
        stitches_high=20,
        needle_mm_low=4.5,
        needle_mm_high=5.5,
        needle_us=("7", "9"),
        hook_mm_low=5.5,
        hook_mm_high=6.5,
        hook_us=("I-9", "K-10½"),
    ),
    YarnWeight(
        number=5,
        name="Bulky",
        words=("chunky", "craft", "rug"),
        stitches_low=12,
        stitches_high=15,
        needle_mm_low=5.5,
        needle_mm_high=8.0,
        needle_us=("9", "11"),
        hook_mm_low=6.5,
        hook_mm_high=9.0,
        hook_us=("K-10½", "M-13"),
    ),
    YarnWeight(
        number=6,
        name="Super Bulky",
        words=("roving",),
        stitches_low=7,
        stitches_high=11,
        needle_mm_low=8.0,
        needle_mm_high=12.75,
        needle_us=("11", "17"),
        hook_mm_low=9.0,
        hook_mm_high=15.0,
        hook_us=("M-13", "Q"),
    ),
    YarnWeight(
        number=7,
        name="Jumbo",
        words=("jumbo", "roving"),
        stitches_low=None,
        stitches_high=6,
        needle_mm_low=12.75,
        needle_mm_high=None,
        needle_us=("17", None),
        hook_mm_low=15.0,
        hook_mm_high=None,
        hook_us=("Q", None),
    ),
)


def yarn_weight(number: int) -> YarnWeight:
    """The category of that number. Raises ``ValueError`` outside 0 to 7."""
    for weight in YARN_WEIGHTS:
        if weight.number == number:
            return weight
    raise ValueError(f"yarn weights run from 0 to 7; there is no {number}")


def category_for(stitches_per_10_cm: float) -> tuple[YarnWeight, ...]:
    """The categories a stockinette gauge may stand for, finest first; never empty.

    4 in and 10 cm are taken as the same length, as ball bands do. Where two ranges overlap both
    are given, and where a gauge falls between two ranges, both neighbours. Raises ``ValueError``
    for a gauge that is not positive and finite.
    """
    gauge = stitches_per_10_cm
    if not math.isfinite(gauge) or gauge <= 0:
        raise ValueError(f"a gauge must be above 0 stitches, not {gauge:g}")
    fitting = tuple(weight for weight in YARN_WEIGHTS if _within(weight, gauge))
    if fitting:
        return fitting
    finer = [w for w in YARN_WEIGHTS if w.stitches_low is not None and w.stitches_low > gauge]
    coarser = [w for w in YARN_WEIGHTS if w.stitches_high < gauge]
    return (*finer[-1:], *coarser[:1])


def _within(weight: YarnWeight, gauge: float) -> bool:
    return (weight.stitches_low or 0) <= gauge <= weight.stitches_high
