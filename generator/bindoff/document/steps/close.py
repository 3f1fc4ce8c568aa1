"""The top of a ring closed, in words."""

from bindoff.document.fullrows import named_in_full
from bindoff.document.phrases import join, paragraph, text
from bindoff.document.steps.words import Words, no_tracks
from bindoff.document.tree import Blocks, Inlines
from bindoff.document.units import lengths
from bindoff.document.voice import Voice
from bindoff.plan.differences.said import What
from bindoff.plan.steps.close import ClosedTop
from bindoff.plan.worked import PiecePlan, WorkedStep
from bindoff.source.steps.close import CloseStep

_Step = WorkedStep[CloseStep, ClosedTop]


def _tell(voice: Voice, piece: PiecePlan, step: _Step, new_yarn: bool) -> Blocks:
    """Common practice, no source."""
    yarn, detail = voice.yarn_names[step.yarn], step.detail
    edge = "the joined edge" if detail.folded else "one edge of the ring"
    below: Inlines = ()
    if any(detail.below_mm):
        below = join(", ", lengths(detail.below_mm, voice.units), " below that edge")
    words: Inlines
    match detail.by:
        case "gathering":
            every = "every second stitch" if detail.folded else "every second round"
            words = text(
                f"Close the top: with {yarn} on a blunt needle, run a thread along {edge}, in and "
                f"out of {every} and twice around. Draw it closed and fasten it off."
            )
        case "tie":
            words = join(
                f"Close the top: lay {edge} in even folds and tie the strip tightly around them",
                below,
                ", with a square knot. Sew the knot to the folds with an end of its yarn, so that "
                "it can't slip or open.",
                " What is above the tie stands up as a tuft." if below else "",
            )
        case "flat seam":
            across = "" if detail.folded else ", with the join at the middle of the back,"
            words = text(
                f"Close the top: lay the {'tube' if detail.folded else 'ring'} flat{across} and "
                f"sew {edge} together from side to side with {yarn}."
            )
        case "drawstring":
            many = "stitches" if detail.folded else "rounds"
            words = join(
                f"Close the top: draw the cord in and out along {edge}",
                below,
                f", with the same number of {many} between, and pull it together.",
            )
        case _:
            words = text(
                "Leave the top open."
                if detail.folded
                else "Nothing is left to close: the ring lies double, and its two edges are the "
                "folds of the tube."
            )
    return (paragraph(words),)


WORDS = Words(
    CloseStep,
    tell=_tell,
    in_full=named_in_full,
    leads={What.METHOD: "close by "},
    tells_rounds=True,
    tracks=no_tracks,
)
