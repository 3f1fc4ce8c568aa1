"""Charts that draw every other row, begin on the wrong side, or stand among other stitches."""

from typing import Any

from bindoff.document.chartpages import chart_blocks
from bindoff.plan.worked import ChartWork, StepPlan
from tests.document.patterns import Data, built, data, fault, plan_of, said, step_words
from tests.document.test_chartpages import pages

LEGEND = {".": "k", "-": "p", "o": "yo", ">": "k2tog", "<": "ssk"}
FERN = "<o.o>\n....."


def piece(
    grid: str,
    cast_on: int = 20,
    step: Data | None = None,
    flat: bool = True,
    before: tuple[Data, ...] = (),
    **chart: Any,
) -> tuple[Data, dict[str, str]]:
    """A piece in two sizes that works the chart over ``cast_on`` stitches."""
    legend = {c: LEGEND[c] for c in LEGEND if c in grid}
    entry = {"title": "Fern", "grid": "fern.grid", "legend": legend, "alt": "A fern"} | chart
    steps = [{"cast on": cast_on}, *before, {"chart": "fern"} | (step or {}), {"bind off": "all"}]
    source = data(steps, charts={"fern": entry})
    source["pieces"]["cap"]["worked"] = "flat" if flat else "round"
    return source, {"fern.grid": grid}


def worked(source: Data, files: dict[str, str]) -> StepPlan:
    """The step that works the chart."""
    (found,) = (step for step in plan_of(source, files).pieces[0].steps if step.charts)
    return found


def rows_of(source: Data, files: dict[str, str]) -> ChartWork:
    """What it is when worked."""
    detail = worked(source, files).detail
    assert isinstance(detail, ChartWork)
    return detail


def words_of(source: Data, files: dict[str, str]) -> str:
    """All that is said on the page of the chart."""
    (page,) = pages(source, files).values()
    return said(chart_blocks(page))


# ---------------------------------------------------------------- every other row


def test_rows_that_are_not_drawn_are_worked_between_and_told_once() -> None:
    source, files = piece(FERN, rows="right side")
    text = words_of(source, files)

    assert rows_of(source, files).rounds == (4, 4)
    assert "Row 1 (right side): *knit 5; repeat from * to end." in text
    assert "Row 3 (right side): *k2tog, yo, knit 1, yo, ssk; repeat from * to end." in text
    assert "Even-numbered rows (wrong side): purl." in text
    assert "Only right-side rows are drawn: read them from right to left." in text
    assert step_words(source, 1, files).startswith("Work rows 1 to 4 of the Fern chart.")


def test_the_rows_between_may_be_written() -> None:
    source, files = piece(FERN, rows="right side")
    source["charts"]["fern"]["other rows"] = "k2, p to last 2 stitches, k2"

    assert "Even-numbered rows (wrong side): knit 2, purl to last 2 stitches, knit 2." in words_of(
        source, files
    )


def test_in_the_round_every_other_round_is_knitted() -> None:
    text = words_of(*piece(FERN, rows="right side", flat=False))

    assert "Only every other round is drawn" in text
    assert "Even-numbered rounds: knit." in text


def test_the_drawing_numbers_the_rows_that_it_draws() -> None:
    (page,) = pages(*piece(FERN, rows="right side")).values()

    assert [page.spec.counter(row) for row in (1, 2)] == [1, 3]
    assert page.spec.right_side(2)


def test_a_fault_names_the_row_as_it_is_numbered() -> None:
    found = fault(*piece("<...>\n.....\n<o.o>\n.....", rows="right side"))

    assert found.id == "chart.count"
    assert found.message == (
        "row 7 of the chart has 0 increases and 2 decreases: it uses 7 stitches and makes 5 in "
        "each repeat, but row 5 makes 5"
    )


# ---------------------------------------------------------------- the side it begins on


def test_a_chart_may_begin_on_the_wrong_side() -> None:
    row = {"work": "k all", "rounds": 1}
    source, files = piece("-----\n>o.-.", before=(row,))
    source["charts"]["fern"]["first row"] = "wrong side"
    text = words_of(source, files)

    # left to right, each stitch by its partner: k2tog is purled, a purl is knitted
    assert "Row 1 (wrong side): *p2tog, yo, purl 1, knit 1, purl 1; repeat from * to end." in text
    assert "Row 2 (right side): *purl 5; repeat from * to end." in text
    assert "right-side rows (even numbers)" in text


def test_on_the_wrong_foot_it_is_refused_with_both_ways_out() -> None:
    row = {"work": "k all", "rounds": 1}
    usual = fault(*piece(FERN, before=(row,)))
    source, files = piece(FERN)
    source["charts"]["fern"]["first row"] = "wrong side"
    other = fault(source, files)

    assert usual.id == other.id == "chart.side"
    assert "a wrong-side row" in usual.message
    assert "`first row: wrong side`" in usual.help
    assert "a right-side row" in other.message
    assert "odd number" in other.help


# ---------------------------------------------------------------- among other stitches


def test_a_number_beside_the_chart_is_knitted_and_purled_on_the_wrong_side() -> None:
    """2 + 3 x 5 + 3 = 20."""
    source, files = piece(FERN, step={"at": {"after": 2, "before": 3}})
    text = step_words(source, 1, files)

    assert rows_of(source, files).across == (3, 3)
    assert "Every right-side row begins before the chart: K2. It ends after the chart: K3." in text
    assert "Every wrong-side row begins before the chart: P3. It ends after the chart: P2." in text
    assert "*knit 5" not in text
    assert "to end of the chart" in words_of(source, files)


def test_the_same_words_on_both_sides_are_said_once() -> None:
    step = {"at": {"after": "k2", "before": "k2"}}
    source, files = piece(FERN, 19, step)
    text = step_words(source, 1, files)

    assert "Every row begins before the chart: K2. It ends after the chart: K2." in text


def test_a_count_that_does_not_fit_counts_what_stands_beside_it() -> None:
    found = fault(*piece(FERN, cast_on=21, step={"at": {"after": 2, "before": 3}}))

    assert found.id == "chart.width"
    assert "multiple of 5 stitches, plus 5" in found.message
    assert "It fits 20 or 25 stitches" in found.help


def test_a_panel_stands_between_markers_and_has_no_box() -> None:
    marks = {"work": "k4, pm, k5, pm, k to end", "rounds": 1}
    step = {"at": {"after": "k to m, sm", "before": "sm, k to end"}, "across": 1}
    source, files = piece(FERN, before=(marks,), step=step, flat=False)
    (page,) = pages(source, files).values()

    assert rows_of(source, files).parts[0].once
    assert page.spec.repeats == ()
    assert "Round 2: k2tog, yo, knit 1, yo, ssk." in said(chart_blocks(page))
    assert worked(source, files).after[0].stitches == 20


def test_without_a_number_across_the_place_must_be_fixed() -> None:
    step = {"at": {"after": "k to last 5 stitches", "before": 0}}

    assert fault(*piece(FERN, step=step)).id == "chart.across"


def test_a_panel_that_does_not_fill_its_row_is_refused() -> None:
    assert fault(*piece(FERN, step={"across": 3})).id.startswith("row.")


def test_rows_that_are_not_drawn_are_told_whole() -> None:
    step = {"at": {"after": "k2", "before": "k3"}}
    source, files = piece(FERN, step=step, rows="right side")
    text = step_words(source, 1, files)

    assert "Every right-side row begins before the chart: K2. It ends after the chart: K3." in text
    assert "Every wrong-side row" not in text


# ---------------------------------------------------------------- no rounds


def test_a_size_may_work_no_round_of_a_chart() -> None:
    """Whatever its stitches: 21 are no multiple of five, and nothing is worked over them."""
    source, files = piece(FERN, step={"rounds": [0, 2]})
    source["pieces"]["cap"]["steps"][0] = {"cast on": "n"}
    source["measures"]["n"] = [21, 20]
    document, _ = built(source, files)

    assert rows_of(source, files).rounds == (0, 2)
    assert "Size A skips this step. Work rows 1 to 2 of the Fern chart." in said(document.blocks)
