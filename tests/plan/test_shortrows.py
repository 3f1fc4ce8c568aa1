"""Short rows add height only where they are worked: pencil, and a second way that counts loops."""

from hypothesis import given
from hypothesis import strategies as st

from bindoff.plan.rowcount import Counted, LiveStitches, after_row
from bindoff.plan.shortrows import MOST_PARTS, NONE_MISSED, missed_after
from bindoff.plan.worked import Progress
from tests.small_patterns import CAP, changed, flap, plan_of


def last(text: str) -> list[Progress]:
    return [step.after[0] for step in plan_of(text).pieces[0].steps]


def test_a_shoulder_is_higher_at_the_neck_than_at_the_armhole() -> None:
    """20 stitches, 10 rows, then four short rows: 5 stitches are left at every turn on the right
    side, and 5 more at the next.

    On paper: the last 5 stitches have 10 rows, the next 5 12, the first 10 14. The row that closes
    goes over all.
    """
    plan = last(
        flap(
            "cast on: 20",
            "{work: [k all, p all], rounds: 10}",
            'work: ["k to last 5, turn", p all, "k to last 10, turn", p all]',
            "work: k all",
            "bind off: all",
        )
    )

    assert [(each.rounds, each.height, each.most) for each in plan] == [
        (0, 0, 0),
        (10, 10, 10),
        (14, 10, 14),
        (15, 11, 15),
        (15, 11, 15),
    ]


def test_rows_between_two_turns_leave_both_edges_behind() -> None:
    """20 stitches: k15, turn; p10, turn; k to end. The middle 10 are worked in all 3 rows, the
    first 5 in the first row only, the last 5 in the third only: 1 row at both edges."""
    plan = last(flap("cast on: 20", 'work: ["k15, turn", "p10, turn", k all]', "bind off: all"))

    assert (plan[1].rounds, plan[1].height, plan[1].most) == (3, 1, 3)


def test_a_heel_flap_adds_nothing_to_the_instep() -> None:
    """32 stitches: 10 rounds, a flap of 8 rows over 16 of them, 5 rounds: 15 along the instep."""
    text = changed(
        CAP.partition("    steps:\n")[0] + "    steps:\n",
        ('  foam: {name: Foam, colour: "#e9eef0", weight: 4, ball: 100 g = 200 m}\n', ""),
        ('"#": foam', '"#": slate'),
    )
    steps = (
        "cast on: 32",
        "{work: k all, rounds: 10}",
        '{work: ["k16, turn", "p16, turn"], times: 4}',
        "{work: k all, rounds: 5}",
        "bind off: all",
    )
    plan = plan_of(text + "".join(f"      - {step}\n" for step in steps)).pieces[0]

    assert [step.after[0].height for step in plan.steps] == [0, 10, 10, 15, 15]
    assert plan.steps[-1].after[0].most == plan.rounds[0] == 23
    assert plan.short_rows
    assert [each[0] for each in plan.rounds_so_far] == [0, 10, 10, 15, 15]


@given(
    st.integers(2, 30),
    st.booleans(),
    st.lists(st.tuples(st.integers(0, 30), st.booleans()), max_size=30),
)
def test_every_stitch_counts_its_own_rows(
    live: int, flat: bool, rows: list[tuple[int, bool]]
) -> None:
    """Each stitch is a box with the rows worked into it, carried from needle to needle."""
    left, right = [0] * live, list[int]()
    needle, missed = LiveStitches(live), NONE_MISSED
    for number, (leave, turned) in enumerate(rows, start=1):
        unworked = min(leave, len(left) - 1) if turned and left else 0
        if not left:
            break
        worked = [rows + 1 for rows in left[: len(left) - unworked]]
        ahead = left[len(left) - unworked :]
        counted = Counted(len(worked), len(worked), live, unworked=unworked, turned=turned)
        missed = missed_after(missed, needle, counted, flat=flat)
        needle = after_row(needle, counted, flat=flat)
        if flat or turned:
            left, right = worked[::-1] + right, ahead
        else:
            left, right = right[::-1] + worked, []
        boxes = left + right
        assert (needle.left, needle.right) == (len(left), len(right))
        assert (number - missed.most, number - missed.fewest) == (min(boxes), max(boxes))


def test_very_many_turns_are_told_apart_no_longer_and_stay_true() -> None:
    """A turn one stitch earlier in every pair of rows, 600 times: the edge has missed 1,200."""
    needle, missed = LiveStitches(1000), NONE_MISSED
    for turn in range(1, 601):
        for unworked in (turn, 0):
            worked = needle.left - unworked
            counted = Counted(worked, worked, 1000, unworked=unworked, turned=bool(unworked))
            missed = missed_after(missed, needle, counted, flat=True)
            needle = after_row(needle, counted, flat=True)

    assert (missed.fewest, missed.most) == (0, 1200)
    assert len(missed.left) + len(missed.right) <= 2 * MOST_PARTS
