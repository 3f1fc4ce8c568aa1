"""Floats: limits from printed advice, runs around the tube, and where to catch a long one."""

from collections import Counter
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bindoff.plan.colour.floats import (
    FloatRun,
    LimitRule,
    catches,
    float_limit,
    float_runs,
    long_floats,
    longest_floats,
)
from bindoff.plan.colour.grid import ColourGrid

rows = st.lists(st.sampled_from("abc"), min_size=1, max_size=14)


@pytest.mark.parametrize(
    ("gauge", "limit"),
    [(16, 4), (18, 4), (20, 5), (22, 5), (24, 6), (26, 6), (28, 7), (30, 7), (32, 8)],
)
def test_limit_is_an_inch_of_stitches(gauge: float, limit: int) -> None:
    """An inch of width (handbook advice), 25.4 mm by the international yard of 1959."""
    assert float_limit(gauge) == limit


def test_limit_may_round_instead() -> None:
    """Printed instructions at 22 stitches to 4 in say "about 6" (common practice, no source)."""
    assert float_limit(22, LimitRule.ROUND) == 6


def test_a_whole_number_of_stitches_is_not_lost_to_binary_fractions() -> None:
    assert [float_limit(10 * n / 2.54) for n in range(1, 40)] == list(range(1, 40))


def test_a_coarse_gauge_still_lets_one_stitch_pass() -> None:
    assert float_limit(2) == 1
    assert float_limit(0.5, longest_mm=0.5) == 1


@pytest.mark.parametrize(("gauge", "longest"), [(0, 25.4), (20, 0), (-1, 25.4)])
def test_limit_needs_a_gauge(gauge: float, longest: float) -> None:
    with pytest.raises(ValueError, match="above 0"):
        float_limit(gauge, longest_mm=longest)


def test_runs_of_a_round_count_from_the_right_and_cross_its_start() -> None:
    grid = ColourGrid((tuple("aaaaaaaa"), tuple("aabbaaba")))

    assert float_runs(grid) == (
        FloatRun(2, "a", first=2, last=2, length=1),
        FloatRun(2, "a", first=5, last=6, length=2),
        FloatRun(2, "b", first=3, last=4, length=2),
        FloatRun(2, "b", first=7, last=1, length=3),
    )


def test_nothing_floats_past_the_outermost_stitch_of_a_flat_piece() -> None:
    grid = ColourGrid((tuple("aabbaaba"),), wraps=False)

    assert [(run.yarn, run.first) for run in float_runs(grid)] == [("a", 2), ("a", 5), ("b", 3)]


def test_a_single_stitch_floats_past_all_the_others() -> None:
    (run,) = (each for each in float_runs(ColourGrid((tuple("aaba"),))) if each.yarn == "b")

    assert (run.first, run.last, run.length) == (3, 1, 3)


@given(st.lists(rows, min_size=1, max_size=1), st.booleans())
def test_stitches_and_floats_of_a_yarn_fill_the_round(row: list[list[str]], wraps: bool) -> None:
    """In a tube a yarn is either at the front of a stitch or passes behind it."""
    grid = ColourGrid((tuple(row[0]),), wraps)
    passed: Counter[str] = Counter()
    for run in float_runs(grid):
        passed[run.yarn] += run.length
        over = [(run.first - 1 + step) % grid.width + 1 for step in range(run.length)]
        assert run.yarn not in [grid.at(1, stitch) for stitch in over]
        assert over[-1] == run.last
    for yarn in grid.yarns:
        own = grid.rounds[0].count(yarn)
        assert own + passed[yarn] == grid.width if wraps else own + passed[yarn] <= grid.width


@given(rows, st.booleans())
def test_longest_floats_agree_with_the_runs(row: list[str], wraps: bool) -> None:
    grid = ColourGrid((tuple(row),), wraps)
    for yarn, (passed, own) in longest_floats(row, wraps).items():
        alone = ColourGrid((tuple("x" if each == yarn else "o" for each in row),), wraps)
        runs = {
            name: max((run.length for run in float_runs(alone) if run.yarn == name), default=0)
            for name in "xo"
        }
        assert passed == max((r.length for r in float_runs(grid) if r.yarn == yarn), default=0)
        assert (passed, own) == (runs["x"], runs["o"] if "o" in alone.yarns else own)


def test_a_run_of_eight_is_caught_where_printed_advice_says() -> None:
    """Limit 6, run of 8: "on the 3rd, 4th or 5th stitch" (common practice, no source)."""
    (caught,) = catches(8, 6)

    assert caught in (3, 4, 5)


@given(st.integers(1, 80), st.integers(1, 12))
def test_catches_leave_no_piece_over_the_limit_and_one_fewer_would(length: int, limit: int) -> None:
    caught = catches(length, limit)
    ends = (0, *caught, length + 1)
    pieces = [after - before - 1 for before, after in pairwise(ends)]

    assert max(pieces) <= limit
    assert max(pieces) - min(pieces) <= 1
    assert length - max(len(caught) - 1, 0) > limit * len(caught)


def test_a_limit_of_none_is_refused() -> None:
    with pytest.raises(ValueError, match="at least 1"):
        catches(5, 0)


def test_long_floats_say_where_to_catch_around_the_tube() -> None:
    grid = ColourGrid((tuple("aaaabbaaaa"),))

    (found,) = long_floats(grid, 5)
    assert found.limit == 5

    assert (found.run.yarn, found.run.first, found.run.length) == ("b", 7, 8)
    assert found.catches == (10,)
    assert long_floats(grid, 8) == ()
