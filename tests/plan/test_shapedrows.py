"""Computed shaping reads as the rows that a designer would write by hand."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bindoff.diagnostics import Span
from bindoff.document.rowwords import words
from bindoff.document.tree import plain
from bindoff.plan.rowcount import count_row
from bindoff.plan.shapedrows import PLAIN, shaped_row, wedge_row
from bindoff.plan.spacing import ShapedRow, flat, in_the_round
from bindoff.source.rowlang.parse import parse_row
from bindoff.source.rowlang.stitches import Terms, standard_book
from bindoff.source.rowlang.syntax import Row, Work

BOOK = standard_book()


def row(text: str) -> Row:
    return parse_row(text, Span("pattern.yaml", 1, 1, 1, len(text) + 1), BOOK, ())


@pytest.mark.parametrize(
    ("shaped", "stitch", "written"),
    [
        (in_the_round(48, 6).increase_row(), "m1", "*K8, M1; repeat from * to end."),
        (in_the_round(48, 6).increase_row("kfb"), "kfb", "*K7, kfb; repeat from * to end."),
        (in_the_round(88, 8).decrease_row(), "k2tog", "*K9, k2tog; repeat from * to end."),
        (in_the_round(40, 20).decrease_row(), "ssk", "*Ssk; repeat from * to end."),
        (in_the_round(45, 10).increase_row(), "m1", "*K4, M1, k5, M1; repeat from * to end."),
        (in_the_round(10, 3).decrease_row(), "k2tog", "[K1, k2tog] twice, k2, k2tog."),
        # 48 stitches, 12 increases: 2, then 4 eleven times, then 2
        (flat(48, 12, halve_first=True).increase_row(), "m1", "K2, M1, [k4, M1] 11 times, k2."),
        # pairs from edge to edge
        (flat(8, 4, halve_first=True).decrease_row(), "k2tog", "*K2tog; repeat from * to end."),
        (flat(21, 10, halve_first=True).decrease_row(), "ssk", "[Ssk] 9 times, k1, ssk."),
        (flat(20, 3).increase_row(), "m1", "[K5, M1] 3 times, k5."),
        (flat(23, 4).increase_row(), "m1", "[K5, M1, k4, M1] twice, k5."),
        (flat(5, 1).decrease_row(), "ssk", "K2, ssk, k1."),
    ],
)
def test_a_shaped_row_as_it_is_printed(shaped: ShapedRow, stitch: str, written: str) -> None:
    assert plain(words(shaped_row(shaped, stitch), {}, Terms.US, BOOK)) == written


def test_stitches_left_over_are_knitted() -> None:
    assert shaped_row(flat(5, 1).decrease_row(), "ssk").parts[-1] == Work("k", 1)


def test_wedges_and_plain_rounds() -> None:
    assert wedge_row(9, "k2tog") == row("*k9, k2tog; repeat from * to end")
    assert wedge_row(0, "ssk") == row("*ssk; repeat from * to end")
    assert row("k to end") == PLAIN


@given(st.integers(2, 90), st.integers(1, 40), st.booleans())
def test_a_shaped_row_works_the_stitches_of_its_spacing(
    stitches: int, changes: int, in_rows: bool
) -> None:
    if changes >= stitches:
        return
    spacing = (flat if in_rows else in_the_round)(stitches, changes)
    up, kfb = spacing.increase_row(), spacing.increase_row("kfb")

    assert count_row(shaped_row(up, "m1"), stitches, {}, (), BOOK).live == stitches + changes
    assert count_row(shaped_row(kfb, "kfb"), stitches, {}, (), BOOK).live == stitches + changes
    if min(spacing.groups) >= 2:
        down = shaped_row(spacing.decrease_row(), "k2tog")
        assert count_row(down, stitches, {}, (), BOOK).live == stitches - changes
