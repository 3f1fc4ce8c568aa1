"""The reserve of each fabric as a prediction limit: what published amounts say of the next one.

For every published amount that is required (to buy), how far it lies above what we reckon, gauge
swatch counted in, as a logarithm: designers keep reserves of their own, round up, and knit loosely
or firmly, and no factor of ours knows that. Of a fabric's designs we want the amount that the next
design, in one of its sizes, stays below nineteen times in twenty:

    limit = mean + t(0.95) x sqrt(variance between designs and sizes + variance of the mean)

- A design counts once, in however many sizes it comes: its sizes are no evidence for each other.
- The spread is that of all fabrics together. Five designs tell hardly anything of their own.
- The mean of a fabric is drawn towards that of all fabrics, the more the fewer its designs are (a
  random-effects mean, DerSimonian and Laird 1986): factors may be wrong, and so may few designs.
- Stranded knitting keeps its own mean. Published amounts for it are sums over its colors, each
  rounded up or given as equal, which no fabric of one yarn shows.
- Of a fabric of one design the limit is mostly that of the others. Its own design still bounds it:
  a quarter over in the median is the most, and sizes of that design which are not among the points
  must keep it too. One more size moves a median by half a step between two sizes, and the step is
  that of all designs: 6 %. So the bound is 3 % below. Of designs in three sizes and more, each
  size left out in turn, the median of the whole design then keeps the quarter 13 times of 16;
  without that half step 8 times.

The reserves in ``craft/fabric.py`` are these, in whole percents. Nothing is chosen by hand but the
two aims: short in one of twenty, a quarter over in the median. ``tests/bench/yarn_rules.py`` prints
how other rules do on designs not seen, and how often any rule at all can keep both aims.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import exp, log, sqrt
from statistics import fmean, median

from scipy.optimize import brentq
from scipy.stats import t

from bindoff.craft.fabric import Fabric

ONE_IN = 20
MOST_OVER = 1.25
APART = frozenset({Fabric.STRANDED})
"""Fabrics whose published amounts are not of one kind with the others'."""


@dataclass(frozen=True, slots=True)
class Part:
    """Of a required amount: what we reckon without reserve, and the swatch, as fractions of it."""

    fabric: Fabric
    design: str
    net: float
    swatch: float

    def printed(self, reserve: float) -> float:
        """What is printed with so much in reserve."""
        return self.net * (1 + reserve) + self.swatch

    @property
    def above(self) -> float:
        """The logarithm of the required amount over ours."""
        return -log(self.net + self.swatch)


@dataclass(frozen=True, slots=True)
class Spread:
    """What all fabrics of one kind tell together: ``means`` of the designs of each fabric, the
    variances ``between`` means of designs and ``beyond`` them of a single size, the ``freedom`` of
    the former, and the ``middle`` of fabrics with its variance ``doubt``, and ``among`` fabrics."""

    means: Mapping[Fabric, Sequence[float]]
    between: float
    beyond: float
    freedom: int
    middle: float
    doubt: float
    among: float

    def expected(self, own: Sequence[float], *, apart: bool = False) -> tuple[float, float]:
        """The mean of a fabric whose designs have the means ``own``, and its variance."""
        if apart:
            return fmean(own), self.between / len(own)
        if not own or not self.among:
            return self.middle, self.doubt + self.among
        weights = 1 / self.among, len(own) / self.between
        mean = (weights[0] * self.middle + weights[1] * fmean(own)) / sum(weights)
        return mean, 1 / sum(weights)

    def next_one(self, own: Sequence[float], *, apart: bool = False) -> float:
        """The limit of the next design of a fabric whose designs have the means ``own``; ``apart``:
        they alone say where it lies."""
        mean, doubt = self.expected(own, apart=apart)
        sure = float(t.ppf(1 - 1 / ONE_IN, self.freedom))
        return mean + sure * sqrt(self.between + self.beyond + doubt)


def designs_of(parts: Iterable[Part]) -> dict[Fabric, dict[str, list[Part]]]:
    """The parts by fabric and design."""
    found: dict[Fabric, dict[str, list[Part]]] = {}
    for part in parts:
        found.setdefault(part.fabric, {}).setdefault(part.design, []).append(part)
    return found


def spread_of(parts: Iterable[Part]) -> Spread:
    """What ``parts`` of several fabrics and designs tell of the next amount."""
    designs = {
        fabric: [[part.above for part in each] for each in found.values()]
        for fabric, found in designs_of(parts).items()
    }
    means = {fabric: [fmean(each) for each in found] for fabric, found in designs.items()}
    sizes = [each for found in designs.values() for each in found]
    freedom = sum(len(found) - 1 for found in means.values())
    between = sum(map(_squares, means.values())) / freedom
    of_sizes = sum(map(_squares, sizes)) / max(sum(len(each) - 1 for each in sizes), 1)
    # A mean of sizes holds their variance over their number: what a single size has beyond it.
    beyond = of_sizes * (1 - fmean(1 / len(each) for each in sizes))
    among = _among(means, between)
    middle, doubt = _middle(means, between, among)
    return Spread(means, between, beyond, freedom, middle, doubt, among)


def _squares(found: Sequence[float]) -> float:
    mean = fmean(found)
    return sum((each - mean) ** 2 for each in found)


def _middle(
    means: Mapping[Fabric, Sequence[float]], between: float, among: float
) -> tuple[float, float]:
    """The mean of fabrics, each weighed by how surely it is known, and the variance of that."""
    weights = {fabric: 1 / (among + between / len(found)) for fabric, found in means.items()}
    every = sum(weights.values())
    return sum(weights[fabric] * fmean(found) for fabric, found in means.items()) / every, 1 / every


def _among(means: Mapping[Fabric, Sequence[float]], between: float) -> float:
    """The variance among fabrics beyond what their few designs explain (DerSimonian and Laird)."""
    weights = {fabric: len(found) / between for fabric, found in means.items()}
    middle, _ = _middle(means, between, 0.0)
    apart = sum(weights[f] * (fmean(found) - middle) ** 2 for f, found in means.items())
    every = sum(weights.values())
    scale = every - sum(each**2 for each in weights.values()) / every
    return max(0.0, (apart - (len(means) - 1)) / scale) if scale else 0.0


def reserve_of(parts: Sequence[Part], fabric: Fabric) -> float:
    """The reserve that ``parts`` ask for in ``fabric``, a fraction."""
    spread = spread_of(part for part in parts if part.fabric not in APART)
    own = designs_of(parts).get(fabric, {})
    means = [fmean(part.above for part in each) for each in own.values()]
    reserve = exp(spread.next_one(means, apart=fabric in APART and bool(own))) - 1
    if len(own) == 1:
        reserve = _bounded(reserve, next(iter(own.values())), one_more_size(parts))
    return max(reserve, 0.0)


def one_more_size(parts: Iterable[Part]) -> float:
    """How far, as a logarithm, one more size moves the median of a design: to halfway between two
    sizes at the most, so half the step between neighbours, the median of all designs' steps."""
    designs = (each for found in designs_of(parts).values() for each in found.values())
    steps = [abs(a.above - b.above) for sizes in designs for a, b in pairwise(sizes)]
    return median(steps) / 2 if steps else 0.0


def _bounded(reserve: float, parts: Sequence[Part], more: float) -> float:
    """``reserve``, or the one with which half of ``parts`` are as far over as they may be if one
    ``more`` size moves their median."""

    def over(tried: float) -> float:
        return median(part.printed(tried) for part in parts) - MOST_OVER * exp(-more)

    return reserve if over(reserve) <= 0 else float(brentq(over, -1, reserve))


Rule = Callable[[Sequence[Part], Fabric], float]
"""A reserve, a fraction, by what is known of designs, for a fabric."""


def unseen(parts: Sequence[Part], fabric: Fabric, rule: Rule = reserve_of) -> list[float]:
    """Printed over required of each design of a fabric, by a reserve that knows the others alone:
    those of its fabric, and of other fabrics."""
    found: list[float] = []
    for left_out, own in designs_of(parts).get(fabric, {}).items():
        others = [p for p in parts if (p.fabric, p.design) != (fabric, left_out)]
        reserve = rule(others, fabric)
        found += [part.printed(reserve) for part in own]
    return found
