"""Who knits flat counts rows, and may write ``rows`` wherever a number of rounds is meant."""

import pytest

from tests.small_patterns import CAP, WAVES, changed, faults_of, plan_of

ROUNDS = plan_of(CAP)


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("  rounds: 28\n", "  rows: 28\n"),
        ("        rounds: 8\n", "        rows: 8\n"),
        ("      - chart: waves\n", "      - chart: waves\n        rows: 4\n"),
        (
            "yarns:\n",
            "gauges:\n  hand: {stitches: 20, rows: 28, over: 10 cm}\nyarns:\n",
        ),
        (
            "  stitches: 20\n  rounds: 28\n",
            "  swatch: {stitches: 40, width: 20 cm, rows: 56, height: 20 cm}\n",
        ),
    ],
    ids=["gauge", "step", "chart step", "other gauge", "swatch"],
)
def test_rows_are_read_as_rounds(old: str, new: str) -> None:
    plan = plan_of(changed(CAP, (old, new)))

    assert [step.after for step in plan.pieces[0].steps] == [
        step.after for step in ROUNDS.pieces[0].steps
    ]


def test_a_measure_may_be_called_rows() -> None:
    named = changed(
        CAP,
        ("measures:\n", "measures:\n  stitches: 4\n  rows: 8\n"),
        ("        rounds: 8\n", "        rounds: rows\n"),
    )

    assert plan_of(named).pieces[0].rounds == ROUNDS.pieces[0].rounds


def test_both_words_in_one_step_are_told() -> None:
    both = changed(CAP, ("        rounds: 8\n", "        rounds: 8\n        rows: 9\n"))
    (found,) = faults_of(both, WAVES)

    assert found.id == "source.unknown-key"
    assert found.span is not None
    assert both.splitlines()[found.span.line - 1].strip() == "rows: 9"
