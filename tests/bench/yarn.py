"""Our amounts of yarn against published ones, by fabric: ``python -m tests.bench.yarn POINTS.tsv``.

The file has a point a line: a piece with its size in words, its area in cm², stitches and rows over
10 cm in the fabric itself, metres of yarn, and whether they were used (weighed) or are required (to
buy). Our net amount, edges and ends included, is set against what was used; our printed amount,
with gauge swatch and reserve, against what is required. Points without size or gauge are left out,
as are whole balls, which are upper bounds. Without a file it takes those kept in the tests.
"""

import csv
import re
import sys
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from math import sqrt
from pathlib import Path
from statistics import median, stdev

from bindoff.craft.fabric import FABRIC_YARN, Fabric
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
}


@dataclass(frozen=True, slots=True)
class Point:
    """A published amount: ``round_cm`` is the way around or across its cast-on edge."""

    id: str
    fabric: Fabric
    used: bool
    area_cm2: float
    round_cm: float
    stitches: float
    rows: float
    metres: float


def points(file: Path) -> Iterator[Point]:
    """The points that can be reckoned."""
    with file.open(encoding="utf-8") as lines:
        for row in csv.DictReader(lines, delimiter="\t"):
            if row["basis"] in ("used", "required") and row["counted"] == "yes":
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
    crochet = row["fabric"] == "single crochet"
    edge = 0.0 if crochet else float(around[1]) if around else sqrt(area)
    fabric = FABRICS[row["fabric"]]
    used = row["basis"] == "used"
    return Point(row["id"], fabric, used, area, edge, stitches, rows, metres)


def amount(point: Point) -> YarnNeed:
    """What the program reckons for the point, knitted in one yarn at the fabric's own gauge."""
    rows = point.rows * (2 if point.fabric is Fabric.BRIOCHE else 1)  # two passes a visible row
    count = point.area_cm2 * point.stitches * rows / 100
    state, fabric = Relaxation.WET, point.fabric
    loop = loop_from_density(point.stitches, rows, state, fabric, fabric)
    plain = loop_from_density(point.stitches, rows, state, Fabric.PLAIN, fabric)
    crochet = fabric is Fabric.SINGLE_CROCHET
    across, width = round(point.round_cm * point.stitches / 10), 10 * point.round_cm
    swatch_stitches = (CRAFT_LENGTHS["swatch"] / 100) ** 2 * point.stitches * rows
    use = YarnUse(
        stitches=count,
        ends=0 if crochet else 2,
        # Two yarns in turn: each stitch is passed behind once by the other yarn.
        floats_mm=count * 100 / point.stitches if fabric is Fabric.STRANDED else 0.0,
        cast_on_mm=cast_on_yarn(CastOnKind.LONG_TAIL, width, across, plain),
        bind_off_mm=bind_off_yarn(BindOffKind.ORDINARY, width, across, plain),
        swatch_mm=swatch_stitches * loop.mm,
    )
    return yarn_need(use, loop, Ball(100, 200))


def net(need: YarnNeed) -> float:
    """Metres without gauge swatch and reserve."""
    return sum(
        part.metres for part in need.parts if part.name not in (Purpose.SWATCH, Purpose.RESERVE)
    )


def ratios(found: Iterable[Point], fabric: Fabric, *, used: bool) -> list[float]:
    """Ours over the published: the net amount over what was used, else the printed one."""
    chosen = [point for point in found if point.fabric is fabric and point.used is used]
    needs = [(amount(point), point.metres) for point in chosen]
    return [(net(need) if used else need.metres) / metres for need, metres in needs]


def table(found: list[Point]) -> str:
    """Bias and spread by fabric, in percent."""
    head = f"{'fabric':<26}{'factor':>7}{'used':>6}{'net':>7}{'spread':>8}"
    lines = [head + f"{'required':>10}{'printed':>9}{'spread':>8}{'least':>7}{'under':>7}"]
    for fabric in Fabric:
        used, wanted = (ratios(found, fabric, used=each) for each in (True, False))
        if used or wanted:
            under = sum(ratio < 1 for ratio in wanted)
            lines.append(
                f"{fabric.value:<26}{FABRIC_YARN[fabric].own:>7.2f}{len(used):>6}{_bias(used):>7}"
                f"{_spread(used):>8}{len(wanted):>10}{_bias(wanted):>9}{_spread(wanted):>8}"
                f"{f'{100 * min(wanted) - 100:+.0f}' if wanted else '–':>7}{under:>7}"
            )
    return "\n".join(lines)


def _bias(found: list[float]) -> str:
    return f"{100 * median(found) - 100:+.0f}" if found else "–"


def _spread(found: list[float]) -> str:
    return f"{100 * stdev(found):.0f}" if len(found) > 1 else "–"


if __name__ == "__main__":
    print(table([*points(Path(sys.argv[1]) if len(sys.argv) > 1 else KEPT)]))
