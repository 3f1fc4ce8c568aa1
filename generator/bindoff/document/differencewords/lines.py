"""Lines of a list of changes.

A line names the place, the sizes if not all have the change, and what is so now and was before:
``Step 4 (Brim), size M: 118 stitches, was 120.`` Where sizes change in different ways, their
figures stand side by side as everywhere in a pattern. What prints the same is left out.
"""

from collections.abc import Iterator, Sequence
from itertools import groupby

from bindoff.document.differencewords.cells import changed_cells, ranges
from bindoff.document.differencewords.figures import phrases_by_sizes
from bindoff.document.differencewords.leads import chart_lead, for_sizes, lead_of
from bindoff.document.differencewords.telling import Telling
from bindoff.document.differencewords.texts import short
from bindoff.document.phrases import (
    join,
    joined,
    text,
)
from bindoff.document.prose import blocks
from bindoff.document.stepwords import step_blocks
from bindoff.document.tree import (
    Blocks,
    Inlines,
    ListItem,
    Paragraph,
    Strong,
    plain,
)
from bindoff.plan.differences.change import Change, ChangedPart, Place
from bindoff.plan.differences.said import SaidProse, What
from bindoff.plan.persize import named

MOST_ROUNDS = 12


def lines_of(telling: Telling, changes: Sequence[Change]) -> Iterator[ListItem]:
    """One line for every place and group of sizes."""
    for (place, lead), group in groupby(changes, lambda each: _group(telling, each)):
        same = list(group)
        if place is not None:
            yield _new_or_gone(telling, lead_of(telling, same[0]), same)
            continue
        by_sizes: dict[tuple[str, ...], list[Inlines]] = {}
        for change in same:
            for sizes, words in phrases_by_sizes(telling, change):
                who = () if sizes == telling.new.sizes else sizes
                by_sizes.setdefault(who, []).append(words)
        for sizes, phrases in by_sizes.items():
            yield _line(lead, sizes, phrases)
        for change in same:
            yield from _rewritten(telling, lead, change)


def _group(telling: Telling, change: Change) -> tuple[Place | None, str]:
    """What shares lines: all of a place that is new or gone, else what has the same lead."""
    place = change.place
    return (place, "") if place.added or place.gone else (None, lead_of(telling, change))


def _line(lead: str, sizes: tuple[str, ...], phrases: Sequence[Inlines]) -> ListItem:
    said = joined(phrases, "; ")
    end = "" if plain(said).endswith((".", "?", "!")) else "."
    return _plainly(f"{lead}{for_sizes(sizes)}:", join(said, end))


def _new_or_gone(telling: Telling, lead: str, changes: Sequence[Change]) -> ListItem:
    place = changes[0].place
    if place.gone:
        numbered = place.old_step is not None and place.old_step.number is not None
        return _plainly(f"{lead} of the earlier version" if numbered else lead, "is gone.")
    if place.new_step is not None and place.new_step.number is not None:
        return _opened(f"New {lead[:1].lower()}{lead[1:]}:", _step_words(telling, place))
    if place.part is ChangedPart.YARN:
        told = [
            join(words, for_sizes(() if sizes == telling.new.sizes else sizes))
            for change in changes
            for sizes, words in phrases_by_sizes(telling, change)
        ]
        return _plainly(f"{lead} is new:", join(joined(told, "; "), "."))
    return _plainly(lead, "is new.")


def _plainly(lead: str, words: Inlines | str) -> ListItem:
    return ListItem((Paragraph(join((Strong(text(lead)),), " ", words)),))


def _opened(lead: str, words: Blocks) -> ListItem:
    """``words`` with a lead before their first paragraph."""
    opening: Inlines = (Strong(text(lead)),)
    match words:
        case (Paragraph(children), *rest):
            return ListItem((Paragraph(join(opening, " ", children)), *rest))
        case _:
            return ListItem((Paragraph(opening), *words))


def _step_words(telling: Telling, place: Place) -> Blocks:
    """What the document says of a step of the new version."""
    step, voice = telling.step(place, place.new_step), telling.new
    assert place.new is not None
    piece = voice.plan.piece(place.new)
    return step_blocks(voice, piece, step, len(voice.yarn_names) > 1)


def _rewritten(telling: Telling, lead: str, change: Change) -> Iterator[ListItem]:
    """Prose that reads otherwise, in its new words; prose that is new or gone."""
    was, now = (_prose(telling, change, old=old) for old in (True, False))
    if was == now:
        return
    what = f"{lead}, {change.what.value}" if change.what in (What.FIRST, What.NOTE) else lead
    if now:
        yield _opened(f"{what}, now reads:" if was else f"{what}, new:", now)
    else:
        yield _plainly(what, "is gone.")


def _prose(telling: Telling, change: Change, *, old: bool) -> Blocks:
    """The prose of a change as one of the versions prints it; nothing where it has none."""
    said = next((s.old if old else s.new for s in change.shifts), None)
    voice = telling.old if old else telling.new
    place = change.place
    if isinstance(said, SaidProse):
        if place.part is ChangedPart.STEP:
            span = telling.step(place, place.old_step if old else place.new_step).span
        else:
            span = voice.plan.source.pattern.place.of(change.of).span
        return blocks(said.text, voice.values, span)
    if change.what is What.TEXT and not short(change):
        return (Paragraph(text(str(said))),) if said else ()
    return ()


def _sizes(change: Change) -> tuple[str, ...]:
    return tuple(shift.size for shift in change.shifts)


def chart_lines(telling: Telling, changes: Sequence[Change]) -> Iterator[ListItem]:
    """What is told of each chart, how many of its stitches have changed, and which."""
    for _, group in groupby(changes, lambda each: (each.place.old, each.place.new)):
        of_chart = list(group)
        cells = [change for change in of_chart if change.what is What.CELLS]
        yield from lines_of(
            telling, [change for change in of_chart if change.what is not What.CELLS]
        )
        for sizes, same in groupby(cells, _sizes):
            changed = [(int(change.of), len(changed_cells(change))) for change in same]
            total = sum(count for _, count in changed)
            if total:
                rounds = [number for number, count in changed if count]
                where = f"{'round' if len(rounds) == 1 else 'rounds'} {ranges(rounds)}"
                where += f" of {named(sizes)}" if any(sizes) else ""
                noun = "stitch has" if total == 1 else "stitches have"
                lead = chart_lead(telling, cells[0]).rpartition(",")[0]
                yield _line(lead, (), [text(f"{total} {noun} changed, in {where}")])
        if len(cells) <= MOST_ROUNDS:
            yield from lines_of(telling, cells)
