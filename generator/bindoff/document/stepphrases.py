"""Phrases that the words of several kinds of steps share."""

from collections.abc import Sequence

from bindoff.document.phrases import counted, figures, join, paragraph, text
from bindoff.document.tree import Blocks, Inlines, Strong, Text, plain
from bindoff.document.voice import Voice
from bindoff.english import capital, plural
from bindoff.plan.worked import PiecePlan, StepPlan


def unit_of(voice: Voice, piece: PiecePlan) -> str:
    """``round`` or ``row``: what one turn of work is called in this piece, as it begins."""
    worked = voice.plan.source.pattern.pieces[piece.key].worked
    return "row" if worked == "flat" else "round"


def unit_in(step: StepPlan) -> str:
    """``round`` or ``row``, as the step begins."""
    return "row" if step.flat else "round"


def counts(stitches: Sequence[int]) -> Inlines:
    """``80 (88, 96) stitches``, stressed: the count a knitter checks."""
    if 1 in stitches and set(stitches) != {1}:
        return (Strong(join("stitches: ", figures(stitches))),)
    return (Strong(counted(stitches, "stitch")),)


def no_rounds(unit: str) -> Blocks:
    """A step that computes to no rounds in every size; its number stays."""
    return (paragraph(f"There are no {plural(unit)} to work here."),)


def headed(words: str) -> Inlines:
    """``Next round:``, stressed."""
    return (Strong(text(f"{capital(words)}:")),)


def with_yarn(voice: Voice, step: StepPlan, new_yarn: bool, words: Inlines) -> Inlines:
    """``With Slate, knit 8 rounds.``, or the words alone with a large first letter."""
    if new_yarn:
        return join(f"With {voice.yarn_names[step.yarn]}, ", words)
    return capital_first(words)


def in_yarn(voice: Voice, step: StepPlan, new_yarn: bool) -> str:
    """A sentence for the yarn, before a heading such as ``Next round:``."""
    return f"Work with {voice.yarn_names[step.yarn]}." if new_yarn else ""


def capital_first(words: Inlines) -> Inlines:
    """``words`` with a large first letter if they begin with plain text."""
    match words:
        case (Text(first), *_):
            return (Text(capital(first)), *words[1:])
        case (Strong(children), *_):
            return (Strong(capital_first(children)), *words[1:])
        case _:
            return words


def side_of(step: StepPlan, number: int, unit: str) -> str:
    """`` (right side)`` for the row of that number of a flat step, if it is so in all sizes."""
    if unit != "row":
        return ""
    return named_side({(progress.wrong_side + number) % 2 for progress in step.before})


def named_side(remainders: set[int]) -> str:
    """The side of rows whose numbers, counted from 1 of the piece, leave these halved."""
    if len(remainders) != 1:
        return ""
    return " (right side)" if remainders == {1} else " (wrong side)"


def changed(step: StepPlan, said: Inlines = ()) -> Inlines:
    """The count after the step where it changed; nothing where it did not.

    After what is ``said`` of other stitches it says that these are all.
    """
    same = all(
        before.stitches == after.stitches
        for before, after in zip(step.before, step.after, strict=True)
    )
    if same:
        return ()
    if plain(said).rstrip(" .").endswith("stitches"):
        return join("In all ", counts(tuple(progress.stitches for progress in step.after)), ".")
    return count_after(step)


def count_after(step: StepPlan) -> Inlines:
    """``80 (88, 96) stitches.``: the count after the step."""
    return join(after_words(step), ".")


def after_words(step: StepPlan) -> Inlines:
    """The count after the step, to begin a sentence with."""
    return capital_first(counts(tuple(progress.stitches for progress in step.after)))


def stripped(words: Inlines) -> Inlines:
    """A row's words without the full stop."""
    last = words[-1]
    if isinstance(last, Text) and last.text.endswith("."):
        rest = last.text[:-1]
        return (*words[:-1], Text(rest)) if rest else words[:-1]
    return words
