"""Figures that stand below each other end their whole numbers at one place, as PDFium sees them."""

import re
from collections.abc import Callable, Iterator
from itertools import pairwise
from pathlib import Path

import pikepdf
import pytest

from tests.accessibility import builds, tag_tree
from tests.accessibility.marked_text import placed_letters

FIGURE = re.compile(r"(\d+(?:,\d{3})*)?(\.\d+|[¼½¾⅛⅜⅝⅞])?")
SEEN = 0.35  # points: a tenth of a figure's width, which no eye finds
HALF = 40.0  # points: so far apart are equal columns of two halves of a table


@pytest.mark.parametrize(("demo", "edition"), builds.PATTERN_EDITIONS)
def test_figures_of_a_column_are_aligned_on_their_decimal_point(
    demo: str,
    edition: str,
    tree: Callable[[str, str], tag_tree.Node],
    opened: Callable[[str, str], pikepdf.Pdf],
    saved: Callable[[str, str], Path],
) -> None:
    letters = placed_letters(saved(demo, edition))
    columns: dict[tuple[int, int, int], list[float]] = {}
    for number, table in enumerate(tree(demo, edition).find("Table")):
        for row in table.find("TR"):
            for at, cell in enumerate(row.nodes):
                marks = list(marks_of(opened(demo, edition), cell, row))
                said = [each for mark in marks for each in letters[mark] if each[0].strip()]
                figure = FIGURE.fullmatch("".join(letter for letter, _, _ in said))
                if cell.role == "TD" and said and figure:
                    whole = len(figure[1] or "")
                    end = said[whole - 1][2] if whole else said[0][1]
                    columns.setdefault((number, at, marks[0][0]), []).append(end)

    assert any(len(ends) > 1 for ends in columns.values())
    for (_, at, page), ends in columns.items():
        for column in halves(sorted(ends)):
            assert column[-1] - column[0] < SEEN, f"column {at + 1} of a table on page {page + 1}"


def marks_of(
    file: pikepdf.Pdf, cell: tag_tree.Node, row: tag_tree.Node
) -> Iterator[tuple[int, int]]:
    """The marked content of a cell, which may be empty."""
    page = cell.element.get("/Pg", row.element.get("/Pg"))
    return tag_tree.marks(file, cell.element.get("/K", pikepdf.Array()), page)


def halves(ends: list[float]) -> Iterator[list[float]]:
    """The ends of one column; of a table in two halves, those of each half."""
    starts = [0, *(at for at, (a, b) in enumerate(pairwise(ends), 1) if b - a > HALF), len(ends)]
    for start, stop in pairwise(starts):
        yield ends[start:stop]
