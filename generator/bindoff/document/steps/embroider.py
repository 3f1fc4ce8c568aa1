"""The embroidery of a tube, in words."""

from bindoff.document.embroiderywords import embroidery_blocks
from bindoff.document.fullrows import named_in_full
from bindoff.document.steps.words import Words, no_tracks
from bindoff.document.tree import Blocks
from bindoff.document.voice import Voice
from bindoff.plan.steps.embroider import Embroidered
from bindoff.plan.worked import PiecePlan, WorkedStep
from bindoff.source.steps.embroider import EmbroiderStep

_Step = WorkedStep[EmbroiderStep, Embroidered]


def _tell(voice: Voice, piece: PiecePlan, step: _Step, new_yarn: bool) -> Blocks:
    return embroidery_blocks(voice, piece.key, step.detail.plans)


WORDS = Words(
    EmbroiderStep, tell=_tell, in_full=named_in_full, leads={}, tells_rounds=True, tracks=no_tracks
)
