"""A chart's parts fit together, and rows run in the direction the trade reads them."""

from typing import Any

import pytest

from bindoff.diagnostics import PatternError
from bindoff.document.charts.spec import ChartKey, Marker, RepeatBox, cells, inside_symbols
from tests.document.chart_cases import CABLE, FOAM, KNIT, TAR, YARNS, chart


def test_in_the_round_every_row_runs_right_to_left() -> None:
    """Common chart-reading rule, as in a published magazine's chart-reading lesson."""
    spec = chart("tf", "ft", "tt")

    assert [spec.direction(row) for row in (1, 2, 3)] == ["right to left"] * 3


@pytest.mark.parametrize(
    ("first_right_side", "ways"),
    [
        (True, ["right to left", "left to right", "right to left"]),
        (False, ["left to right", "right to left", "left to right"]),
    ],
)
def test_flat_rows_alternate(first_right_side: bool, ways: list[str]) -> None:
    """Right-side rows right to left, wrong-side rows left to right: the same lesson."""
    spec = chart("tf", "ft", "tt", worked="flat", first_right_side=first_right_side)

    assert [spec.direction(row) for row in (1, 2, 3)] == ways


def test_only_keys_that_occur_are_used_and_in_key_order() -> None:
    assert chart("ftft").used_keys == (TAR, FOAM)
    assert chart("ff", base=("t",)).used_keys == (TAR, FOAM)


def test_a_cable_is_one_symbol_and_no_line_cuts_it() -> None:
    spec = chart("kcccck", keys=(KNIT, CABLE))

    assert list(cells(spec.rows[0], spec.key_of)) == [(0, 1, "k"), (1, 4, "c"), (5, 1, "k")]
    assert inside_symbols(spec, 1) == {2, 3, 4}


@pytest.mark.parametrize(
    ("lines", "more", "id"),
    [
        ((), {}, "chart.empty"),
        (("",), {}, "chart.empty"),
        (("tf",), {"cell_height_mm": 0.0}, "chart.empty"),
        (("tf", "tft"), {}, "chart.ragged"),
        (("tx",), {}, "chart.key"),
        (("t",), {"keys": (ChartKey("t", "anchor", "Tar"),)}, "chart.drawing"),
        (("ccc",), {"keys": (CABLE,)}, "chart.span"),
        (("t",), {"keys": (ChartKey("t", "dot", "Tar", span=2),)}, "chart.span"),
        (("tf",), {"repeats": (RepeatBox(1, 3, 1, 1, "repeat"),)}, "chart.mark"),
        (("tf",), {"repeats": (RepeatBox(1, 2, 1, 2, "repeat"),)}, "chart.mark"),
        (("tf",), {"markers": (Marker(2.5, "side"),)}, "chart.mark"),
        (("tf", "ft"), {"base": ("t",)}, "chart.base"),
        (("tf",), {"base": ("x",)}, "chart.base"),
        (("cccc",), {"keys": (CABLE,), "base": ("c",)}, "chart.base"),
    ],
)
def test_parts_that_do_not_fit_are_told(
    lines: tuple[str, ...], more: dict[str, Any], id: str
) -> None:
    with pytest.raises(PatternError) as caught:
        chart(*lines, **{"keys": YARNS} | more)

    assert [finding.id for finding in caught.value.findings] == [id]
