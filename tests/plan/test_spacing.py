"""Changes spread evenly over a round or a row.

The worked examples come from printed instructions for spacing increases and decreases; they are
common practice without a source to cite, and each is checked by adding its stitches up.
"""

from collections import Counter

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bindoff.plan.spacing import (
    EvenRun,
    ShapedRow,
    Spacing,
    collapse,
    even_groups,
    flat,
    in_the_round,
)

counts = st.integers(1, 300)
changes = st.integers(0, 60)


@pytest.mark.parametrize(
    ("stitches", "added", "groups"),
    [
        (100, 10, {10: 10}),
        (100, 11, {9: 10, 10: 1}),
        (48, 6, {8: 6}),
        (55, 17, {4: 4, 3: 13}),
        (75, 8, {9: 5, 10: 3}),
        (46, 6, {7: 2, 8: 4}),
        (92, 7, {13: 6, 14: 1}),
    ],
)
def test_groups_in_the_round(stitches: int, added: int, groups: dict[int, int]) -> None:
    assert Counter(in_the_round(stitches, added).groups) == groups


@pytest.mark.parametrize(
    ("stitches", "changed", "groups"),
    [
        (110, 10, {10: 11}),
        (80, 10, {7: 8, 8: 3}),
        (96, 10, {8: 3, 9: 8}),
        # Printed as "every 10th 9 times, every 11th once", which places 101 of the 120 stitches.
        # Eleven gaps over 120 stitches are 1 of 10 and 10 of 11.
        (120, 10, {10: 1, 11: 10}),
    ],
)
def test_groups_flat(stitches: int, changed: int, groups: dict[int, int]) -> None:
    assert Counter(flat(stitches, changed).groups) == groups


def test_the_printed_answer_for_120_stitches_is_wrong_and_ours_adds_up() -> None:
    printed = 9 * 10 + 1 * 11

    assert printed == 101
    assert sum(flat(120, 10).groups) == 120


@pytest.mark.parametrize(
    ("stitches", "added", "printed"),
    [(100, 16, [6] * 16 + [4]), (140, 21, [6] * 11 + [7] * 10 + [4])],
)
def test_flat_is_at_least_as_even_as_a_printed_answer_that_leaves_a_remainder(
    stitches: int, added: int, printed: list[int]
) -> None:
    groups = flat(stitches, added).groups

    assert sum(printed) == sum(groups) == stitches
    assert len(printed) == len(groups) == added + 1
    assert max(groups) - min(groups) <= 1 < max(printed) - min(printed)


def test_the_first_group_halved() -> None:
    """48 stitches, 12 increases: 2, then 4 eleven times, then 2."""
    row = flat(48, 12, halve_first=True).increase_row()

    assert row == ShapedRow("m1", (EvenRun(2, 1), EvenRun(4, 11)), repeats=1, rest=2)
    assert row.stitches_after == 60


def test_a_crown_round_in_the_round() -> None:
    """88 stitches, 8 decreases: (k9, k2tog) 8 times, 80 left."""
    row = in_the_round(88, 8).decrease_row()

    assert row == ShapedRow("k2tog", (EvenRun(9, 1),), repeats=8, rest=0)
    assert (row.stitches_before, row.stitches_after) == (88, 80)


def test_uneven_groups_are_worded_by_their_repeat() -> None:
    """55 stitches less 17 has no shorter repeat; 110 less 34 is the same list twice."""
    once = in_the_round(55, 17).decrease_row()
    twice = in_the_round(110, 34).decrease_row()

    assert once.repeats == 1
    assert (once.stitches_before, once.stitches_after) == (55, 38)
    assert twice.repeats == 2
    assert twice.runs == once.runs
    assert sum(run.times for run in once.runs) == 17


def test_flat_decreases_leave_equal_edges() -> None:
    """Between two k2tog group - 2 stitches, at each edge group - 1: 10 groups of 8, 9 decreases."""
    row = flat(80, 9).decrease_row()

    assert row == ShapedRow("k2tog", (EvenRun(7, 1), EvenRun(6, 8)), repeats=1, rest=7)
    assert (row.stitches_before, row.stitches_after) == (80, 71)


def test_two_equal_changes_are_one_list_worked_twice() -> None:
    """20 stitches, 2 decreases: (k8, k2tog) twice."""
    assert in_the_round(20, 2).decrease_row() == ShapedRow("k2tog", (EvenRun(8, 1),), 2, rest=0)


def test_one_change_and_none_are_worked_once() -> None:
    assert in_the_round(20, 1).decrease_row().repeats == 1
    assert in_the_round(20, 0).decrease_row().repeats == 1


def test_kfb_uses_the_last_stitch_of_its_group() -> None:
    row = in_the_round(48, 6).increase_row("kfb")

    assert row == ShapedRow("kfb", (EvenRun(7, 1),), repeats=6, rest=0)
    assert (row.stitches_before, row.stitches_after) == (48, 54)


@pytest.mark.parametrize(
    ("steps", "rest", "before", "after"),
    [
        # k5, (m1, k1, m1, k2) to the last 7, m1, k1, m1, k6
        ([5, *[1, 2] * 21, 1], 6, 75, 119),
        # k5, (m1, k3, m1, k4, m1, k4) to the last 15, m1, k3, m1, k4, m1, k8
        ([5, *[3, 4, 4] * 9, 3, 4], 8, 119, 149),
    ],
)
def test_stitch_counts_of_printed_increase_rows(
    steps: list[int], rest: int, before: int, after: int
) -> None:
    row = ShapedRow("m1", collapse(steps), repeats=1, rest=rest)

    assert (row.stitches_before, row.stitches_after) == (before, after)


def test_no_changes_is_a_plain_row() -> None:
    for spacing in (in_the_round(40, 0), flat(40, 0), flat(40, 0, halve_first=True)):
        for row in (spacing.decrease_row(), spacing.increase_row()):
            assert row.steps == ()
            assert row.rest == row.stitches_before == row.stitches_after == 40


def spacings(stitches: int, k: int) -> list[Spacing]:
    """Every layout that has room."""
    made = [flat(stitches, k)] if k < stitches else []
    if k <= stitches:
        made.append(in_the_round(stitches, k))
    if 2 * k <= stitches:
        made.append(flat(stitches, k, halve_first=True))
    return made


@given(counts, changes)
def test_groups_add_up_and_differ_by_at_most_one(stitches: int, k: int) -> None:
    for spacing in spacings(stitches, k):
        groups = list(spacing.groups)
        assert sum(groups) == stitches
        assert min(groups) >= 1
        assert sum(run.group * run.times for run in spacing.runs) == stitches
        if spacing.layout == "flat, first group halved":
            assert 0 <= groups[-1] - groups[0] <= 1
            groups = [groups[0] + groups[-1], *groups[1:-1]]
        assert len(groups) == max(1, k + (spacing.layout == "flat"))
        assert max(groups) - min(groups) <= 1


@given(counts, changes)
def test_rows_use_every_stitch_and_change_the_count_by_the_changes(stitches: int, k: int) -> None:
    for spacing in spacings(stitches, k):
        for row in (spacing.increase_row("m1"), spacing.increase_row("kfb")):
            assert len(row.steps) == k
            assert min(row.steps, default=0) >= 0
            assert row.stitches_before == stitches
            assert row.stitches_after == stitches + k
        if min(spacing.groups) >= 2:
            row = spacing.decrease_row()
            assert len(row.steps) == k
            assert min(row.steps, default=0) >= 0
            assert row.stitches_before == stitches
            assert row.stitches_after == stitches - k


@given(st.integers(1, 200), st.integers(1, 40), st.booleans())
def test_long_groups_are_spread_not_bunched(total: int, parts: int, centred: bool) -> None:
    """Any two stretches of as many neighbouring groups differ by at most one stitch."""
    groups = even_groups(total, parts, centred)

    for length in range(1, parts + 1):
        sums = [sum(groups[i : i + length]) for i in range(parts - length + 1)]
        assert max(sums) - min(sums) <= 1


@given(st.integers(1, 200), st.integers(1, 40))
def test_centred_groups_read_the_same_from_both_edges_where_they_can(
    total: int, parts: int
) -> None:
    """They can unless an odd number of long groups must go into an even number of places."""
    groups = even_groups(total, parts, centred=True)

    if parts % 2 == 1 or (total % parts) % 2 == 0:
        assert groups == groups[::-1]


@pytest.mark.parametrize(
    ("stitches", "changed", "groups"),
    [
        (10, 3, (3, 2, 2, 3)),  # quarters of 10 end at 2.5, 5 and 7.5: both halves lean inwards
        (14, 3, (4, 3, 3, 4)),
        (11, 2, (4, 3, 4)),  # thirds of 11 end at 3.67 and 7.33
        (13, 2, (4, 5, 4)),
    ],
)
def test_a_flat_row_leans_to_neither_edge(
    stitches: int, changed: int, groups: tuple[int, ...]
) -> None:
    assert flat(stitches, changed).groups == groups


def test_a_round_has_its_long_groups_last() -> None:
    """Group i = floor((i + 1)n / d) - floor(i n / d), by hand for 10 in 3 and 11 in 4."""
    assert even_groups(10, 3) == (3, 3, 4)
    assert in_the_round(11, 4).groups == (2, 3, 3, 3)


def test_what_does_not_fit_is_refused() -> None:
    with pytest.raises(ValueError, match="41 changes do not fit into 40 stitches"):
        in_the_round(40, 41)
    with pytest.raises(ValueError, match="40 changes do not fit into 40 stitches"):
        flat(40, 40)
    with pytest.raises(ValueError, match="too small to halve"):
        flat(40, 30, halve_first=True)
    with pytest.raises(ValueError, match="30 decreases do not fit evenly into 40 stitches"):
        in_the_round(40, 30).decrease_row()
    with pytest.raises(ValueError, match="can not be negative"):
        in_the_round(40, -1)
    with pytest.raises(ValueError, match="at least 1"):
        flat(0, 0)


def test_a_decrease_on_every_pair_is_possible() -> None:
    assert in_the_round(40, 20).decrease_row().stitches_after == 20
    assert flat(40, 20, halve_first=True).decrease_row().stitches_after == 20
