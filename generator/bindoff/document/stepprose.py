"""The designer's own words in a step."""

from bindoff.document.prose import blocks
from bindoff.document.tree import Blocks
from bindoff.document.voice import Voice
from bindoff.plan.worked import StepPlan


def step_prose(voice: Voice, step: StepPlan, key: str, written: str) -> Blocks:
    """What is written under ``key`` of a step."""
    place = step.step.place.of(key).text_span
    return blocks(written, voice.values, place, language=voice.prose_language)
