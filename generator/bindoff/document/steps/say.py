"""The designer's own words."""

from bindoff.document.fullrows import named_in_full
from bindoff.document.stepprose import step_prose
from bindoff.document.steps.words import Words, no_tracks
from bindoff.document.tree import Blocks
from bindoff.document.voice import Voice
from bindoff.plan.steps.say import Taken
from bindoff.plan.worked import PiecePlan, WorkedStep
from bindoff.source.steps.say import SayStep

_Step = WorkedStep[SayStep, Taken | None]


def _tell(voice: Voice, piece: PiecePlan, step: _Step, new_yarn: bool) -> Blocks:
    return step_prose(voice, step, "say", step.step.say)


WORDS = Words(
    SayStep, tell=_tell, in_full=named_in_full, leads={}, tells_rounds=True, tracks=no_tracks
)
