"""Base stripes: the yarn each round is knitted in, chosen so that the whole work is least.

Every stitch that differs from what was knitted is embroidered afterwards in duplicate stitch.
"""

from collections import Counter
from fractions import Fraction
from itertools import groupby, pairwise
from math import lcm

from bindoff.diagnostics import fail
from bindoff.plan.colour.floats import longest_floats
from bindoff.plan.colour.grid import ColourGrid
from bindoff.plan.colour.stripe_options import (
    MINUTES_PER_CHANGE,
    MINUTES_PER_STITCH,
    StripeOptions,
    refuse_bad_options,
)
from bindoff.plan.colour.stripe_path import NONE, Level, Way, shortest_path
from bindoff.records import Record

__all__ = [
    "MINUTES_PER_CHANGE",
    "MINUTES_PER_STITCH",
    "SingleBase",
    "Stripe",
    "StripeOptions",
    "StripePlan",
    "YarnChange",
    "embroidered_cells",
    "plan_stripes",
    "price_stripes",
]


class Stripe(Record):
    """Rounds ``first`` to ``last`` (from 1, both included) on one base."""

    first: int
    last: int
    yarn: str

    @property
    def rounds(self) -> int:
        """How many rounds the stripe has."""
        return self.last - self.first + 1


class YarnChange(Record):
    """Stop when the counter shows ``counter`` rounds done; cut ``drop``, join ``take_up``.

    ``base`` is the base from the next round on. ``take_up`` is empty when a yarn is only cut, or
    when base and second yarn of stranded rounds trade places.
    """

    counter: int
    drop: tuple[str, ...]
    take_up: tuple[str, ...]
    base: str


class SingleBase(Record):
    """The work if every round had this one base and nothing were stranded."""

    yarn: str
    embroidered: int
    minutes: float


class StripePlan(Record):
    """What to knit in each round and what is left to embroider.

    ``bases`` and ``seconds``: per round, round 1 first; ``seconds`` holds the second yarn of a
    stranded round, else ``None``. One pair per yarn, in yarn order: ``knitted`` and ``embroidered``
    stitches, stitches ``passed`` behind in stranded rounds of a tube (a little less when flat), and
    ``joins``, the times it is taken up, cast-on included; each makes two ends.
    ``change_count`` counts yarns joined after the cast-on: the changes the cost is made of.
    ``minutes`` is that cost; ``single`` the best single base to compare it with.
    """

    bases: tuple[str, ...]
    seconds: tuple[str | None, ...]
    stripes: tuple[Stripe, ...]
    changes: tuple[YarnChange, ...]
    change_count: int
    knitted: tuple[tuple[str, int], ...]
    embroidered: tuple[tuple[str, int], ...]
    passed: tuple[tuple[str, int], ...]
    joins: tuple[tuple[str, int], ...]
    minutes: float
    single: SingleBase

    @property
    def embroidered_total(self) -> int:
        """Stitches left to embroider, all yarns."""
        return sum(count for _, count in self.embroidered)

    @property
    def stitches_saved(self) -> int:
        """Embroidered stitches fewer than with the best single base."""
        return self.single.embroidered - self.embroidered_total

    @property
    def minutes_saved(self) -> float:
        """Minutes less than with the best single base; negative where options force more work."""
        return self.single.minutes - self.minutes


def plan_stripes(
    grid: ColourGrid, yarns: tuple[str, ...] | None = None, options: StripeOptions | None = None
) -> StripePlan:
    """The cheapest plan for ``grid``; ``yarns`` gives the yarn order (default: ``grid.yarns``).

    Of equally cheap plans the one with fewest changes is taken, then the one whose bases (and
    second yarns, none first) come earliest in yarn order, compared from round 1 up.

    Exact: a shortest path over rounds, bases, second yarns and the age of the stripe (up to the
    minimum). Time grows with the stitches of the grid plus rounds times minimum stripe times ways
    to knit a round; the ways are the yarns, or at most their square in a stranded round.

    Raises ``PatternError`` when the options contradict each other or leave no plan.
    """
    order = grid.yarns if yarns is None else yarns
    wanted = options or StripeOptions()
    refuse_bad_options(grid, order, wanted)
    weights = _Weights.of(wanted, grid.height)
    levels = [
        _level(grid, round_, order, wanted, weights.stitch) for round_ in range(1, grid.height + 1)
    ]
    free = wanted.any_height(grid.height)
    path = shortest_path(levels, wanted.minimum_rounds, weights.change, free)
    if path is None:
        raise fail(
            "stripe.impossible",
            f"{grid.height} rounds are too few for stripes of at least {wanted.minimum_rounds} "
            "rounds between the fixed first and last base",
            "Lower the minimum rounds of a stripe, or free the first or the last base",
        )
    bases = tuple(order[base] for base, _ in path)
    seconds = tuple(None if second == NONE else order[second] for _, second in path)
    return price_stripes(grid, bases, seconds, order, wanted)


def price_stripes(
    grid: ColourGrid,
    bases: tuple[str, ...],
    seconds: tuple[str | None, ...] | None = None,
    yarns: tuple[str, ...] | None = None,
    options: StripeOptions | None = None,
) -> StripePlan:
    """The plan that a designer's own choice of base per round makes, with its cost.

    In a stranded round the stitches of any third colour are knitted in the base. Only the times
    and ``not_base`` (for the single base to compare with) of ``options`` are read.

    Raises ``ValueError`` when there is not one base for each round.
    """
    wanted = options or StripeOptions()
    beside = seconds or (None,) * len(bases)
    if not len(bases) == len(beside) == grid.height:
        raise ValueError(f"{grid.height} rounds need as many bases, and seconds or none at all")
    order = yarns or tuple(dict.fromkeys((*grid.yarns, *bases, *filter(None, beside))))
    knitted: Counter[str] = Counter()
    embroidered: Counter[str] = Counter()
    passed: Counter[str] = Counter()
    joins: Counter[str] = Counter()
    in_use: tuple[str, ...] = ()
    for cells, base, second in zip(grid.rounds, bases, beside, strict=True):
        seen = Counter(cells)
        stranded = 0 if second is None else seen[second]
        knitted[base] += grid.width - stranded
        if second is not None:
            knitted[second] += stranded
            passed[second] += grid.width - stranded
            passed[base] += stranded
        embroidered.update({yarn: n for yarn, n in seen.items() if yarn not in (base, second)})
        previous, in_use = in_use, _in_use(base, second)
        joins.update(yarn for yarn in in_use if yarn not in previous)
    change_count = joins.total() - 1
    return StripePlan(
        bases=bases,
        seconds=beside,
        stripes=_stripes(bases),
        changes=_changes(bases, beside),
        change_count=change_count,
        knitted=tuple((yarn, knitted[yarn]) for yarn in order),
        embroidered=tuple((yarn, embroidered[yarn]) for yarn in order),
        passed=tuple((yarn, passed[yarn]) for yarn in order),
        joins=tuple((yarn, joins[yarn]) for yarn in order),
        minutes=embroidered.total() * wanted.minutes_per_stitch
        + change_count * wanted.minutes_per_change,
        single=_best_single(grid, order, wanted),
    )


def embroidered_cells(grid: ColourGrid, plan: StripePlan) -> tuple[tuple[str | None, ...], ...]:
    """The yarn to embroider each stitch in, ``None`` where the knitting already shows it.

    Same shape and order as ``grid.rounds``.
    """
    return tuple(
        tuple(None if yarn in (base, second) else yarn for yarn in cells)
        for cells, base, second in zip(grid.rounds, plan.bases, plan.seconds, strict=True)
    )


_FINEST = 1_000_000
"""Times are told apart to a millionth of a minute."""


class _Weights(Record):
    """Whole-number weights that order plans by cost first, by changes among equal costs.

    A plan weighs its cost times ``scale`` plus its changes, ``scale`` being more than the most
    changes there can be. Costs are whole multiples of the times' common fraction, so that equal
    costs are equal and not a rounding error apart.
    """

    stitch: int
    change: int

    @classmethod
    def of(cls, options: StripeOptions, rounds: int) -> "_Weights":
        """From the minutes as written: 0.1 is a tenth."""
        stitch = Fraction(str(options.minutes_per_stitch)).limit_denominator(_FINEST)
        change = Fraction(str(options.minutes_per_change)).limit_denominator(_FINEST)
        unit = lcm(stitch.denominator, change.denominator)
        scale = 2 * rounds + 1
        return cls(int(stitch * unit) * scale, int(change * unit) * scale + 1)


def _level(
    grid: ColourGrid, round_: int, order: tuple[str, ...], options: StripeOptions, stitch: int
) -> Level:
    """The ways to knit a round and the weight of the embroidery each leaves."""
    cells = grid.rounds[round_ - 1]
    seen = Counter(cells)
    counts = [seen[yarn] for yarn in order]
    seconds = [NONE]
    if round_ in options.stranded_rounds and round_ not in dict(options.fixed):
        spans = longest_floats(cells, grid.wraps)
        seconds += [
            place
            for place, yarn in enumerate(order)
            if 0 < counts[place] < grid.width and max(spans[yarn]) <= options.float_limit
        ]
    level: dict[Way, int] = {}
    for base in _bases(grid, round_, order, options):
        for second in seconds:
            if second != base:
                shown = counts[base] + (0 if second == NONE else counts[second])
                level[base, second] = (grid.width - shown) * stitch
    return level


def _bases(
    grid: ColourGrid, round_: int, order: tuple[str, ...], options: StripeOptions
) -> list[int]:
    """The yarns a round may have as base, by their place in the yarn order."""
    fixed = {
        yarn
        for yarn, at in ((options.first_base, 1), (options.last_base, grid.height))
        if yarn is not None and at == round_
    }
    fixed |= {yarn for at, yarn in options.fixed if at == round_}
    return [
        place
        for place, yarn in enumerate(order)
        if yarn not in options.not_base and fixed <= {yarn}
    ]


def _in_use(base: str, second: str | None) -> tuple[str, ...]:
    return (base,) if second is None else (base, second)


def _stripes(bases: tuple[str, ...]) -> tuple[Stripe, ...]:
    stripes: list[Stripe] = []
    for yarn, rounds in groupby(bases):
        first = stripes[-1].last + 1 if stripes else 1
        stripes.append(Stripe(first, first + sum(1 for _ in rounds) - 1, yarn))
    return tuple(stripes)


def _changes(bases: tuple[str, ...], seconds: tuple[str | None, ...]) -> tuple[YarnChange, ...]:
    """A line for every place where the yarns in use, or the base among them, are not as before."""
    changes: list[YarnChange] = []
    rounds = list(zip(bases, seconds, strict=True))
    for counter, (before, after) in enumerate(pairwise(rounds), start=1):
        old, new = _in_use(*before), _in_use(*after)
        drop = tuple(yarn for yarn in old if yarn not in new)
        take_up = tuple(yarn for yarn in new if yarn not in old)
        if drop or take_up or before[0] != after[0]:
            changes.append(YarnChange(counter, drop, take_up, after[0]))
    return tuple(changes)


def _best_single(grid: ColourGrid, order: tuple[str, ...], options: StripeOptions) -> SingleBase:
    """The base throughout that leaves least to embroider; the earliest yarn of equals.

    Fixed first and last bases do not count here: this is what the plan is compared with. Where
    every yarn is barred, all are looked at.
    """
    seen = Counter(yarn for cells in grid.rounds for yarn in cells)
    allowed = [yarn for yarn in order if yarn not in options.not_base] or list(order)
    yarn = max(allowed, key=lambda each: seen[each])
    embroidered = grid.width * grid.height - seen[yarn]
    return SingleBase(yarn, embroidered, embroidered * options.minutes_per_stitch)
