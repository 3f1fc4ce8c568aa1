"""Held stitches put back on the needles, in words."""

from bindoff.document.fullrows import named_in_full
from bindoff.document.phrases import counted, figures, join, paragraph, running, text
from bindoff.document.stepphrases import count_after, unit_of
from bindoff.document.steps.words import Words
from bindoff.document.tree import Blocks, Inlines
from bindoff.document.voice import Voice
from bindoff.plan.steps.pick_up import PickUp
from bindoff.plan.worked import PiecePlan, WorkedStep
from bindoff.source.models import PickUpStep

_Step = WorkedStep[PickUpStep, PickUp]


def _tell(voice: Voice, piece: PiecePlan, step: _Step, new_yarn: bool) -> Blocks:
    unit = unit_of(voice, piece)
    detail = step.detail
    yarn = voice.yarn_names[step.yarn]
    one = set(detail.held) == {1}
    held: Inlines = text("Put the held stitch back on the needles.")
    if not one and 1 in detail.held:
        held = join("Put the held stitches back on the needles: ", figures(detail.held), ".")
    elif not one:
        held = join("Put the ", figures(detail.held), " held stitches back on the needles.")
    more: Inlines = text(f"Join {yarn}.")
    if any(detail.picked_up):
        gap = f"in the gap beside {'it' if one else 'them'}"
        picked_up = counted(detail.picked_up, "stitch")
        more = join(f"Join {yarn}, and {gap} pick up and knit ", picked_up, ".")
    on = "Go on in the round from there." if unit == "round" and any(detail.picked_up) else ""
    return (paragraph(running(held, more, on, count_after(step))),)


WORDS = Words(PickUpStep, tell=_tell, in_full=named_in_full, leads={}, tells_rounds=True)
