"""The shortest path itself, on any weights, against all paths there are."""

from itertools import groupby, product

from hypothesis import given, settings
from hypothesis import strategies as st

from bindoff.plan.colour.stripe_path import NONE, Level, Way, shortest_path

WAYS = [(base, second) for base in range(3) for second in (NONE, 0, 1, 2) if base != second]

levels_of_ways = st.lists(
    st.dictionaries(st.sampled_from(WAYS), st.integers(0, 6), max_size=5).map(
        lambda level: dict(sorted(level.items()))
    ),
    min_size=1,
    max_size=4,
)


def every_path(levels: list[Level], minimum: int) -> list[tuple[Way, ...]]:
    return [
        path
        for path in product(*levels)
        if all(len(list(run)) >= minimum for _, run in groupby(base for base, _ in path))
    ]


def weight_of(path: tuple[Way, ...], levels: list[Level], change: int) -> int:
    joined = -1
    before: set[int] = set()
    for way in path:
        now = set(way) - {NONE}
        joined += len(now - before)
        before = now
    return joined * change + sum(level[way] for level, way in zip(levels, path, strict=True))


@settings(max_examples=500, deadline=None)
@given(levels_of_ways, st.integers(1, 3), st.integers(0, 4))
def test_no_path_is_lighter_or_equally_light_and_earlier(
    levels: list[Level], minimum: int, change: int
) -> None:
    best = min(
        every_path(levels, minimum),
        key=lambda path: (weight_of(path, levels, change), path),
        default=None,
    )

    assert shortest_path(levels, minimum, change) == best


def test_two_stranded_yarns_may_trade_places_without_a_join() -> None:
    levels = [{(0, 1): 0}, {(0, NONE): 5, (1, 0): 1}]

    assert shortest_path(levels, minimum=1, change=3) == ((0, 1), (1, 0))


def test_a_second_yarn_may_become_the_base_without_a_join() -> None:
    levels = [{(0, 1): 0}, {(1, NONE): 1, (2, NONE): 0}]

    assert shortest_path(levels, minimum=1, change=3) == ((0, 1), (1, NONE))


@settings(deadline=None)
@given(
    st.lists(st.tuples(st.integers(0, 6), st.integers(0, 6)), min_size=4, max_size=9),
    st.integers(1, 4),
    st.integers(0, 4),
)
def test_stripes_of_several_rounds_are_as_short_as_they_may_be(
    costs: list[tuple[int, int]], minimum: int, change: int
) -> None:
    """Two bases over enough rounds for several stripes of the minimum."""
    levels: list[Level] = [{(0, NONE): first, (1, NONE): second} for first, second in costs]
    best = min(
        every_path(levels, minimum),
        key=lambda path: (weight_of(path, levels, change), path),
        default=None,
    )

    assert shortest_path(levels, minimum, change) == best


def test_one_yarn_kept_and_one_joined_is_one_change() -> None:
    """0 + 3 for the second yarn, then 3 for the other base; the other way costs 5 + 3."""
    levels = [{(0, NONE): 5, (2, 1): 0}, {(0, 1): 0, (1, NONE): 9}]

    assert shortest_path(levels, minimum=1, change=3) == ((2, 1), (0, 1))


def test_two_yarns_joined_are_two_changes() -> None:
    """Twice 3 for both yarns; to begin with one of them costs 4 + 3."""
    levels = [{(0, NONE): 4, (2, NONE): 0}, {(0, 1): 0}]

    assert shortest_path(levels, minimum=1, change=3) == ((2, NONE), (0, 1))


def test_yarns_that_trade_places_take_the_lighter_way() -> None:
    """Both are in use, so the next round joins none and costs 0 or 9 to embroider: 3 in all for
    the second yarn of the first. To begin with one yarn and join the other costs 2 + 3."""
    levels = [{(0, NONE): 2, (1, 0): 0}, {(0, 1): 0, (1, 0): 9}]

    assert shortest_path(levels, minimum=1, change=3) == ((1, 0), (0, 1))
