"""Tables with a column for every size: units side by side for few, one below another for many."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bindoff.document.front import size_section
from bindoff.document.phrases import text
from bindoff.document.sizetables import (
    GROUPED_SIZES,
    Figures,
    length_figures,
    measure_figures,
    sizes_joined,
    unit_table,
)
from bindoff.document.tree import plain
from bindoff.document.units import length_in
from tests.document.patterns import cells, data, plan_of, printed, tables, voice

STEPS = [{"cast on": "n"}, {"bind off": "all"}]
names = st.lists(st.text("ABCD", min_size=1, max_size=3), min_size=1, max_size=9, unique=True)


@given(names, st.integers(1, 3), st.integers(1, 4))
def test_every_figure_stands_once_in_the_column_of_its_size(
    sizes: list[str], units: int, rows: int
) -> None:
    signs = ("cm", "in", "g")[:units]
    figures = [
        Figures(
            f"row {row}",
            tuple(tuple(f"{row}{unit}{size}" for size in sizes) for unit in signs),
        )
        for row in range(rows)
    ]
    table = unit_table(tuple(sizes), "Caption", "Measure", signs, figures)

    assert all(len(row.cells) == len(table.columns) for row in table.rows)
    if table.groups:
        assert sum(count for _, count in table.groups) == len(table.columns)
    found = {
        (printed(cell), column.size)
        for row in table.rows
        for cell, column in zip(row.cells, table.columns, strict=True)
        if column.size is not None
    }
    assert found == {
        (f"{row}{unit}{size}", index)
        for row in range(rows)
        for unit in signs
        for index, size in enumerate(sizes)
    }


@pytest.mark.parametrize("count", [1, GROUPED_SIZES, GROUPED_SIZES + 1])
def test_units_stand_beside_each_other_only_where_there_is_room(count: int) -> None:
    sizes = tuple("ABCDEFG"[:count])
    mm = [100.0 + 10 * i for i in range(count)]
    rows = [length_figures(voice(data(STEPS)), "Width", mm)]
    table = unit_table(sizes, "Caption", "Measure", ("cm", "in"), rows)

    if count == 1:
        assert table.groups == ()
        assert [printed(column.heading) for column in table.columns] == ["Measure", "cm", "in"]
        assert cells(table) == [["Width", length_in(100.0, "cm"), length_in(100.0, "in")]]
    elif count <= GROUPED_SIZES:
        assert [printed(words) for words, _ in table.groups] == ["", "cm", "in"]
        assert cells(table) == [["Width", *(length_in(x, s) for s in ("cm", "in") for x in mm)]]
    else:
        assert table.groups == ()
        assert [row[0] for row in cells(table)] == ["Width, cm", "Width, in"]


def test_one_unit_needs_no_heading_over_its_columns() -> None:
    (table,) = tables(size_section(voice(data(STEPS, units="metric"))), "Body and finished")

    assert table.groups == ()
    assert cells(table)[0] == ["To fit head, cm", "50", "53"]


def test_counts_have_no_unit() -> None:
    speaker = voice(data(STEPS))
    figures = measure_figures(speaker, "Stitches", plan_of(data(STEPS)).measures.named["n"])
    rows = [figures, length_figures(speaker, "Width", [100.0, 200.0])]
    table = unit_table(("A", "B"), "Caption", "Measure", ("cm", "in"), rows)

    assert cells(table) == [
        ["Stitches", "40", "48"],
        ["Width, cm", "10", "20"],
        ["Width, in", "4", "7¾"],
    ]


def test_sizes_that_agree_share_a_row() -> None:
    rows = sizes_joined(("A", "B", "C", "D"), [(text(cell),) for cell in ("7", "7", "9", "7")])

    assert [[plain(cell) for cell in row.cells] for row in rows] == [
        ["A, B", "7"],
        ["C", "9"],
        ["D", "7"],
    ]
