"""Figures of the demos that a reader will hold against each other."""

from collections.abc import Iterator
from functools import cache
from itertools import pairwise
from pathlib import Path

import pytest

from bindoff.document.build import build_document
from bindoff.document.sizetables import Figures, unit_table
from bindoff.document.tree import Blocks, Document, ItemList, Table, plain
from bindoff.files import SOURCE_NAME, DiskFiles
from bindoff.pipeline import plan_pattern
from bindoff.plan.plan import Plan
from bindoff.plan.steps.edging import Edged

PATTERNS = sorted(path.parent for path in (Path(__file__).parents[1] / "patterns").glob("*/*.yaml"))
each_pattern = pytest.mark.parametrize("pattern", PATTERNS, ids=lambda path: path.name)
SAID = "each unit is rounded from the exact length"


@cache
def made(pattern: Path) -> tuple[Plan, Document]:
    files = DiskFiles(str(pattern))
    plan = plan_pattern(files, SOURCE_NAME, pattern.name)
    return plan, build_document(plan, files)[0]


def edges_that_disagree(plan: Plan) -> Iterator[str]:
    """Edges worked on the same stitches in two sizes and said to be of different lengths."""
    for piece in plan.pieces:
        for step in piece.steps:
            if isinstance(step.detail, Edged) and step.detail.sides:
                by_size = list(zip(*step.detail.sides, strict=True))
                lengths: dict[object, float] = {}
                for sides, mm in zip(by_size, step.detail.along, strict=True):
                    if abs(lengths.setdefault(sides, mm) - mm) > 0.5:
                        yield f"{piece.key}: {sides} are {lengths[sides]:g} mm and {mm:g} mm"


@each_pattern
def test_an_edge_of_the_same_stitches_has_one_length(pattern: Path) -> None:
    plan, _ = made(pattern)

    assert list(edges_that_disagree(plan)) == []


def tables(blocks: Blocks) -> Iterator[Table]:
    for block in blocks:
        if isinstance(block, Table):
            yield block
        if isinstance(block, ItemList):
            for item in block.items:
                yield from tables(item.blocks)


def in_two_units(table: Table) -> dict[str, set[str]]:
    """The figures in inches beside each figure in centimeters, cell by cell."""
    found: dict[str, set[str]] = {}
    rows = [[plain(cell) for cell in row.cells] for row in table.rows]
    if [plain(heading) for heading, _ in table.groups] == ["", "cm", "in"]:
        half = (len(table.columns) - 1) // 2
        pairs = [
            pair for row in rows for pair in zip(row[1 : half + 1], row[half + 1 :], strict=True)
        ]
    else:
        pairs = [
            pair
            for one, other in pairwise(rows)
            if one[0].endswith(", cm") and other[0].endswith(", in")
            for pair in zip(one[1:], other[1:], strict=True)
        ]
    for cm, inches in pairs:
        found.setdefault(cm, set()).add(inches)
    return found


@each_pattern
def test_a_table_in_two_units_says_that_neither_is_made_of_the_other(pattern: Path) -> None:
    """A reader who adds or converts figures finds that they do not always meet."""
    _, document = made(pattern)
    found = list(tables(document.blocks))

    assert any(in_two_units(table) for table in found)
    for table in found:
        assert (SAID in plain(table.caption)) == bool(in_two_units(table))


@pytest.mark.parametrize("more", [0, 4])
@pytest.mark.parametrize(("units", "said"), [(("cm", "in"), True), (("g", "m"), False)])
def test_only_lengths_are_said_to_be_rounded_apart(
    units: tuple[str, str], said: bool, more: int
) -> None:
    sizes = ("A", "B", *map(str, range(more)))
    rest = tuple(str(number) for number in range(20, 20 + more))
    row = Figures("edge to crown", (("10.5", "10.5", *rest), ("4", "4¼", *rest)))
    table = unit_table(sizes, "Hat", "Measure", units, [row])

    assert (SAID in plain(table.caption)) == said
