"""Grids: what the painter asks while one paints."""

from bindoff.desk import painting
from bindoff.desk.asking import Answer, cells_of, lines_of, text_of
from bindoff.desk.state import Desk
from bindoff.diagnostics import PatternError


def floats(desk: Desk, asked: Answer) -> Answer:
    """Which floats of a grid that is being painted are too long."""
    return {"floats": painting.floats(desk.last(asked), text_of(asked, "file"), lines_of(asked))}


def paste(desk: Desk, asked: Answer) -> Answer:
    """Cells of a spreadsheet as lines of a grid, or why they are none."""
    proof, file, empty = desk.last(asked), text_of(asked, "file"), text_of(asked, "empty")
    try:
        return {"rows": painting.pasted(proof, file, cells_of(asked), empty)}
    except PatternError as error:
        return {"faults": painting.faults(error)}
