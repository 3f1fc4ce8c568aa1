"""Heels as published, each written in one step, worked and proved.

Sources: magazine patterns of spring 2006 and 2007; a Canadian Red Cross sheet of about 1916; a Red
Cross pamphlet of the First World War; the others are common practice, no source. Both ways to write
German short rows are those of a magazine's page on them.
"""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bindoff.diagnostics import Span
from bindoff.plan.rowcount import LiveStitches, RowMismatch, after_row, count_on
from bindoff.plan.shortrows import NONE_MISSED, missed_after
from bindoff.plan.worked import PiecePlan
from bindoff.source.rowlang.parse import parse_row
from bindoff.source.rowlang.stitches import Terms, standard_book
from tests.small_patterns import faults_of, flap, plan_of

BOOK = standard_book(Terms.US)
PLACE = Span("heel", 1, 1, 1, 1)


def flat(*steps: str, worked: str = "flat") -> str:
    return flap(*steps).replace("worked: flat", f"worked: {worked}")


def piece(*steps: str, worked: str = "flat") -> PiecePlan:
    return plan_of(flat(*steps, worked=worked)).pieces[0]


def french(
    first: str, ssk: str, middle: str, p2tog: str, over: int, sides: str = "kp"
) -> tuple[str, ...]:
    """A heel in one step: two first rows, and two that turn one stitch beyond each gap. ``over``
    is what the first rows leave at each side; of an odd number no stitch is left to be worked after
    the last decreases."""
    one, other = tuple(sides)
    rows = [
        f"{first}, {ssk}, {one}1, turn",
        f"{middle}, {p2tog}, {other}1, turn",
        f"sl1, {one} to 1 before gap, {ssk}, {one}1, turn",
        f"sl1, {other} to 1 before gap, {p2tog}, {other}1, turn",
    ]
    bare = [
        f"sl1, {one} to 1 before gap, {ssk}, turn",
        f"sl1, {other} to 1 before gap, {p2tog}, turn",
    ]
    heel = f"{{work: {rows}, rounds: {2 + over // 2 * 2}, repeat last: 2}}"
    return (heel, f"work: {bare}") if over % 2 else (heel,)


def ends(stitches: int, heel: tuple[str, ...], worked: str = "flat") -> int:
    """The stitches that are left of a heel."""
    plan = piece(f"cast on: {stitches}", *heel, "bind off: all", worked=worked)
    return plan.steps[-2].after[0].stitches


# ---------------------------------------------------------------- French heels


@pytest.mark.parametrize(
    ("stitches", "heel", "left"),
    [
        # magazine, 2007
        (32, french("k18", "ssk", "sl1, p5", "p2tog", 11), 18),
        # magazine, 2006: flap of 48 rows
        (29, french("sl1, p15", "p2tog", "sl1, k4", "ssk", 10, "pk"), 17),
        # Canadian Red Cross, about 1916: 68 stitches, flap of 34 rows
        (34, french("p19", "p2tog", "k6", "skp", 12, "pk"), 20),
        # Red Cross, First World War: 64 narrowed to 56
        (28, french("k15", "k2tog", "p4", "p2tog", 10), 16),
    ],
)
def test_a_published_french_heel_ends_as_published(
    stitches: int, heel: tuple[str, ...], left: int
) -> None:
    assert ends(stitches, heel) == left
    assert ends(stitches, heel, worked="round") == left


@pytest.mark.parametrize(
    ("heel", "left"),
    [(24, 14), (26, 16), (28, 16), (30, 18), (32, 18), (34, 20), (36, 20), (38, 22), (40, 22)],
)
def test_a_french_heel_of_any_size_can_be_written_once(heel: int, left: int) -> None:
    """The ends of k half and 2, ssk, k1, turn; sl1, p5, p2tog, p1, turn; and on, simulated apart
    from this program."""
    half = heel // 2

    assert ends(heel, french(f"k{half + 2}", "ssk", "sl1, p5", "p2tog", half - 5)) == left


def test_a_published_sock_comes_out_from_flap_to_toe() -> None:
    """Published for 64: a flap of 33 rows, a heel of 18, 18 picked up at each side and 32 of the
    instep make 86; 2 fewer 11 times leave 64; 4 fewer every 2nd round to 28, grafted 14 and 14."""
    gusset = "k to 3 before marker, k2tog, k1, sm, k to marker, sm, k1, ssk, k to end"
    toe = (
        "k to 3 before marker, k2tog, k1, sm, k1, ssk, "
        "k to 3 before marker, k2tog, k1, sm, k1, ssk, k to end"
    )
    plan = piece(
        "cast on: 64",
        '{work: ["sl1, k31, turn", "sl1, p31, turn"], rounds: 32}',
        *french("k18", "ssk", "sl1, p5", "p2tog", 11),
        'work: "k18, pick up and knit 18, pm, k32, pm, pick up and knit 18"',
        'work: "k9, new start of round"',
        f'{{taper: "{gusset}", to: 64, over: 22, every: 2}}',
        f'{{taper: "{toe}", to: 28, over: 18, every: 2}}',
        'work: "k to marker, remove marker, new start of round"',
        "join: itself",
        worked="round",
    )

    assert [step.after[0].stitches for step in plan.steps] == [
        *(64, 64, 52, 50, 86, 86, 64, 28, 28, 0),
    ]
    assert plan.closings[0].stitches[0] == 14


# ---------------------------------------------------------------- Dutch heels


def dutch(first: str, ssk: str, back: str, p2tog: str, rows: int) -> str:
    """A heel in one step, whose middle stays as wide as it is."""
    texts = [
        f"{first}, {ssk}, turn",
        f"{back}, {p2tog}, turn",
        f"sl1, k to 1 before gap, {ssk}, turn",
        f"sl1, p to 1 before gap, {p2tog}, turn",
    ]
    return f"{{work: {texts}, rounds: {rows}, repeat last: 2}}"


def test_a_published_dutch_heel_ends_as_published() -> None:
    """20 stitches to 8; then 8 + 11 + 1 + 16 + 1 + 11 = 48 in the round."""
    plan = piece(
        "cast on: 36",
        'work: ["k20, turn", "p20, turn"]',
        dutch("sl1, k12", "ssk", "sl1, p6", "p2tog", 12),
        'work: "k8, pick up and knit 12, k16, pick up and knit 12"',
        "bind off: all",
        worked="round",
    )

    assert plan.steps[2].after[0].stitches == 8 + 16
    assert plan.steps[3].after[0].stitches == 48


def test_the_dutch_heel_that_is_printed_wrong_does_not_come_out_as_printed() -> None:
    """Printed: 22 stitches, sl1, k14, k2tog; sl1, p7, p2tog; 8 left. By pencil 17 are used and 5
    wait at one side; of the 16 left 10 are used and 6 wait at the other: 12 rows leave 10 with one
    stitch over at one side, and a plain row and a last decrease there 9."""
    rows = "sl1, k14", "k2tog", "sl1, p7", "p2tog"
    last = 'work: ["sl1, k to end", "sl1, p to 1 before gap, p2tog"]'

    assert ends(22, (dutch(*rows, 12),)) == 10
    assert ends(22, (dutch(*rows, 12), last)) == 9
    (found,) = faults_of(flat("cast on: 22", dutch(*rows, 13), "bind off: all"))
    assert found.id == "row.no-gap"


# ---------------------------------------------------------------- short-row heels


def worked(
    texts: list[str], needle: LiveStitches, *, flat: bool = True
) -> tuple[LiveStitches, list[int]]:
    """Where the needles stand after the rows, and the stitches that each of them works."""
    widths = []
    for text in texts:
        counted = count_on(parse_row(text, PLACE, BOOK), needle, {}, BOOK, flat=flat)
        widths.append(counted.consumed - needle.begun)
        needle = after_row(needle, counted, flat=flat)
    return needle, widths


DOWN = list(range(29, 9, -1))
UP = [11, 12, *range(13, 29)]


def test_a_wrapped_heel_goes_down_to_a_third_and_up_again() -> None:
    """30 stitches: each row turns one stitch earlier until 10 are left in the middle, and then one
    stitch later, beyond the gap."""
    down = [
        "k to last 1, w&t",
        "p to last 1, w&t",
        *["k to 1 before gap, w&t", "p to 1 before gap, w&t"] * 9,
    ]
    up = ["k to wrapped stitch, k1, w&t", "p to gap, p1, w&t"] * 9
    needle, widths = worked([*down, *up], LiveStitches(30))

    assert widths == DOWN + UP
    assert needle.left + needle.right == 30


AT_THE_TURN = (
    "k to last 5, ds",
    "p to last 5, turn, ds",
    "k to 5 before ds, ds",
    "p to 5 before ds, ds",
    "k to end",
)
BY_THE_NEXT_ROW = (
    "k to last 5, turn",
    "ds, p to last 5, turn",
    "ds, k to 5 before ds, turn",
    "ds, p to 5 before ds, turn",
    "ds, k to end",
)


def test_both_ways_to_write_double_stitches_make_one_fabric() -> None:
    """40 stitches: five are left at each edge, then the double stitch and five before it. On paper
    the rows have 35, 30, 24, 18 and 29 stitches; from the second on the first is the double stitch,
    which is made by that row or before it."""
    one, at_turn = worked(list(AT_THE_TURN), LiveStitches(40))
    other, by_next = worked(list(BY_THE_NEXT_ROW), LiveStitches(40))

    assert by_next == [35, 30, 24, 18, 29]
    assert at_turn == [35, 29, 23, 17, 28]
    assert one == other


def test_a_double_stitch_takes_one_stitch_more_than_a_wrap() -> None:
    """`k8, w&t` is `k9, turn, ds`: one stitch more before the turn, 8 to go back over in each."""
    assert worked(["k8, w&t", "p8"], LiveStitches(20))[1] == [8, 8]
    assert worked(["k9, turn", "ds, p8"], LiveStitches(20))[1] == [9, 9]
    assert worked(["k9, ds", "p8"], LiveStitches(20))[1] == [9, 8]


def test_turns_may_move_outward_by_a_number() -> None:
    """A shoulder from the neck: 10, then 5 past each turn."""
    rows = [
        "k20, turn",
        "p10, turn",
        *["k to 5 past last turn, turn", "p to 5 past last turn, turn"] * 2,
    ]

    assert worked(rows, LiveStitches(30))[1] == [20, 10, 15, 20, 25, 30]


# ---------------------------------------------------------------- across the start of a round


def test_short_rows_go_on_past_the_start_of_the_round() -> None:
    """A back neck: 80 stitches, the round begins in the middle of the back. On paper the rows are
    10, 20, 30, 40 and 50 stitches long; the last goes to the start of the round, 25 further."""
    rows = [
        "k10, turn",
        "p20, turn",
        *["k to 10 past last turn, turn", "p to 10 past last turn, turn"] * 2,
    ]
    needle, widths = worked(rows[:5], LiveStitches(80), flat=False)

    assert widths == [10, 20, 30, 40, 50]
    assert (needle.left, needle.right) == (30, 50)
    needle, widths = worked([rows[5], "k to end", "k to end"], needle, flat=False)
    assert widths == [60, 30, 80]
    assert needle == LiveStitches(80)


def test_a_row_past_the_start_can_shape_and_stays_within_the_round() -> None:
    needle, _ = worked(["k10, turn", "p10, p2tog, p5, turn"], LiveStitches(40), flat=False)

    assert (needle.left, needle.right) == (6, 33)
    with pytest.raises(RowMismatch, match="across marker"):
        worked(["k10, turn", "p9, p2tog, p5, turn"], LiveStitches(40), flat=False)
    with pytest.raises(RowMismatch, match="too many"):
        worked(["k10, turn", "p41, turn"], LiveStitches(40), flat=False)
    with pytest.raises(RowMismatch, match="too many"):
        worked(["k10, turn", "p11, turn"], LiveStitches(40))


@given(st.lists(st.integers(0, 39), max_size=12), st.sampled_from([(), (7,), (0, 19, 38)]))
def test_no_stitch_marker_or_row_is_lost_past_the_start(
    turns: list[int], markers: tuple[int, ...]
) -> None:
    """A second way: stitches lie in a ring, each counts its loops, and the worker walks."""
    needle, missed, ring = LiveStitches(40, left_markers=markers), NONE_MISSED, [0] * 40
    place, step = 0, 1  # the worker stands before the stitch `place`, walking up or down
    for length in turns:
        behind = needle.right if needle.right else 0
        if not 0 < length <= needle.left + behind or needle.left == 0:
            continue
        counted = count_on(parse_row(f"k{length}, turn", PLACE, BOOK), needle, {}, BOOK, flat=False)
        for number in range(length):
            ring[(place + step * number - (step < 0)) % 40] += 1
        place, step = (place + step * length) % 40, -step
        missed = missed_after(missed, needle, counted, flat=False)
        needle = after_row(needle, counted, flat=False)
        assert needle.left + needle.right == 40
        assert len(needle.left_markers) + len(needle.right_markers) == len(markers)
        assert needle.left == ((40 - place) if step > 0 else place) or needle.left in (0, 40)
        assert missed.most - missed.fewest == max(ring) - min(ring)


@pytest.mark.parametrize(
    ("rows", "id"),
    [
        (["k to 1 before gap, ssk, turn"], "row.no-gap"),
        (["k5, turn", "p2, turn", "k to 3 before gap, turn"], "row.past-gap"),
        (["k5, ds", "ds, p to end"], "row.twice-double"),
        (["k5, ds, k5, turn"], "row.double"),
        (["[k5, ds] 2 times, turn"], "row.double"),
    ],
)
def test_a_slip_with_turns_is_refused(rows: list[str], id: str) -> None:
    found = faults_of(flat("cast on: 20", f"work: {rows}", "bind off: all"))

    assert [each.id for each in found] == [id]


@pytest.mark.parametrize("more", ["repeat last: 3, rounds: 9", "repeat last: 1"])
def test_rows_that_are_repeated_are_there_and_have_an_end(more: str) -> None:
    (found,) = faults_of(flat("cast on: 20", f"{{work: [k all, p all], {more}}}", "bind off: all"))

    assert found.id == "step.repeat-last"
