"""Rows between are told of charts that leave them out, and of no others."""

import pytest

from bindoff.files import MemoryFiles
from tests.faults.seeding import base, checked


def ids(name: str, before: str, after: str) -> set[str]:
    files = dict(base(name))
    assert before in files["pattern.yaml"]
    files["pattern.yaml"] = files["pattern.yaml"].replace(before, after)
    return {finding.id for finding in checked(MemoryFiles(files))}


def test_a_chart_that_draws_all_rows_has_none_between() -> None:
    assert "chart.other-rows" in ids("kerchief", "    rows: right side\n", "")
    assert "chart.other-rows" not in ids(
        "kerchief", "    rows: right side\n    other rows: k2, p to last 2, k2\n", ""
    )


@pytest.mark.parametrize("rows", ["knit", "k all"])
def test_a_mosaic_may_say_how_the_second_row_of_each_line_is_worked(rows: str) -> None:
    mode = "    mode: mosaic\n"

    assert "chart.other-rows" not in ids("mosaic", mode, f"{mode}    other rows: {rows}\n")
