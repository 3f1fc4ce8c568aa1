"""A step in words, of whatever kind it is."""

from bindoff import regex as re
from bindoff.document.phrases import paragraph, running
from bindoff.document.stepprose import step_prose
from bindoff.document.steps.registry import words_of
from bindoff.document.tree import Blocks, Inlines, Paragraph
from bindoff.document.voice import Voice
from bindoff.english import listed
from bindoff.plan.cutyarns import yarns_to_cut
from bindoff.plan.worked import PiecePlan, StepPlan
from bindoff.plan.yarnends import carried_rounds
from bindoff.records import replace
from bindoff.source.rowlang.syntax import Row
from bindoff.source.steps.step import STEP_TEXTS


def step_blocks(voice: Voice, piece: PiecePlan, step: StepPlan, new_yarn: bool) -> Blocks:
    """The words of a step between the remarks printed before and after it.

    ``new_yarn`` says that the reader has to be told its yarn.
    """
    words = opened(
        words_of(step.step).tell(voice, piece, step, new_yarn),
        _cut(voice, piece, step),
        _markers(voice, step),
    )
    before = step_prose(voice, step, "first", step.step.first) if step.step.first else ()
    after = step_prose(voice, step, "note", step.step.note) if step.step.note else ()
    match before:
        case (Paragraph(said, language=""),):  # stays with what it is about
            return (*opened(words, said), *after)
        case _:
            return (*before, *words, *after)


def opened(words: Blocks, *before: Inlines | str) -> Blocks:
    """``words`` with sentences before those of their first paragraph."""
    match words:
        case _ if not any(before):
            return words
        case (Paragraph() as first, *others):
            return (replace(first, children=running(*before, first.children)), *others)
        case _:
            return (paragraph(running(*before)), *words)


_CUT = re.compile(r"\b(?:cut|cutting|break|breaking)\b", re.IGNORECASE)
_OFF = re.compile(
    r"\b(?:tak(?:e|ing)|remov(?:e|ing)|slip(?:ping)?)\b[^.]*\bmarkers?\b", re.IGNORECASE
)


def _cut(voice: Voice, piece: PiecePlan, step: StepPlan) -> str:
    """Which yarns are cut before the step; nothing where the designer's words say so."""
    place = next(at for at, each in enumerate(piece.steps) if each is step)
    done = yarns_to_cut(piece, carried_rounds(voice.plan.source, piece.key)).get(place, ())
    before = next((each for each in reversed(piece.steps[:place]) if not each.heading), step)
    if not done or _CUT.search(f"{_said(before)} {_said(step)}"):
        return ""
    return f"Cut {listed(voice.yarn_names[yarn] for yarn in done)}."


def _markers(voice: Voice, step: StepPlan) -> str:
    """That markers come off where the step says so, or all stitches leave the needles; nothing
    where the designer's words do."""
    most = max(progress.markers for progress in step.before)
    closes = step.closes is not None and not any(progress.stitches for progress in step.after)
    off = step.step.remove_markers or (closes and most)
    if not off or _OFF.search(_said(step)):
        return ""
    return "Take the markers off as you come to them."


def _said(step: StepPlan) -> str:
    """The designer's words at a step."""
    said = (getattr(step.step, name, None) for name in STEP_TEXTS)
    return " ".join(each for each in said if each)


def abbreviated_rows(step: StepPlan) -> tuple[Row, ...]:
    """The rows of a step that its words print in abbreviations."""
    in_full = words_of(step.step).in_full
    return tuple(row for row in step.rows if not in_full(step, row))
