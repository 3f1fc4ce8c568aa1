"""Our amounts of yarn against published ones, by fabric: ``python -m tests.bench.yarn POINTS.tsv``.

The file has a point a line: a piece with its size in words, its area in cm², stitches and rows over
10 cm in the fabric itself, metres of yarn, and whether they were used (weighed) or are required (to
buy). Our net amount, edges and ends included, is set against what was used; our printed amount,
with gauge swatch and reserve, against what is required. Points without size or gauge are left out,
as are those whose gauge was assumed and those whose width times length is not their area, by their
note, and whole balls, which are upper bounds. Without a file it takes those kept in the tests.

The reserves come from these points (``tests/bench/yarn_reserve.py`` says how), so their figures
flatter. The last columns tell how it goes with designs not seen: each design in turn is left out,
the reserve is reckoned anew from the others, and only then is the design. A fabric of one design
then has a reserve by the other fabrics alone.
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
from tests.bench.yarn_reserve import Part, designs_of, reserve_of, unseen

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
_HOOKED = (Fabric.SINGLE_CROCHET, Fabric.HALF_DOUBLE)
_DOUBTFUL = re.compile(r"\b(?:assumed|tapered)\b")


@dataclass(frozen=True, slots=True)
class Point:
    """A published amount: ``round_cm`` is the way around or across its cast-on edge; ``crowned``
    says that it ends in a crown, which has no such edge to bind off."""

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
    return Point(row["id"], _design(row), fabric, used, area, edge, crowned, stitches, rows, metres)


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
    return sum(
        part.metres for part in need.parts if part.name not in (Purpose.SWATCH, Purpose.RESERVE)
    )


def ratios(found: Iterable[Point], fabric: Fabric, *, used: bool) -> list[float]:
    """Ours over the published: the net amount over what was used, else the printed one."""
    chosen = [point for point in found if point.fabric is fabric and point.used is used]
    needs = [(amount(point), point.metres) for point in chosen]
    return [(net(need) if used else need.metres) / metres for need, metres in needs]


def parts_of(found: Iterable[Point]) -> list[Part]:
    """The required amounts, as fractions of each."""
    return [_part(point) for point in found if not point.used]


def _part(point: Point) -> Part:
    need = amount(point)
    swatch = sum(part.metres for part in need.parts if part.name is Purpose.SWATCH)
    return Part(point.fabric, point.design, net(need) / point.metres, swatch / point.metres)


def table(found: list[Point]) -> str:
    """Bias and spread by fabric, in percent."""
    head = f"{'fabric':<23}{'factor':>7}{'reserve':>8}{'used':>6}{'net':>5}{'spread':>7}"
    head += f"{'required':>9}{'printed':>8}{'spread':>7}{'least':>6}{'under':>6}"
    lines = [head + f"{'designs':>8}{'asked':>6}{'unseen':>8}{'least':>6}{'under':>8}"]
    parts = parts_of(found)
    held: list[float] = []
    for fabric in Fabric:
        used, wanted = (ratios(found, fabric, used=each) for each in (True, False))
        if used or wanted:
            rule, new = FABRIC_YARN[fabric], unseen(parts, fabric)
            held += new
            lines.append(
                f"{fabric.value:<23}{rule.own:>7.2f}{100 * rule.reserve:>7.0f}%"
                f"{len(used):>6}{_bias(used):>5}{_spread(used):>7}"
                f"{len(wanted):>9}{_bias(wanted):>8}{_spread(wanted):>7}"
                f"{_least(wanted):>6}{_short(wanted):>6}"
                f"{len(designs_of(parts).get(fabric, {})):>8}"
                f"{100 * reserve_of(parts, fabric):>5.0f}%"
                f"{_bias(new):>8}{_least(new):>6}{_short(new):>8}"
            )
    if held:
        lines.append(
            f"\nDesigns not seen, all fabrics: {_bias(held)} % in the median, {_short(held)} under"
            f" ({100 * sum(ratio < 1 for ratio in held) / len(held):.0f} %)."
        )
    return "\n".join(lines)


def _least(found: list[float]) -> str:
    return f"{100 * min(found) - 100:+.0f}" if found else "–"


def _short(found: list[float]) -> str:
    return f"{sum(ratio < 1 for ratio in found)}/{len(found)}" if found else "–"


def _bias(found: list[float]) -> str:
    return f"{100 * median(found) - 100:+.0f}" if found else "–"


def _spread(found: list[float]) -> str:
    return f"{100 * stdev(found):.0f}" if len(found) > 1 else "–"


if __name__ == "__main__":
    print(table([*points(Path(sys.argv[1]) if len(sys.argv) > 1 else KEPT)]))
