"""The pages of a piece: its numbered steps under their sections, and the counts to check."""

from generator.document.phrases import heading, text
from generator.document.prose import blocks
from generator.document.stepwords import step_blocks, unit_of
from generator.document.tree import (
    Block,
    Blocks,
    Column,
    Inlines,
    ItemList,
    ListItem,
    Table,
    TableRow,
)
from generator.document.voice import Voice
from generator.plan.steps import PiecePlan, StepPlan
from generator.source.models import Piece, SayStep, SectionStep

GROUPED_SIZES = 4
"""Up to so many sizes the two counts of a step stand side by side in one table."""


def piece_blocks(voice: Voice, plan: PiecePlan) -> Blocks:
    """Heading, numbered steps section by section, and the table of counts."""
    piece = voice.plan.source.pattern.pieces[plan.key]
    found: list[Block] = [heading(2, _title(piece), f"piece-{plan.key}")]
    items: list[ListItem] = []
    number, start, yarn = 0, 1, ""
    for step in plan.steps:
        if isinstance(step.step, SectionStep):
            if items:
                found.append(ItemList(tuple(items), ordered=True, start=start))
            found.append(heading(3, step.step.section))
            items, start = [], number + 1
            continue
        number += 1
        items.append(ListItem(_item(voice, plan, step, yarn)))
        yarn = step.yarn if step.detail is not None else yarn
    found.append(ItemList(tuple(items), ordered=True, start=start))
    return (*found, *_count_tables(voice, plan))


def _title(piece: Piece) -> str:
    return piece.title if piece.make == 1 else f"{piece.title} (make {piece.make})"


def _item(voice: Voice, plan: PiecePlan, step: StepPlan, yarn: str) -> Blocks:
    if isinstance(step.step, SayStep):
        return blocks(step.step.say, voice.values, step.span)
    many = len(voice.yarn_names) > 1
    words = step_blocks(voice, plan, step, many and step.yarn != yarn)
    if step.step.note:
        return (*words, *blocks(step.step.note, voice.values, step.span))
    return words


# ---------------------------------------------------------------- counts to check


def _count_tables(voice: Voice, plan: PiecePlan) -> tuple[Table, ...]:
    """Rounds worked and live stitches after each step that works any; none for a short piece."""
    unit = unit_of(voice, plan)
    numbered = [
        (number, step)
        for number, step in enumerate(
            (step for step in plan.steps if not isinstance(step.step, SectionStep)), start=1
        )
        if step.detail is not None and any(step.rounds)
    ]
    if len(numbered) < 3:
        return ()
    sizes = voice.sizes
    title = voice.plan.source.pattern.pieces[plan.key].title
    done = f"{unit.capitalize()}s worked so far"
    if len(sizes) <= GROUPED_SIZES:
        return (
            Table(
                text(f"{title}: counts to check after each step"),
                (_step_column(), *_size_columns(sizes), *_size_columns(sizes)),
                tuple(
                    TableRow((_step_name(number, step), *_rounds(step), *_stitches(step)))
                    for number, step in numbered
                ),
                groups=(
                    ((), 1),
                    (text(done), len(sizes)),
                    (text("Stitches"), len(sizes)),
                ),
            ),
        )
    return tuple(
        Table(
            text(f"{title}: {what} after each step"),
            (_step_column(), *_size_columns(sizes)),
            tuple(TableRow((_step_name(number, step), *cells(step))) for number, step in numbered),
        )
        for what, cells in ((done.lower(), _rounds), ("stitches", _stitches))
    )


def _step_column() -> Column:
    return Column(text("Step"), weight=2.0)


def _size_columns(sizes: tuple[str, ...]) -> tuple[Column, ...]:
    return tuple(Column(text(size), align="right", size=i) for i, size in enumerate(sizes))


def _step_name(number: int, step: StepPlan) -> Inlines:
    return text(f"{number}")


def _rounds(step: StepPlan) -> tuple[Inlines, ...]:
    return tuple(text(str(progress.rounds)) for progress in step.after)


def _stitches(step: StepPlan) -> tuple[Inlines, ...]:
    return tuple(text(str(progress.stitches)) for progress in step.after)
