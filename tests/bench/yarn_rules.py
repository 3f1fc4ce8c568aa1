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
twenty, all must lie below the limit, and the middle one no more than a quarter below it. Then
``designs_asked`` says how many designs of a fabric must be known for a limit that keeps both aims
in expectation.
"""

import sys
from collections.abc import Callable, Mapping, Sequence
from math import comb, exp, log, prod, sqrt
from pathlib import Path
from statistics import NormalDist, fmean, median, variance
from types import MappingProxyType

from scipy.optimize import minimize_scalar
from scipy.stats import t

from bindoff.craft.fabric import Fabric
from bindoff.records import Record
from tests.bench.yarn import parts_of
from tests.bench.yarn_amounts import KEPT, points
from tests.bench.yarn_reserve import (
    APART,
    MOST_OVER,
    ONE_IN,
    Part,
    Rule,
    Spread,
    designs_of,
    reserve_of,
    spread_of,
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


def _limit(reach: Callable[[Spread, float], float]) -> Rule:
    """A rule that lies by ``reach`` above the mean that is expected, given the variance of that."""

    def rule(parts: Sequence[Part], fabric: Fabric) -> float:
        spread = spread_of(part for part in parts if part.fabric not in APART)
        own = _means(parts, fabric)
        mean, doubt = spread.expected(own, apart=fabric in APART and bool(own))
        return max(exp(mean + reach(spread, doubt)) - 1, 0.0)

    return rule


def _means(parts: Sequence[Part], fabric: Fabric) -> list[float]:
    designs = designs_of(parts).get(fabric, {}).values()
    return [fmean(part.above for part in each) for each in designs]


def _one_for_all(parts: Sequence[Part], fabric: Fabric) -> float:
    """A prediction limit of all designs together, as if fabrics had one mean; those apart alone."""
    spread = spread_of(part for part in parts if part.fabric not in APART)
    every = [each for found in spread.means.values() for each in found]
    mean, free = fmean(every), len(every) - 1
    if fabric in APART:
        mean = fmean(_means(parts, fabric) or every)
    sure = float(t.ppf(1 - 1 / ONE_IN, free))
    return exp(mean + sure * sqrt(variance(every) * (1 + 1 / len(every)) + spread.beyond)) - 1


def _own_mean(parts: Sequence[Part], fabric: Fabric) -> float:
    """A prediction limit about the mean of the fabric's own designs, not drawn to the others."""
    spread = spread_of(part for part in parts if part.fabric not in APART)
    own = _means(parts, fabric)
    mean, doubt = spread.expected(own, apart=bool(own))
    sure = float(t.ppf(1 - 1 / ONE_IN, spread.freedom))
    return max(exp(mean + sure * sqrt(spread.between + spread.beyond + doubt)) - 1, 0.0)


def _student(sure: float) -> Rule:
    return _limit(
        lambda spread, doubt: (
            float(t.ppf(sure, spread.freedom)) * sqrt(spread.between + spread.beyond + doubt)
        )
    )


RULES: Mapping[str, Rule] = MappingProxyType(
    {
        "in use": reserve_of,
        "a quarter above the mean": _limit(lambda *_: log(MOST_OVER)),
        "short in one of ten": _student(0.9),
        "spread and mean taken as known": _limit(
            lambda spread, _: (
                NormalDist().inv_cdf(1 - 1 / ONE_IN) * sqrt(spread.between + spread.beyond)
            )
        ),
        "one mean for all fabrics": _one_for_all,
        "each fabric's own mean": _own_mean,
        "midway between both aims": _limit(lambda *_: log(MOST_OVER) / 2),
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


def designs_asked(spread: Spread) -> int:
    """How many designs of a fabric, its mean by them alone, make a prediction limit that is no more
    than a quarter above the mean; 0 where no number does."""
    sure = float(t.ppf(1 - 1 / ONE_IN, spread.freedom))
    room = (log(MOST_OVER) / sure) ** 2 - spread.between - spread.beyond
    return int(spread.between / room) + 1 if room > 0 else 0


def table(parts: Sequence[Part]) -> str:
    """The rules, and what the best of them could do."""
    lines = [f"{'reserve':<36}{'short':>7}{'fabrics over':>14}{'beyond':>8}{'missed':>8}"]
    for name, rule in RULES.items():
        each = judged(name, rule, parts)
        lines.append(
            f"{name:<36}{100 * each.short:>6.1f}%{each.fabrics:>14}"
            f"{100 * each.beyond:>7.1f}%{each.missed:>8.2f}"
        )
    spread = spread_of(part for part in parts if part.fabric not in APART)
    lies = sqrt(spread.between + spread.beyond)
    numbers = [len(found) for found in designs_of(parts).values()]
    alone, every = best_chance(1, lies), prod(best_chance(number, lies) for number in numbers)
    lines.append(
        f"\nSizes of designs lie {100 * lies:.0f} % about the mean of their fabric. Were that mean"
        f" known exactly, the best\nreserve would keep both aims for one design not seen"
        f" {100 * alone:.0f} times of 100, and for as many as are\nkept, in all"
        f" {len(numbers)} fabrics at once, {100 * every:.0f} times of 100. A mean good enough for"
        f" both aims in\nexpectation takes {designs_asked(spread)} designs of a fabric; the fabrics"
        f" have {', '.join(map(str, sorted(numbers, reverse=True)))}."
    )
    return "\n".join(lines)


if __name__ == "__main__":
    file = Path(sys.argv[1]) if len(sys.argv) > 1 else KEPT
    print(table(parts_of([*points(file)])))
