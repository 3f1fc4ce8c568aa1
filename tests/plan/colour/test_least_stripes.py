"""Stripes of tubes as large as they are knitted, against the least that an integer program proves.

Where strands have no price the least is proved for every picture; where they have, for pictures
with some order. What has none, stitches drawn by lot, is planned with a gap that the plan tells.
`python -m tests.bench.stripes` counts how many of a hundred are the least.
"""

import pytest

from bindoff.plan.colour.embroidery import ThreadRule
from bindoff.plan.colour.stripes import plan_stripes
from tests.plan.colour.integer_program import drawn, least_minutes, options_of

RULE = ThreadRule(loop_mm=25, stitch_mm=10, jump_limit=3, strand_mm=700, tail_mm=150)
NEAR = 1e-4  # minutes: the solver's own tolerance


@pytest.mark.parametrize("ends", [False, True], ids=["changes", "carried yarns"])
@pytest.mark.parametrize("seed", [*range(7), 8, 9])
def test_no_stripes_of_a_whole_tube_take_less_time(seed: int, ends: bool) -> None:
    grid, order, dice = drawn(seed)
    options = options_of(dice, ends, None)

    plan = plan_stripes(grid, order, options)
    least = least_minutes(grid, order, options, seconds=20)

    assert least.reached
    assert plan.minutes == pytest.approx(least.minutes, abs=NEAR)
    assert plan.least_minutes == pytest.approx(plan.minutes)


@pytest.mark.parametrize("seed", [0, 1, 2, 4, 5, 8, 10, 12, 14])
def test_no_stripes_of_a_whole_tube_take_less_time_with_their_strands(seed: int) -> None:
    grid, order, dice = drawn(seed)
    options = options_of(dice, True, RULE)

    plan = plan_stripes(grid, order, options)
    least = least_minutes(grid, order, options, seconds=20, tries=60)

    assert least.reached
    assert plan.minutes == pytest.approx(least.minutes, abs=NEAR)
    assert plan.least_minutes == pytest.approx(plan.minutes)


def test_stitches_by_lot_are_planned_with_a_gap_that_is_told() -> None:
    grid, order, dice = drawn(15)
    options = options_of(dice, True, RULE)

    plan = plan_stripes(grid, order, options)
    least = least_minutes(grid, order, options, seconds=20)

    assert plan.least_minutes < plan.minutes
    assert least.minutes < plan.minutes


@pytest.mark.parametrize("seed", range(16))
def test_the_pictures_are_as_large_as_tubes_are(seed: int) -> None:
    grid, order, _ = drawn(seed)

    assert 22 <= grid.width <= 46
    assert 60 <= grid.height <= 120
    assert 2 <= len(order) <= 5
