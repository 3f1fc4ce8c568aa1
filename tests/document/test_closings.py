"""The top of a tube closed, in words and in yarn: folded, or a ring that lies double."""

import pytest

from bindoff.document.piecepages import piece_blocks
from bindoff.document.voice import voice_of
from bindoff.plan.steps.close import ClosedTop
from tests.document.patterns import said
from tests.small_machine import COWL
from tests.small_patterns import TUBE, changed, plan_of


def folded(by: str) -> str:
    ends = f"      - {{join: start, by: slip stitch}}\n      - {{close: top, by: {by}}}\n"
    return changed(TUBE, ("      - gather: all\n", ends))


def ring(by: str) -> str:
    return changed(COWL, ("by: left open", f"by: {by}"))


def words(text: str) -> str:
    plan = plan_of(text)
    return said(piece_blocks(voice_of(plan), plan.pieces[0]))


def closed(text: str) -> ClosedTop:
    detail = plan_of(text).pieces[0].steps[-1].detail
    assert isinstance(detail, ClosedTop)
    return detail


def test_the_way_around_a_folded_tube_is_its_needles_and_around_a_ring_its_rounds() -> None:
    """24 and 22 needles at 10 stitches to 10 cm; the ring is 84 and 98 rounds of 14 to 10 cm."""
    assert closed(folded("tie")).around_mm == pytest.approx((240.0, 240.0))
    assert closed(ring("tie")).around_mm == pytest.approx((600.0, 700.0))


def test_a_folded_tube_is_tied_below_its_joined_edge() -> None:
    """Its ends are to be 1 cm longer than what is seen: one round of 14 to 10 cm, and that stands
    above the tie."""
    assert (
        "lay the joined edge in even folds and tie the strip tightly around them, 0.7 cm / ¼ in "
        "below that edge, with a square knot." in words(folded("tie"))
    )
    assert "lay one edge of the ring in even folds" in words(ring("tie"))


def test_a_sewn_join_names_its_yarn_where_no_tail_does_it() -> None:
    sewn = changed(COWL, ("by: slip stitch, yarn: foam", "by: sewing"))
    told = (
        "ew all stitches, one to one, to the open loops of the first round: pass the blunt needle "
        "through both loops each time, and take the waste yarn out as you go."
    )

    assert f"S{told}" in words(sewn)
    assert f"With Foam, s{told}" in words(changed(COWL, ("by: slip stitch", "by: sewing")))


def test_a_ring_that_lies_double_has_nothing_to_leave_open() -> None:
    assert "its two edges are the folds of the tube" in words(ring("left open"))
    assert "Leave the top open." in words(folded("left open"))


@pytest.mark.parametrize(
    ("by", "of_ring", "of_folded"),
    [
        ("gathering", "every second round", "every second stitch"),
        ("flat seam", "lay the ring flat", "lay the tube flat"),
        ("drawstring", "number of rounds between", "number of stitches between"),
    ],
)
def test_other_closings(by: str, of_ring: str, of_folded: str) -> None:
    assert of_ring in words(ring(by))
    assert of_folded in words(folded(by))
