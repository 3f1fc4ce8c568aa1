"""Even increases and decreases in words: one row, or a table."""

from bindoff.document.fullrows import named_in_full
from bindoff.document.phrases import NOT_WORKED, join, merged, paragraph, running, text
from bindoff.document.stepphrases import (
    capital_first,
    count_after,
    counts,
    headed,
    in_yarn,
    side_of,
    unit_in,
)
from bindoff.document.steps.words import Words, no_tracks
from bindoff.document.tree import Blocks, Column, Table, TableRow
from bindoff.document.voice import Voice
from bindoff.english import capital
from bindoff.plan.steps.even import Even
from bindoff.plan.worked import PiecePlan, WorkedStep
from bindoff.source.steps.even import EvenStep

_Step = WorkedStep[EvenStep, Even]


def _tell(voice: Voice, piece: PiecePlan, step: _Step, new_yarn: bool) -> Blocks:
    unit = unit_in(step)
    detail = step.detail
    stitches = tuple(progress.stitches for progress in step.after)
    if not any(detail.rows):
        return (paragraph("No shaping is needed here: there are ", counts(stitches), " already."),)
    rows = [voice.row(row) if row else text(NOT_WORKED) for row in detail.rows]
    head = running(in_yarn(voice, step, new_yarn), headed(f"next {unit}{side_of(step, 1, unit)}"))
    shared = merged(rows)
    if shared is not None:
        return (paragraph(running(head, shared, count_after(step))),)
    opening = join(f"{step.step.even} evenly to ", counts(stitches), ", as the table says.")
    table = Table(
        text(f"Even {step.step.even}s"),
        (
            Column(text("Size")),
            Column(text(capital(unit)), weight=3.0),
            Column(text("Stitches after"), align="right"),
        ),
        tuple(
            TableRow((text(size), row, text(str(count))))
            for size, row, count in zip(voice.sizes, rows, stitches, strict=True)
        ),
    )
    return (paragraph(running(head, capital_first(opening))), table)


WORDS = Words(
    EvenStep, tell=_tell, in_full=named_in_full, leads={}, tells_rounds=False, tracks=no_tracks
)
