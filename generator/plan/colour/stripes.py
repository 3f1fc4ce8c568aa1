"""Base stripes: the yarn each round is knitted in, chosen so that the whole work is least.

Every stitch that differs from what was knitted is embroidered afterwards in duplicate stitch.
"""

from dataclasses import dataclass

from generator.plan.colour.grid import ColourGrid

MINUTES_PER_STITCH = 0.5
"""One duplicate stitch. Ours; common practice, no source."""

MINUTES_PER_CHANGE = 5.0
"""Cut, join, and later weave two ends. Ours; common practice, no source."""


@dataclass(frozen=True, slots=True)
class StripeOptions:
    """What a plan may do and what its work costs.

    ``minimum_rounds``: shortest stripe; a grid lower than that is one stripe.
    ``not_base``: yarns that are never the base (they may still be the second yarn of a stranded
    round). ``stranded_rounds``: rounds, from 1, that may carry a second yarn, when no float of
    either yarn passes more than ``float_limit`` stitches. ``first_base``, ``last_base``: base of
    the first and the last round where the designer fixes it.
    """

    minutes_per_stitch: float = MINUTES_PER_STITCH
    minutes_per_change: float = MINUTES_PER_CHANGE
    minimum_rounds: int = 1
    not_base: tuple[str, ...] = ()
    stranded_rounds: tuple[int, ...] = ()
    float_limit: int = 0
    first_base: str | None = None
    last_base: str | None = None


@dataclass(frozen=True, slots=True)
class Stripe:
    """Rounds ``first`` to ``last`` (from 1, both included) on one base."""

    first: int
    last: int
    yarn: str

    @property
    def rounds(self) -> int:
        """How many rounds the stripe has."""
        return self.last - self.first + 1


@dataclass(frozen=True, slots=True)
class Change:
    """Stop when the counter shows ``counter`` rounds done; cut ``drop``, join ``take_up``.

    ``base`` is the base from the next round on. ``take_up`` is empty when a yarn is only cut, or
    when base and second yarn of stranded rounds trade places.
    """

    counter: int
    drop: tuple[str, ...]
    take_up: tuple[str, ...]
    base: str


@dataclass(frozen=True, slots=True)
class SingleBase:
    """The work if every round had this one base and nothing were stranded."""

    yarn: str
    embroidered: int
    minutes: float


@dataclass(frozen=True, slots=True)
class StripePlan:
    """What to knit in each round and what is left to embroider.

    ``bases`` and ``seconds``: per round, round 1 first; ``seconds`` holds the second yarn of a
    stranded round, else ``None``. ``knitted``, ``embroidered`` (stitches) and ``joins`` (times the
    yarn is taken up, the cast-on included; two ends each): one pair per yarn, in yarn order.
    ``change_count`` counts yarns joined after the cast-on: the changes the cost is made of.
    ``minutes`` is that cost; ``single`` the best single base to compare it with.
    """

    bases: tuple[str, ...]
    seconds: tuple[str | None, ...]
    stripes: tuple[Stripe, ...]
    changes: tuple[Change, ...]
    change_count: int
    knitted: tuple[tuple[str, int], ...]
    embroidered: tuple[tuple[str, int], ...]
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

    Raises ``PatternError`` when the options leave no plan.
    """
    raise NotImplementedError


def price_stripes(
    grid: ColourGrid,
    bases: tuple[str, ...],
    seconds: tuple[str | None, ...] | None = None,
    yarns: tuple[str, ...] | None = None,
    options: StripeOptions | None = None,
) -> StripePlan:
    """The plan that a designer's own choice of base per round makes, with its cost.

    Raises ``ValueError`` when there is not one base for each round.
    """
    raise NotImplementedError


def embroidered_cells(grid: ColourGrid, plan: StripePlan) -> tuple[tuple[str | None, ...], ...]:
    """The yarn to embroider each stitch in, ``None`` where the knitting already shows it.

    Same shape and order as ``grid.rounds``.
    """
    raise NotImplementedError
