"""Stitches drawn together, in words."""

from bindoff.craft.lengths import CRAFT_LENGTHS
from bindoff.document.fullrows import named_in_full
from bindoff.document.phrases import paragraph
from bindoff.document.stepphrases import counts
from bindoff.document.steps.words import Words, no_tracks
from bindoff.document.tree import Blocks
from bindoff.document.units import round_length
from bindoff.document.voice import Voice
from bindoff.plan.differences.said import What
from bindoff.plan.steps.gather import Gather
from bindoff.plan.worked import PiecePlan, WorkedStep
from bindoff.source.steps.gather import GatherStep

_Step = WorkedStep[GatherStep, Gather]


def _tell(voice: Voice, piece: PiecePlan, step: _Step, new_yarn: bool) -> Blocks:
    if step.detail.both_ends:
        return (
            paragraph(
                "Thread the tail at each end of the tube through the live loops of that end, ",
                counts(step.detail.stitches),
                ", and take out the waste yarn. Draw each end closed and fasten it off.",
            ),
        )
    rest = round_length(CRAFT_LENGTHS["tail"], voice.units)
    cut = (
        f"Cut the yarn, leaving enough to go around the stitches one and a half times and {rest} "
        "more"
    )
    number = counts(step.detail.stitches)
    if piece.cranked:
        return (
            paragraph(
                f"{cut}, and thread it on a blunt needle. From the first needle on, pass it "
                "through each stitch and lift the stitch off: ",
                number,
                ". Draw them closed, and fasten off on the inside.",
            ),
        )
    return (
        paragraph(
            f"{cut}. Thread it through the remaining ",
            number,
            ", draw them closed, and fasten off on the inside.",
        ),
    )


WORDS = Words(
    GatherStep,
    tell=_tell,
    in_full=named_in_full,
    leads={What.CLOSED: "draw together "},
    tells_rounds=True,
    tracks=no_tracks,
)
