"""Pieces that do not say whether they come from the machine."""

import pytest

from bindoff.files import MemoryFiles
from bindoff.pipeline import check_pattern
from tests.small_machine import COWL, STRIP
from tests.small_patterns import CAP, WAVES, changed

UNSAID = changed(STRIP, ("    made: machine\n", ""))


def found(text: str) -> list[str]:
    files = MemoryFiles({"pattern.yaml": text, "waves.grid": WAVES})
    findings = check_pattern(files, "pattern.yaml", "own")
    return [each.message for each in findings if each.id == "piece.made"]


def test_plain_rows_under_a_head_by_machine_are_said_to_be_cranked_or_not() -> None:
    """By hand, `k all` in rows is garter stitch; cranked, it is stockinette."""
    assert found(UNSAID) == ["`strip` does not say how it is made, and the head says by machine"]


def test_what_says_it_is_left_alone() -> None:
    assert found(STRIP) == []


@pytest.mark.parametrize(
    "change",
    [
        ("worked: flat", "made: hand\n    worked: flat"),
        ("work: k all", "work: [k all, p all]"),
        ("cast on: 14", "cast on: 22"),  # all needles: no panel
        ("cast on: 14", "cast on: 30"),
        ("cast on: 14", "{cast on: 14, method: cable}"),
        ("- bind off: all", "- even: decrease\n        to: 7\n      - bind off: all"),
    ],
)
def test_where_no_crank_makes_anything_the_head_is_wrong(change: tuple[str, str]) -> None:
    assert found(changed(UNSAID, change)) == [
        "the head says by machine, and no piece is made on it"
    ]


@pytest.mark.parametrize("text", [CAP, COWL])
def test_other_heads_and_tubes_have_nothing_to_say(text: str) -> None:
    assert found(text) == []
