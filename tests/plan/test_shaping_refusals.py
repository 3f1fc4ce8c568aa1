"""Shaping that can't be worked: even changes, tapers and crowns, each with its words and place."""

from itertools import pairwise

import pytest

from bindoff.plan.steps.taper import Tapered
from tests.small_patterns import FLAP, faults_of, plan_of

FLAT = FLAP.partition("    steps:\n")[0] + "    steps:\n"
ROUND = FLAT.replace("    worked: flat\n", "")


def the_finding(base: str, steps: list[str]) -> tuple[str, str, str, int, str]:
    """Id, message and help, the step it points at (from 0), and the words there."""
    text = base + "".join(f"      - {step}\n" for step in steps)
    (fault,) = faults_of(text)
    assert fault.span is not None
    line = text.splitlines()[fault.span.line - 1]
    words = line[fault.span.column - 1 : fault.span.end_column - 1]
    return fault.id, fault.message, fault.help, fault.span.line - base.count("\n") - 1, words


@pytest.mark.parametrize(
    ("steps", "id", "message", "help", "words"),
    [
        (
            ["cast on: 20", "{even: increase, to: 26, with: k2tog}"],
            "even.with",
            "`k2tog` is not a stitch that increases by one",
            "Write m1 or kfb, or another that does",
            "k2tog",
        ),
        (
            ["cast on: 20", "{even: decrease, to: 18, with: s2kp}"],
            "even.with",
            "`s2kp` is not a stitch that decreases by one",
            "Write k2tog or ssk, or another that does",
            "s2kp",
        ),
        (
            ["cast on: 20", "{even: decrease, to: 18, with: wave}"],
            "even.with",
            "`wave` is not a stitch that decreases by one",
            "Write k2tog or ssk, or another that does",
            "wave",
        ),
        (
            ["cast on: 20", "{even: increase, to: 18}"],
            "even.direction",
            "to come from 20 to 18 stitches is no increase",
            "Check the count in `to:`, or write `even: decrease`",
            "18",
        ),
        (
            ["cast on: 20", "{even: decrease, to: 22}"],
            "even.direction",
            "to come from 20 to 22 stitches is no decrease",
            "Check the count in `to:`, or write `even: increase`",
            "22",
        ),
        (
            ["cast on: 20", "{even: decrease, to: 9}"],
            "even.room",
            "20 stitches have no room for 11 decreases in one round",
            "Shape in two steps, one after the other, with a count between",
            "9",
        ),
        (
            ["cast on: 20", "{even: increase, to: 41}"],
            "even.room",
            "20 stitches have no room for 21 increases in one round",
            "Shape in two steps, one after the other, with a count between",
            "41",
        ),
        (
            ["cast on: 20", "{taper: k all, to: 10, over: 20}"],
            "taper.change",
            "this row leaves as many stitches as it finds, so it shapes nothing",
            "Put decreases or increases into it",
            "k all",
        ),
        (
            ["cast on: wide", '{taper: "*k2, k2tog; repeat from * to end", to: 10, over: 20}'],
            "taper.change",
            "this row does not change all sizes alike: -5 in S, -6 in M",
            "Give a row with a fixed number of decreases or increases",
            '"*k2, k2tog; repeat from * to end"',
        ),
        (
            ["cast on: 20", '{taper: "k2tog, k to end", to: 24, over: 20}'],
            "taper.direction",
            "the row decreases, and so it can't come from 20 to 24 stitches",
            "Check the count in `to:`, or the row",
            "24",
        ),
        (
            ["cast on: 20", '{taper: "kfb, k to end", to: 16, over: 20}'],
            "taper.direction",
            "the row increases, and so it can't come from 20 to 16 stitches",
            "Check the count in `to:`, or the row",
            "16",
        ),
        (
            ["cast on: 20", '{taper: "k2tog, k to last 2, ssk", to: 15, over: 20}'],
            "taper.count",
            "20 stitches do not come to 15 by -2 in every shaping row",
            "They come to 14 or 16: write one of these, or change the count before",
            "15",
        ),
        (
            ["cast on: 20", '{taper: "kfb, k to last 1, kfb", to: 25, over: 20}'],
            "taper.count",
            "20 stitches do not come to 25 by +2 in every shaping row",
            "They come to 24 or 26: write one of these, or change the count before",
            "25",
        ),
        (
            ["cast on: 20", '{taper: "k2tog, k to last 2, ssk", to: 10, over: 4}'],
            "taper.room",
            "5 shaping rounds do not fit into 4",
            "Give at least 5 in `over:`, or fewer stitches to shape",
            "4",
        ),
        (
            ["cast on: 20", '{taper: "k2tog, k to last 2, ssk", to: 10, over: 8, every: 2}'],
            "taper.room",
            "5 shaping rounds, at most every second one, do not fit into 8",
            "Give at least 9 in `over:`, or fewer stitches to shape",
            "8",
        ),
        (
            ["cast on: 20", '{taper: "k2tog, k to last 2, ssk", to: 10, over: 16, every: 4}'],
            "taper.room",
            "5 shaping rounds, at most every 4th one, do not fit into 16",
            "Give at least 17 in `over:`, or fewer stitches to shape",
            "16",
        ),
        (
            ["cast on: 20", '{taper: "k2tog, k to last 2, ssk", to: 10, over: 16, every: 0}'],
            "amount.small",
            "`every`: 0 is less than 1, the least that can be worked",
            "Check the measures this figure is made from",
            "0",
        ),
        (
            ["cast on: 24", "{crown: 8, to: 8, with: kfb}"],
            "crown.with",
            "`kfb` is not a stitch that makes one of two",
            "Write a decrease such as k2tog or ssk",
            "kfb",
        ),
        (
            ["cast on: 24", "{crown: 8, to: 12}"],
            "crown.top",
            "12 stitches at the top are not the same number in each of 8 wedges",
            "Write 8, or a multiple of it",
            "12",
        ),
        (
            ["cast on: 24", "{crown: narrow, to: 8}"],
            "crown.sizes",
            "the numbers of a crown are the same in all sizes, and these are not",
            "Write one number",
            "narrow",
        ),
        (
            ["cast on: 8", "{crown: 8, to: 16}"],
            "crown.start",
            "there are 8 live stitches, fewer than the 16 the crown is to end with",
            "Check `to:`, or the count before the crown",
            "16",
        ),
        (
            ["cast on: 23", "{crown: 8, to: 8}"],
            "crown.wedges",
            "23 live stitches do not divide into 8 wedges",
            "16 or 24 do: use `stitches(…, multiple = 8)` where the count is made",
            "8",
        ),
    ],
)
def test_shaping_in_the_round(
    steps: list[str], id: str, message: str, help: str, words: str
) -> None:
    assert the_finding(ROUND, [*steps, "gather: all"]) == (id, message, help, 1, words)


def test_a_plain_row_of_a_taper_that_does_not_fit_is_told_with_its_round() -> None:
    """The first two rounds of three are plain, and the second needs a multiple of 3."""
    steps = [
        "cast on: 20",
        '{taper: "k2tog, k to end", to: 18, over: 6, plain: [k all, "*p3; repeat from * to end"]}',
        "gather: all",
    ]
    finding = the_finding(ROUND, steps)

    assert finding[0] == "row.left-over"
    assert finding[1].startswith("in round 2 the row works 18 of 20 live stitches, and 2 are")
    assert finding[3:] == (1, "*p3; repeat from * to end")


def test_a_shaping_row_that_does_not_fit_is_told_with_its_size_and_round() -> None:
    steps = ["cast on: narrow", '{taper: "k10, k2tog", to: 8, over: 20}', "gather: all"]
    id, message, _, step, words = the_finding(ROUND, steps)

    assert (id, step, words) == ("row.too-many", 1, "k2tog")
    assert message == "size S: in round 1 the row needs 12 stitches, and there are 10 live stitches"


def test_a_shaping_row_that_leaves_stitches_is_told_where_it_is() -> None:
    steps = ["cast on: wide", "{taper: 'k18, k2tog', to: 8, over: 20}", "gather: all"]
    id, message, _, step, words = the_finding(ROUND, steps)

    assert (id, step, words) == ("row.too-few", 1, "k18, k2tog")
    assert message.startswith("size M: in round 1 the row works 20 of 24 live stitches and leaves")


def test_nothing_is_left_by_no_decrease() -> None:
    steps = ["cast on: 20", "{even: decrease, to: 0}", "gather: all"]

    assert the_finding(ROUND, steps)[0] == "amount.small"


def test_an_even_row_draws_its_loops_from_the_yarn_of_the_piece() -> None:
    steps = ["cast on: 20", "{even: decrease, to: 15}", "gather: all"]
    plan = plan_of(ROUND + "".join(f"      - {step}\n" for step in steps))

    assert plan.piece("flap").steps[1].worked[0] == ((("slate", 15),),)


def test_a_taper_may_count_with_a_measure() -> None:
    steps = ["cast on: 20", '{taper: "k{narrow}, k2tog, k to end", to: 19, over: 2}']
    text = FLAT + "".join(f"      - {step}\n" for step in [*steps, "bind off: all"])
    (taper,) = (each.detail for each in plan_of(text).piece("flap").steps[1:2])

    assert isinstance(taper, Tapered)
    assert taper.change == -1


def test_flat_shaping_has_room_for_one_change_less_than_stitches() -> None:
    """20 stitches have 19 places between them for an increase, and are 10 pairs to decrease."""
    for steps in (
        ["cast on: 20", "{even: increase, to: 39}", "bind off: all"],
        ["cast on: 20", "{even: decrease, to: 10}", "bind off: all"],
        ["cast on: 21", "{even: decrease, to: 11}", "bind off: all"],
    ):
        assert faults_of(FLAT + "".join(f"      - {step}\n" for step in steps)) == ()
    more = ["cast on: 20", "{even: increase, to: 40}", "bind off: all"]
    less = ["cast on: 20", "{even: decrease, to: 9}", "bind off: all"]

    assert the_finding(FLAT, more)[1] == "20 stitches have no room for 20 increases in one row"
    assert the_finding(FLAT, less)[1] == "20 stitches have no room for 11 decreases in one row"


def test_a_flat_taper_begins_on_a_right_side_row() -> None:
    """Row 1 is a right-side row, so is row 3; shaping every second row must begin on one."""
    shaping = '{taper: "k2tog, k to last 2, ssk", to: 10, over: 20, every: 2}'
    even = ["cast on: 20", "{work: k all, rounds: 2}", shaping, "bind off: all"]
    odd = ["cast on: 20", "{work: k all, rounds: 3}", shaping, "bind off: all"]
    none = ["cast on: 10", "{work: k all, rounds: 3}", shaping, "bind off: all"]

    for sound in (even, none):
        assert faults_of(FLAT + "".join(f"      - {step}\n" for step in sound)) == ()
    assert faults_of(ROUND + "".join(f"      - {step}\n" for step in odd)) == ()
    assert the_finding(FLAT, odd) == (
        "taper.side",
        "the shaping would begin on row 4, a wrong-side row",
        "Work an even number of rows before it",
        2,
        "2",
    )


NARROW = '"k1, ssk, k to last 3, k2tog, k1"'


def shaped_rows(base: str, taper: str) -> list[int]:
    """Which rows of a taper from 20 stitches are shaped, counted from its first."""
    text = base + "".join(f"      - {step}\n" for step in ["cast on: 20", taper, "bind off: all"])
    (step,) = plan_of(text).piece("flap").steps[1:2]
    counts = [20, *(sum(count for _, count in loops) for loops in step.worked[0])]
    pairs = enumerate(pairwise(counts), start=1)
    return [row for row, (before, after) in pairs if before != after]


def test_a_flat_taper_shapes_right_side_rows_alone_if_nothing_else_is_said() -> None:
    """15 rows for 5 decreases would be every third: a wrong-side row worked by words for the right
    side, where `ssk` leans the other way and knit shows as purl."""
    taper = f"{{taper: {NARROW}, to: 10, over: 15}}"

    assert shaped_rows(ROUND, taper) == [3, 6, 9, 12, 15]
    rows = shaped_rows(FLAT, taper)
    assert len(rows) == 5
    assert all(row % 2 for row in rows)


def test_a_row_of_both_sides_may_shape_where_both_sides_are_alike_or_every_row_does() -> None:
    garter = f"{{taper: {NARROW}, to: 10, over: 15, plain: k all, every: 1}}"
    each = f"{{taper: {NARROW}, to: 10, over: 5}}"

    assert shaped_rows(FLAT, garter) == [1, 4, 7, 10, 13]
    assert shaped_rows(FLAT, garter.replace("plain: k all", "plain: [k all, k all]"))[1] == 4
    assert shaped_rows(FLAT, each) == [1, 2, 3, 4, 5]
    assert shaped_rows(FLAT, garter.replace(", every: 1", ""))[1] % 2


@pytest.mark.parametrize(
    ("base", "taper", "rows"),
    [
        (ROUND, "over: 15, every: 3", [3, 6, 9, 12, 15]),
        (ROUND, "over: 17, every: 3", [3, 6, 9, 12, 15]),
        (ROUND, "over: 14, every: 3", [2, 5, 8, 11, 14]),
        (ROUND, "over: 30, every: 4", [4, 8, 12, 20, 28]),
        (ROUND, "over: 9, every: 2", [1, 3, 5, 7, 9]),
        (FLAT, "over: 30, every: 6", [1, 7, 13, 19, 25]),
        (FLAT, "over: 25, every: 6", [1, 7, 13, 19, 25]),
        (FLAT, "over: 9", [1, 3, 5, 7, 9]),
        (FLAT, "over: 9, every: 2", [1, 3, 5, 7, 9]),
        (FLAT, "over: 15, every: 3, plain: k all", [1, 4, 7, 10, 13]),
        (FLAT, "over: 99, every: 20", [1, 21, 41, 61, 81]),
    ],
)
def test_shaping_in_every_so_many_rows(base: str, taper: str, rows: list[int]) -> None:
    """Counted by hand: in the round the last of each interval is shaped, flat the first."""
    assert shaped_rows(base, f"{{taper: {NARROW}, to: 10, {taper}}}") == rows


def test_sizes_may_shape_in_rows_of_their_own() -> None:
    """S has 24 rows for 5 decreases in every 4th, M 30 in every 6th."""
    text = FLAT + "".join(
        f"      - {step}\n"
        for step in [
            "cast on: 20",
            f"{{taper: {NARROW}, to: 10, over: [24, 30], every: [4, 6]}}",
            "bind off: all",
        ]
    )
    (step,) = plan_of(text).piece("flap").steps[1:2]

    assert isinstance(step.detail, Tapered)
    assert [each.shaping_rounds("first") for each in step.detail.tapers] == [
        (1, 5, 9, 13, 17),
        (1, 7, 13, 19, 25),
    ]


@pytest.mark.parametrize(
    ("taper", "said"),
    [
        (
            f"{{taper: {NARROW}, to: 10, over: 15, every: 1}}",
            (
                "taper.side",
                "row 4, a wrong-side row, would be shaped by the words for the right side",
                "Take `every: 1` out, so that right-side rows alone are shaped, or write the "
                "shaping rows of both sides under `work:`",
                1,
                "1",
            ),
        ),
        (
            f"{{taper: {NARROW}, to: 10, over: 15, every: 3}}",
            (
                "taper.side",
                "row 4, a wrong-side row, would be shaped by the words for the right side",
                "Write an even number, so that right-side rows alone are shaped, or write the "
                "shaping rows of both sides under `work:`",
                1,
                "3",
            ),
        ),
        (
            f"{{taper: {NARROW}, to: 10, over: 8}}",
            (
                "taper.room",
                "5 shaping rows, at most every second one, do not fit into 8",
                "Give at least 9 in `over:`, or fewer stitches to shape",
                1,
                "8",
            ),
        ),
        (
            f"{{taper: {NARROW}, to: 10, over: 8, plain: k all}}",
            (
                "taper.room",
                "5 shaping rows, at most every second one, do not fit into 8",
                "Give at least 9 in `over:`, or fewer stitches to shape, or write `every: 1`",
                1,
                "8",
            ),
        ),
    ],
)
def test_a_flat_taper_that_would_shape_a_wrong_side_row_says_what_to_write(
    taper: str, said: tuple[str, str, str, int, str]
) -> None:
    assert the_finding(FLAT, ["cast on: 20", taper]) == said


@pytest.mark.parametrize(
    "step",
    [
        "{even: increase, to: 24}",
        "{even: decrease, to: 18}",
        "{taper: 'k1, m1, k to end', to: 22, over: 2}",
        "{crown: 4, to: 4}",
    ],
)
def test_shaping_past_the_most_rounds_is_told_where_it_is(step: str) -> None:
    """10,000 rounds are the most; the third step begins with one more."""
    id, _, _, index, words = the_finding(
        ROUND, ["cast on: 20", "{work: k all, rounds: 10000}", step]
    )

    assert (id, index, words) == ("piece.rounds", 2, step)


def test_a_crown_has_a_wedge_and_a_stitch_to_end_with() -> None:
    """One wedge is a spiral of decreases, one a round: 19 of them from 20 stitches to 1."""
    none = "`crown`: 0 is less than 1, the least that can be worked"

    assert the_finding(ROUND, ["cast on: 20", "{crown: 0, to: 4}"])[:2] == ("amount.small", none)
    assert the_finding(ROUND, ["cast on: 20", "{crown: 4, to: 0}"])[0] == "amount.small"
    steps = ["cast on: 20", "{crown: 1, to: 1, pace: every}", "gather: all"]
    crown = plan_of(ROUND + "".join(f"      - {step}\n" for step in steps)).piece("flap").steps[1]
    assert crown.rounds == (19, 19)


def test_one_stitch_is_bound_off_and_none_is_no_step() -> None:
    def text(count: int) -> str:
        steps = ["cast on: 4", f"bind off: {count}", "bind off: all"]
        return ROUND + "".join(f"      - {step}\n" for step in steps)

    (fault,) = faults_of(text(0))
    assert fault.id == "amount.small"
    assert fault.message == "`bind off`: 0 is less than 1, the least that can be worked"
    left = [step.after[0].stitches for step in plan_of(text(1)).piece("flap").steps]
    assert left == [4, 3, 0]
