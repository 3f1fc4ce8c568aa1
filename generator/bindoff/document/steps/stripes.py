"""The tube from the machine, in words."""

from bindoff.document.fullrows import named_in_full
from bindoff.document.steps.words import Words
from bindoff.document.stripewords import stripe_blocks
from bindoff.document.tree import Blocks
from bindoff.document.voice import Voice
from bindoff.plan import yarn as method
from bindoff.plan.steps.stripes import Striped
from bindoff.plan.worked import PiecePlan, WorkedStep
from bindoff.source.steps.stripes import StripesStep

_Step = WorkedStep[StripesStep, Striped]


def _tell(voice: Voice, piece: PiecePlan, step: _Step, new_yarn: bool) -> Blocks:
    return stripe_blocks(voice, piece.key, step.detail.plans, _closing_tails(piece))


def _closing_tails(piece: PiecePlan) -> tuple[str, str]:
    """The tails that close the tube later, at its first and last round; empty where none does.

    A gathering tail goes around about twice, a grafting one three times (common practice).
    """
    twice, thrice = (
        f"a tail of about {often_} the way around the tube" for often_ in ("twice", "three times")
    )
    for closed in piece.closings:
        if closed.by is method.BindOffKind.GATHERED_ENDS:
            return twice, twice
        if closed.by is method.BindOffKind.GRAFTED:
            return "", thrice
    return "", ""


WORDS = Words(StripesStep, tell=_tell, in_full=named_in_full, leads={}, tells_rounds=False)
