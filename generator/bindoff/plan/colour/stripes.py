"""Base stripes: the yarn each round is knitted in, chosen so that the whole work is least.

Every stitch that differs from what was knitted is embroidered afterwards in duplicate stitch.
"""

from collections import Counter
from collections.abc import Sequence
from fractions import Fraction
from functools import lru_cache
from hashlib import sha256
from itertools import groupby, pairwise
from math import floor, lcm

from bindoff.diagnostics import fail
from bindoff.kept import Shelf
from bindoff.plan.colour.areas import Cells, linked, runs_by_yarn
from bindoff.plan.colour.embroidery import ThreadRule, embroidery_of, plan_embroidery
from bindoff.plan.colour.floats import longest_floats
from bindoff.plan.colour.grid import ColourGrid
from bindoff.plan.colour.stripe_options import (
    MINUTES_PER_CHANGE,
    MINUTES_PER_STITCH,
    StripeOptions,
    refuse_bad_options,
)
from bindoff.plan.colour.stripe_path import NONE, Level, Way, shortest_path
from bindoff.plan.colour.stripe_search import Prices, StrandPrices, cheapest_path
from bindoff.records import Record, replace

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
    when base and second yarn of stranded rounds trade places. ``rest`` are yarns that are not cut
    but wait to be carried up, ``resume`` those taken up from there.
    """

    counter: int
    drop: tuple[str, ...]
    take_up: tuple[str, ...]
    base: str
    rest: tuple[str, ...] = ()
    resume: tuple[str, ...] = ()

    @property
    def only_trades(self) -> bool:
        """Whether base and second yarn trade places and nothing else happens."""
        return not (self.drop or self.take_up or self.rest or self.resume)


class SingleBase(Record):
    """The work if every round had this one base, but for those that are fixed, and nothing were
    stranded."""

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
    ``carried``: rounds that each yarn is carried up, all its rests together, and ``resumed`` how
    often a yarn is taken up from there. ``strands`` to embroider with, all yarns, where their ends
    have a price. ``minutes`` is the cost; ``single`` the best single base to compare it with;
    ``least_minutes`` what no plan can take less than, which is ``minutes`` where the plan is proved
    to be the cheapest.
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
    carried: tuple[tuple[str, int], ...] = ()
    resumed: int = 0
    strands: int = 0
    least_minutes: float = 0.0

    @property
    def ends(self) -> int:
        """Ends of the stripes: two for each time a yarn is joined, the cast-on among them."""
        return 2 * sum(count for _, count in self.joins)

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


SHELF: Shelf[tuple[tuple[Way, ...] | None, float]] = Shelf(
    __file__, most=200, sources=("plan/colour", "craft/lengths.py", "records.py")
)
"""Ways to knit the rounds of a grid and what they may be above the least, by all that is asked."""


@lru_cache(maxsize=32)
def plan_stripes(
    grid: ColourGrid, yarns: tuple[str, ...] | None = None, options: StripeOptions | None = None
) -> StripePlan:
    """The cheapest plan for ``grid``; ``yarns`` gives the yarn order (default: ``grid.yarns``).

    Of equally cheap plans the one with fewest changes is taken, then the one whose bases (and
    second yarns, none first) come earliest in yarn order, compared from round 1 up.

    Exact: a shortest path over rounds, bases, second yarns and the age of the stripe (up to the
    minimum). Time grows with the stitches of the grid plus rounds times minimum stripe times ways
    to knit a round; the ways are the yarns, or at most their square in a stranded round. Where
    yarns are carried up or ends of strands have a price, ``stripe_search`` looks for the plan, and
    ``least_minutes`` says how near to the least it is sure to be.

    Remembered, and kept for the next run: while a designer writes about a tube, its stripes stay
    what they are.

    Raises ``PatternError`` when the options contradict each other or leave no plan.
    """
    order = grid.yarns if yarns is None else yarns
    wanted = options or StripeOptions()
    refuse_bad_options(grid, order, wanted)
    weights = _Weights.of(wanted, grid.height)
    levels = [
        _level(grid, round_, order, wanted, weights.stitch) for round_ in range(1, grid.height + 1)
    ]
    asked = sha256(repr((grid, order, wanted)).encode()).digest()
    path, spare = SHELF.get(asked, lambda: _path(grid, order, wanted, weights, levels))
    if path is None:
        raise fail(
            "stripe.impossible",
            f"{grid.height} rounds are too few for stripes of at least {wanted.minimum_rounds} "
            "rounds between the fixed first and last base",
            "Lower the minimum rounds of a stripe, or free the first or the last base",
        )
    bases = tuple(order[base] for base, _ in path)
    seconds = tuple(None if second == NONE else order[second] for _, second in path)
    plan = price_stripes(grid, bases, seconds, order, wanted)
    return replace(plan, least_minutes=plan.minutes - spare)


def _path(
    grid: ColourGrid,
    order: tuple[str, ...],
    options: StripeOptions,
    weights: "_Weights",
    levels: Sequence[Level],
) -> tuple[tuple[Way, ...] | None, float]:
    """The ways to knit the rounds, and how many minutes more than the least they may take."""
    free = options.any_height(grid.height)
    carries = options.carry and weights.resume < weights.change
    if not carries and not options.prices_strands:
        return shortest_path(levels, options.minimum_rounds, weights.change, free), 0.0
    carry = options.carry if carries else 0
    prices = Prices(weights.change, weights.resume, carry, weights.strand)
    embroidery = None
    if options.prices_strands and options.thread is not None:
        embroidery = _strand_prices(grid, order, options.thread, weights)
        levels = [
            {
                way: cost + sum(charge for yarn, charge in charges.items() if yarn not in way)
                for way, cost in level.items()
            }
            for level, charges in zip(levels, embroidery.charges, strict=True)
        ]
    found = cheapest_path(levels, options.minimum_rounds, prices, free, len(order), embroidery)
    if found is None:
        return None, 0.0
    return found.path, (found.weight - found.least) / weights.minute


def _strand_prices(
    grid: ColourGrid, order: tuple[str, ...], rule: ThreadRule, weights: "_Weights"
) -> StrandPrices:
    """What the strands of every yarn weigh, and the share of it that each stitch has at the least.

    Stitches too far apart for a thread to pass share no strand, and no strand is longer than the
    rule has it. So a stitch has its part of a full strand, or of its whole cluster if that takes
    less than one.
    """
    per_stitch = rule.stitch_thread_mm / rule.working_mm
    width, wraps = grid.width, grid.wraps
    charges: list[dict[int, int]] = [{} for _ in grid.rounds]
    runs = runs_by_yarn(grid.rounds, wraps)
    by_round = {
        yarn: {round_ - 1: [*row] for round_, row in groupby(own, key=lambda run: run.round_)}
        for yarn, own in runs.items()
    }
    has = {place: [*by_round.get(yarn, ())] for place, yarn in enumerate(order)}
    for place, yarn in enumerate(order):
        for near in linked(runs.get(yarn, ()), width, wraps, rule.jump_limit + 1):
            stitches = sum(run.length for run in near)
            share = floor(weights.strand * max(per_stitch, 1 / stitches) * (1 - 1e-9))
            for run in near:
                at = charges[run.round_ - 1]
                at[place] = at.get(place, 0) + share * run.length

    def strands(place: int, rounds: tuple[int, ...]) -> int:
        yarn = order[place]
        own = {yarn: [run for index in rounds for run in by_round[yarn][index]]}
        return embroidery_of(own, (yarn,), rule, width, wraps).threads[0].strands

    return StrandPrices(strands, charges, has, rule.jump_limit, grid.width)


def price_stripes(
    grid: ColourGrid,
    bases: tuple[str, ...],
    seconds: tuple[str | None, ...] | None = None,
    yarns: tuple[str, ...] | None = None,
    options: StripeOptions | None = None,
) -> StripePlan:
    """The plan that a designer's own choice of base per round makes, with its cost.

    In a stranded round the stitches of any third colour are knitted in the base. Only the times,
    how far a yarn is carried, how strands are cut and ``not_base`` (for the single base to compare
    with) of ``options`` are read.

    Raises ``ValueError`` when there is not one base for each round.
    """
    wanted = options or StripeOptions()
    beside = seconds or (None,) * len(bases)
    if not len(bases) == len(beside) == grid.height:
        raise ValueError(f"{grid.height} rounds need as many bases, and seconds or none at all")
    order = yarns or tuple(dict.fromkeys((*grid.yarns, *bases, *filter(None, beside))))
    work = _work(grid, bases, beside, order, wanted)
    return StripePlan(
        bases=bases,
        seconds=beside,
        stripes=_stripes(bases),
        changes=_changes(bases, beside, wanted.carry),
        change_count=work.joins.total() - 1,
        knitted=tuple((yarn, work.knitted[yarn]) for yarn in order),
        embroidered=tuple((yarn, work.embroidered[yarn]) for yarn in order),
        passed=tuple((yarn, work.passed[yarn]) for yarn in order),
        joins=tuple((yarn, work.joins[yarn]) for yarn in order),
        minutes=work.minutes,
        single=_best_single(grid, order, wanted),
        carried=tuple((yarn, work.carried[yarn]) for yarn in order if work.carried[yarn]),
        resumed=work.resumed,
        strands=work.strands,
        least_minutes=work.minutes,
    )


class _Work(Record):
    """What a choice of yarns for each round comes to, counted by yarn."""

    knitted: Counter[str]
    embroidered: Counter[str]
    passed: Counter[str]
    joins: Counter[str]
    carried: Counter[str]
    resumed: int
    strands: int
    minutes: float


def _work(
    grid: ColourGrid,
    bases: Sequence[str],
    beside: Sequence[str | None],
    order: tuple[str, ...],
    options: StripeOptions,
) -> _Work:
    """Knits round after round as chosen, embroiders the rest, and counts."""
    knitted: Counter[str] = Counter()
    embroidered: Counter[str] = Counter()
    passed: Counter[str] = Counter()
    joins: Counter[str] = Counter()
    carried: Counter[str] = Counter()
    resumed = 0
    in_use: tuple[str, ...] = ()
    last: dict[str, int] = {}
    rows = zip(grid.rounds, bases, beside, strict=True)
    for number, (cells, base, second) in enumerate(rows, start=1):
        seen = Counter(cells)
        stranded = 0 if second is None else seen[second]
        knitted[base] += grid.width - stranded
        if second is not None:
            knitted[second] += stranded
            passed[second] += grid.width - stranded
            passed[base] += stranded
        embroidered.update({yarn: n for yarn, n in seen.items() if yarn not in (base, second)})
        previous, in_use = in_use, _in_use(base, second)
        for yarn in in_use:
            rest = number - last[yarn] - 1 if yarn in last else None
            if rest is None or rest > options.carry:
                joins[yarn] += 1
            elif yarn not in previous:
                carried[yarn] += rest
                resumed += 1
            last[yarn] = number
    change_count = joins.total() - 1
    strands = 0
    if options.thread is not None and options.prices_strands:
        sewn = _embroidered_cells(grid, bases, beside)
        strands = _strands(sewn, order, options.thread, grid.wraps)
    minutes = (
        embroidered.total() * options.minutes_per_stitch
        + change_count * options.minutes_per_change
        + resumed * options.minutes_per_carried
        + 2 * strands * options.minutes_per_end
    )
    return _Work(knitted, embroidered, passed, joins, carried, resumed, strands, minutes)


def embroidered_cells(grid: ColourGrid, plan: StripePlan) -> tuple[tuple[str | None, ...], ...]:
    """The yarn to embroider each stitch in, ``None`` where the knitting already shows it.

    Same shape and order as ``grid.rounds``.
    """
    return _embroidered_cells(grid, plan.bases, plan.seconds)


def _embroidered_cells(
    grid: ColourGrid, bases: Sequence[str], seconds: Sequence[str | None]
) -> tuple[tuple[str | None, ...], ...]:
    return tuple(
        tuple(None if yarn in (base, second) else yarn for yarn in cells)
        for cells, base, second in zip(grid.rounds, bases, seconds, strict=True)
    )


def _strands(cells: Cells, order: tuple[str, ...], rule: ThreadRule, wraps: bool) -> int:
    """Strands to embroider with, all yarns."""
    threads = plan_embroidery(cells, order, rule, wraps).threads
    return sum(each.strands for each in threads)


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
    resume: int
    strand: int
    minute: int

    @classmethod
    def of(cls, options: StripeOptions, rounds: int) -> "_Weights":
        """From the minutes as written: 0.1 is a tenth."""
        stitch = Fraction(str(options.minutes_per_stitch)).limit_denominator(_FINEST)
        change = Fraction(str(options.minutes_per_change)).limit_denominator(_FINEST)
        end = Fraction(str(options.minutes_per_end)).limit_denominator(_FINEST)
        unit = lcm(stitch.denominator, change.denominator, end.denominator)
        scale = 2 * rounds + 1

        def of(time: Fraction) -> int:
            return int(time * unit) * scale

        return cls(of(stitch), of(change) + 1, of(change - 2 * end) + 1, of(2 * end), unit * scale)


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


def _changes(
    bases: tuple[str, ...], seconds: tuple[str | None, ...], carry: int
) -> tuple[YarnChange, ...]:
    """A line for every place where the yarns in use, or the base among them, are not as before."""
    rounds = [_in_use(*each) for each in zip(bases, seconds, strict=True)]
    changes: list[YarnChange] = []
    resting: set[str] = set()
    for counter, (old, new) in enumerate(pairwise(rounds), start=1):
        left = tuple(yarn for yarn in old if yarn not in new)
        near = {yarn for row in rounds[counter : counter + carry + 1] for yarn in row}
        drop = tuple(yarn for yarn in left if yarn not in near)
        rest = tuple(yarn for yarn in left if yarn in near)
        come = tuple(yarn for yarn in new if yarn not in old)
        take_up = tuple(yarn for yarn in come if yarn not in resting)
        resume = tuple(yarn for yarn in come if yarn in resting)
        resting = (resting | set(rest)) - set(come)
        if left or come or old[0] != new[0]:
            changes.append(YarnChange(counter, drop, take_up, new[0], rest, resume))
    return tuple(changes)


def _best_single(grid: ColourGrid, order: tuple[str, ...], options: StripeOptions) -> SingleBase:
    """The base throughout that takes least time; the earliest yarn of equals.

    Fixed first and last bases do not count here: this is what the plan is compared with. Where
    every yarn is barred, all are looked at.
    """
    fixed = dict(options.fixed)
    allowed = [yarn for yarn in order if yarn not in options.not_base] or list(order)

    def of(yarn: str) -> SingleBase:
        bases = [fixed.get(number, yarn) for number in range(1, grid.height + 1)]
        work = _work(grid, bases, (None,) * grid.height, order, options)
        return SingleBase(yarn, work.embroidered.total(), work.minutes)

    shown = Counter[str]()
    for number, cells in enumerate(grid.rounds, start=1):
        shown.update(cells if number not in fixed else ())
    least = options.minutes_per_stitch  # of a stitch, with its part of the ends of a full strand
    if options.thread is not None:
        rule = options.thread
        least += 2 * options.minutes_per_end * rule.stitch_thread_mm / rule.working_mm
    best: SingleBase | None = None
    for yarn in sorted(allowed, key=lambda each: -shown[each]):
        left = grid.width * (grid.height - len(fixed)) - shown[yarn]
        if best is None or left * least < best.minutes:
            found = of(yarn)
            best = found if best is None or found.minutes < best.minutes else best
    assert best is not None
    return best
