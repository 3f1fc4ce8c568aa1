"""Binding off inside a row, knitted loop by loop, and read by what the count can mean.

That binding off leaves a stitch on the right needle, and that patterns count it in two ways, is
common practice, no source.
"""

from hypothesis import given
from hypothesis import strategies as st

from bindoff.checks.allchecks import CHECKS
from bindoff.document.rowwords import words
from bindoff.document.tree import plain
from bindoff.plan.plan import Plan
from bindoff.plan.rowcount import Trouble
from bindoff.plan.steps.work import Rows
from bindoff.source.rowlang.stitches import Terms
from bindoff.source.rowlang.syntax import Kept
from tests.small_patterns import faults_of, flap, plan_of

FIRST = "the stitch left on the right needle is the first of the next stitches"
BESIDE = "the stitch left on the right needle is not one of the next stitches"


def rows_of(plan: Plan) -> Rows:
    return next(step.detail for step in plan.pieces[0].steps if isinstance(step.detail, Rows))


def printed(plan: Plan) -> list[str]:
    return [plain(words(row, {}, Terms.US, plan.book)) for row in rows_of(plan).rows]


def after(plan: Plan) -> int:
    return next(
        step.after[0].stitches for step in plan.pieces[0].steps if isinstance(step.detail, Rows)
    )


class Loops:
    """Two needles as a person holds them."""

    def __init__(self, live: int) -> None:
        self.left, self.right = live, 0

    def knit(self, count: int) -> None:
        assert self.left >= count
        self.left, self.right = self.left - count, self.right + count

    def bind_off(self, count: int) -> None:
        """Each time one stitch is lifted over another, which must have been worked before."""
        self.knit(1)
        for _ in range(count):
            self.knit(1)
            self.right -= 1


def test_a_point_of_an_edging_counts_its_stitch_beside() -> None:
    """Nine stitches, five of them left in the point's straight edge and one on the needle.

    By hand: bind off 3 works 4 stitches and leaves 1; k5 works the other five: 6 in all.
    """
    loops = Loops(9)
    loops.bind_off(3)
    loops.knit(5)
    plan = plan_of(flap("cast on: 9", 'work: "bind off 3, k5"', "bind off: all"))

    assert (loops.left, loops.right) == (0, after(plan)) == (0, 6)
    assert printed(plan) == [f"Bind off 3 stitches ({BESIDE}), k5."]


def test_an_edging_comes_back_to_its_stitches_row_by_row() -> None:
    """A saw-tooth edge of six stitches: three rows that make one more, and the point bound off.

    6, 7, 8, 9; then 3 are bound off, one stays on the needle and five are knitted: 6 again.
    """
    rows = '["k3, yo, k to end", "k3, yo, k to end", "k3, yo, k to end", "bind off 3, k5"]'
    plan = plan_of(flap("cast on: 6", f"{{work: {rows}, times: 20}}", "bind off: all"))

    assert after(plan) == 6
    assert rows_of(plan).doubt is None
    assert printed(plan)[-1] == f"Bind off 3 stitches ({BESIDE}), k5."


def test_the_stitch_may_be_the_first_of_the_next() -> None:
    loops = Loops(8)
    loops.bind_off(3)
    loops.knit(4)  # with the one on the needle, k5
    plan = plan_of(flap("cast on: 8", 'work: "bind off 3, k5"', "bind off: all"))

    assert (loops.left, loops.right) == (0, after(plan)) == (0, 5)
    assert printed(plan) == [f"Bind off 3 stitches ({FIRST}), k5."]


def test_what_goes_to_the_end_reads_the_same_both_ways() -> None:
    loops = Loops(20)
    loops.bind_off(4)
    loops.knit(loops.left)
    plan = plan_of(flap("cast on: 20", 'work: "bind off 4, k to end"', "bind off: all"))

    assert loops.right == after(plan) == 16
    assert printed(plan) == ["Bind off 4 stitches, k to end."]


def test_a_stitch_on_the_needle_is_no_part_of_a_decrease() -> None:
    """bind off 2, k2tog, k2 over 7: the k2tog takes two of the left needle."""
    plan = plan_of(flap("cast on: 7", 'work: "bind off 2, k2tog, k2"', "bind off: all"))

    assert after(plan) == 1 + 1 + 2
    assert BESIDE in printed(plan)[0]


def test_a_row_that_fits_in_neither_way_is_told_what_fits_in_either() -> None:
    (fault,) = faults_of(flap("cast on: 12", 'work: "bind off 3, k5"', "bind off: all"))

    assert fault.id == f"row.{Trouble.TOO_FEW.replace(' ', '-')}"
    assert fault.help == "It fits 9 stitches: change the count before it, or the row"
    (fault,) = faults_of(flap("cast on: 6", 'work: "bind off 3, k5"', "bind off: all"))
    assert fault.help == "It fits 8 stitches: change the count before it, or the row"


def test_where_both_ways_fit_both_are_offered() -> None:
    """50 less 2: sixteen times 3 make 4 each, twelve times 4 make 5 each."""
    row = '"k2, *bind off 1, cast on 2, k2; repeat from * to end"'
    plan = plan_of(flap("cast on: 50", f"work: {row}", "bind off: all"))
    doubt = rows_of(plan).doubt

    assert doubt is not None
    assert (doubt.taken, doubt.stitches, doubt.others) == (Kept.FIRST, (66, 66), (62, 62))
    assert any(check.id == "row.bind-off-reading" for check in CHECKS)
    decided = plan_of(
        flap("cast on: 50", f'work: [{row}, "k62"]', "bind off: all")
    )  # a row after it that only one way reaches
    assert (rows_of(decided).doubt, after(decided)) == (None, 62)


@given(st.integers(1, 6), st.integers(1, 6), st.integers(2, 20))
def test_every_reading_is_one_that_a_knitter_can_work(bound: int, then: int, live: int) -> None:
    """Loop by loop: the two counts at which the row comes out, and no other."""
    fits = {}
    for beside in (False, True):
        loops = Loops(60)
        loops.bind_off(bound)
        loops.knit(then if beside else then - 1)
        fits[60 - loops.left] = loops.right
    text = flap(f"cast on: {live}", f'work: "bind off {bound}, k{then}"', "bind off: all")

    if live in fits:
        assert after(plan_of(text)) == fits[live]
    else:
        assert faults_of(text)


def test_the_last_marker_of_a_repeat_is_where_the_round_begins() -> None:
    """Knitters slip it without a word in the pattern; two placed markers make three thirds."""
    steps = (
        "cast on: 12",
        'work: "[k4, pm] 2 times, k4"',
        'work: "*k4, sm; repeat from * to end"',
        'work: "[k2, k2tog, sm] 3 times"',
        'work: "*k to 2 before marker, k1, k1, sm; repeat from * to last 3 stitches, k3"',
        "bind off: all",
    )
    plan = plan_of(flap(*steps).replace("worked: flat", "worked: round"))

    assert [step.after[0].stitches for step in plan.pieces[0].steps] == [12, 12, 12, 9, 9, 0]
    assert faults_of(
        flap("cast on: 12", 'work: "k12, sm"', "bind off: all")
    )  # outside a repeat the marker must be there
