"""Shaping rounds spread over a length."""

from collections import Counter
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bindoff.plan.spacing import EvenRun
from bindoff.plan.taper import least_rounds, taper


@pytest.mark.parametrize(
    ("rounds", "changes", "step", "intervals"),
    [
        (78, 8, 1, {9: 2, 10: 6}),
        (84, 10, 1, {8: 6, 9: 4}),
        (84, 10, 2, {8: 8, 10: 2}),
        (91, 11, 1, {8: 8, 9: 3}),
        (100, 12, 2, {8: 10, 10: 2}),
        (60, 9, 2, {6: 6, 8: 3}),
        (45, 6, 1, {7: 3, 8: 3}),
        (120, 14, 2, {8: 10, 10: 4}),
        (52, 5, 2, {10: 4, 12: 1}),
        (30, 7, 2, {4: 6, 6: 1}),
        # A raglan of 30 rows with a decrease at each side on all 15 right-side rows.
        (30, 15, 2, {2: 15}),
    ],
)
def test_intervals(rounds: int, changes: int, step: int, intervals: dict[int, int]) -> None:
    """Worked by hand with long division, as the trade does it (common practice, no source)."""
    result = taper(rounds, changes, step)

    assert Counter(result.intervals) == intervals
    assert result.plain_after == 0


def test_a_sleeve_of_eight_pairs() -> None:
    """62 stitches to 46 are 8 pairs over 78 rounds (common practice, no source)."""
    assert taper(78, (62 - 46) // 2).runs == (EvenRun(9, 2), EvenRun(10, 6))


def test_short_intervals_come_first() -> None:
    assert taper(45, 6).intervals == (7, 7, 7, 8, 8, 8)


def test_shaping_rounds_are_numbered_from_one() -> None:
    assert taper(45, 6).shaping_rounds() == (7, 14, 21, 29, 37, 45)
    assert taper(45, 6).shaping_rounds("first") == (1, 8, 15, 22, 30, 38)


def test_rows_left_over_are_plain() -> None:
    result = taper(31, 7, step=2)

    assert result.runs == (EvenRun(4, 6), EvenRun(6, 1))
    assert result.plain_after == 1


def test_no_shaping_is_all_plain() -> None:
    assert taper(20, 0) == taper(20, 0, step=2)
    assert taper(20, 0).plain_after == 20
    assert taper(20, 0).runs == ()
    assert (taper(20, 0).rounds, taper(0, 0).rounds, taper(0, 0).plain_after) == (20, 0, 0)


@pytest.mark.parametrize(
    ("rounds", "changes", "step", "last", "first"),
    [
        # A toe that ends in a decrease round: the 1st, 3rd ... 11th of 11.
        (11, 6, 2, (1, 3, 5, 7, 9, 11), (1, 3, 5, 7, 9, 11)),
        (11, 4, 3, (2, 5, 8, 11), (1, 4, 7, 10)),
        (10, 4, 3, (1, 4, 7, 10), (1, 4, 7, 10)),
        (1, 1, 6, (1,), (1,)),
        (5, 1, 6, (5,), (1,)),
    ],
)
def test_one_interval_is_short_where_whole_ones_do_not_fit(
    rounds: int, changes: int, step: int, last: tuple[int, ...], first: tuple[int, ...]
) -> None:
    """Counted on fingers (common practice, no source)."""
    assert taper(rounds, changes, step).shaping_rounds() == last
    assert taper(rounds, changes, step, "first").shaping_rounds("first") == first
    assert sum(taper(rounds, changes, step).intervals) == rounds
    assert taper(rounds, changes, step).plain_after == 0


@pytest.mark.parametrize(
    ("changes", "step", "least"), [(0, 4, 0), (1, 4, 1), (6, 2, 11), (4, 3, 10), (5, 1, 5)]
)
def test_the_fewest_rounds_of_a_taper(changes: int, step: int, least: int) -> None:
    assert least_rounds(changes, step) == least
    assert taper(least, changes, step).changes == changes


@given(st.integers(1, 300), st.integers(1, 60), st.integers(1, 7))
def test_every_round_is_used_once(rounds: int, changes: int, step: int) -> None:
    if (changes - 1) * step >= rounds:
        with pytest.raises(ValueError, match="do not fit"):
            taper(rounds, changes, step)
        return
    if changes > rounds // step:
        last = taper(rounds, changes, step).shaping_rounds()
        assert last[-1] == rounds
        assert {b - a for a, b in pairwise(last)} <= {step}
        first = taper(rounds, changes, step, "first").shaping_rounds("first")
        assert first == tuple(range(1, rounds + 1, step))
        return
    result = taper(rounds, changes, step)

    assert (result.rounds, result.changes) == (rounds, changes)
    assert sum(result.intervals) + result.plain_after == rounds
    assert 0 <= result.plain_after < step
    assert all(interval % step == 0 for interval in result.intervals)
    assert max(result.intervals) - min(result.intervals) in (0, step)
    first = result.shaping_rounds("first")
    last = result.shaping_rounds("last")
    assert len(set(first)) == len(set(last)) == changes
    assert all(number % step == 1 % step for number in first)
    assert all(number % step == 0 for number in last)
    assert last[-1] == rounds - result.plain_after


def test_nonsense_is_refused() -> None:
    with pytest.raises(ValueError, match="16 shaping rounds do not fit into 30 rounds"):
        taper(30, 16, step=2)
    with pytest.raises(ValueError, match="rounds and changes of 0 or more"):
        taper(-1, 2)
    with pytest.raises(ValueError, match="step of 1 or more"):
        taper(10, 2, step=0)
