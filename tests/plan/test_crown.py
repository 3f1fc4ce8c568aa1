"""Crowns worked in wedges."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bindoff.plan.crown import (
    BEANIE_WEDGES,
    AlignedCrown,
    Pace,
    align_crowns,
    flat_crown_rounds,
    flat_disc_decreases,
)
from bindoff.plan.gauge import Gauge

PACES: tuple[Pace, ...] = ("every other", "every", "every other, then every")


def alone(
    stitches: int, wedges: int = 8, target: int | None = None, pace: Pace = "every other"
) -> AlignedCrown:
    """The crown of one size."""
    return align_crowns((stitches,), wedges, target, pace)


def test_a_hat_of_88_stitches() -> None:
    """(k9, k2tog) 8 times, (k8, k2tog) ... to (k2tog): 88 to 8 (common practice, no source)."""
    hat = align_crowns((88,))

    assert [step.work for step in hat.rounds] == [9, 8, 7, 6, 5, 4, 3, 2, 1, 0]
    assert [*hat.rounds[0].before, *(step.after[0] for step in hat.rounds)] == [
        *(88, 80, 72, 64, 56, 48, 40, 32, 24, 16, 8)
    ]
    assert (hat.stitches, hat.wedges) == ((88,), 8)


def test_the_standard_beanie_loses_four_stitches_a_round_on_average() -> None:
    """Woolly Wormhead on crown shaping, 2016: 8 stitches every other round, so 4 a round."""
    hat = alone(96)

    assert {step.decreases for step in hat.rounds} == {BEANIE_WEDGES} == {8}
    assert {step.plain_after for step in hat.rounds[:-1]} == {1}
    worked_pairs = 96 - 2 * 8  # the last decrease round has no plain round after it
    assert worked_pairs / (hat.total_rounds[0] - 1) == 4


def test_radius_of_a_crown() -> None:
    """Woolly Wormhead, 2016: the crown is a disc of circumference / 6.28 on a cylinder.

    100 stitches at 22 x 30 over 10 cm: 45.5 cm around, radius 7.2 cm, 21.7 rounds (by division).
    """
    value = flat_crown_rounds(100, Gauge.over(22, 30))

    assert round(value.exact, 1) == 21.7
    assert value.rounded == 22


@pytest.mark.parametrize("stitches", [1, 3])  # 0.2 and 0.7 rounds
def test_a_crown_has_a_round_at_least(stitches: int) -> None:
    assert flat_crown_rounds(stitches, Gauge.over(22, 30)).rounded == 1


@pytest.mark.parametrize(("stitches", "rounds", "decreases"), [(20, 28, 4.5), (22, 30, 4.6)])
def test_decreases_that_make_a_flat_disc(stitches: int, rounds: int, decreases: float) -> None:
    """2 pi x stitch gauge / round gauge (by geometry)."""
    assert round(flat_disc_decreases(Gauge.over(stitches, rounds)), 1) == decreases


@given(st.floats(5, 45), st.floats(5, 60), st.integers(20, 200))
def test_flat_disc_decreases_use_up_all_stitches_over_the_radius(
    stitches: float, rounds: float, count: int
) -> None:
    """Geometry: radius in rounds x decreases a round = the stitches at the edge."""
    gauge = Gauge.over(stitches, rounds)

    assert flat_crown_rounds(count, gauge).exact * flat_disc_decreases(gauge) == pytest.approx(
        count
    )


def test_the_last_third_without_plain_rounds() -> None:
    hat = alone(88, pace="every other, then every")

    assert [step.plain_after for step in hat.rounds] == [1, 1, 1, 1, 1, 1, 1, 0, 0, 0]
    assert hat.total_rounds == (17,)
    assert alone(88).total_rounds == (19,)
    assert alone(88, pace="every").total_rounds == (10,)


@given(st.integers(1, 12), st.integers(1, 30), st.integers(1, 30), st.sampled_from(PACES))
def test_counts_run_on_from_round_to_round(wedges: int, start: int, end: int, pace: Pace) -> None:
    if end > start:
        start, end = end, start
    hat = alone(start * wedges, wedges, end * wedges, pace)

    count = start * wedges
    for step in hat.rounds:
        assert step.before == (count,)
        assert step.decreases == wedges
        assert wedges * (step.work + 2) == count  # (k work, k2tog) uses each wedge up
        count -= wedges
        assert step.after == (count,)
    assert count == end * wedges
    if hat.rounds:
        assert hat.rounds[-1].plain_after == 0


def test_larger_sizes_start_earlier_in_one_list() -> None:
    hat = align_crowns((80, 96, 88))

    assert [step.work for step in hat.rounds] == [10, 9, 8, 7, 6, 5, 4, 3, 2, 1, 0]
    assert [step.worked for step in hat.rounds[:3]] == [
        (False, True, False),
        (False, True, True),
        (True, True, True),
    ]
    assert [step.before for step in hat.rounds[:3]] == [(80, 96, 88), (80, 88, 88), (80, 80, 80)]
    assert hat.rounds[-1].after == (8, 8, 8)
    assert hat.total_rounds == (17, 21, 19)


def test_the_last_third_is_that_of_the_smallest_size() -> None:
    hat = align_crowns((64, 112), pace="every other, then every")

    assert len(hat.rounds) == 13
    assert [step.plain_after for step in hat.rounds] == [1] * 11 + [0] * 2  # 7 // 3


def test_a_size_alone_keeps_the_last_third_of_the_smallest() -> None:
    hat = align_crowns((112,), pace="every other, then every", fewest=64)

    assert [step.plain_after for step in hat.rounds] == [1] * 11 + [0] * 2  # 7 // 3


@given(
    st.lists(st.integers(2, 25), min_size=1, max_size=6),
    st.integers(1, 10),
    st.sampled_from(["every other", "every"]),
)
def test_each_size_reads_its_own_crown_out_of_the_list(
    sizes: list[int], wedges: int, pace: Pace
) -> None:
    counts = tuple(size * wedges for size in sizes)
    hats = align_crowns(counts, wedges, pace=pace)

    for i, count in enumerate(counts):
        own = alone(count, wedges, pace=pace)
        read = [
            (step.before[i], step.work, step.decreases, step.after[i], step.plain_after)
            for step in hats.rounds
            if step.worked[i]
        ]
        assert read == [
            (step.before[0], step.work, step.decreases, step.after[0], step.plain_after)
            for step in own.rounds
        ]
        skipped = [step for step in hats.rounds if not step.worked[i]]
        assert all(step.before[i] == step.after[i] == count for step in skipped)
        assert hats.total_rounds[i] == own.total_rounds[0]


def test_a_crown_that_is_already_done() -> None:
    hat = alone(8)

    assert hat.rounds == ()
    assert hat.total_rounds == (0,)


def test_counts_that_do_not_divide_are_refused() -> None:
    with pytest.raises(ValueError, match="90 stitches do not divide into 8 wedges"):
        alone(90)
    with pytest.raises(ValueError, match="12 stitches at the top of a crown do not divide"):
        alone(88, target=12)
    with pytest.raises(ValueError, match="can not start with 8 stitches and end with 16"):
        alone(8, target=16)
    with pytest.raises(ValueError, match="at least 1 wedge"):
        alone(8, wedges=0)
    with pytest.raises(ValueError, match="at least one size"):
        align_crowns(())
