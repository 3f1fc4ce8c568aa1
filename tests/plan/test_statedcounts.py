"""Counts written after a row, figures for the sizes in it, and labels, in a whole pattern."""

import pytest

from bindoff.document.rowwords import words
from bindoff.document.tree import plain
from bindoff.plan.steps.work import Rows
from bindoff.source.rowlang.stitches import Terms
from tests.small_patterns import FLAP, faults_of, plan_of


def flap(*steps: str, head: str = "") -> str:
    before = head + FLAP.partition("    steps:\n")[0] + "    steps:\n"
    return before + "".join(f"      - {step}\n" for step in steps)


def found(*steps: str) -> list[tuple[str, str]]:
    return [(each.id, each.message) for each in faults_of(flap(*steps, "bind off: all"))]


def test_a_true_count_is_no_part_of_the_row() -> None:
    plan = plan_of(flap("cast on: 20", 'work: "k2tog, k to end. 19 sts"', "bind off: all"))

    (rows,) = (s.detail for s in plan.pieces[0].steps if isinstance(s.detail, Rows))
    assert plain(words(rows.rows[0], {}, Terms.US, plan.book)) == "K2tog, k to end."


def test_a_false_count_is_an_error_that_names_both() -> None:
    assert found("cast on: 20", 'work: "k2tog, k to end (18 sts)"') == [
        ("row.stated", "the count after the row is 18, and the row leaves 19")
    ]
    assert found("cast on: 20", 'work: "k2tog, k to end. 2 sts dec\'d"') == [
        ("row.stated", "the row says 2 stitches fewer, and it makes 19 of 20")
    ]


def test_a_label_of_several_rows_is_not_read_as_one() -> None:
    assert [id for id, _ in found("cast on: 20", 'work: ["Row 1: knit", "Rows 2-4: purl"]')] == [
        "row.label"
    ]


def test_old_words_are_read_where_the_pattern_says_so() -> None:
    text = flap("cast on: 20", "work: narrow, plain to end", "bind off: all")

    assert {each.id for each in faults_of(text)} == {"row.unknown-stitch"}
    plan = plan_of("vocabulary: old\n" + text)
    assert [step.after[0].stitches for step in plan.pieces[0].steps] == [20, 19, 0]


@pytest.mark.parametrize(
    ("rows", "sound"),
    [
        ('["Row 1 (RS): k all", "Row 2 (WS): p all"]', True),
        ('["k all", "Next row (RS): p all"]', False),
        ('["RS: k all", "(WS) p all"]', True),
        ('["Row 1 (wrong side): k all", "p all"]', False),
        ('["Row 1 (RS): k all"]\n        rounds: 2', False),
        ('["Row 1 (RS): k all", "Row 2: k all", "k all"]\n        times: 2', False),
    ],
)
def test_the_side_in_a_label_is_the_side_of_the_row(rows: str, sound: bool) -> None:
    ids = [id for id, _ in found("cast on: 20", f"work: {rows}")]

    assert ids == ([] if sound else ["row.side"])
