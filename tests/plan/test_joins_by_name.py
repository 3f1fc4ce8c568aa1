"""Stitches joined half to half, and to held ones: common practice, no source."""

import pytest

from tests.small_patterns import FLAP, faults_of, plan_of

HEAD = FLAP.partition("    steps:\n")[0] + "    steps:\n"


def flap(*steps: str) -> str:
    return HEAD + "".join(f"      - {step}\n" for step in steps)


def test_a_toe_is_joined_half_to_half() -> None:
    """A published sock of 64: the toe goes down to 28 and is grafted 14 to 14."""
    plan = plan_of(flap("cast on: 28", "work: k all", "join: itself"))
    (closed,) = plan.pieces[0].closings

    assert closed.stitches == (14, 14)
    assert closed.to is None
    assert plan.pieces[0].steps[-1].after[0].stitches == 0


def test_the_open_start_of_a_tube_is_joined_half_to_half_too() -> None:
    """A tube of 28 lies flat with 14 above 14 at both of its ends."""
    begun = "{cast on: 28, method: waste yarn}"
    start = "{join: itself, edge: start, by: three-needle bind-off}"
    plan = plan_of(flap(begun, "work: k all", start, "join: itself"))
    first, last = plan.pieces[0].closings

    assert first.stitches == last.stitches == (14, 14)
    assert [step.after[0].open_start for step in plan.pieces[0].steps] == [28, 28, 0, 0]
    assert [step.after[0].stitches for step in plan.pieces[0].steps] == [28, 28, 28, 0]


SHOULDERS = "cast on: 40", 'work: "hold 12 for left shoulder, k28"', 'work: "bind off 16, p to end"'


def test_a_shoulder_is_joined_to_stitches_held_for_it() -> None:
    join = "{join: left shoulder, by: three-needle bind-off}"

    assert plan_of(flap(*SHOULDERS, join)).pieces[0].closings[-1].stitches == (12, 12)


@pytest.mark.parametrize(
    ("steps", "id"),
    [
        (("cast on: 27", "join: itself"), "piece.join-count"),
        ((*SHOULDERS[:2], "join: left shoulder"), "piece.join-count"),
        (("cast on: 20", "join: right shoulder"), "piece.join"),
        (("cast on: 20", "{join: itself, edge: start}"), "piece.join"),
        (("{cast on: 20, method: waste yarn}", "{join: start, edge: start}"), "piece.join"),
        (("{cast on: 27, method: waste yarn}", "{join: itself, edge: start}"), "piece.join-count"),
    ],
)
def test_what_can_not_be_joined_is_refused(steps: tuple[str, ...], id: str) -> None:
    assert [each.id for each in faults_of(flap(*steps))] == [id]
