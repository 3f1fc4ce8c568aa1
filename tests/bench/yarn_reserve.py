"""The reserve of each fabric: as much above what published amounts ask for as the aims allow.

For every published amount that is required (to buy), how far it lies above what we reckon, gauge
swatch counted in, as a logarithm: designers keep reserves of their own, round up, and knit loosely
or firmly, and no factor of ours knows that. The next design of a fabric is printed a quarter above
where the mean of its designs is expected, which is the most that the middle one may be over:

    reserve = 1.25 x exp((sum of its designs + 2 x mean of all designs) / (its designs + 2)) - 1

- A design counts once, in however many sizes it comes: its sizes are no evidence for each other.
- Designs lie about the mean of their fabric with a deviation of some 12 %, so that a quarter leaves
  one of twenty short, hardly more: 1.645 deviations are 22 %.
- A fabric of few designs borrows from all: their mean counts as two designs more. One to three
  do as well on designs not seen; more draw plain knitting, which we reckon high, over a quarter.
- Stranded knitting keeps its own mean. Published amounts for it are sums over its colors, each
  rounded up or given as equal, which no fabric of one yarn shows.
- Of a fabric of one design its own design bounds the reserve: a quarter over in the median is the
  most, and sizes of that design which are not among the points must keep it too. One more size
  moves a median by half a step between two sizes, and the step is that of all designs: 6 %. So the
  bound is 3 % below. Of designs in three sizes and more, each size left out in turn, the median of
  the whole design then keeps the quarter 13 times of 16; without that half step 8 times.

The reserves in ``craft/fabric.py`` are these, in whole percents. ``tests/bench/yarn_rules.py``
prints how other rules do on designs not seen, and how often any rule at all can keep both aims.
"""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import exp, log
from statistics import fmean, median

from scipy.optimize import brentq

from bindoff.craft.fabric import Fabric

ONE_IN = 20
MOST_OVER = 1.25
BORROWED = 2
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


def designs_of(parts: Iterable[Part]) -> dict[Fabric, dict[str, list[Part]]]:
    """The parts by fabric and design."""
    found: dict[Fabric, dict[str, list[Part]]] = {}
    for part in parts:
        found.setdefault(part.fabric, {}).setdefault(part.design, []).append(part)
    return found


def means_of(parts: Iterable[Part]) -> dict[Fabric, list[float]]:
    """The means of the designs of each fabric, as logarithms."""
    return {
        fabric: [fmean(part.above for part in each) for each in found.values()]
        for fabric, found in designs_of(parts).items()
    }


def expected(parts: Sequence[Part], fabric: Fabric) -> float:
    """The mean of a fabric, drawn towards that of all designs as by ``BORROWED`` designs more."""
    means = means_of(parts)
    own = means.get(fabric, [])
    if own and fabric in APART:
        return fmean(own)
    every = [each for other, found in means.items() if other not in APART for each in found]
    return (sum(own) + BORROWED * fmean(every)) / (len(own) + BORROWED)


def reserve_of(parts: Sequence[Part], fabric: Fabric) -> float:
    """The reserve that ``parts`` ask for in ``fabric``, a fraction."""
    reserve = MOST_OVER * exp(expected(parts, fabric)) - 1
    own = designs_of(parts).get(fabric, {})
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
