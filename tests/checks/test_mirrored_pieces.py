"""Rows read from their other end, and figures from size to size."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bindoff.checks.keys.sizes import leap, turn
from bindoff.diagnostics import Span
from bindoff.plan.mirrored import mirrored
from bindoff.source.rowlang.parse import parse_row
from bindoff.source.rowlang.stitches import standard_book
from bindoff.source.rowlang.syntax import Row


def row(text: str) -> Row:
    return parse_row(text, Span("x", 1, 1, 1, len(text) + 1), standard_book(), ())


@pytest.mark.parametrize(
    ("text", "image"),
    [
        ("k to last 3, k2tog, k1", "k1, ssk, k to end"),
        ("k2, m1l, k to end", "k to last 2, m1r, k2"),
        ("p1, p2tog, p to end", "p to last 3, ssp, p1"),
        ("k1, k2tog, k to last 3, ssk, k1", "k1, k2tog, k to last 3, ssk, k1"),
        ("k1, k3tog, k to end", "k to last 4, sssk, k1"),
        ("p1, p3tog, p to end", "p to last 4, sssp, p1"),
        ("k1, cdd, k to end", "k to last 4, cdd, k1"),
        ("k2, s2kp, k to last 2, m1l, k2", "k2, m1r, k to last 5, s2kp, k2"),
        ("k1, m1lp, 2/1 RPC, k to end", "k to last 4, 2/1 LPC, m1rp, k1"),
        ("k3, ssk, k to last 7, k2tog, k5", "k5, ssk, k to last 5, k2tog, k3"),
    ],
)
def test_a_row_read_from_its_other_end_leans_the_other_way(text: str, image: str) -> None:
    """Pairs as printed in any book on shaping: k2tog leans right, ssk left."""
    assert mirrored(row(text), standard_book()) == row(image)
    assert mirrored(row(image), standard_book()) == row(text)


@pytest.mark.parametrize(
    ("text", "image"),
    [
        ("k1, skp, k to end", "k to last 3, k2tog, k1"),
        ("k1, sk2p, k to end", "k to last 4, k3tog, k1"),
        ("k1, p2tog tbl, k to end", "k to last 3, p2tog, k1"),
    ],
)
def test_stitches_that_share_a_partner_mirror_one_way(text: str, image: str) -> None:
    """Common practice, no source."""
    assert mirrored(row(text), standard_book()) == row(image)


@given(st.lists(st.integers(0, 500), min_size=2, max_size=9))
def test_figures_in_order_never_turn(figures: list[int]) -> None:
    assert turn(sorted(figures), 0) is None
    assert turn(sorted(figures, reverse=True), 0) is None


@given(
    st.lists(st.integers(1, 20), min_size=4, max_size=8, unique=True),
    st.integers(0, 7),
)
def test_the_figure_that_was_mistyped_is_the_one_that_is_told(steps: list[int], place: int) -> None:
    figures = [100 + sum(steps[: i + 1]) for i in range(len(steps))]
    wrong = place % len(figures)
    if not 0 < wrong < len(figures) - 1:
        return
    figures[wrong] += 1000

    assert turn(figures, 0) == wrong


@given(st.integers(1, 50), st.integers(4, 9))
def test_even_steps_are_no_leap(step: int, sizes: int) -> None:
    assert leap([100 + step * size for size in range(sizes)]) is None


def test_a_step_of_over_three_times_the_others_is_a_leap() -> None:
    assert leap([10, 11, 12, 16]) == 3
    assert leap([10, 11, 12, 15]) is None
    assert leap([10, 20]) is None
