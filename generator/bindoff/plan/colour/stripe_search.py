"""The cheapest stripes where a yarn may be carried up, and where each end of a strand has a price.

What a round costs then depends on more than the round before: on how long each yarn has rested, and
on what was embroidered below, for stitches near each other share a strand. The search goes round by
round from the first. It keeps one best way to each state: how the round is knitted, how old its
stripe is, how long each yarn has rested, and which rounds of each yarn are embroidered so near that
their strands may go on. A state is dropped when it cannot lead to less than the best plan known:
the path of ``stripe_path`` over prices that are never too high says how little the rest can take.
The first plans known are that path, and one base throughout.

Where a round has more than ``MOST_STATES`` states that could lead to the least, the dearest are
dropped too; fewer are kept once ``MOST_TRIED`` ways were tried or a part of ``MOST_LOOKED_AT``
stitches were looked at to count strands, and the search ends when all of them were. The least that
any of those could have led to is told with the path. Work is counted, and not timed: the same
picture has the same plan on every machine.
"""

from bisect import bisect_right
from collections.abc import Callable, Iterator, Mapping, Sequence
from math import inf

from bindoff.plan.colour.stripe_path import (
    NONE,
    Ahead,
    Level,
    Way,
    Weight,
    least_from,
    look_ahead,
    shortest_path,
)
from bindoff.records import Record

MOST_STATES = 250
"""States kept after each round; a picture of 50 rounds in 5 yarns is planned within a second."""

MOST_TRIED = 20_000
"""Ways tried in all before only ``FEW_STATES`` are kept after each round: nearly twice as many
as a hat with a picture takes. A picture without any order would take a minute otherwise."""

FEW_STATES = 20

MOST_LOOKED_AT = 600_000
"""Stitches looked at to count strands, in all: a picture has hundreds or a few thousand, and one
without any order millions, at three to four seconds a million."""

_FEW_FROM = 0.25
"""The share of them from which on only ``FEW_STATES`` are kept."""

Signature = tuple[tuple[int, ...], ...]
"""Per yarn, the rounds (from 0) embroidered in it whose strands may still go on."""

Strands = Callable[[int, tuple[int, ...]], int]
"""Strands that a yarn takes for its stitches in some rounds, which no other of its stitches are
near."""


class Prices(Record):
    """Whole-number weights. ``join``: a yarn joined, with its ends. ``resume``: one taken up that
    was carried, after at most ``carry`` rounds. ``strand``: both ends of a strand."""

    join: int
    resume: int
    carry: int
    strand: int = 0


class StrandPrices(Record):
    """What the search asks of embroidery, on rounds of ``width`` stitches.

    ``charges``: per round and yarn, a share of its strands' weight that is never too high, which is
    in the levels already. ``has``: per yarn, the rounds that have it, in order. ``reach``: rounds
    that a strand may pass.
    """

    strands: Strands
    charges: Sequence[Mapping[int, int]]
    has: Mapping[int, Sequence[int]]
    reach: int
    width: int


class Found(Record):
    """The best path found, its weight, and the least weight that any path can have."""

    path: tuple[Way, ...]
    weight: int
    least: int


class _Sewing:
    """The strands of a yarn in some rounds, counted once, and the stitches looked at for that."""

    def __init__(self, prices: StrandPrices) -> None:
        self._prices = prices
        self._known: dict[tuple[int, tuple[int, ...]], int] = {}
        self.looked_at = 0

    def strands(self, yarn: int, rounds: tuple[int, ...]) -> int:
        """As ``StrandPrices.strands``."""
        if (yarn, rounds) not in self._known:
            self.looked_at += (rounds[-1] - rounds[0] + 1) * self._prices.width
            self._known[yarn, rounds] = self._prices.strands(yarn, rounds)
        return self._known[yarn, rounds]


class _Kept(Record):
    """How a state was reached: the weight of all below it, and the path."""

    weight: int
    path: tuple[Way, ...]


_State = tuple[Way, int, tuple[int, ...], Signature]


def cheapest_path(
    levels: Sequence[Level],
    minimum: int,
    prices: Prices,
    free: Sequence[bool],
    yarns: int,
    embroidery: StrandPrices | None = None,
) -> Found | None:
    """The path of least weight through ``levels`` (round 1 first), or ``None`` if there is none.

    ``minimum`` and ``free`` are those of ``shortest_path``, and so is the choice among equals.
    """
    low = min(prices.join, prices.resume) if prices.carry else prices.join
    start = shortest_path(levels, minimum, low, free)
    if start is None:
        return None
    sewing = _Sewing(embroidery) if embroidery else None
    search = _Search(levels, minimum - 1, prices, free, yarns, embroidery, sewing)
    starts = [start, *_single_bases(levels, minimum, low, free, yarns)]
    return search.run(starts, look_ahead(levels, minimum - 1, low, free))


def _single_bases(
    levels: Sequence[Level], minimum: int, change: int, free: Sequence[bool], yarns: int
) -> Iterator[tuple[Way, ...]]:
    """Paths on one base, where each round may have it; a round that may not has what it must."""
    for base in range(yarns):
        alone = (base, NONE)
        only = [{alone: level[alone]} if alone in level else level for level in levels]
        path = shortest_path(only, minimum, change, free)
        if path is not None and any(alone in level for level in levels):
            yield path


class _Search(Record):
    """One search: what it goes through and the prices."""

    levels: Sequence[Level]
    oldest: int
    prices: Prices
    free: Sequence[bool]
    yarns: int
    embroidery: StrandPrices | None
    sewing: _Sewing | None

    def run(self, starts: Sequence[tuple[Way, ...]], ahead: Sequence[Ahead]) -> Found:
        """The best path, given some to begin with and what the rounds above take at the least."""
        begun = [_Kept(self._weigh(path), path) for path in dict.fromkeys(starts)]
        most = min(each.weight for each in begun)
        floor: Weight = inf
        kept: dict[_State, _Kept] = {}
        tried = 0
        for index, level in enumerate(self.levels):
            after, given_up = self._next(index, kept, most, ahead)
            floor = min(floor, given_up)
            tried += len(level) * max(1, len(kept))
            few = tried > MOST_TRIED or self._spent(_FEW_FROM)
            room = FEW_STATES if few else MOST_STATES
            bounds = {
                state: each.weight + least_from(ahead, index, state[0], self._age(index, state))
                for state, each in after.items()
            }
            able = sorted(
                (state for state in after if bounds[state] <= most),
                key=lambda state: (bounds[state], after[state].path),
            )
            if len(able) > room:
                floor = min(floor, bounds[able[room]])
            kept = {state: after[state] for state in able[:room]}
        done = [_Kept(self._closed(state, each), each.path) for state, each in kept.items()]
        best = min([*done, *begun], key=lambda each: (each.weight, each.path))
        return Found(best.path, best.weight, int(min(floor, best.weight)))

    def _age(self, index: int, state: _State) -> int:
        return self.oldest if self.free[index] else state[1]

    def _spent(self, share: float = 1.0) -> bool:
        """Whether that share of the work is done that counting strands may be."""
        return self.sewing is not None and self.sewing.looked_at > share * MOST_LOOKED_AT

    def _next(
        self, index: int, kept: Mapping[_State, _Kept], most: int, ahead: Sequence[Ahead]
    ) -> tuple[dict[_State, _Kept], Weight]:
        """The states after round ``index``, each with the best way to it, not those that are sure
        to come to more than ``most``; and the least that those given up could have come to."""
        given_up: Weight = inf
        found: dict[_State, _Kept] = {}

        def add(state: _State, weight: int, path: tuple[Way, ...]) -> None:
            known = found.get(state)
            if known is None or (weight, path) < (known.weight, known.path):
                found[state] = _Kept(weight, path)

        level = self.levels[index]
        if index == 0:
            cut = (self.prices.carry + 1,) * self.yarns
            for way, cost in level.items():
                weight = cost + self.prices.join * (way[1] != NONE)
                signature, more = self._embroidered(index, ((),) * self.yarns, way)
                add((way, 0, self._rests(cut, way), signature), weight + more, (way,))
            return found, given_up
        for (way, age, rests, open_), each in kept.items():
            age = self.oldest if self.free[index - 1] else age
            if self._spent():
                given_up = min(given_up, each.weight + least_from(ahead, index - 1, way, age))
                continue
            for after, cost in level.items():
                stays = after[0] == way[0]
                if not stays and age < self.oldest:
                    continue
                weight = each.weight + cost + self._taken_up(way, after, rests)
                older = min(age + 1, self.oldest) if stays else 0
                aged = self.oldest if self.free[index] else older
                if weight + least_from(ahead, index, after, aged) > most:
                    continue
                signature, more = self._embroidered(index, open_, after)
                state = (after, older, self._rests(rests, after), signature)
                add(state, weight + more, (*each.path, after))
        return found, given_up

    def _taken_up(self, way: Way, after: Way, rests: tuple[int, ...]) -> int:
        """The weight of all yarns that ``after`` has and ``way`` has not."""
        prices, weight = self.prices, 0
        for yarn in after:
            if yarn not in way and yarn != NONE:
                weight += prices.resume if rests[yarn] <= prices.carry else prices.join
        return weight

    def _rests(self, rests: tuple[int, ...], way: Way) -> tuple[int, ...]:
        """Rounds that each yarn rests after one knitted as ``way``; those cut rest no longer."""
        cut = self.prices.carry + 1
        rested = [rest + 1 if rest < cut else cut for rest in rests]
        for yarn in way:
            if yarn != NONE:
                rested[yarn] = 0
        return tuple(rested)

    def _embroidered(self, index: int, open_: Signature, way: Way) -> tuple[Signature, int]:
        """The rounds whose strands may go on after round ``index``, and the weight of those that
        ended, over their charges."""
        found = self.embroidery
        if found is None:
            return open_, 0
        signature: list[tuple[int, ...]] = []
        more = 0
        here = found.charges[index]
        for yarn, rounds in enumerate(open_):
            if yarn in here and yarn not in way:
                rounds = (*rounds, index)
            if rounds:
                later = bisect_right(found.has[yarn], index)
                next_ = found.has[yarn][later] if later < len(found.has[yarn]) else inf
                if next_ - rounds[-1] - 1 > found.reach:
                    more += self._strands(yarn, rounds)
                    rounds = ()
            signature.append(rounds)
        return tuple(signature), more

    def _strands(self, yarn: int, rounds: tuple[int, ...]) -> int:
        """The weight of the strands of some rounds, less what was charged for them."""
        assert self.embroidery is not None
        assert self.sewing is not None
        charged = sum(self.embroidery.charges[at][yarn] for at in rounds)
        return self.prices.strand * self.sewing.strands(yarn, rounds) - charged

    def _closed(self, state: _State, kept: _Kept) -> int:
        ends = (self._strands(yarn, rounds) for yarn, rounds in enumerate(state[3]) if rounds)
        return kept.weight + sum(ends)

    def _weigh(self, path: tuple[Way, ...]) -> int:
        """The weight of a whole path."""
        state: _State | None = None
        weight = 0
        rests = (self.prices.carry + 1,) * self.yarns
        open_: Signature = ((),) * self.yarns
        for index, way in enumerate(path):
            weight += self.levels[index][way]
            if index:
                weight += self._taken_up(path[index - 1], way, rests)
            else:
                weight += self.prices.join * (way[1] != NONE)
            rests = self._rests(rests, way)
            open_, more = self._embroidered(index, open_, way)
            weight += more
            state = (way, 0, rests, open_)
        assert state is not None
        return self._closed(state, _Kept(weight, path))
