"""The tube from the machine, in words."""

from bindoff.document.fullrows import named_in_full
from bindoff.document.steps.words import Words, no_tracks
from bindoff.document.stripewords import stripe_blocks
from bindoff.document.tree import Blocks
from bindoff.document.voice import Voice
from bindoff.plan.steps.stripes import Striped
from bindoff.plan.worked import PiecePlan, WorkedStep
from bindoff.source.steps.stripes import StripesStep

_Step = WorkedStep[StripesStep, Striped]


def _tell(voice: Voice, piece: PiecePlan, step: _Step, new_yarn: bool) -> Blocks:
    return stripe_blocks(voice, piece, step)


WORDS = Words(
    StripesStep, tell=_tell, in_full=named_in_full, leads={}, tells_rounds=False, tracks=no_tracks
)
