"""The slips of a third editor can all be seeded; how many are found, ``third_report`` prints."""

import pytest

from bindoff.diagnostics import Severity
from tests.faults.third_report import files_of, outcome, slips, sound

PATTERNS = sorted({each.pattern for each in slips()})
SAFE = [each for each in slips() if each.kind == "safety"]


def test_each_slip_changes_one_place_of_its_pattern() -> None:
    wrong = [
        each.slip
        for each in slips()
        if files_of(each.pattern)[each.file].count(each.before) != 1 or each.before == each.after
    ]

    assert wrong == []


@pytest.mark.parametrize("pattern", PATTERNS)
def test_the_patterns_have_no_error(pattern: str) -> None:
    assert [each.id for each in sound(pattern) if each.severity is Severity.ERROR] == []


def test_what_can_hurt_a_child_is_found() -> None:
    """Whiskers, loose parts, ties, cords, a child at the crank."""
    assert [each.slip for each in SAFE if outcome(each) != "found"] == []
