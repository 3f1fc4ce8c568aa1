"""Buttonholes, against the worked examples of published finishing guides.

space = (stitches - both ends - holes x their stitches) / (holes - 1). Where no source is named, the
counts are common practice, no source.
"""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bindoff.document.build import build_document
from bindoff.document.tree import texts
from bindoff.files import MemoryFiles
from bindoff.plan.steps.buttonholes import spread
from tests.small_patterns import faults_of, flap, plan_of


def test_seven_holes_of_four_in_a_hundred_stitches_lie_eleven_apart() -> None:
    """100 - 6 - 28 = 66, over 6 spaces."""
    holes = spread(100, 7, 4, 3, 3)

    assert holes.gaps == (3, 11, 11, 11, 11, 11, 11, 3)
    assert holes.places[:2] == ((4, 7), (19, 22))


def test_what_is_left_over_widens_some_spaces_by_one() -> None:
    """110 - 6 - 21 = 83: five spaces of 14 and one of 13."""
    gaps = spread(110, 7, 3, 3, 3).gaps[1:-1]

    assert sorted(gaps) == [13, 14, 14, 14, 14, 14]


@given(
    st.integers(1, 12), st.integers(1, 5), st.integers(1, 9), st.integers(1, 9), st.integers(0, 99)
)
def test_holes_and_gaps_make_up_the_band(
    number: int, over: int, before: int, behind: int, more: int
) -> None:
    live = before + behind + number * over + number - 1 + more
    holes = spread(live, number, over, before, behind)

    assert sum(holes.gaps) + number * over == live
    assert (holes.number, holes.gaps[0]) == (number, before)
    between = holes.gaps[1:-1]
    assert not between or max(between) - min(between) <= 1
    assert holes.places[-1][1] <= live


def test_holes_that_would_touch_are_refused() -> None:
    with pytest.raises(ValueError, match="do not fit"):
        spread(20, 4, 4, 2, 2)


BAND = (
    "cast on: 100",
    "work: '[k2, p2] to end'",
    "{buttonholes: [7, 6], over: 4, first after: 3, rows: '[k2, p2] to end'}",
    "bind off: all",
)


def test_a_band_has_as_many_stitches_after_its_buttonholes() -> None:
    step = plan_of(flap(*BAND)).pieces[0].steps[2]

    assert [each.stitches for each in step.after] == [100, 100]
    assert [each.rounds for each in step.after] == [3, 3]
    assert step.detail.left == (72, 76)


def test_the_places_are_told_for_each_size() -> None:
    document, _ = build_document(plan_of(flap(*BAND)), MemoryFiles({}))
    words = list(texts(document))

    assert "3, then 11 6 times, then 3" in words
    assert "4 to 7, 19 to 22, 34 to 37, 49 to 52, 64 to 67, 79 to 82, 94 to 97" in words


@pytest.mark.parametrize(
    ("step", "id"),
    [
        ("{buttonholes: 30, over: 4, first after: 3}", "buttonholes.room"),
        ("{buttonholes: 5, by: yarn over, over: 3, first after: 3}", "buttonholes.over"),
        ("{buttonholes: 0, first after: 3}", "amount.small"),
        ("{buttonholes: 5, first after: 3, rows: '[k3, p2, k2] to end'}", "row.left-over"),
    ],
)
def test_buttonholes_that_do_not_fit_are_refused(step: str, id: str) -> None:
    (found,) = faults_of(flap("cast on: 100", step, "bind off: all"))

    assert found.id == id


def test_a_yarn_over_takes_one_row() -> None:
    steps = ("cast on: 100", "{buttonholes: 5, by: yarn over, first after: 3}", "bind off: all")
    step = plan_of(flap(*steps)).pieces[0].steps[1]

    assert step.rounds == (1, 1)
    assert [part.over for part in step.detail.holes] == [2, 2]


UPRIGHT = (
    "cast on: 8",
    "{buttonholes: 5, along: 60, first after: 4, hole: 'k3, yo, k2tog, k to end', "
    "rows: [k all, k all]}",
    "bind off: all",
)


def test_buttonholes_of_an_upright_band_lie_evenly_on_right_side_rows() -> None:
    """30 pairs of rows, 2 at each end: 30 - 4 - 5 = 21 between five: 5, 6, 5 and 5."""
    step = plan_of(flap(*UPRIGHT)).pieces[0].steps[1]
    (rows, _) = step.detail.in_rows

    assert (rows[0], rows[-1]) == (5, 55)
    assert all(row % 2 for row in rows)
    assert {b - a for a, b in pairwise(rows)} <= {12, 14}
    assert [each.stitches for each in step.after] == [8, 8]
    assert step.rounds == (60, 60)


def test_an_upright_band_tells_the_rows_with_a_buttonhole() -> None:
    document, _ = build_document(plan_of(flap(*UPRIGHT)), MemoryFiles({}))

    assert "5, 17, 31, 43, 55" in list(texts(document))


@pytest.mark.parametrize(
    ("old", "new", "id"),
    [
        ("k2tog, ", "k2, ", "buttonholes.hole"),
        ("along: 60, ", "", "buttonholes.hole"),
        ("along: 60", "along: 16", "buttonholes.room"),
    ],
)
def test_an_upright_band_that_does_not_come_out_is_refused(old: str, new: str, id: str) -> None:
    (found,) = faults_of(flap(UPRIGHT[0], UPRIGHT[1].replace(old, new), UPRIGHT[2]))

    assert found.id == id
