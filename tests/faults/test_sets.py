"""Slips and rewordings of the sets can all be made; how many are told, ``set_report`` prints."""

import pytest

from bindoff.diagnostics import Severity
from tests.faults.sets import (
    SETS,
    Change,
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


@pytest.mark.parametrize(
    "pattern",
    [
        "oyster-basket-bag",
        "kittiwake-jumper",
        "dunlin-socks",
        "signal-mast-hat",
        "puddle-the-puffin",
    ],
)
def test_a_sound_pattern_is_left_alone(pattern: str) -> None:
    """Each says things that are easily taken for slips: shares of two kinds of parts, a cast-on
    that needs no joining, rows of a heel, rounds of waste yarn, lengths in a list."""
    assert [each.message for each in sound("fifth", pattern)] == []


@pytest.mark.parametrize(
    ("pattern", "left"),
    [
        ("teasel-bonnet", []),
        ("marsh-lantern-leg-warmers", []),
        ("slate-roof-blanket", []),
        ("pump-street-bag", []),
        ("capstan-cardigan", ["prose.count"]),  # 22 on either side and 22 in the middle of 66
    ],
)
def test_sound_patterns_of_another_hand_are_left_alone(pattern: str, left: list[str]) -> None:
    """Needles of hems under a piece's own, comparisons with the other front, `3 months (6, 12
    months)`, shares of rounds in stripes, a chart's width, rows of an edge, counts that only words
    have, crochet that is higher than wide, a band as wide as its rows, pins that mark a place."""
    assert [each.id for each in sound("sixth", pattern)] == left


@pytest.mark.parametrize(
    ("pattern", "before", "after"),
    [
        ("kittiwake-jumper", "40 (44, 48) for each sleeve", "42 (46, 50) for each sleeve"),
        ("kittiwake-jumper", "28 (32, 36) each for front", "27 (31, 35) each for front"),
        ("puddle-the-puffin", "with 5 increase rounds", "with 6 increase rounds"),
        ("puddle-the-puffin", "10 stitches in all, and 5", "12 stitches in all, and 5"),
        ("puddle-the-puffin", "about two thirds of the stuffing", "about two thirds of the beads"),
        ("puddle-the-puffin", "and stuff it lightly", "and sew it on lightly"),
    ],
)
def test_a_slip_beside_what_is_left_alone_is_told(pattern: str, before: str, after: str) -> None:
    change = Change(among="fifth", pattern=pattern, before=before, after=after)

    assert alarms(change) != ()


def test_what_can_hurt_a_child_is_found() -> None:
    """Whiskers, loose parts, ties, cords, a child at the crank; of the fourth set one a pattern."""
    safety = {among: [each for each in slips(among) if each.kind == "safety"] for among in SETS}
    chosen = [*safety["third"], *{each.pattern: each for each in safety["fourth"]}.values()]

    assert [each.slip for each in chosen if outcome(each) is not Outcome.FOUND] == []


def test_rewordings_are_left_alone() -> None:
    """Six of them; the report has all, with the few that set off an alarm."""
    some = rewordings("fourth")[6::12]

    assert [alarm.id for each in some for alarm in alarms(each)] == []
