"""A crocheted edge, in words."""

from bindoff.document.fullrows import named_in_full
from bindoff.document.phrases import figures, join, joined, paragraph, running
from bindoff.document.stepphrases import counts, headed
from bindoff.document.steps.words import Words, no_tracks
from bindoff.document.tree import Blocks, ItemList, ListItem, plain
from bindoff.document.units import lengths
from bindoff.document.voice import Voice
from bindoff.plan.steps.edging import Edged
from bindoff.plan.worked import PiecePlan, WorkedStep
from bindoff.source.steps.edging import EdgingStep

_Step = WorkedStep[EdgingStep, Edged]


def _tell(voice: Voice, piece: PiecePlan, step: _Step, new_yarn: bool) -> Blocks:
    detail = step.detail
    yarn = voice.yarn_names[step.yarn]
    join_ = f"With the crochet hook, join {yarn} to the edge, right side facing you."
    edge = "The edge goes all around and is " if detail.around else "The edge is "
    along = join(edge, lengths(detail.along, voice.units), " long.")
    if detail.sides:
        sides = joined((figures(side) for side in detail.sides), " + ")
        along = running(along, join("Stitches of its sides, corner to corner: ", sides, "."))
    rows = [voice.row(row) for row in detail.rows]
    if detail.counts:
        rows = [
            join(row, " ", counts(after), ".")
            for row, after in zip(rows, detail.counts, strict=True)
        ]
    fastened = any(plain(row).rstrip(".").lower().endswith("fasten off") for row in rows[-1:])
    end = "" if fastened else "Fasten off."
    if len(rows) == 1:
        return (paragraph(running(join_, along, headed("edging"), rows[0], end)),)
    items = tuple(ListItem((paragraph(row),)) for row in rows)
    last = (paragraph(end),) if end else ()
    opening = paragraph(running(join_, along, f"Work these {len(rows)} rows in turn."))
    return (opening, ItemList(items, ordered=True), *last)


WORDS = Words(
    EdgingStep, tell=_tell, in_full=named_in_full, leads={}, tells_rounds=True, tracks=no_tracks
)
