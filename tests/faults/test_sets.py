"""Slips and rewordings of the sets can all be made; how many are told, ``set_report`` prints."""

import pytest

from bindoff.diagnostics import Severity
from tests.faults.sets import (
    SETS,
    Outcome,
    alarms,
    files_of,
    outcome,
    rewordings,
    slips,
    sound,
)

PATTERNS = sorted({(among, each.pattern) for among in SETS for each in slips(among)})


@pytest.mark.parametrize("among", SETS)
def test_each_change_is_of_one_place_of_its_pattern(among: str) -> None:
    wrong = [
        each
        for each in (*slips(among), *rewordings(among))
        if files_of(among, each.pattern)[each.file].count(each.before) != 1
        or each.before == each.after
    ]

    assert wrong == []


@pytest.mark.parametrize(("among", "pattern"), PATTERNS)
def test_the_patterns_have_no_error(among: str, pattern: str) -> None:
    said = sound(among, pattern)

    assert [each.id for each in said if each.severity is Severity.ERROR] == []


def test_what_can_hurt_a_child_is_found() -> None:
    """Whiskers, loose parts, ties, cords, a child at the crank; of the fourth set one a pattern."""
    safety = {among: [each for each in slips(among) if each.kind == "safety"] for among in SETS}
    chosen = [*safety["third"], *{each.pattern: each for each in safety["fourth"]}.values()]

    assert [each.slip for each in chosen if outcome(each) is not Outcome.FOUND] == []


def test_rewordings_are_left_alone() -> None:
    """Six of them; the report has all, with the few that set off an alarm."""
    some = rewordings("fourth")[6::12]

    assert [alarm.id for each in some for alarm in alarms(each)] == []
