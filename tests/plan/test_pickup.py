"""Stitches picked up along edges, against published ratios and by hand.

Where no source is named, the counts are common practice, no source.
"""

from fractions import Fraction

import pytest

from bindoff.diagnostics import Diagnostic
from bindoff.plan.gauge import Gauge
from bindoff.plan.pickup import allotted, along_rows, skipped, stitches_per_row, told_ratio
from bindoff.plan.worked import PiecePlan
from tests.small_patterns import faults_of, flap, plan_of


@pytest.mark.parametrize(
    ("stitches", "rows", "ratio"),
    [
        (18, 24, Fraction(3, 4)),
        (21, 28, Fraction(3, 4)),
        (16, 24, Fraction(2, 3)),
        (20, 32, Fraction(5, 8)),  # 5 stitches and 8 rows to the inch
        (20, 28, Fraction(5, 7)),
        (20, 40, Fraction(1, 2)),  # garter stitch: one for each ridge
    ],
)
def test_the_ratio_is_that_of_the_gauge(stitches: int, rows: int, ratio: Fraction) -> None:
    gauge = Gauge.over(stitches, rows)

    assert told_ratio(stitches_per_row(gauge, gauge)) == ratio


def test_twenty_inches_at_sixteen_by_twenty_four_take_eighty_stitches() -> None:
    """20 in are 120 rows at 6 rows to the inch, and 80 stitches at 4."""
    gauge = Gauge.over(16, 24)

    assert along_rows(120, stitches_per_row(gauge, gauge)) == 80


def test_five_in_eight_rows_are_the_published_order_read_from_its_fifth_row() -> None:
    """Pick up, skip, pick up, skip, pick up, pick up, skip, pick up."""
    published = "PSPSPPSP"
    order = "".join("P" * (group - 1) + "S" for group in skipped(8, 5).groups)

    assert order in {published[place:] + published[:place] for place in range(8)}


def test_142_stitches_in_216_rows_are_one_in_each_1_521_rows() -> None:
    """74 rows are skipped, at most one at a time; 216 / 142 = 1.521."""
    groups = skipped(216, 142).groups

    assert (len(groups), sum(groups)) == (74, 216)
    assert set(groups) == {2, 3}
    assert round(216 / 142, 3) == 1.521


@pytest.mark.parametrize(("rows", "stitches"), [(10, 11), (10, 4), (0, 1)])
def test_no_row_has_two_stitches_and_no_two_rows_together_have_none(
    rows: int, stitches: int
) -> None:
    with pytest.raises(ValueError, match="evenly"):
        skipped(rows, stitches)


def test_a_total_is_shared_out_by_rows() -> None:
    assert allotted(116, (80, 80)) == (58, 58)
    assert allotted(10, (1, 2)) == (3, 7)
    assert allotted(7, (0, 0)) == (0, 0)


BAND = """\
  band:
    title: Band
    worked: {worked}
    steps:
      - pick up along:
          - {{edge: the right edge, of: flap}}
          - {{edge: the top, stitches: 20}}
          - {{edge: the left edge, rows: 80, of: flap}}
{to}      - bind off: all
"""


def band(to: str = "", worked: str = "flat", old: str = "", new: str = "") -> str:
    made = flap("cast on: 40", "work: [k all, p all]\n        rounds: 80", "bind off: all")
    written = BAND.format(worked=worked, to=f"        to: {to}\n" if to else "")
    assert old in written
    return made + written.replace(old, new, 1)


def picked_up(text: str) -> PiecePlan:
    return plan_of(text).pieces[-1]


def test_a_band_has_its_stitches_at_the_ratio_of_the_gauge() -> None:
    """20 x 28: 5 in 7 rows, so 80 rows take 57; with 20 of the top and 57 more, 134."""
    step = picked_up(band()).steps[0]

    assert [part.stitches for part in step.detail.parts] == [(57, 57), (20, 20), (57, 57)]
    assert [each.stitches for each in step.after] == [134, 134]
    assert step.worked == ((((("slate"), 134),),),) * 2


def test_a_total_is_spread_over_the_edges_along_rows() -> None:
    step = picked_up(band("136")).steps[0]

    assert [part.stitches for part in step.detail.parts] == [(58, 58), (20, 20), (58, 58)]


@pytest.mark.parametrize(("worked", "wrong_side"), [("flat", True), ("round", False)])
def test_the_row_after_it_is_on_the_wrong_side_of_a_flat_band(
    worked: str, wrong_side: bool
) -> None:
    after = picked_up(band(worked=worked)).steps[0].after

    assert [(each.rounds, each.wrong_side) for each in after] == [(1, wrong_side)] * 2


def test_held_stitches_are_knitted_between_the_edges_in_order() -> None:
    text = flap(
        "cast on: 40",
        "work: [k all, p all]\n        rounds: 12",
        "work: k10, hold 20 stitches for back neck, k10",
        "bind off: all",
    ) + BAND.format(worked="round", to="").replace("edge: the top, stitches: 20", "held: back neck")
    text = text.replace("rows: 80, of: flap", "rows: 7")
    step = picked_up(text).steps[0]

    assert [part.names for part in step.detail.parts] == [(), ("back neck",), ()]
    assert [part.stitches[0] for part in step.detail.parts] == [9, 20, 5]  # 13 and 7 rows


def fault(text: str) -> Diagnostic:
    (found,) = faults_of(text)
    return found


@pytest.mark.parametrize(
    ("old", "new", "id"),
    [
        ("edge: the top, stitches: 20", "edge: the top", "pickup.edge"),
        ("edge: the top, stitches: 20", "stitches: 20", "pickup.edge"),
        ("stitches: 20", "stitches: 20, rows: 20", "pickup.edge"),
        ("rows: 80", "rows: 81", "pickup.piece"),
        ("of: flap}", "of: back}", "pickup.piece"),
        ("edge: the top, stitches: 20", "held: 20", "pickup.held"),
        ("rows: 80", "rows: 80, pick up: 81", "pickup.rows"),
        ("rows: 80", "rows: 80, pick up: 39", "pickup.rows"),
        ("edge: the top, stitches: 20", "held: back neck", "piece.group-unknown"),
    ],
)
def test_an_edge_that_can_not_be_picked_up_is_refused(old: str, new: str, id: str) -> None:
    assert fault(band(old=old, new=new)).id == id


def test_a_total_that_the_edges_pass_is_refused() -> None:
    found = fault(band("19"))

    assert (found.id, "give 20 stitches, and 19 are" in found.message) == ("pickup.total", True)
