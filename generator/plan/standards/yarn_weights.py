"""Yarn weight categories 0 to 7. The ranges are guidelines; a pattern's own gauge rules."""

import math
from dataclasses import dataclass

SOURCE = "Craft Yarn Council, Standard Yarn Weight System"


@dataclass(frozen=True, slots=True)
class YarnWeight:
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
        0,
        "Lace",
        ("thread", "cobweb", "light fingering"),
        33,
        40,
        1.5,
        2.25,
        ("000", "1"),
        1.4,
        2.25,
        ("steel 8", "B-1"),
    ),
    YarnWeight(
        1,
        "Super Fine",
        ("sock", "fingering", "baby"),
        27,
        32,
        2.25,
        3.25,
        ("1", "3"),
        2.25,
        3.5,
        ("B-1", "E-4"),
    ),
    YarnWeight(
        2, "Fine", ("sport", "baby"), 23, 26, 3.25, 3.75, ("3", "5"), 3.5, 4.5, ("E-4", "7")
    ),
    YarnWeight(
        3,
        "Light",
        ("DK", "light worsted"),
        21,
        24,
        3.75,
        4.5,
        ("5", "7"),
        4.5,
        5.5,
        ("7", "I-9"),
    ),
    YarnWeight(
        4,
        "Medium",
        ("worsted", "afghan", "aran"),
        16,
        20,
        4.5,
        5.5,
        ("7", "9"),
        5.5,
        6.5,
        ("I-9", "K-10½"),
    ),
    YarnWeight(
        5,
        "Bulky",
        ("chunky", "craft", "rug"),
        12,
        15,
        5.5,
        8.0,
        ("9", "11"),
        6.5,
        9.0,
        ("K-10½", "M-13"),
    ),
    YarnWeight(
        6, "Super Bulky", ("roving",), 7, 11, 8.0, 12.75, ("11", "17"), 9.0, 15.0, ("M-13", "Q")
    ),
    YarnWeight(
        7, "Jumbo", ("jumbo", "roving"), None, 6, 12.75, None, ("17", None), 15.0, None, ("Q", None)
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
