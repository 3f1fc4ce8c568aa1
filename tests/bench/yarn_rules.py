"""Rules of reserve, judged on designs not seen: ``python -m tests.bench.yarn_rules``.

The aims pull at opposite ends: no fabric short in more than one of twenty, none over by more than a
quarter in the median. Each rule is judged by leaving out one design at a time, in all its sizes
(``unseen`` in ``tests/bench/yarn_reserve.py``): how many of the designs left out are short, where a
design in three sizes counts a third for each; how many fabrics are more than a quarter over; and by
how much, in the mean of all fabrics.

``missed`` is what a rule misses both aims by, each as a share of itself: short beyond one of
twenty, and over beyond a quarter. Rules that keep one of twenty lie within 0.03 of each other: a
point or two in the medians of fabrics of one design, as good as the same. All others miss by far
more.

What is left is no fault of a rule. ``best_chance`` says how often any reserve could keep both aims
in a fabric, were its mean and the spread about it known exactly: of n designs not seen, fewer than
twenty, all must lie below the limit, and the middle one no more than a quarter below it.
"""

import sys
from collections.abc import Callable, Mapping, Sequence
from math import comb, exp, log, prod, sqrt
from pathlib import Path
from statistics import NormalDist, fmean, median
from types import MappingProxyType

from scipy.optimize import minimize_scalar
from scipy.stats import t

from bindoff.craft.fabric import Fabric
from bindoff.records import Record
from tests.bench.yarn_amounts import KEPT, points
from tests.bench.yarn_reserve import (
    APART,
    BORROWED,
    MOST_OVER,
    ONE_IN,
    Part,
    Rule,
    designs_of,
    means_of,
    reserve_of,
    unseen,
)


class Judged(Record):
    """How a rule does on designs not seen: the share of them ``short``, how many ``fabrics`` are
    more than a quarter over, and how far ``beyond`` a quarter fabrics are in the mean."""

    name: str
    short: float
    fabrics: int
    beyond: float

    @property
    def missed(self) -> float:
        """By how much both aims are missed, each as a share of itself."""
        return max(0.0, self.short * ONE_IN - 1) + self.beyond / (MOST_OVER - 1)


def spread_of(parts: Sequence[Part]) -> tuple[float, int]:
    """The deviation of designs about the mean of their fabric, and its degrees of freedom."""
    means = [found for fabric, found in means_of(parts).items() if fabric not in APART]
    freedom = sum(len(found) - 1 for found in means)
    squares = sum((each - fmean(found)) ** 2 for found in means for each in found)
    return sqrt(squares / freedom), freedom


def _drawn(designs: float, above: Callable[[float, int], float]) -> Rule:
    """A rule that lies by ``above``, of the deviation and its freedom, over the mean of a fabric
    that is drawn towards that of all as by so many ``designs`` more."""

    def rule(parts: Sequence[Part], fabric: Fabric) -> float:
        means = means_of(parts)
        own, deviation = means.get(fabric, []), spread_of(parts)
        every = [each for other, found in means.items() if other not in APART for each in found]
        mean = fmean(own) if own and fabric in APART else fmean(every)
        mean = (sum(own) + designs * mean) / (len(own) + designs)
        return max(exp(mean + above(*deviation)) - 1, 0.0)

    return rule


def _quarter(*_: float) -> float:
    return log(MOST_OVER)


def _one_in_twenty(deviation: float, freedom: int) -> float:
    return float(t.ppf(1 - 1 / ONE_IN, freedom)) * deviation


RULES: Mapping[str, Rule] = MappingProxyType(
    {
        "in use": reserve_of,
        "drawn as by one design": _drawn(1, _quarter),
        "drawn as by four designs": _drawn(4, _quarter),
        "one mean for all fabrics": _drawn(1000, _quarter),
        "each fabric's own mean": _drawn(0.001, _quarter),
        "short in one of twenty, by spread": _drawn(BORROWED, _one_in_twenty),
        "midway between both aims": _drawn(BORROWED, lambda *_: log(MOST_OVER) / 2),
        "12 % for all": lambda *_: 0.12,
        "20 % for all": lambda *_: 0.2,
    }
)


def judged(name: str, rule: Rule, parts: Sequence[Part]) -> Judged:
    """What a rule does on each design, knowing the others alone."""
    short: list[float] = []
    over: list[float] = []
    for fabric, designs in designs_of(parts).items():
        held = unseen(parts, fabric, rule)
        over.append(max(0.0, median(held) - MOST_OVER))
        for sizes in designs.values():
            of_design, held = held[: len(sizes)], held[len(sizes) :]
            short.append(fmean(ratio < 1 for ratio in of_design))
    return Judged(name, fmean(short), sum(each > 0 for each in over), fmean(over))


def best_chance(designs: int, spread: float) -> float:
    """The most, over all reserves, of the chance that of so many designs (fewer than 20) none is
    short and no more than half lie over by more than a quarter, with a ``spread`` of logarithms
    about a mean that is known."""
    of_designs = NormalDist(0.0, spread).cdf

    def chance(limit: float) -> float:
        over, short = of_designs(limit - log(MOST_OVER)), 1 - of_designs(limit)
        return sum(
            comb(designs, n) * over**n * (1 - over - short) ** (designs - n)
            for n in range(designs // 2 + 1)
        )

    found = minimize_scalar(lambda limit: -chance(limit), bounds=(0, 3 * spread), method="bounded")
    return -float(found.fun)


def table(parts: Sequence[Part]) -> str:
    """The rules, and what the best of them could do."""
    lines = [f"{'reserve':<36}{'short':>7}{'fabrics over':>14}{'beyond':>8}{'missed':>8}"]
    for name, rule in RULES.items():
        each = judged(name, rule, parts)
        lines.append(
            f"{name:<36}{100 * each.short:>6.1f}%{each.fabrics:>14}"
            f"{100 * each.beyond:>7.1f}%{each.missed:>8.2f}"
        )
    lies, _ = spread_of(parts)
    numbers = [len(found) for found in designs_of(parts).values()]
    alone, every = best_chance(1, lies), prod(best_chance(number, lies) for number in numbers)
    lines.append(
        f"\nDesigns lie {100 * lies:.0f} % about the mean of their fabric. Were that mean known"
        f" exactly, the best reserve\nwould keep both aims for one design not seen"
        f" {100 * alone:.0f} times of 100, and for as many as are kept, in all\n{len(numbers)}"
        f" fabrics at once, {100 * every:.0f} times of 100. The fabrics have"
        f" {', '.join(map(str, sorted(numbers, reverse=True)))} designs."
    )
    return "\n".join(lines)


if __name__ == "__main__":
    from tests.bench.yarn import parts_of

    file = Path(sys.argv[1]) if len(sys.argv) > 1 else KEPT
    print(table(parts_of([*points(file)])))
