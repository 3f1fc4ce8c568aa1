"""Yarn in a stitch of each fabric, beside a stitch of plain knitting.

Two factors, since a pattern may state its gauge in the fabric itself or in stockinette. ``own``
multiplies Munden's loop √(Ks ÷ S) at the fabric's own relaxed gauge: ribbing draws in, so there are
more stitches in a cm² than its loops are short. ``beside`` multiplies the loop of a plain stitch of
the same yarn on the same needles: a purl takes as much as a knit, so for ribbing it is 1. Applied
to a gauge of stretched ribbing, ``own`` would count the same thing twice.

The ranges are what published amounts of yarn support (patterns, tables and weighed swatches, 84
points with size and both gauges); where one says so it is thin or lacking.
"""

from collections.abc import Mapping
from enum import StrEnum
from functools import lru_cache
from math import sqrt

from bindoff import regex as re
from bindoff.records import Record


class Fabric(StrEnum):
    """How a step is worked, as far as it matters to the yarn it takes."""

    PLAIN = "plain knitting"
    RIB_1 = "k1, p1 rib"
    RIB_2 = "k2, p2 rib"
    RIB = "other ribbing"
    GARTER = "garter stitch"
    TEXTURE = "knit and purl texture"
    CABLES = "cables"
    STRANDED = "stranded knitting"
    SLIPPED = "slip-stitch patterns"
    BRIOCHE = "brioche"
    LACE = "lace"
    SINGLE_CROCHET = "single crochet (US)"
    HALF_DOUBLE = "half double crochet (US)"
    DOUBLE_CROCHET = "double crochet and taller (US)"
    UNKNOWN = "a fabric we have no figure for"


class Evidence(StrEnum):
    """How well a factor is founded."""

    GOOD = "good"
    FAIR = "fair"
    WEAK = "weak"
    NONE = "none"


class FabricYarn(Record):
    """The factors of a fabric; ``low`` and ``high`` are the honest range of ``own``.

    ``reserve``: the fraction to buy beyond what is reckoned and a gauge swatch, with which the next
    design of the fabric is expected to be printed a quarter over its published amount, so that one
    of twenty is short at the most (``tests/bench/yarn_reserve.py``); that of a new fabric where no
    amount is published; without any figure our judgement. ``each_stitch``: whether every stitch on
    the needle counts in each row, slipped ones too, as published gauges count them; else the loops
    drawn. ``designs``: of how many designs the evidence is; sizes of one are no evidence for each
    other.
    """

    own: float
    low: float
    high: float
    beside: float
    reserve: float
    evidence: Evidence
    source: str
    designs: int
    each_stitch: bool = False


# Brioche is published by visible rows (1.6 at that gauge); each is worked in two passes over all
# stitches, and a gauge of the passes has twice as many rows: 1.6 x √2 ÷ 2.
_BRIOCHE_PASS = sqrt(2) / 2

FABRIC_YARN: Mapping[Fabric, FabricYarn] = {
    Fabric.PLAIN: FabricYarn(
        1.0, 0.9, 1.15, 1.0, 0.11, Evidence.GOOD,
        "Munden 1959; published tables and patterns, 21 points of 7 designs", 7,
    ),
    Fabric.RIB_1: FabricYarn(
        1.2, 1.15, 1.35, 1.0, 0.19, Evidence.WEAK,
        "one weighed hat in nine sizes; purl loop 0.96 of a knit one on one loom", 1,
    ),
    Fabric.RIB_2: FabricYarn(
        1.3, 1.2, 1.4, 1.0, 0.09, Evidence.WEAK,
        "one published design in four sizes, its stated tenth to seventh of reserve taken off", 1,
    ),
    Fabric.RIB: FabricYarn(
        1.25, 1.15, 1.4, 1.0, 0.19, Evidence.WEAK, "one weighed k3, p1 hat", 1
    ),
    Fabric.GARTER: FabricYarn(
        1.1, 0.95, 1.25, 1.0, 0.19, Evidence.GOOD,
        "published patterns, 11 points of 8 designs; two measured swatches 1.16 and 1.21, one of"
        " them as heavy as stockinette of as many stitches", 8,
    ),
    Fabric.TEXTURE: FabricYarn(
        1.0, 0.8, 1.1, 1.0, 0.1, Evidence.WEAK, "one published design, blocked hard", 1
    ),
    Fabric.CABLES: FabricYarn(
        1.2, 1.1, 1.4, 1.1, 0.28, Evidence.FAIR,
        "published patterns, 13 points of 10 designs, one of them taken as measured; beside"
        " stockinette common practice, no source, give or take 20 %", 10,
    ),
    Fabric.STRANDED: FabricYarn(
        1.08, 1.0, 1.4, 1.08, 0.52, Evidence.WEAK,
        "one weighed piece and six published amounts, strands behind counted apart: 1.35 with them",
        4,
    ),
    Fabric.SLIPPED: FabricYarn(
        1.2, 1.1, 1.5, 1.0, 0.23, Evidence.WEAK, "published patterns, 4 points of 4 designs",
        4, True,
    ),
    Fabric.BRIOCHE: FabricYarn(
        1.6 * _BRIOCHE_PASS, 1.45 * _BRIOCHE_PASS, 1.9 * _BRIOCHE_PASS, 0.94, 0.19, Evidence.FAIR,
        "published patterns, 7 points of 6 designs: 1.6 by visible rows, two passes each",
        6, True,
    ),
    Fabric.LACE: FabricYarn(
        1.0, 0.8, 1.35, 1.0, 0.2, Evidence.WEAK,
        "published patterns, 4 points of 3 designs: 0.95 blocked, 1.25 unstretched", 3,
    ),
    Fabric.SINGLE_CROCHET: FabricYarn(
        1.8, 1.75, 1.85, 2.1, 0.19, Evidence.FAIR, "two measured swatches", 2
    ),
    Fabric.HALF_DOUBLE: FabricYarn(
        2.05, 1.9, 2.2, 3.1, 0.19, Evidence.WEAK, "one measured swatch", 1
    ),
    Fabric.DOUBLE_CROCHET: FabricYarn(
        2.6, 2.4, 2.9, 4.7, 0.3, Evidence.NONE,
        "unproven: two swatches, of 1.07 times the yarn of stockinette of their area and of 0.124 m"
        " in a cm² of worsted, at a gauge that is assumed", 0,
    ),
    Fabric.UNKNOWN: FabricYarn(
        1.0, 0.8, 2.0, 1.0, 0.3, Evidence.NONE, "no figure found: taken as plain knitting", 0
    ),
}  # fmt: skip

# Yarn of a row of crochet over the length of the edge it is worked along: measured in worsted yarn
# with a 5 mm hook, the chain left aside. Taller ones grow as these do: common practice, no source.
EDGE_TIMES: Mapping[str, float] = {
    "sl st": 3.5,
    "sc": 5.7,
    "hdc": 10.8,
    "dc": 15.5,
    "tr": 20.3,
    "dtr": 25.0,
    "trtr": 30.0,
}

HOOKED = frozenset({Fabric.SINGLE_CROCHET, Fabric.HALF_DOUBLE, Fabric.DOUBLE_CROCHET})
"""Fabrics made with a hook."""

# The words that a gauge is worked in, the more particular first.
_WORDS: tuple[tuple[str, Fabric], ...] = (
    (r"brioche|fisherman", Fabric.BRIOCHE),
    (r"stranded|colou?r ?work|fair isle|two colou?rs", Fabric.STRANDED),
    (r"slip(?:ped)?[- ]?stitch|mosaic|linen stitch|slipped", Fabric.SLIPPED),
    (r"cable|aran pattern", Fabric.CABLES),
    (r"k ?1,? ?p ?1|1 ?[x×] ?1|single rib", Fabric.RIB_1),
    (r"k ?2,? ?p ?2|2 ?[x×] ?2|double rib|twin rib", Fabric.RIB_2),
    (r"\brib", Fabric.RIB),
    (r"garter", Fabric.GARTER),
    (r"lace|eyelet|openwork", Fabric.LACE),
    (r"seed|moss|basket|texture|knit[- ]purl", Fabric.TEXTURE),
    (r"half (?:double|treble) crochet|\bhdc\b|\bhtr\b", Fabric.HALF_DOUBLE),
    (r"single crochet|\bsc\b", Fabric.SINGLE_CROCHET),
    (r"(?:double|treble) crochet|\bd?tr\b|\bdc\b", Fabric.DOUBLE_CROCHET),
    (r"stockinette|stocking|\bst st\b|plain|jersey|^knit$", Fabric.PLAIN),
    (r"crochet|\bentrelac|double knit|looped|honeycomb|tuck", Fabric.UNKNOWN),
)
# The UK's double crochet is the single crochet of the US, and its treble the double crochet there.
_UK_WORDS: tuple[tuple[str, Fabric], ...] = (
    (r"half treble|\bhtr\b", Fabric.HALF_DOUBLE),
    (r"double crochet|\bdc\b", Fabric.SINGLE_CROCHET),
)
_STRETCHED = re.compile(r"(?<!un)stretched", re.IGNORECASE)


def fabric_of_gauge(worked: str, *, uk: bool = False) -> Fabric:
    """The fabric that a gauge says it was worked in; plain where it says none that is known.

    A gauge of stretched fabric is taken as plain too: it makes up for what ribbing draws in.
    """
    named = fabric_named(worked, uk=uk)
    return Fabric.PLAIN if _STRETCHED.search(worked) else named or Fabric.PLAIN


@lru_cache(maxsize=64)
def fabric_named(worked: str, *, uk: bool = False) -> Fabric | None:
    """The fabric that a gauge names, stretched or not; ``uk``: in the words of the UK."""
    words = (*_UK_WORDS, *_WORDS) if uk else _WORDS
    found = (fabric for each, fabric in words if re.search(each, worked, re.IGNORECASE))
    return next(found, None)
