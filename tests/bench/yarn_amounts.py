"""Published amounts of yarn, and what the program reckons for each.

The file has a point a line: a piece with its size in words, its area in cm², stitches and rows over
10 cm in the fabric itself, the weight of its yarn in words, metres of yarn, and whether they were
used (weighed) or are required (to buy). Points without size or gauge are left out, as are those
whose gauge was assumed and those whose width times length is not their area, by their note, and
whole balls, which are upper bounds.
"""

import csv
import re
from collections.abc import Iterator
from dataclasses import dataclass
from math import sqrt
from pathlib import Path

from bindoff.craft.fabric import Fabric
from bindoff.craft.lengths import CRAFT_LENGTHS
from bindoff.plan.yarn import (
    Ball,
    BindOffKind,
    CastOnKind,
    Purpose,
    Relaxation,
    YarnNeed,
    YarnUse,
    bind_off_yarn,
    cast_on_yarn,
    loop_from_density,
    yarn_need,
)

KEPT = Path(__file__).parents[1] / "plan" / "data" / "yarn_points.tsv"
FABRICS = {
    "stockinette": Fabric.PLAIN,
    "k1p1 rib": Fabric.RIB_1,
    "k2p2 rib": Fabric.RIB_2,
    "other rib": Fabric.RIB,
    "garter": Fabric.GARTER,
    "cables": Fabric.CABLES,
    "stranded": Fabric.STRANDED,
    "slip/mosaic": Fabric.SLIPPED,
    "brioche": Fabric.BRIOCHE,
    "lace": Fabric.LACE,
    "knit-purl texture": Fabric.TEXTURE,
    "single crochet": Fabric.SINGLE_CROCHET,
    "half double crochet": Fabric.HALF_DOUBLE,
}
# The middle of what lists give for a weight: guidelines, common practice, no source.
METRES_IN_100_G = {
    "lace": 800.0, "sock": 420.0, "fingering": 420.0, "sport": 330.0, "DK": 240.0,
    "worsted": 200.0, "heavy worsted": 180.0, "aran": 165.0, "bulky": 115.0, "chunky": 115.0,
    "super bulky": 80.0, "jumbo": 40.0,
}  # fmt: skip
_HOOKED = (Fabric.SINGLE_CROCHET, Fabric.HALF_DOUBLE)
_DOUBTFUL = re.compile(r"\b(?:assumed|tapered)\b")


@dataclass(frozen=True, slots=True)
class Point:
    """A published amount: ``round_cm`` is the way around or across its cast-on edge; ``crowned``
    says that it ends in a crown, which has no such edge to bind off; ``tex`` is that of its weight
    of yarn, grams in a kilometre, and no figure of its ball."""

    id: str
    design: str
    fabric: Fabric
    used: bool
    area_cm2: float
    round_cm: float
    crowned: bool
    stitches: float
    rows: float
    metres: float
    tex: float


def points(file: Path) -> Iterator[Point]:
    """The points that can be reckoned."""
    with file.open(encoding="utf-8") as lines:
        for row in csv.DictReader(lines, delimiter="\t"):
            known = row["fabric"] in FABRICS
            sure = not _DOUBTFUL.search(f"{row.get('piece', '')} {row.get('note', '')}")
            if known and sure and row["basis"] in ("used", "required") and row["counted"] == "yes":
                found = _point(row)
                if found is not None:
                    yield found


def _point(row: dict[str, str]) -> Point | None:
    try:
        stitches, rows, metres = (float(row[k]) for k in ("sts_10cm", "rows_10cm", "metres"))
        loop_cm = float(row["loop_cm"])
    except ValueError:
        return None
    # Where the table counts stitches it gives no area, but the yarn in each: so the area follows.
    area = float(row["area_cm2"] or 0) or metres * 100 / loop_cm / (stitches * rows / 100)
    around = re.search(r"(?:circ |^)(\d+(?:\.\d+)?)", row["size_cm"])
    fabric = FABRICS[row["fabric"]]
    edge = 0.0 if fabric in _HOOKED else float(around[1]) if around else sqrt(area)
    used = row["basis"] == "used"
    crowned = "crown" in row["size_cm"]
    tex = _tex(row.get("yarn_category", ""))
    design = _design(row)
    return Point(row["id"], design, fabric, used, area, edge, crowned, stitches, rows, metres, tex)


def _tex(category: str) -> float:
    """Grams in a kilometre, by the first word in ``category``; an unknown one is taken as DK."""
    word = re.split(r"[,/]", category)[0].strip()
    return 1e5 / METRES_IN_100_G.get(word, METRES_IN_100_G["DK"])


def _design(row: dict[str, str]) -> str:
    """The design that a point is a size of, as the table says, or by fabric, piece and gauge: sizes
    of one have the same; a piece told in several words is one design in all its yarns."""
    if row.get("design"):
        return row["design"]
    piece = row.get("piece", "")
    gauge = "" if " " in piece else f"{float(row['sts_10cm']):.0f}"
    return f"{row['fabric']} {piece} {gauge}"


def amount(point: Point) -> YarnNeed:
    """What the program reckons for the point, knitted in one yarn at the fabric's own gauge."""
    rows = point.rows * (2 if point.fabric is Fabric.BRIOCHE else 1)  # two passes a visible row
    count = point.area_cm2 * point.stitches * rows / 100
    state, fabric = Relaxation.WET, point.fabric
    loop = loop_from_density(point.stitches, rows, state, fabric, fabric)
    plain = loop_from_density(point.stitches, rows, state, Fabric.PLAIN, fabric)
    across, width = round(point.round_cm * point.stitches / 10), 10 * point.round_cm
    swatch_stitches = (CRAFT_LENGTHS["swatch"] / 100) ** 2 * point.stitches * rows
    use = YarnUse(
        stitches=count,
        ends=0 if fabric in _HOOKED else 2,
        # Two yarns in turn: each stitch is passed behind once by the other yarn.
        floats_mm=count * 100 / point.stitches if fabric is Fabric.STRANDED else 0.0,
        cast_on_mm=cast_on_yarn(CastOnKind.LONG_TAIL, width, across, plain),
        bind_off_mm=0.0
        if point.crowned
        else bind_off_yarn(BindOffKind.ORDINARY, width, across, plain),
        swatch_mm=swatch_stitches * loop.mm,
    )
    return yarn_need(use, loop, Ball(100, 200))


def net(need: YarnNeed) -> float:
    """Metres without gauge swatch and reserve."""
    return need.metres - part_of(need, Purpose.SWATCH) - part_of(need, Purpose.RESERVE)


def part_of(need: YarnNeed, purpose: Purpose) -> float:
    """Metres that are needed for ``purpose``."""
    return sum(part.metres for part in need.parts if part.name is purpose)
