"""Figures of the demos that a reader will hold against each other."""

from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

from bindoff.document.build import build_document
from bindoff.document.tree import Document
from bindoff.files import SOURCE_NAME, DiskFiles
from bindoff.pipeline import plan_pattern
from bindoff.plan.plan import Plan
from bindoff.plan.steps.edging import Edged

PATTERNS = sorted(path.parent for path in (Path(__file__).parents[1] / "patterns").glob("*/*.yaml"))
each_pattern = pytest.mark.parametrize("pattern", PATTERNS, ids=lambda path: path.name)


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
