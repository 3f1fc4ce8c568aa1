"""A crown, as a table of its decrease rounds."""

from bindoff.document.fullrows import named_in_full
from bindoff.document.phrases import NOT_WORKED, paragraph, running, text
from bindoff.document.stepphrases import counts, stripped, with_yarn
from bindoff.document.steps.words import Words
from bindoff.document.tree import Blocks, Column, Inlines, Table, TableRow
from bindoff.document.voice import Voice
from bindoff.plan.steps.crown import Crowned, one_wedge
from bindoff.plan.worked import PiecePlan, WorkedStep
from bindoff.source.rowlang.syntax import Row
from bindoff.source.steps.crown import CrownStep

_Step = WorkedStep[CrownStep, Crowned]


def _tell(voice: Voice, piece: PiecePlan, step: _Step, new_yarn: bool) -> Blocks:
    detail = step.detail
    opening = text("decrease by the table, from its top row down.")
    how = "In a decrease round, repeat the words of the row all around"
    how += "; then knit the plain rounds it gives." if _plain_crown(detail) else "."
    start = ""
    if detail.crown.rounds and not all(detail.crown.rounds[0].worked):
        start = (
            "Start at the first row that has a count in your size: before it, your size has not "
            "begun."
        )
    size_columns: tuple[Column, ...] = (Column(text("Stitches"), align="right"),)
    if len(voice.sizes) > 1:
        size_columns = tuple(
            Column(text(size), align="right", size=index) for index, size in enumerate(voice.sizes)
        )
    rows = []
    for round_, row in zip(detail.crown.rounds, detail.rows, strict=True):
        cells = tuple(
            text(str(after) if worked else NOT_WORKED)
            for worked, after in zip(round_.worked, round_.after, strict=True)
        )
        rows.append(TableRow((_once(voice, row), text(str(round_.plain_after)), *cells)))
    table = Table(
        text("Crown: stitches after each decrease round"),
        (
            Column(text("Repeat around"), weight=2.0),
            Column(text("Plain rounds after"), align="right"),
            *size_columns,
        ),
        tuple(rows),
    )
    if not rows:
        number = counts(tuple(progress.stitches for progress in step.after))
        return (paragraph("No shaping is needed here: there are ", number, " already."),)
    lead = with_yarn(voice, step, new_yarn, opening)
    return (paragraph(running(lead, how, start)), table)


def _plain_crown(detail: Crowned) -> bool:
    return any(round_.plain_after for round_ in detail.crown.rounds)


def _once(voice: Voice, row: Row) -> Inlines:
    """What one repeat of a wedge row says: ``K9, k2tog``."""
    return stripped(voice.row(one_wedge(row)))


WORDS = Words(CrownStep, tell=_tell, in_full=named_in_full, leads={}, tells_rounds=False)
