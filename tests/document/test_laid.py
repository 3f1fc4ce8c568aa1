"""A chart as it lies on the piece: passes above each other, each as wide as it is worked."""

import pytest

from bindoff.document.laid import laid
from bindoff.source.grid import read_grid


def drawn(text: str, passes: tuple[int, ...], nothing: str | None) -> list[str]:
    """The rows as a person writes a grid, the last on top; `_` beside the piece."""
    grid = read_grid(text, "test.grid", marked=True)
    rows = laid(grid, passes, nothing)
    return ["".join(cell or "_" for cell in row) for row in reversed(rows)]


def test_a_steady_chart_is_repeated_as_often_as_it_says() -> None:
    assert drawn("ab\ncd\n", (2, 2), None) == ["abab", "cdcd", "abab", "cdcd"]


def test_a_chart_whose_edges_grow_lies_centred_on_the_pass_before() -> None:
    """Drawn by hand: a triangle that grows by a stitch at each end of every row, by one repeat of
    two in two rows."""
    grid = "e|ab|e\nx|cd|x\n"

    assert drawn(grid, (1, 2), "x") == ["eababe", "_cdcd_", "_eabe_", "__cd__"]


@pytest.mark.parametrize("passes", [(3, 2, 1), (1, 2, 3)])
def test_every_row_is_as_long_as_the_widest(passes: tuple[int, ...]) -> None:
    rows = drawn("ee|ab|f\nee|cd|f\n", passes, None)

    assert {len(row) for row in rows} == {9}
