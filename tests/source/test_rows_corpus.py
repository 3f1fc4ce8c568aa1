"""Rows as patterns print them, counted by hand: none is read as another, and most are read."""

from collections import Counter

import pytest

from tests.bench.rows import RIGHT, ROWS, WRONG, outcome, printed_rows

FOUND = [(printed, *outcome(printed, strictly=False)) for printed in printed_rows(ROWS)]


def test_no_row_leaves_other_stitches_than_were_counted_by_hand() -> None:
    assert [(printed.row, why) for printed, what, why in FOUND if what == WRONG] == []


@pytest.mark.parametrize(
    ("style", "least"), [("publisher", 0.97), ("modern", 0.93), ("old", 1), ("crochet", 0.8)]
)
def test_most_rows_of_a_style_are_read(style: str, least: float) -> None:
    got = Counter(what for printed, what, _ in FOUND if printed.style == style)

    assert got[RIGHT] / got.total() >= least
