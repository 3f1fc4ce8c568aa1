"""Binding off, in words."""

from bindoff.document.fullrows import named_in_full
from bindoff.document.phrases import join, paragraph, running
from bindoff.document.stepphrases import after_words, counts, with_yarn
from bindoff.document.steps.words import Words
from bindoff.document.tree import Blocks
from bindoff.document.voice import Voice
from bindoff.plan.differences.said import What
from bindoff.plan.steps.bind_off import BindOff
from bindoff.plan.worked import PiecePlan, WorkedStep
from bindoff.source.models import BindOffStep

_Step = WorkedStep[BindOffStep, BindOff]


def _tell(voice: Voice, piece: PiecePlan, step: _Step, new_yarn: bool) -> Blocks:
    how = step.step.how.strip().rstrip(".")
    number = counts(step.detail.stitches)
    if not any(progress.stitches for progress in step.after):
        words = join(f"{voice.term['bind_off']} all ", number, f" {how}." if how else ".")
        return (paragraph(with_yarn(voice, step, new_yarn, words)),)
    words = join(f"{voice.term['bind_off']} {how}{' ' if how else ''}", number, ".")
    left = join(after_words(step), " left.")
    return (paragraph(running(with_yarn(voice, step, new_yarn, words), left)),)


WORDS = Words(
    BindOffStep,
    tell=_tell,
    in_full=named_in_full,
    leads={What.CLOSED: "{bind_off} ", What.METHOD: "{bind_off} "},
    tells_rounds=True,
)
