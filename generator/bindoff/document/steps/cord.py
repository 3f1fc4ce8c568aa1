"""A round cord, in words."""

from bindoff.document.fullrows import named_in_full
from bindoff.document.phrases import counted, join, paragraph, running
from bindoff.document.stepphrases import counts, with_yarn
from bindoff.document.steps.words import Words, no_tracks
from bindoff.document.tree import Blocks
from bindoff.document.units import lengths
from bindoff.document.voice import Voice
from bindoff.plan.steps.cord import Cord
from bindoff.plan.worked import PiecePlan, WorkedStep
from bindoff.source.steps.cord import CordStep

_Step = WorkedStep[CordStep, Cord]


def _tell(voice: Voice, piece: PiecePlan, step: _Step, new_yarn: bool) -> Blocks:
    words = join(
        "Knit the ",
        counts(step.detail.stitches),
        " as an i-cord, without turning, until it measures ",
        lengths(step.detail.lengths, voice.units),
        " (about ",
        counted(step.rounds, "row"),
        ").",
    )
    return (paragraph(running(with_yarn(voice, step, new_yarn, words))),)


WORDS = Words(
    CordStep,
    tell=_tell,
    in_full=named_in_full,
    leads={},
    tells_rounds=False,
    tracks=no_tracks,
)
