"""Stitches of a chart that have changed."""

from collections.abc import Sequence

from bindoff.document.differencewords.telling import Telling
from bindoff.document.phrases import text
from bindoff.document.tree import (
    Inlines,
)
from bindoff.english import listed
from bindoff.plan.differences.change import Change
from bindoff.plan.differences.said import Cell

MOST_KINDS = 4
"""Up to so many changed rounds of a chart, and kinds of change in a round, are named."""


def changed_cells(change: Change) -> list[tuple[int, Cell, Cell]]:
    """Stitches of a round, counted from 1, that were one thing and are another."""
    shift, *_ = change.shifts
    if shift.old is None or shift.new is None:
        return []
    assert isinstance(shift.old, tuple)
    assert isinstance(shift.new, tuple)
    pairs = enumerate(zip(shift.old, shift.new, strict=True), start=1)
    return [
        (stitch, was, now)
        for stitch, (was, now) in pairs
        if isinstance(was, Cell) and isinstance(now, Cell) and was != now
    ]


def ranges(numbers: Sequence[int]) -> str:
    """``3, 5 to 8 and 12``."""
    runs: list[list[int]] = []
    for number in sorted(numbers):
        if runs and runs[-1][-1] == number - 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    words: list[str] = []
    for run in runs:
        words += [f"{run[0]} to {run[-1]}"] if len(run) > 2 else map(str, run)
    return listed(words)


def cell_phrase(telling: Telling, change: Change) -> Inlines:
    """Which stitches of a round are something else now."""
    shift, *_ = change.shifts
    if shift.old is None:
        return text("this round is new")
    if shift.new is None:
        return text("this round of the earlier chart is gone")
    alike: dict[tuple[Cell, Cell], list[int]] = {}
    for stitch, was, now in changed_cells(change):
        alike.setdefault((was, now), []).append(stitch)
    if len(alike) > MOST_KINDS:
        return text(f"{sum(map(len, alike.values()))} stitches have changed")
    return text(
        "; ".join(
            f"{'stitch' if len(stitches) == 1 else 'stitches'} {ranges(stitches)}: "
            f"{_cell(telling, now)}, was {_cell(telling, was)}"
            for (was, now), stitches in alike.items()
        )
    )


def _cell(telling: Telling, cell: Cell) -> str:
    if cell.yarn and cell.stitch == "k":
        return telling.yarn(cell.yarn)
    found = telling.new.plan.book.get(cell.stitch)
    name = telling.new.abbreviation(found.id)[1] if found else cell.stitch
    return f"{name} in {telling.yarn(cell.yarn)}" if cell.yarn else name
