"""Stitches left live, in words."""

from bindoff.document.fullrows import named_in_full
from bindoff.document.machinesteps import cranked_off
from bindoff.document.phrases import join, paragraph, running
from bindoff.document.stepphrases import counts
from bindoff.document.steps.words import Words, no_tracks
from bindoff.document.tree import Blocks
from bindoff.document.voice import Voice
from bindoff.plan.differences.said import What
from bindoff.plan.steps.leave import Left
from bindoff.plan.worked import PiecePlan, WorkedStep
from bindoff.source.steps.leave import LeaveStep

_Step = WorkedStep[LeaveStep, Left]


def _tell(voice: Voice, piece: PiecePlan, step: _Step, new_yarn: bool) -> Blocks:
    where = "on a spare needle or on waste yarn"
    number = counts(step.detail.stitches)
    off = cranked_off(voice, piece, step)
    words = join(f"Leave all stitches live {'on it' if off else where}: ", number, ".")
    return (paragraph(running(off, words)),)


WORDS = Words(
    LeaveStep,
    tell=_tell,
    in_full=named_in_full,
    leads={What.CLOSED: "leave live "},
    tells_rounds=True,
    tracks=no_tracks,
)
