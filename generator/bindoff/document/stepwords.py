"""A step in words, of whatever kind it is."""

from bindoff.document.stepprose import step_prose
from bindoff.document.steps.registry import words_of
from bindoff.document.tree import Blocks
from bindoff.document.voice import Voice
from bindoff.plan.worked import PiecePlan, StepPlan
from bindoff.source.rowlang.syntax import Row


def step_blocks(voice: Voice, piece: PiecePlan, step: StepPlan, new_yarn: bool) -> Blocks:
    """The words of a step, and the remark printed after it.

    ``new_yarn`` says that the reader has to be told its yarn.
    """
    words = words_of(step.step).tell(voice, piece, step, new_yarn)
    if step.step.note:
        return (*words, *step_prose(voice, step, "note", step.step.note))
    return words


def abbreviated_rows(step: StepPlan) -> tuple[Row, ...]:
    """The rows of a step that its words print in abbreviations."""
    in_full = words_of(step.step).in_full
    return tuple(row for row in step.rows if not in_full(step, row))
