"""A crown, as a table of its decrease rounds."""

from itertools import pairwise

from bindoff.document.fullrows import named_in_full
from bindoff.document.phrases import NOT_WORKED, paragraph, running, text
from bindoff.document.stepphrases import counts, stripped, with_yarn
from bindoff.document.steps.words import Words, no_tracks
from bindoff.document.tree import Blocks, Column, Inlines, Strong, Table, TableRow
from bindoff.document.voice import Voice
from bindoff.plan.steps.crown import Crowned, one_wedge
from bindoff.plan.worked import PiecePlan, WorkedStep
from bindoff.source.rowlang.syntax import Row
from bindoff.source.steps.crown import CrownStep

_CAPTION = "Stitches after each decrease round"

_Step = WorkedStep[CrownStep, Crowned]


def _tell(voice: Voice, piece: PiecePlan, step: _Step, new_yarn: bool) -> Blocks:
    detail = step.detail
    opening = text("decrease by the table, from its top row down.")
    how = "In a decrease round, repeat the words of the row all around"
    how += "; then knit the plain rounds it gives." if _plain_crown(detail) else "."
    if not detail.crown.rounds:
        number = counts(tuple(progress.stitches for progress in step.after))
        return (paragraph("No shaping is needed here: there are ", number, " already."),)
    starts = not all(detail.crown.rounds[0].worked)
    lead = with_yarn(voice, step, new_yarn, opening)
    if starts and _joined(detail):
        start = "Start at the row that names your size: the rows before it are not yours."
        return (paragraph(running(lead, how, start)), _joined_table(voice, detail))
    start = (
        "Start at the first row that has a count in your size; a row without one is not for you."
    )
    return (paragraph(running(lead, how, start if starts else "")), _table(voice, detail))


def _joined(detail: Crowned) -> bool:
    """Whether all sizes that work a round have the same count after it, and none pauses."""
    rounds = detail.crown.rounds
    return all(
        len({after for after, works in zip(each.after, each.worked, strict=True) if works}) == 1
        for each in rounds
    ) and all(
        not before or now
        for one, other in pairwise(rounds)
        for before, now in zip(one.worked, other.worked, strict=True)
    )


def _joined_table(voice: Voice, detail: Crowned) -> Table:
    """One column of counts for all sizes, and the sizes that begin at a row."""
    rows = []
    begun: set[str] = set()
    for round_, row in zip(detail.crown.rounds, detail.rows, strict=True):
        here = [
            size
            for size, works in zip(voice.sizes, round_.worked, strict=True)
            if works and size not in begun
        ]
        begun.update(here)
        left = next(a for a, works in zip(round_.after, round_.worked, strict=True) if works)
        begin: Inlines = (Strong(text(", ".join(here))),) if here else ()
        told = text(str(left)), text(str(round_.plain_after))
        rows.append(TableRow((_once(voice, row), begin, *told)))
    return Table(
        text(_CAPTION),
        (
            Column(text("Repeat around"), weight=2.0),
            Column(text("Begin here")),
            Column(text("Stitches left"), align="right"),
            Column(text("Plain rounds after"), align="right"),
        ),
        tuple(rows),
        tick=True,
    )


def _table(voice: Voice, detail: Crowned) -> Table:
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
    return Table(
        text(_CAPTION),
        (
            Column(text("Repeat around"), weight=2.0),
            Column(text("Plain rounds after"), align="right"),
            *size_columns,
        ),
        tuple(rows),
        tick=True,
    )


def _plain_crown(detail: Crowned) -> bool:
    return any(round_.plain_after for round_ in detail.crown.rounds)


def _once(voice: Voice, row: Row) -> Inlines:
    """What one repeat of a wedge row says: ``K9, k2tog``."""
    return stripped(voice.row(one_wedge(row)))


WORDS = Words(
    CrownStep, tell=_tell, in_full=named_in_full, leads={}, tells_rounds=False, tracks=no_tracks
)
