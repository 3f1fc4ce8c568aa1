"""A piece that goes on in rows or in rounds, and a round that begins in another place.

What such rows do is common practice, no source.
"""

import pytest

from bindoff.diagnostics import Span
from bindoff.plan.rowcount import LiveStitches, after_row, count_on
from bindoff.plan.shortrows import NONE_MISSED, missed_after
from bindoff.source.rowlang.parse import parse_row
from bindoff.source.rowlang.stitches import Terms, standard_book
from tests.small_patterns import FLAP, faults_of, plan_of

BOOK = standard_book(Terms.US)
PLACE = Span("row", 1, 1, 1, 1)


def piece(*steps: str, worked: str = "flat") -> str:
    head = FLAP.partition("    steps:\n")[0] + "    steps:\n"
    return head.replace("worked: flat", f"worked: {worked}") + "".join(
        f"      - {step}\n" for step in steps
    )


def after(text: str, needle: LiveStitches, *, flat: bool = False) -> LiveStitches:
    counted = count_on(parse_row(text, PLACE, BOOK), needle, {}, BOOK, flat=flat)
    return after_row(needle, counted, flat=flat)


def test_a_new_start_moves_all_markers() -> None:
    """40 stitches with markers after 5, 15 and 30: seen from the 10th these lie 35, 5 and 20
    stitches on."""
    needle = after("k10, new start of round", LiveStitches(40, left_markers=(5, 15, 30)))

    assert needle == LiveStitches(40, left_markers=(5, 20, 35))


def test_a_new_start_after_short_rows_keeps_their_gaps() -> None:
    """k30, turn; p20, turn; k5, new start: ahead are 15 stitches up to the first gap and the 10
    behind it, then 10 up to the second, then the 5 just worked."""
    needle = LiveStitches(40)
    for text in ("k30, turn", "p20, turn", "k5, new start of round"):
        needle = after(text, needle)

    assert needle == LiveStitches(40, left_turns=(15, 35))
    assert after("k to gap, k to gap, k to end", needle) == LiveStitches(40)


def test_part_of_a_round_adds_no_height() -> None:
    counted = count_on(
        parse_row("k10, new start of round", PLACE, BOOK), LiveStitches(40), {}, BOOK, flat=False
    )
    missed = missed_after(NONE_MISSED, LiveStitches(40), counted, flat=False)

    assert (missed.left, missed.fewest, missed.most) == (((30, 1, 1), (10, 0, 0)), 0, 1)


def test_a_front_opening_is_joined_and_goes_on_in_the_round() -> None:
    """10 rows, a right-side row that joins, 5 rounds: 16 in all; in the round no row is turned."""
    plan = plan_of(
        piece(
            "cast on: 40",
            "{work: [k all, p all], rounds: 10}",
            'work: "k to end, join in the round"',
            "{work: k all, rounds: 5}",
            'work: "k10, new start of round"',
            '{work: "k2tog, k to end", rounds: 4}',
            "bind off: all",
        )
    ).pieces[0]

    assert [(step.flat, step.after[0].wrong_side) for step in plan.steps] == [
        *[(True, False)] * 3,
        *[(False, False)] * 4,
    ]
    assert [step.after[0].height for step in plan.steps[:6]] == [0, 10, 11, 16, 16, 20]
    assert plan.steps[5].after[0].stitches == 36


def test_a_round_is_turned_to_work_flat() -> None:
    """Armholes of a vest: after rounds the next row is a wrong-side row."""
    plan = plan_of(
        piece(
            "cast on: 40",
            "{work: k all, rounds: 5}",
            'work: "bind off 4, k to end, turn to work flat"',
            "{work: [p all, k all], rounds: 3}",
            "bind off: all",
            worked="round",
        )
    ).pieces[0]

    assert [(step.flat, step.after[0].wrong_side) for step in plan.steps[2:4]] == [
        (False, True),
        (True, False),
    ]


@pytest.mark.parametrize(
    ("row", "worked", "id"),
    [
        ("k10, new start of round", "flat", "row.way"),
        ("k all, turn to work flat", "flat", "row.way"),
        ("k all, join in the round", "round", "row.way"),
        ("k10, join in the round", "flat", "row.too-few"),
        ("join in the round, k all", "flat", "row.after-turn"),
        ("[k2, new start of round] 2 times", "round", "row.after-turn"),
    ],
)
def test_a_way_that_the_work_can_not_go_is_refused(row: str, worked: str, id: str) -> None:
    found = faults_of(piece("cast on: 40", f'work: "{row}"', "bind off: all", worked=worked))

    assert [each.id for each in found] == [id]


@pytest.mark.parametrize(
    ("steps", "worked", "help"),
    [
        (
            ["cast on: 40", 'work: "k all, join in the round"'],
            "round",
            "Write `worked: flat` on the piece if it begins in rows, as an edge that is open does, "
            "or `turn to work flat` at the end of a round before it; else take it out",
        ),
        (
            ["cast on: 40", *['work: "k all, join in the round"'] * 2],
            "flat",
            "Take it out, or write `turn to work flat` at the end of a round before it",
        ),
        (
            ["cast on: 40", 'work: "k all, turn to work flat"'],
            "flat",
            "Take it out, or write `join in the round` at the end of a row before it",
        ),
    ],
)
def test_a_way_that_is_refused_says_what_to_write(steps: list[str], worked: str, help: str) -> None:
    found = faults_of(piece(*steps, "bind off: all", worked=worked))

    assert [each.help for each in found] == [help]


def test_an_open_edge_is_picked_up_in_a_flat_piece_and_joined() -> None:
    """A neckband: 20 picked up, a row back, 8 cast on beneath the chin."""
    steps = (
        "pick up along: [{edge: the neck, stitches: 20}]",
        "work: p all",
        'work: "k all, cast on 8, join in the round"',
        "work: k all",
        "bind off: all",
    )
    (band,) = plan_of(piece(*steps, worked="flat")).pieces

    assert [step.after[0].stitches for step in band.steps] == [20, 20, 28, 28, 0]
    assert [step.flat for step in band.steps[1:4]] == [True, True, False]
    assert [each.id for each in faults_of(piece(*steps, worked="round"))] == ["row.way"]


def test_all_sizes_change_together() -> None:
    join = '{work: "k to end, join in the round", rounds: wide / 4 - 5}'
    (found,) = faults_of(piece("cast on: 40", join, "bind off: all"))

    assert found.id == "piece.ways"
