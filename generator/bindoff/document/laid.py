"""The rows of a chart as they lie on the piece, one pass through it above the other."""

from collections.abc import Sequence

from bindoff.source.grid import Grid

Laid = tuple[str | None, ...]
"""A row from left to right: characters of the grid, ``None`` beside the piece."""


def laid(grid: Grid, passes: Sequence[int], nothing: str | None) -> tuple[Laid, ...]:
    """The rows of each pass, bottom first, its repeat as often as ``passes`` says.

    ``nothing`` is the character of a cell that is no stitch. Where edges grow, a pass begins wider
    than the one before: the middle of its first row stands above the middle of the last one.
    """
    rows: list[tuple[int, str]] = []  # where the row begins, and its cells
    for across in passes:
        lines = [grid.laid(line, across) for line in grid.rounds]
        move = 0
        if rows:
            begins, below = rows[-1]
            move = begins + (_middle(below, nothing) - _middle(lines[0], nothing)) // 2
        rows += [(move, line) for line in lines]
    left = min(begins for begins, _ in rows)
    right = max(begins + len(line) for begins, line in rows)
    return tuple(
        (
            *(None,) * (begins - left),
            *(None if cell == nothing else cell for cell in line),
            *(None,) * (right - begins - len(line)),
        )
        for begins, line in rows
    )


def _middle(line: str, nothing: str | None) -> int:
    """Twice the place of the middle of the stitches of a line."""
    worked = [place for place, cell in enumerate(line) if cell != nothing]
    return worked[0] + worked[-1] + 1 if worked else len(line)
