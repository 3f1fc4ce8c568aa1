"""Grids: a new chart, and what the painter asks while one paints."""

from bindoff.desk import painting
from bindoff.desk.asking import Answer, RefusedError, cells_of, lines_of, text_of
from bindoff.desk.edits import edit_data
from bindoff.desk.newchart import chart_choices, new_chart
from bindoff.desk.state import Desk
from bindoff.diagnostics import PatternError


def chart(desk: Desk, asked: Answer) -> Answer:
    """A chart begun from the answers of the form; what the form offers where none are given."""
    proof, wishes = desk.last(asked), asked.get("wishes")
    if wishes is None:
        return chart_choices(proof)
    if not isinstance(wishes, dict):
        raise RefusedError(400, "the answers of the form are missing")
    try:
        made = new_chart(proof, wishes)
    except PatternError as error:
        return {"faults": [f"{each.message}. {each.help}." for each in error.findings]}
    edits = [edit_data(each, proof.files.display("")) for each in made.edits]
    return {"file": made.file, "text": made.text, "edits": edits}


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
