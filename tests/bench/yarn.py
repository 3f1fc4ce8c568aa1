"""Our amounts of yarn against published ones, by fabric: ``python -m tests.bench.yarn POINTS.tsv``.

Our net amount, edges and ends included, is set against what was used; our printed amount, with
gauge swatch and reserve, against what is required. ``tests/bench/yarn_amounts.py`` says what the
file holds and which points are left out. Without a file it takes those kept in the tests.

The reserves come from these points (``tests/bench/yarn_reserve.py`` says how), so their figures
flatter. The last columns tell how it goes with designs not seen: each design in turn is left out,
the reserve is reckoned anew from the others, and only then is the design. A fabric of one design
then has a reserve by the other fabrics alone. What might explain the spread is tried below the
table (``tests/bench/yarn_spread.py``).
"""

import sys
from collections.abc import Iterable
from pathlib import Path
from statistics import median, stdev

from bindoff.craft.fabric import FABRIC_YARN, Fabric
from bindoff.plan.yarn import Purpose
from tests.bench import yarn_spread
from tests.bench.yarn_amounts import KEPT, Point, amount, net, part_of, points
from tests.bench.yarn_reserve import Part, designs_of, reserve_of, unseen
from tests.bench.yarn_rules import spread_of


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
    swatch = part_of(need, Purpose.SWATCH) / point.metres
    return Part(point.fabric, point.design, net(need) / point.metres, swatch)


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
    kept = [*points(Path(sys.argv[1]) if len(sys.argv) > 1 else KEPT)]
    print(table(kept))
    print(f"\n{yarn_spread.table(kept, spread_of(parts_of(kept))[0])}")
