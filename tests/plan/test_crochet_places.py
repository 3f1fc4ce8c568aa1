"""Crocheted edges whose rows are worked into chain spaces, the same stitch, or a turning chain.

Counts are worked out by hand: a space lies under every chain between stitches, a chain that counts
stands over the first stitch (common practice, no source).
"""

import pytest

from bindoff.source.rowlang.stitches import Terms, standard_book
from tests.small_patterns import CAP, changed, faults_of, plan_of

BOOK = standard_book(Terms.US)


def edge(*rows: str, more: str = "sides: [40]") -> str:
    listed = ", ".join(f'"{row}"' for row in rows)
    step = f"      - edging: [{listed}]\n        along: 40 cm\n        {more}\n"
    return changed(CAP, ("      - gather: all\n", f"      - gather: all\n{step}"))


@pytest.mark.parametrize(
    ("rows", "counts"),
    [
        (["sc in each stitch to end"], [40]),
        (["*sc in next 2 sts, ch 2, skip 1, sc in next st; rep from * around",
          "3 dc in each ch-2 sp around"], [30, 30]),
        (["*sc in next st, ch 3, skip 3; rep from * around"], None),
        (["ch 3 (counts as dc), dc in next st and each st around", "dc in each st around"],
         [40, 40]),
        (["sc in first st, sc in same st, sc in each st to end"], [41]),
        (["*(2 dc, ch 1, 2 dc) in next st, skip 3; rep from * around",
          "*(3 dc, ch 1) in next ch-1 sp; rep from * around"], [40, 30]),
    ],
)  # fmt: skip
def test_the_stitches_of_an_edge(rows: list[str], counts: list[int] | None) -> None:
    if counts is None:
        assert [each.id for each in faults_of(edge(*rows))] == ["row.chain-count"]
        return
    plan = plan_of(edge(*rows))

    assert [set(each) for each in plan.pieces[0].steps[-1].detail.counts] == [{n} for n in counts]


@pytest.mark.parametrize(
    ("rows", "id"),
    [
        (["sc in each stitch to end", "2 sc in each ch-1 space around"], "row.chain-space"),
        (["*sc in next st, 2 dc in next ch-1 sp; rep from * around"], "row.chain-space"),
        (["2 sc"], "row.unreadable"),
    ],
)
def test_places_that_cannot_be_counted_are_refused(rows: list[str], id: str) -> None:
    assert [each.id for each in faults_of(edge(*rows))] == [id]


SIDE = "sc in each stitch to corner, 3 sc in corner"
SQUARE = "sides: [10, 12, 10, 12]\n        around: true"


@pytest.mark.parametrize(
    ("rows", "counts"),
    [
        # 44 along the sides and 3 in each of 4 corners, however the round is begun.
        ([f"[{SIDE}] 4 times"], [56]),
        ([f"*{SIDE}; repeat from * to end"], [56]),
        ([f"{SIDE}, {SIDE}, {SIDE}, {SIDE}, sl st in first stitch"], [56]),
        ([f"3 sc in corner, [{SIDE}] 3 times, sc in each stitch to end"], [56]),
        (["[3 sc in corner, sc in each stitch to corner] 4 times"], [56]),
        (["ch 1, *3 sc in corner, sc in each stitch to corner; repeat from * to end"], [56]),
        (["sc in each stitch to end"], [44]),
        # The corner lies within its 3 stitches, and a second round has 3 more in each.
        ([f"[{SIDE}] 4 times", f"[{SIDE}] 4 times, sc in each stitch to end"], [56, 68]),
        (["sc in each stitch to end", f"[{SIDE}] 4 times"], [44, 56]),
        (
            ["3 sc in corner, sc in each stitch to end", f"[{SIDE}] 4 times, sc in each stitch"],
            [47, 59],
        ),
    ],
)
def test_an_edge_all_around_has_a_corner_where_it_began(rows: list[str], counts: list[int]) -> None:
    (edging,) = plan_of(edge(*rows, more=SQUARE)).pieces[0].steps[-1:]

    assert [set(each) for each in edging.detail.counts] == [{n} for n in counts]


@pytest.mark.parametrize(
    ("row", "more", "message", "help"),
    [
        (
            f"[{SIDE}] 4 times",
            "sides: [10, 12, 10, 12]",
            "in round 1 a corner is named, but there is none at or ahead of this place",
            "An edge along 4 sides has 3 corners: write `around: true` if it ends in the corner "
            "where it began, or take this one out of the row",
        ),
        (
            f"[{SIDE}] 5 times",
            SQUARE,
            "in round 1 a corner is named, but there is none at or ahead of this place",
            "An edge all around 4 sides has 4 corners: take this one out of the row",
        ),
        (
            "*sc2tog; repeat from * to end",
            "sides: [5, 5]",
            "in round 1 a stitch would be worked over both sides of a corner",
            "Check the stitches of each side under `sides:`, or the row",
        ),
        (
            "sc in each stitch to end",
            "around: true",
            "an edge all around has its corners between its sides, and none are given",
            "Write the stitches of each side under `sides:`, or take `around:` out",
        ),
    ],
)
def test_a_corner_that_is_not_there_is_told_in_words_of_crochet(
    row: str, more: str, message: str, help: str
) -> None:
    (fault,) = faults_of(edge(row, more=more))

    assert (fault.message, fault.help) == (message, help)
