"""Casting on, in words."""

from bindoff.document.fullrows import named_in_full
from bindoff.document.machinesteps import machine_cast_on
from bindoff.document.openstart import open_start
from bindoff.document.phrases import join, paragraph, running
from bindoff.document.stepphrases import counts
from bindoff.document.steps.words import Words, no_tracks
from bindoff.document.tree import Blocks
from bindoff.document.voice import Voice
from bindoff.plan.differences.said import What
from bindoff.plan.steps.cast_on import CastOn
from bindoff.plan.worked import PiecePlan, WorkedStep
from bindoff.source.steps.cast_on import CastOnStep

_PROPER = {"turkish": "Turkish", "german twisted": "German twisted"}
"""Methods that are called after a people."""

_Step = WorkedStep[CastOnStep, CastOn]


def _tell(voice: Voice, piece: PiecePlan, step: _Step, new_yarn: bool) -> Blocks:
    if step.detail.needles:
        return machine_cast_on(voice, piece, step, step.detail)
    yarn, method = voice.yarn_names[step.yarn], step.detail.method.value
    number, group = counts(step.detail.stitches), step.detail.group
    open_ = open_start(voice, piece, step, group)
    if method == "waste yarn":
        words = join("With waste yarn, cast on ", number, f". Change to {yarn}.")
    else:
        method = _PROPER.get(method, method)
        words = join(f"With {yarn} and the {method} method, cast on ", number, ".")
    return (paragraph(running(words, open_)),)


WORDS = Words(
    CastOnStep,
    tell=_tell,
    in_full=named_in_full,
    leads={What.STITCHES: "cast on "},
    tells_rounds=True,
    tracks=no_tracks,
)
