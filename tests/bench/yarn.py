"""Our amounts of yarn against published ones, by fabric: ``python -m tests.bench.yarn POINTS.tsv``.

The file has a point a line: a piece with its size in words, its area in cm², stitches and rows over
10 cm in the fabric itself, metres of yarn, and whether they were used (weighed) or are required (to
buy). Our net amount, edges and ends included, is set against what was used; our printed amount,
with gauge swatch and reserve, against what is required. Points without size or gauge are left out,
as are whole balls, which are upper bounds. Without a file it takes those kept in the tests.

The reserves were chosen with these points before our eyes, so their figures flatter. The last three
columns tell how it goes with designs not seen: each design in turn is left out, the reserve is
chosen anew from the others by the rule in ``chosen_reserve``, and only then is the design reckoned.
Sizes of one design are no evidence for each other, and a fabric of one design none for itself.
"""

import csv
import re
import sys
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from math import sqrt
from pathlib import Path
from statistics import median, stdev
from typing import NamedTuple

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
    "half double crochet": Fabric.HALF_DOUBLE,
}
_HOOKED = (Fabric.SINGLE_CROCHET, Fabric.HALF_DOUBLE)

_LEAST_RESERVE, _FOR_UNSEEN, _MOST_OVER = 0.08, 0.07, 1.25
_ONE_IN = 20


@dataclass(frozen=True, slots=True)
class Point:
    """A published amount: ``round_cm`` is the way around or across its cast-on edge."""

    id: str
    design: str
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
            known = row["fabric"] in FABRICS
            if known and row["basis"] in ("used", "required") and row["counted"] == "yes":
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
    return Point(row["id"], _design(row), fabric, used, area, edge, stitches, rows, metres)


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


class Part(NamedTuple):
    """Of a required amount: what we reckon without reserve, and the swatch, as fractions of it."""

    net: float
    swatch: float

    def printed(self, reserve: float) -> float:
        """What is printed with so much in reserve."""
        return self.net * (1 + reserve) + self.swatch


def by_design(found: Iterable[Point], fabric: Fabric) -> dict[str, list[Part]]:
    """The required amounts of a fabric, by design."""
    designs: dict[str, list[Part]] = {}
    for point in found:
        if point.fabric is fabric and not point.used:
            need = amount(point)
            swatch = sum(part.metres for part in need.parts if part.name is Purpose.SWATCH)
            part = Part(net(need) / point.metres, swatch / point.metres)
            designs.setdefault(point.design, []).append(part)
    return designs


def chosen_reserve(parts: Sequence[Part]) -> float:
    """The reserve, in whole percents, that these amounts ask for: the least, and no less than 8,
    that leaves at most one in twenty short, and seven more for designs not seen, as far as half of
    them stay within a quarter over."""
    allowed = len(parts) / _ONE_IN
    tried = [percent / 100 for percent in range(round(100 * _LEAST_RESERVE), 100)]
    enough = next(r for r in tried if sum(each.printed(r) < 1 for each in parts) <= allowed)
    more = [r for r in tried if enough <= r <= enough + _FOR_UNSEEN + 1e-9]
    bounded = [r for r in more if median(each.printed(r) for each in parts) <= _MOST_OVER]
    return bounded[-1] if bounded else enough


def unseen(found: Iterable[Point], fabric: Fabric) -> list[float]:
    """Printed over required of each design by a reserve chosen without it; none for one design."""
    designs = by_design(found, fabric)
    ratios: list[float] = []
    for left_out, parts in designs.items():
        others = [part for name, each in designs.items() if name != left_out for part in each]
        if others:
            reserve = chosen_reserve(others)
            ratios += [part.printed(reserve) for part in parts]
    return ratios


def table(found: list[Point]) -> str:
    """Bias and spread by fabric, in percent."""
    head = f"{'fabric':<23}{'factor':>7}{'reserve':>8}{'used':>6}{'net':>5}{'spread':>7}"
    head += f"{'required':>9}{'printed':>8}{'spread':>7}{'least':>6}{'under':>6}"
    lines = [head + f"{'designs':>8}{'unseen':>8}{'under':>8}"]
    held: list[float] = []
    for fabric in Fabric:
        used, wanted = (ratios(found, fabric, used=each) for each in (True, False))
        if used or wanted:
            rule, under = FABRIC_YARN[fabric], sum(ratio < 1 for ratio in wanted)
            new = unseen(found, fabric)
            held += new
            lines.append(
                f"{fabric.value:<23}{rule.own:>7.2f}{100 * rule.reserve:>7.0f}%"
                f"{len(used):>6}{_bias(used):>5}{_spread(used):>7}"
                f"{len(wanted):>9}{_bias(wanted):>8}{_spread(wanted):>7}"
                f"{f'{100 * min(wanted) - 100:+.0f}' if wanted else '–':>6}{under:>6}"
                f"{len(by_design(found, fabric)):>8}{_bias(new):>8}{_short(new):>8}"
            )
    if held:
        lines.append(
            f"\nDesigns not seen, all fabrics: {_bias(held)} % in the median, {_short(held)} under"
            f" ({100 * sum(ratio < 1 for ratio in held) / len(held):.0f} %)."
        )
    return "\n".join(lines)


def _short(found: list[float]) -> str:
    return f"{sum(ratio < 1 for ratio in found)}/{len(found)}" if found else "–"


def _bias(found: list[float]) -> str:
    return f"{100 * median(found) - 100:+.0f}" if found else "–"


def _spread(found: list[float]) -> str:
    return f"{100 * stdev(found):.0f}" if len(found) > 1 else "–"


if __name__ == "__main__":
    print(table([*points(Path(sys.argv[1]) if len(sys.argv) > 1 else KEPT)]))
