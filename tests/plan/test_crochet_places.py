"""Crocheted edges whose rows are worked into chain spaces, the same stitch, or a turning chain.

Counts are worked out by hand: a space lies under every chain between stitches, a chain that counts
stands over the first stitch (common practice, no source).
"""

import pytest

from bindoff.source.rowlang.stitches import Terms, standard_book
from tests.small_patterns import CAP, changed, faults_of, plan_of

BOOK = standard_book(Terms.US)


def edge(*rows: str) -> str:
    listed = ", ".join(f'"{row}"' for row in rows)
    step = f"      - edging: [{listed}]\n        along: 40 cm\n        sides: [40]\n"
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
