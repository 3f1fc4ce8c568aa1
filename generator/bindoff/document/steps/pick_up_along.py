"""Stitches picked up along edges, in words: what comes on the needles, edge by edge."""

from bindoff.document.fullrows import named_in_full
from bindoff.document.phrases import (
    NOT_WORKED,
    counted,
    figures,
    join,
    joined,
    merged,
    paragraph,
    running,
    text,
)
from bindoff.document.stepphrases import capital_first, count_after, headed, in_yarn, unit_in
from bindoff.document.steps.pick_up import groups_told
from bindoff.document.steps.words import Words, no_tracks
from bindoff.document.tree import Blocks, Inlines, ItemList, ListItem
from bindoff.document.voice import Voice
from bindoff.english import how_many, ordinal, times
from bindoff.plan.pickup import Skipped
from bindoff.plan.steps.pick_up_along import Along, PickedUp
from bindoff.plan.worked import PiecePlan, WorkedStep
from bindoff.source.steps.pick_up_along import PickUpAlongStep

_Step = WorkedStep[PickUpAlongStep, PickedUp]


def _tell(voice: Voice, piece: PiecePlan, step: _Step, new_yarn: bool) -> Blocks:
    parts = step.detail.parts
    yarn = in_yarn(voice, step, new_yarn)
    if unit_in(step) == "row":
        facing = "right side facing; the row after it is a wrong-side row"
        after = ""
    else:
        facing = "right side facing"
        after = "Go on in the round from there, and mark the start of the round."
    head = headed(f"pick-up {unit_in(step)} ({facing})")
    if len(parts) == 1:
        (part,) = parts
        words = running(head, _told(voice, part))
        return (paragraph(running(yarn, words, count_after(step), after)),)
    opening = running(yarn, head, "Work these, in this order.", count_after(step), after)
    items = tuple(ListItem((paragraph(_told(voice, part)),)) for part in parts)
    return (paragraph(opening), ItemList(items))


def _told(voice: Voice, part: Along) -> Inlines:
    """``Along the left front edge pick up and knit 60 stitches: 3 in every 4 rows.``"""
    stitches = counted(part.stitches, "stitch")
    if part.new:
        return join("Cast on ", stitches, ".")
    if part.names:
        held = figures(part.stitches)
        return join("Knit the ", held, " stitches held for ", groups_told(part.names), ".")
    along = capital_first(text(f"along {part.edge.strip()} pick up and knit "))
    if not part.skips:
        return join(along, stitches, ", one in each.")
    paces = [text(_pace(each)) for each in part.skips]
    shared = merged(paces)
    if shared is not None:
        return join(along, stitches, ": ", shared, ".")
    by_size = (join(f"{size}: ", pace) for size, pace in zip(voice.sizes, paces, strict=True))
    return running(join(along, stitches, "."), join(capital_first(joined(by_size, "; ")), "."))


def _pace(skips: Skipped) -> str:
    """Which of the rows are skipped, for one size."""
    if not skips.rows:
        return NOT_WORKED
    paces = skips.paces
    if not paces:
        return f"one in each of {how_many(skips.rows, 'row')}"
    if len(paces) == 1:
        ((pace, _),) = paces
        return f"{pace - 1} in every {pace} of {how_many(skips.rows, 'row')}"
    runs = [f"every {ordinal(pace)} row {times(often)}" for pace, often in paces]
    return f"of {how_many(skips.rows, 'row')} skip {' and '.join(runs)}, evenly mixed"


WORDS = Words(
    PickUpAlongStep,
    tell=_tell,
    in_full=named_in_full,
    leads={},
    tells_rounds=False,
    tracks=no_tracks,
)
