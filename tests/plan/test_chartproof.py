"""Charts proved by what their rows use and make: pencil, a published star toe, a second way."""

from collections.abc import Mapping

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bindoff.diagnostics import Diagnostic
from bindoff.plan.worked import ChartWork, StepPlan
from tests.small_patterns import CAP, changed, faults_of, plan_of

LACE = '{".": k, "o": yo, ">": k2tog, "x": no stitch}'


FOAM = '  foam: {name: Foam, colour: "#e9eef0", weight: 4, ball: 100 g = 200 m}\n'


def charted(cast_on: int, rounds: int | None = None, flat: bool = False) -> str:
    """A piece that casts on, works the chart and closes."""
    head = changed(CAP, ('{".": slate, "#": foam}', LACE), (FOAM, "")).partition("    steps:\n")[0]
    much = "" if rounds is None else f"\n        rounds: {rounds}"
    how = "    worked: flat\n" if flat else ""
    steps = f"      - cast on: {cast_on}\n      - chart: waves{much}\n      - gather: all\n"
    return f"{head}{how}    steps:\n{steps}"


def chart_of(cast_on: int, grid: str, rounds: int | None = None) -> StepPlan:
    (step,) = (
        step
        for step in plan_of(charted(cast_on, rounds), grid).pieces[0].steps
        if isinstance(step.detail, ChartWork)
    )
    return step


def the_fault(cast_on: int, grid: str, rounds: int | None = None) -> Diagnostic:
    (fault,) = faults_of(charted(cast_on, rounds), grid)
    return fault


@pytest.mark.parametrize(
    ("grid", "live", "repeats", "after"),
    [
        # three knits and a yarn over use 3 and make 4: 12 / 3 = 4 repeats, 4 x 4 = 16
        (".o..", 12, 4, 16),
        # three knits and a k2tog use 5 and make 4: 40 / 5 = 8, 8 x 4 = 32
        ("...>", 40, 8, 32),
        # 50 = 10 x 5; 10 x 4 = 40
        ("...>", 50, 10, 40),
        # the second row must use 4: two knits and a k2tog, a cell empty. 100 / 5 = 20; 80; 60
        ("..>x\n...>", 100, 20, 60),
        # a yarn over row and the wider row above it: 12 / 3 = 4 throughout
        ("....\n.o..", 12, 4, 16),
        # the decrease row is followed by a plain row of as many stitches as it made
        ("....\n...>", 40, 8, 32),
    ],
)
def test_repeats_are_what_the_first_row_uses_of_the_live_stitches(
    grid: str, live: int, repeats: int, after: int
) -> None:
    step = chart_of(live, grid)

    assert isinstance(step.detail, ChartWork)
    assert step.detail.across == (repeats, repeats)
    assert [progress.stitches for progress in step.after] == [after, after]


def test_a_star_of_ten_points_comes_out_as_published() -> None:
    """k8, k2tog around, then 8 plain rounds; k7, k2tog, then 7 plain; and so on: 7 decrease rounds
    and 35 plain ones. Source: Dillmont, Encyclopedia of Needlework, 1886, the star toe.

    Ten stitches a point less 7 are 3. Cells that are gone are no stitch.
    """
    rows = []
    for plain in range(8, 1, -1):
        rows.append("." * plain + ">" + "x" * (8 - plain))
        rows += ["." * (plain + 1) + "x" * (8 - plain)] * plain
    grid = "\n".join(line[::-1] for line in reversed(rows))
    step = chart_of(60, grid)

    assert isinstance(step.detail, ChartWork)
    assert step.detail.across == (6, 6)
    assert step.rounds == (7 + 35, 7 + 35)
    assert step.after[0].stitches == 6 * 3


@pytest.mark.parametrize(
    ("grid", "line", "message"),
    [
        # a yarn over without its decrease in row 3: three of four cells use a stitch
        (
            "....\n..o.\n....\n....",
            2,
            "round 3 of the chart has 1 yo and 0 decreases: it uses 3 stitches and makes 4 in each "
            "repeat, but round 2 makes 4",
        ),
        # two decrease rows in grids of one width: 100 are 20 repeats, then 16
        (
            "...>\n...>",
            1,
            "round 2 of the chart has 0 increases and 1 decrease: it uses 5 stitches and makes 4 "
            "in each repeat, but round 1 makes 4",
        ),
        # row 2 loses its yarn over to an empty cell, and row 3 goes on as if it had not
        (
            "....\n.x.>\n....",
            2,
            "round 2 of the chart has 0 increases and 1 decrease: it uses 4 stitches and makes 3 "
            "in each repeat, but round 3 uses 4",
        ),
        ("....\nxxxx\n....", 2, "round 2 of the chart uses no stitches, so it would never end"),
    ],
)
def test_a_row_that_breaks_the_count_is_pointed_at_in_the_grid(
    grid: str, line: int, message: str
) -> None:
    fault = the_fault(100, grid)

    assert (fault.id, fault.message) == ("chart.count", message)
    assert fault.span is not None
    assert (fault.span.file, fault.span.line) == ("pattern/waves.grid", line)
    assert (fault.span.column, fault.span.end_column) == (1, 5)


def test_a_chart_that_changes_the_count_is_worked_once() -> None:
    """16 stitches are no whole number of repeats of 3; even where they are, the repeats change."""
    fault = the_fault(12, ".o..", 2)

    assert fault.id == "chart.count"
    assert fault.message == (
        "round 1 of the chart makes 4 stitches in each repeat, and round 1, which follows it, "
        "uses 3"
    )
    assert "at most 1 round;" in fault.help
    assert faults_of(charted(12, 1), ".o..") == ()


def test_rows_that_are_not_worked_need_not_fit() -> None:
    assert faults_of(charted(12, 2), "...>\n....\n....") == ()
    assert the_fault(12, "...>\n....\n....", 3).id == "chart.count"


def test_the_counts_that_are_offered_fit() -> None:
    fault = the_fault(52, "...>")

    assert fault.message == (
        "round 1 of the chart uses 5 stitches in each repeat and does not fit 52 live stitches "
        "evenly"
    )
    assert fault.help.startswith("It fits 50 or 55 stitches: use `stitches(…, multiple = 5)`")
    assert faults_of(charted(50), "...>") == faults_of(charted(55), "...>") == ()


def test_a_first_row_that_would_fit_by_what_it_makes_is_pointed_at_in_the_grid() -> None:
    """Counted by hand: k, yo, k2tog, k uses 4; without its yarn over still 4 and makes 3; without
    its decrease it uses 3 and makes 4, and 40 are 10 repeats of 4."""
    fault = the_fault(40, "....\n.o..")

    assert (fault.id, fault.span and fault.span.line) == ("chart.width", 2)
    assert fault.message == (
        "round 1 of the chart has 1 yo and 0 decreases: it uses 3 stitches and makes 4 in each "
        "repeat, and the 40 live stitches before it are a multiple of 4"
    )
    assert fault.help.endswith("or let the count before it be 39 or 42")
    assert faults_of(charted(39, 1), ".o..") == ()


def test_in_a_chart_that_grows_the_row_that_does_not_is_pointed_at() -> None:
    """Edges that grow by a stitch a row, but for the third: it is that row, not the one below."""
    fault = the_fault(8, "....|....|\nxo..|....|\nxxo.|....|")

    assert fault.message.startswith(
        "round 3 of the chart has 0 increases and 0 decreases: it uses 4 stitches and makes 4 "
        "beside the repeat, but round 2 makes 3"
    )


def test_a_wrong_side_row_counts_what_is_worked_for_it() -> None:
    """A k2tog drawn is a p2tog on the wrong side: 2 into 1 on either."""
    text = charted(40, flat=True)
    plan = plan_of(text, "..>x\n...>\n")

    assert [step.after[0].stitches for step in plan.pieces[0].steps] == [40, 24, 0]


USES: Mapping[str, tuple[int, int]] = {".": (1, 1), "o": (0, 1), ">": (2, 1), "x": (0, 0)}


@given(
    st.lists(st.text(".o>x", min_size=4, max_size=4), min_size=1, max_size=3),
    st.integers(1, 60),
)
def test_a_chart_is_sound_if_a_knitter_can_work_it_repeat_by_repeat(
    lines: list[str], live: int
) -> None:
    """A knitter with one pile of stitches for each repeat, who works cell by cell."""
    grid = "\n".join(reversed(lines))
    first = sum(USES[cell][0] for cell in lines[0])
    sound = first > 0 and live % first == 0
    pile = first
    for line in lines:
        made = 0
        for cell in line:
            takes, makes = USES[cell]
            sound &= takes <= pile
            pile, made = pile - takes, made + makes
        sound &= pile == 0 and any(USES[cell][0] for cell in line)
        pile = made
    found = faults_of(charted(live, len(lines)), grid)

    if sound and pile:
        step = chart_of(live, grid, len(lines))
        assert step.after[0].stitches == live // first * pile
    elif not sound:
        assert found
