"""Headings are told by the page of the piece, which puts the steps under them."""

from bindoff.document.fullrows import named_in_full
from bindoff.document.steps.words import Words, no_tracks
from bindoff.document.tree import Blocks
from bindoff.document.voice import Voice
from bindoff.plan.worked import PiecePlan, WorkedStep
from bindoff.source.steps.section import SectionStep

_Step = WorkedStep[SectionStep, None]


def _tell(voice: Voice, piece: PiecePlan, step: _Step, new_yarn: bool) -> Blocks:
    return ()


WORDS = Words(
    SectionStep, tell=_tell, in_full=named_in_full, leads={}, tells_rounds=True, tracks=no_tracks
)
