"""Stripes of tubes as large as they are knitted, against the least that an integer program proves.

Where strands have no price the least is proved for every picture; where they have, for pictures
with some order. What has none, stitches drawn by lot, is planned with a gap that the plan tells.
`python -m tests.bench.stripes` counts how many of a hundred are the least.
"""

from collections.abc import Mapping, Sequence
from typing import Any

import pytest

from bindoff.kept import Shelf
from bindoff.plan.colour.areas import CellRun
from bindoff.plan.colour.embroidery import Embroidery, ThreadRule, embroidery_of
from bindoff.plan.colour.stripe_search import MOST_LOOKED_AT
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


@pytest.mark.parametrize("seed", [1031, 1039])
def test_the_work_that_a_plan_takes_is_bounded_whatever_the_picture(
    seed: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Counted in stitches looked at for strands, and not in time. The state at hand is finished:
    it looks at the whole picture twice at the most for each yarn. Before it, and after, every path
    at hand is weighed."""
    looked_at = 0

    def counting(
        runs: Mapping[str, Sequence[CellRun]], yarns: tuple[str, ...], *more: Any
    ) -> Embroidery:
        nonlocal looked_at
        rounds = [run.round_ for run in runs[yarns[0]]]
        looked_at += (rounds[-1] - rounds[0] + 1) * grid.width
        return embroidery_of(runs, yarns, *more)

    monkeypatch.setattr("bindoff.plan.colour.stripes.embroidery_of", counting)
    monkeypatch.setattr("bindoff.plan.colour.stripes.SHELF", Shelf("none.py", most=1))
    grid, order, dice = drawn(seed)
    plan_stripes.cache_clear()
    plan_stripes(grid, order, options_of(dice, True, RULE))

    once = grid.width * grid.height * len(order)
    assert MOST_LOOKED_AT < looked_at < MOST_LOOKED_AT + 40 * once
    assert looked_at < 2 * MOST_LOOKED_AT


@pytest.mark.parametrize("seed", [3, 7, 1035])
def test_no_plan_takes_longer_than_one_base_throughout(seed: int) -> None:
    grid, order, dice = drawn(seed)

    plan = plan_stripes(grid, order, options_of(dice, True, RULE))

    assert plan.minutes <= plan.single.minutes


@pytest.mark.parametrize("seed", range(16))
def test_the_pictures_are_as_large_as_tubes_are(seed: int) -> None:
    grid, order, _ = drawn(seed)

    assert 22 <= grid.width <= 46
    assert 60 <= grid.height <= 120
    assert 2 <= len(order) <= 5
