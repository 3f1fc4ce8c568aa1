"""What might explain why published amounts lie apart, each tried alone.

The spread of ``tests/bench/yarn_reserve.py`` is that of designs of one fabric about their mean: no
reserve that leaves one of twenty short can print less over in the median than 1.645 such deviations
ask for, were mean and spread known exactly (quantile of the normal distribution). It shrinks only
if something that a pattern states tells designs apart. Here each such thing is fitted by least
squares beside a mean for each fabric, a design counting once:

    logarithm of required over ours = mean of the fabric + slope x log2 of the thing

What a thing is worth is how well it does on designs not seen: each design is left out in turn, mean
and slope are fitted to the others, and the deviation of what is then missed is printed (the
prediction residuals of Allen, 1974: residual / (1 - leverage)). Slopes come with their standard
error; one of less than two errors is no evidence.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from math import exp, log, log2, sqrt
from statistics import fmean
from types import MappingProxyType

import numpy as np

from bindoff.craft.fabric import Fabric
from bindoff.plan.yarn import Purpose
from bindoff.records import Record
from tests.bench.yarn_amounts import Point, amount, net, part_of
from tests.bench.yarn_reserve import APART

ONE_IN_TWENTY = 1.645
"""Deviations above the mean that one in twenty of a normal distribution exceeds."""


OF_MEDIANS = 1.25
"""How much farther medians of a normal distribution stray than its means."""


def _edges(point: Point) -> float:
    need = amount(point)
    return net(need) / part_of(need, Purpose.KNITTING)


THINGS: Mapping[str, Callable[[Point], float]] = MappingProxyType(
    {
        "stitches in a cm": lambda point: log2(point.stitches),
        "rows to stitches (stretched or not)": lambda point: log2(point.rows / point.stitches),
        "yarn for its gauge (weight class)": lambda point: log2(
            sqrt(point.tex * point.stitches * point.rows)
        ),
        "area": lambda point: log2(point.area_cm2),
        "edges and ends to all": lambda point: log2(_edges(point)),
        "a hat, or none": lambda point: float(point.crowned),
    }
)
"""What a pattern states, as a figure of which a design has the mean of its sizes. That a piece is a
hat is 0 or 1; all others are logarithms to the base 2, so that a slope is what doubling adds."""

SWATCHES: Mapping[str, float] = MappingProxyType(
    {"as printed": 1.0, "half a gauge swatch": 0.5, "no gauge swatch": 0.0, "two of them": 2.0}
)
"""How much of our gauge swatch the published amounts are taken to hold."""


class Tried(Record):
    """A thing tried: ``slope`` with its standard ``error`` (0 where nothing is fitted), and the
    ``missed`` deviation on designs not seen, all of logarithms."""

    name: str
    slope: float
    error: float
    missed: float


class Designs(Record):
    """Designs of fabrics that have two at least: the fabric of each, how far required lies above
    ours, and the thing tried."""

    fabrics: tuple[Fabric, ...]
    above: tuple[float, ...]
    things: tuple[float, ...]


def designs_of(points: Iterable[Point], thing: Callable[[Point], float], swatch: float) -> Designs:
    """The designs of required amounts, each once."""
    found: dict[tuple[Fabric, str], list[tuple[float, float]]] = {}
    for point in points:
        if not point.used and point.fabric not in APART:
            need = amount(point)
            ours = net(need) + swatch * part_of(need, Purpose.SWATCH)
            each = log(point.metres / ours), thing(point)
            found.setdefault((point.fabric, point.design), []).append(each)
    fabrics = [fabric for fabric, _ in found]
    several = {key: each for key, each in found.items() if fabrics.count(key[0]) > 1}
    means = [tuple(map(fmean, zip(*each, strict=True))) for each in several.values()]
    return Designs(
        tuple(fabric for fabric, _ in several),
        tuple(above for above, _ in means),
        tuple(each for _, each in means),
    )


def tried(name: str, designs: Designs, *, fitted: bool) -> Tried:
    """The means of fabrics alone, or with a slope beside them where it is ``fitted``."""
    kinds = sorted(set(designs.fabrics))
    columns = [[float(fabric is kind) for fabric in designs.fabrics] for kind in kinds]
    columns += [list(designs.things)] if fitted else []
    known, above = np.array(columns).T, np.array(designs.above)
    inverse = np.linalg.pinv(known.T @ known)
    values = inverse @ known.T @ above
    residual = above - known @ values
    leverage = np.diag(known @ inverse @ known.T)
    # A design that alone tells its fabric from the others has nothing to be foretold by.
    told = leverage < 1 - 1e-9
    missed = sqrt(float(np.mean((residual[told] / (1 - leverage[told])) ** 2)))
    if not fitted:
        return Tried(name, 0.0, 0.0, missed)
    variance = float(residual @ residual) / (len(above) - known.shape[1])
    return Tried(name, float(values[-1]), sqrt(variance * float(inverse[-1, -1])), missed)


def all_tried(points: Sequence[Point]) -> list[Tried]:
    """Means alone, with less and more of a swatch, then every thing beside them."""
    means = [
        tried(name, designs_of(points, lambda _: 0.0, swatch), fitted=False)
        for name, swatch in SWATCHES.items()
    ]
    return means + [
        tried(name, designs_of(points, thing, 1.0), fitted=True) for name, thing in THINGS.items()
    ]


def least_over(spread: float) -> float:
    """How far over, a fraction, the median is of a rule that leaves one of twenty short."""
    return exp(ONE_IN_TWENTY * spread) - 1


def table(points: Sequence[Point], spread: float) -> str:
    """The things tried, and what a reserve can do at the least with a ``spread`` of logarithms
    about the mean of a fabric."""
    lines = [f"{'beside a mean of each fabric':<38}{'doubled adds':>13}{'error':>7}{'missed':>8}"]
    found = all_tried(points)
    for each in found:
        slope = f"{100 * each.slope:+12.0f}%{100 * each.error:>6.0f}%" if each.error else " " * 20
        lines.append(f"{each.name:<38}{slope}{100 * each.missed:>7.1f}%")
    best = min(found, key=lambda each: each.missed)
    lines.append(
        f"\nDesigns not seen are foretold best by: {best.name}. Sizes of one fabric lie"
        f" {100 * spread:.0f} % apart, so a reserve\nthat leaves 1 of 20 short is"
        f" {100 * least_over(spread):+.0f} % in the median at the least; the median of four designs"
        f" strays from\nthat by {100 * OF_MEDIANS * spread / sqrt(4):.0f} %, that of one design by"
        f" {100 * spread:.0f} %."
    )
    return "\n".join(lines)
