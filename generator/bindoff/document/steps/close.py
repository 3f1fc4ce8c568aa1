"""The top of a ring closed, in words."""

from bindoff.document.fullrows import named_in_full
from bindoff.document.phrases import paragraph
from bindoff.document.steps.words import Words
from bindoff.document.tree import Blocks
from bindoff.document.voice import Voice
from bindoff.plan.differences.said import What
from bindoff.plan.steps.close import ClosedTop
from bindoff.plan.worked import PiecePlan, WorkedStep
from bindoff.source.steps.close import CloseStep

_Step = WorkedStep[CloseStep, ClosedTop]


def _tell(voice: Voice, piece: PiecePlan, step: _Step, new_yarn: bool) -> Blocks:
    """Common practice, no source."""
    yarn = voice.yarn_names[step.yarn]
    match step.detail.by:
        case "gathering":
            words = (
                f"Close the top: with {yarn} on a blunt needle, run a thread along one edge of the "
                "ring, in and out of every second round and twice around. Draw it closed and "
                "fasten it off."
            )
        case "tie":
            words = (
                "Close the top: lay one edge of the ring in even folds and tie the strip tightly "
                "around them."
            )
        case "flat seam":
            words = (
                "Close the top: lay the ring flat, with the join at the middle of the back, and "
                f"sew one edge together from side to side with {yarn}."
            )
        case "drawstring":
            words = (
                "Close the top: draw the cord in and out along one edge of the ring, with the same "
                "number of rounds between, and pull it together."
            )
        case _:
            words = "Leave the ring open at both edges."
    return (paragraph(words),)


WORDS = Words(
    CloseStep,
    tell=_tell,
    in_full=named_in_full,
    leads={What.METHOD: "close by "},
    tells_rounds=True,
)
