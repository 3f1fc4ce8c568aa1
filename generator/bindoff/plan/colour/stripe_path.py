"""The shortest path behind a stripe plan: one way to knit each round, least weight in all.

A way is a base and, in a stranded round, a second yarn. A plan is a path through one way per
round. Its weight is what each round leaves to embroider plus one change for every yarn joined
that was not in use in the round before (the cast-on yarn is free). A stripe, the run of rounds on
one base, must reach the minimum before its base changes or the work ends, unless it has a round
that frees it: there the stripe counts as old enough, whatever its age.

The path is found from the last round down, so that it can be read off from round 1 up with ties
going to the earliest way. For each round a few minima (over all ways, over those that keep a given
yarn, and those that keep both) stand for every transition, so a round costs as many steps as it
has ways, not their square.
"""

from collections.abc import Mapping, Sequence
from math import inf

from bindoff.records import Record

NONE = -1
"""Second yarn of a round that is not stranded; sorts before every yarn."""

Way = tuple[int, int]
"""Base and second yarn, by their place in the yarn order."""

Weight = int | float
"""A whole number, or infinity where there is no path."""

Level = Mapping[Way, int]
"""Weight of embroidery that each way leaves in one round, ways in ascending order."""


class Ahead(Record):
    """Least weight from one round to the last, for each way to arrive there.

    ``ways``: by age of the stripe (0 for its first round, the last entry for "old enough"), per
    way. ``joined``: by age, per base: its stripe goes on and any second yarn is joined. ``fresh``,
    ``keeps``, ``keeps_both``: a stripe begins and joins all its yarns, all but one given yarn, or
    none of two given yarns.
    """

    ways: tuple[dict[Way, Weight], ...]
    joined: tuple[dict[int, Weight], ...]
    fresh: Weight
    keeps: dict[int, Weight]
    keeps_both: dict[Way, Weight]


def shortest_path(
    levels: Sequence[Level], minimum: int, change: int, free: Sequence[bool] = ()
) -> tuple[Way, ...] | None:
    """The path of least weight through ``levels`` (round 1 first), or ``None`` if there is none.

    ``minimum``: fewest rounds of a stripe; ``change``: weight of one joined yarn. ``free``: per
    level, whether its stripe may be of any height; none is where nothing is given. Of paths of
    equal weight the one with the earliest ways, compared from round 1 up.
    """
    oldest = minimum - 1
    free = free or (False,) * len(levels)
    ahead = look_ahead(levels, oldest, change, free)
    first = ahead[0].ways[0]
    open_ways = [way for way, weight in first.items() if weight < inf]
    if not open_ways:
        return None
    way = min(open_ways, key=lambda each: (first[each] + change * (each[1] != NONE), each))
    age = 0
    path = [way]
    for here, freed in zip(ahead[1:], free, strict=False):
        age = oldest if freed else age
        _, way, age = min(
            (weight + here.ways[next_age][next_way], next_way, next_age)
            for next_way in here.ways[0]
            for weight, next_age in _step(way, age, next_way, oldest, change)
        )
        path.append(way)
    return tuple(path)


def _step(
    way: Way, age: int, next_way: Way, oldest: int, change: int
) -> tuple[tuple[int, int], ...]:
    """Weight of going on with ``next_way`` and the stripe's age then; empty if not allowed."""
    joined = sum(yarn not in (*way, NONE) for yarn in next_way)
    if next_way[0] == way[0]:
        return ((joined * change, min(age + 1, oldest)),)
    return ((joined * change, 0),) if age == oldest else ()


def look_ahead(
    levels: Sequence[Level], oldest: int, change: int, free: Sequence[bool]
) -> list[Ahead]:
    """The least weights for every round, round 1 first."""
    last = tuple(
        {way: cost if age == oldest or free[-1] else inf for way, cost in levels[-1].items()}
        for age in range(oldest + 1)
    )
    ahead = [_minima(last, change)]
    for level, freed in zip(reversed(levels[:-1]), reversed(free[:-1]), strict=True):
        above = ahead[-1]
        ages = [oldest if freed else age for age in range(oldest + 1)]
        ways = tuple(
            {way: cost + _after(way, age, oldest, above) for way, cost in level.items()}
            for age in ages
        )
        ahead.append(_minima(ways, change))
    ahead.reverse()
    return ahead


def least_from(ahead: Sequence[Ahead], index: int, way: Way, age: int) -> Weight:
    """Least weight of all rounds above round ``index`` (from 0), knitted as ``way``, the stripe
    being of ``age``; infinity where the work may not end or go on so."""
    oldest = len(ahead[index].ways) - 1
    if index + 1 < len(ahead):
        return _after(way, age, oldest, ahead[index + 1])
    return 0 if age == oldest else inf


def _after(way: Way, age: int, oldest: int, above: Ahead) -> Weight:
    """Least weight of the rounds above one knitted as ``way``.

    A stripe that begins on the same base is counted among the new stripes too. That never lowers
    the result: the same stripe going on is older, so it is free to do all that and more.
    """
    base, second = way
    older = min(age + 1, oldest)
    stays = min(
        above.ways[older].get((base, NONE), inf),
        above.ways[older].get(way, inf),
        above.joined[older].get(base, inf),
    )
    if age < oldest:
        return stays
    return min(
        stays,
        above.fresh,
        above.keeps.get(base, inf),
        above.keeps.get(second, inf),
        above.keeps_both.get((min(way), max(way)), inf),
    )


def _minima(ways: tuple[dict[Way, Weight], ...], change: int) -> Ahead:
    """The minima that stand for all transitions into a round."""
    fresh: Weight = inf
    keeps: dict[int, Weight] = {}
    keeps_both: dict[Way, Weight] = {}
    for (base, second), weight in ways[0].items():
        if second == NONE:
            fresh = min(fresh, weight + change)
            keeps[base] = min(keeps.get(base, inf), weight)
            continue
        fresh = min(fresh, weight + 2 * change)
        for yarn in (base, second):
            keeps[yarn] = min(keeps.get(yarn, inf), weight + change)
        both = (min(base, second), max(base, second))
        keeps_both[both] = min(keeps_both.get(both, inf), weight)
    return Ahead(ways, tuple(_joined(each, change) for each in ways), fresh, keeps, keeps_both)


def _joined(ways: Mapping[Way, Weight], change: int) -> dict[int, Weight]:
    """Per base, the least weight of a way that joins a second yarn to it."""
    least: dict[int, Weight] = {}
    for (base, second), weight in ways.items():
        if second != NONE:
            least[base] = min(least.get(base, inf), weight + change)
    return least
