"""Stitches bound off in the middle of a flat row leave two parts.

That each needs its own end of yarn, and that buttonholes are closed by casting on in the next row,
is common practice, no source.
"""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bindoff.diagnostics import Diagnostic
from tests.small_patterns import faults_of, flap, plan_of

NECK = "cast on: 60", 'work: "k27, bind off 6, k to end"'


def fault_of(*steps: str) -> Diagnostic:
    (fault,) = faults_of(flap(*steps))
    return fault


def test_a_row_across_the_gap_is_refused_where_it_stands() -> None:
    text = flap(*NECK, 'work: "p to end"', "bind off: all")
    (fault,) = faults_of(text)

    assert fault.id == "piece.parts"
    assert fault.message == (
        "row 2 works across the stitches bound off in the middle of row 1, where the piece is in "
        "two parts"
    )
    assert fault.help.startswith("Work 27 stitches and `hold to end`")
    assert fault.span is not None
    assert text.splitlines()[fault.span.line - 1].strip() == '- work: "p to end"'


def test_what_the_help_says_can_be_done() -> None:
    """27 stitches of one part are worked and closed, then the 27 of the other."""
    held = plan_of(
        flap(
            *NECK,
            'work: "p27, hold to end"',
            "{work: [k all, p all], rounds: 6}",
            "bind off: all",
            "held: 27",
            "{work: [k all, p all], rounds: 7}",
            "bind off: all",
        )
    )

    assert [step.after[0].stitches for step in held.pieces[0].steps] == [
        60, 54, 27, 27, 0, 27, 27, 0,
    ]  # fmt: skip
    said = "say: Join a second ball of yarn for the other shoulder and work both at once."
    assert faults_of(flap(*NECK, said, "{work: [p all, k all], rounds: 6}", "bind off: all")) == ()
    cast_on = 'work: "p27, cast on 4, p to end"'
    assert faults_of(flap(*NECK, cast_on, "work: k all", "bind off: all")) == ()


@pytest.mark.parametrize(
    "steps",
    [
        # a binding off at either edge leaves one part
        ("cast on: 20", 'work: ["bind off 3, k to end", "bind off 3, p to end", k all, p all]'),
        ("cast on: 20", 'work: ["k to last 3, bind off 3", p all, k all]'),
        # what is cast on in the same row closes the gap
        ("cast on: 20", 'work: ["k4, bind off 3, cast on 3, k to end", p all]'),
        # five buttonholes, closed on the way back
        (
            "cast on: 60",
            'work: ["k5, [bind off 2, k10] 4 times, k7", "p7, [p10, cast on 2] 4 times, p5"]',
            "work: k all",
        ),
        # one part bound off at once
        ("cast on: 20", 'work: ["k8, bind off 4, k8", "bind off 8, p to end", k all]'),
        # and by a step
        ("cast on: 20", 'work: "k8, bind off 4, k8"', "bind off: 8", "work: k all"),
    ],
)
def test_what_leaves_one_part_is_no_fault(steps: tuple[str, ...]) -> None:
    assert faults_of(flap(*steps, "bind off: all")) == ()


def test_each_part_may_be_worked_up_to_the_gap_and_back() -> None:
    """Turned at the gap, one part of 8 is worked alone; the row that goes on crosses."""
    steps = ("cast on: 20", 'work: "k8, bind off 4, k8"', 'work: ["p8, turn", k all]')

    assert faults_of(flap(*steps, "bind off: all")) == ()
    assert fault_of(*steps, "work: p all", "bind off: all").message.startswith("row 4 works across")


def test_in_the_round_a_gap_is_a_slit() -> None:
    text = flap("cast on: 20", 'work: "k8, bind off 4, k8"', "work: k all", "bind off: all")

    assert faults_of(text.replace("worked: flat", "worked: round")) == ()


@given(st.integers(1, 12), st.integers(1, 6), st.integers(1, 12), st.integers(0, 13))
def test_a_gap_is_closed_where_stitches_are_cast_on_over_it_and_only_there(
    first: int, off: int, last: int, place: int
) -> None:
    """Seen from the other side the last part comes first; beside the gap is not over it."""
    place = min(place, first + last)
    row = f"k{first}, bind off {off}, k{last}"
    parts = [f"p{place}"] * (place > 0) + ["cast on 2"] + ["p to end"] * (place < first + last)
    text = flap(
        f"cast on: {first + off + last}", f'work: ["{row}", "{", ".join(parts)}"]', "bind off: all"
    )

    assert bool(faults_of(text)) == (place != last)
