"""The designer's own words in a step."""

from bindoff.document.prose import blocks
from bindoff.document.tree import Blocks
from bindoff.document.voice import Voice
from bindoff.plan.worked import PiecePlan, StepPlan


def step_prose(voice: Voice, piece: PiecePlan, step: StepPlan, key: str, written: str) -> Blocks:
    """What is written under ``key`` of a step."""
    index = next(number for number, each in enumerate(piece.steps) if each is step)
    place = voice.plan.source.tree.text_span(("pieces", piece.key, "steps", index, key))
    return blocks(written, voice.values, place, language=voice.prose_language)
