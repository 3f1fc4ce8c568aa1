"""Rows worked to a length, and rounds counted along a column beside short rows.

The counts are worked out by hand from the gauge: common practice, no source.
"""

import pytest

from bindoff.document.build import build_document
from bindoff.document.tree import texts
from bindoff.files import MemoryFiles
from bindoff.plan.plan import Plan
from tests.small_patterns import changed, faults_of, flap, plan_of


def words(plan: Plan) -> str:
    document, _ = build_document(plan, MemoryFiles({}))
    return "".join(texts(document))


def test_rows_are_worked_until_the_piece_has_a_length() -> None:
    """28 rows in 10 cm: 15 cm are 42 rows, of which 10 are there already."""
    plan = plan_of(
        flap(
            "cast on: 40",
            "{work: [k all, p all], rounds: 10}",
            "{work: [k all, p all], until: 15 cm}",
            "bind off: all",
        )
    )

    assert plan.pieces[0].steps[2].rounds == (32, 32)
    assert "until the piece measures 15 cm / 6 in (about 32 rows)" in words(plan)


def test_a_length_may_be_measured_from_the_step() -> None:
    """5 cm are 14 rows; a list of four rows takes 12 or 16, and 14 is as near to both: 16."""
    plan = plan_of(
        flap(
            "cast on: 40",
            "{work: k all, rounds: 10}",
            "{work: k all, until: 5 cm, from: here}",
            "{work: [k all, p all, k all, p all], until: 5 cm, from: here}",
            "bind off: all",
        )
    )

    assert [step.rounds[0] for step in plan.pieces[0].steps[2:4]] == [14, 16]
    assert "Knit until this part measures 5 cm / 2 in (about 14 rows)." in words(plan)


def test_a_sleeve_is_measured_from_where_its_stitches_are_taken_up() -> None:
    plan = plan_of(
        flap(
            "cast on: 40",
            "{work: [k all, p all], rounds: 28}",
            "work: hold 20 stitches for left sleeve, k to end",
            "bind off: all",
            "held: left sleeve",
            "{work: [k all, p all], until: 10 cm}",
            "bind off: all",
        )
    )

    assert plan.pieces[0].steps[5].rounds == (28, 28)


@pytest.mark.parametrize(
    ("step", "id"),
    [
        ("{work: k all, until: 3 cm}", "step.until"),
        ("{work: k all, until: 12}", "amount.no-length"),
        ("{work: k all, until: 20 cm, rounds: 3}", "step.rounds-and-times"),
    ],
)
def test_a_length_that_can_not_be_worked_to_is_refused(step: str, id: str) -> None:
    steps = ("cast on: 40", "{work: k all, rounds: 20}", step, "bind off: all")
    (found,) = faults_of(flap(*steps))

    assert found.id == id


NECK = (
    "cast on: 40",
    "work: [k all, p all]",
    "work: ['k to last 10, turn', 'p to last 10, turn', k to end, p to end]",
    "bind off: all",
)


@pytest.mark.parametrize(("stitch", "rows"), [("start", 4), ("middle", 6), ("end", 4)])
def test_rows_are_counted_along_a_named_column(stitch: str, rows: int) -> None:
    """Six rows in all; the first and the last ten stitches miss two each.

    The first ten: not in the second short row, nor in the row after it, which begins at the turn.
    The last ten: not in the first short row nor in the second, which begins at the turn.
    """
    text = changed(
        flap(*NECK),
        (
            "    worked: flat\n",
            f"    worked: flat\n    counted at: {{name: centre back, stitch: {stitch}}}\n",
        ),
    )
    piece = plan_of(text).pieces[0]

    assert piece.height == (rows, rows)
    assert piece.rounds == (6, 6)


def test_without_a_column_rows_count_where_the_fewest_were_worked() -> None:
    assert plan_of(flap(*NECK)).pieces[0].height == (4, 4)
