"""What becomes of loops that hang open at the foot of a piece, in the order of work."""

from bindoff.document.stepnumbers import numbered
from bindoff.document.stepphrases import unit_of
from bindoff.document.voice import Voice
from bindoff.plan.worked import PiecePlan, StepPlan


def open_start(voice: Voice, piece: PiecePlan, step: StepPlan, group: str = "") -> str:
    """Until when the waste yarn holds the loops that a step leaves open, or the name of the
    ``group`` as which they wait; empty where it leaves none."""
    if group:
        return f"Its open loops are taken up later as the {group}."
    if piece.open_start is not step:
        return ""
    loops = f"The waste yarn holds the open loops of the first {unit_of(voice, piece)}"
    end = piece.takes_up_start
    if end is None:
        return f"{loops}: leave it in until they are secured or joined."
    number = next(each.number for each in numbered(piece) if each.step is end)
    return f"{loops} until step {number}."
