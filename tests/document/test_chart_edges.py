"""Charts with edge stitches: how they are proved, told and drawn."""

import pytest

from bindoff.document.chartpages import chart_blocks
from bindoff.document.charts.layout import Look, box_in, lay_out, whole
from bindoff.plan.worked import ChartWork
from tests.document.patterns import Data, built, data, fault, plan_of, said
from tests.document.test_chartpages import pages

LEGEND = {".": "k", "o": "yo", ">": "k2tog", "<": "ssk", "x": "no stitch", "-": "p"}


def piece(
    grid: str, cast_on: int, rounds: int | None = None, **chart: object
) -> tuple[Data, dict[str, str]]:
    """A flat piece that works the chart over ``cast_on`` stitches in both sizes."""
    entry = {"title": "Shells", "grid": "shells.grid", "legend": LEGEND, "alt": "Shells"} | chart
    step: Data = {"chart": "shells"} | ({"rounds": rounds} if rounds else {})
    used = {c for c in grid if c in LEGEND}
    entry["legend"] = {c: LEGEND[c] for c in LEGEND if c in used}
    source = data([{"cast on": cast_on}, step, {"bind off": "all"}], charts={"shells": entry})
    source["pieces"]["cap"]["worked"] = "flat"
    return source, {"shells.grid": grid}


def rows_of(source: Data, files: dict[str, str]) -> ChartWork:
    (found,) = (s.detail for s in plan_of(source, files).pieces[0].steps if s.charts)
    assert isinstance(found, ChartWork)
    return found


def after(source: Data, files: dict[str, str]) -> int:
    (found,) = (s for s in plan_of(source, files).pieces[0].steps if s.charts)
    return int(found.after[0].stitches)


EDGED = "---........--\n---.o<..>o.--\n"
MARKED = "---|........|--\n---|.o<..>o.|--\n"


def test_edges_are_worked_once_and_the_repeat_as_often_as_it_fits() -> None:
    """2 + 4 x 8 + 3 = 37."""
    columns = {"before": 2, "repeat": 8, "after": 3}
    for source, files in (piece(EDGED, 37, columns=columns), piece(MARKED, 37)):
        assert rows_of(source, files).across == (4, 4)
        assert after(source, files) == 37


def test_a_count_that_does_not_fit_is_told_with_its_multiple_and_edge() -> None:
    found = fault(*piece(MARKED, 40))

    assert found.id == "chart.width"
    assert "needs a multiple of 8 stitches, plus 5" in found.message
    assert "It fits 37 or 45 stitches" in found.help
    assert "multiple = 8, plus = 5" in found.help


def test_written_rows_say_how_far_the_repeat_goes_on_both_sides() -> None:
    source, files = piece(MARKED, 37)
    text = said(chart_blocks(pages(source, files)["shells"]))

    assert (
        "Row 1 (right side): purl 2, *knit 1, yo, k2tog, knit 2, ssk, yo, knit 1; repeat from * to "
        "last 3 stitches, purl 3."
    ) in text
    # the wrong side shows purls where it knits them: the left edge comes first
    assert "Row 2 (wrong side): knit 3, *purl 8; repeat from * to last 2 stitches, knit 2." in text
    assert "The chart fits a multiple of 8 stitches, plus 5." in text


def test_the_box_stands_around_the_repeat_alone() -> None:
    (box,) = pages(*piece(MARKED, 37))["shells"].spec.repeats

    assert (box.first_stitch, box.last_stitch, box.label) == (3, 10, "8-stitch repeat")


def test_a_fault_beside_the_repeat_says_so_and_points_into_the_marked_line() -> None:
    found = fault(*piece("---|........|o-\n---|........|--\n", 37))

    assert found.id == "chart.count"
    assert "beside the repeat" in found.message
    assert found.span is not None
    assert (found.span.column, found.span.end_column) == (1, 16)


@pytest.mark.parametrize(
    ("grid", "message"),
    [
        ("--|....|-\n-|....|--\n", "do not stand below"),
        ("--|.....-\n--|.....-\n", "no repeat between two of them"),
        ("--||....-\n--||....-\n", "no repeat between two of them"),
    ],
)
def test_marks_that_do_not_frame_a_repeat_are_refused(grid: str, message: str) -> None:
    found = fault(*piece(grid, 36))

    assert found.id == "grid.marks"
    assert message in found.message


def test_columns_must_be_those_of_the_grid() -> None:
    found = fault(*piece(EDGED, 37, columns={"before": 2, "repeat": 8, "after": 2}))

    assert found.id == "grid.columns"
    assert "2 + 8 + 2 = 12 cells, but the grid is 13 wide" in found.message


def test_a_mark_that_the_legend_explains_is_a_stitch() -> None:
    source, files = piece("|...\n", 36, rounds=1)
    source["charts"]["shells"]["legend"] = {"|": "p", ".": "k"}

    assert rows_of(source, files).across == (9, 9)


# A triangle: every other row adds a yarn over at each edge; after eight rows the edges have grown
# by eight stitches, a repeat of eight, and the chart begins again with one repeat more.
TRIANGLE = (
    "....|........|....\n"
    "o...|........|...o\n"
    "x...|........|...x\n"
    "xo..|........|..ox\n"
    "xx..|........|..xx\n"
    "xxo.|........|.oxx\n"
    "xxx.|........|.xxx\n"
    "xxxo|........|oxxx\n"
)


def test_a_growing_chart_begins_again_with_whole_repeats() -> None:
    """No edge stitch at first: 8 are 1 repeat; each pass adds 4 x 2 = 8: 16, 24, 32 stitches."""
    source, files = piece(TRIANGLE, 8, rounds=24)
    found = rows_of(source, files)

    assert found.across == (1, 1)
    assert found.passes == ((1, 2, 3), (1, 2, 3))
    assert after(source, files) == 8 + 3 * 8
    text = said(chart_blocks(pages(source, files)["shells"]))
    assert "Row 1 (right side): yo, *knit 8; repeat from * to end, yo." in text
    assert "Row 8 (wrong side): purl 4, *purl 8; repeat from * to last 4 stitches, purl 4." in text


def test_a_growing_chart_whose_next_pass_has_no_whole_repeats_is_refused() -> None:
    """Six rows add six stitches: 14 are no whole number of eights."""
    source, files = piece("\n".join(TRIANGLE.splitlines()[2:]) + "\n", 8, rounds=12)
    found = fault(source, files)

    assert found.id == "chart.width"
    assert "row 6 of the chart leaves 14 stitches, and row 1, which follows it" in found.message
    assert found.span is not None
    assert found.span.file.endswith(".grid")


def test_a_step_tells_how_the_repeats_grow() -> None:
    source, files = piece(TRIANGLE, 8, rounds=24)
    text = said(built(source, files)[0].blocks)
    assert (
        "The first time through the chart, work its repeat once in every row; each time after "
        "that, once more; the last time, 3 times."
    ) in text


def test_a_box_lies_between_the_edges_of_the_drawing() -> None:
    spec = pages(*piece(MARKED, 37))["shells"].spec
    layout = lay_out(spec, Look(5.0), whole(spec))
    ((_, (left, _, right, _)),) = box_in(layout)

    assert left == pytest.approx(layout.left + 3 * layout.w)
    assert right == pytest.approx(layout.right - 2 * layout.w)


@pytest.mark.parametrize(
    ("first_row", "other", "before", "after"),
    [
        ("right side", "k1, yo, p to last stitch, yo, k1", 16, 18),
        ("right side", "k1, p2tog, p to end", 16, 15),
        ("wrong side", "k1, m1l, p to end", 16, 17),
    ],
)
def test_rows_between_that_change_the_count_are_refused(
    first_row: str, other: str, before: int, after: int
) -> None:
    """Two stitches more would give the chart above it one repeat of two more, half a repeat out of
    its column, and every count would still seem right."""
    grid = "o>\n..\n"
    more: Data = {"rows": "right side", "other rows": other, "first row": first_row}
    source, files = piece(grid, 16, **more)
    if first_row == "wrong side":
        source["pieces"]["cap"]["steps"].insert(1, {"work": "k all", "rounds": 1})
    found = fault(source, files)

    assert found.id == "chart.count"
    assert f"change the count from {before} to {after} stitches" in found.message
    assert found.help is not None
    assert "draw every row in the grid" in found.help
    assert found.span is not None
    assert found.span.file.endswith("pattern.yaml")


@pytest.mark.parametrize("other", ["k2, p to last 2 stitches, k2", "*p2tog, yo; rep from * to end"])
def test_rows_between_may_be_anything_that_keeps_the_count(other: str) -> None:
    more: Data = {"rows": "right side", "other rows": other}

    assert after(*piece("o>\n..\n", 16, **more)) == 16
