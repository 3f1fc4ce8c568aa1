"""What texts say of a crocheted edge: the stitches in its corners, and along the ends of rows."""

from collections.abc import Iterator

from bindoff.checks.context import Context
from bindoff.checks.engine import Finding
from bindoff.checks.sentencesof import Sentence, sentences_of
from bindoff.checks.texts.told.numbers import in_figures
from bindoff.checks.texts.told.truths import phrase
from bindoff.checks.walk import At, parts_of, steps_of
from bindoff.source.rowlang.syntax import Hooked, InCorner
from bindoff.source.steps.edging import EdgingStep

_IN_CORNERS = phrase(
    r"(?<![\w.])(\d+) (?:[a-z]+ ){0,2}?(?:stitch(?:es)?|sts?|sc|dc|crochet) (?:in|into) (?:each|"
    r"every|all)(?: (?:one )?of the)?(?: \d+)? corners?\b"
)
_FOR_ROWS = phrase(
    r"(?<![\w.])(\d+) (?:[a-z]+ ){0,2}?(?:stitch(?:es)?|sts?|sc|dc|crochet) (?:for|in|to|from|over)"
    r" (?:every|each) (\d+) (?:rows?|row ends?)\b"
)
_OFF = 0.2
"""Such a ratio is told in small whole numbers."""


def edgings_told(context: Context) -> Iterator[Finding]:
    """Everything that the texts of an edging say of its stitches and that is not so."""
    for at in steps_of(context):
        if not isinstance(at.step.step, EdgingStep) or not context.in_english:
            continue
        for prose in context.prose:
            if prose.piece != at.plan.key or prose.path[2:4] != ("steps", at.index):
                continue
            for sentence in sentences_of(prose):
                if prose.path[-1] in ("first", "note") and not sentence.supposes:
                    yield from _corners(at, sentence)
                    yield from _ratio(context, at, sentence)


def _corners(at: At, sentence: Sentence) -> Iterator[Finding]:
    """The stitches in each corner, against those that its rounds work there."""
    worked = {
        part.times
        for row in at.step.rows
        for part in parts_of(row)
        if isinstance(part, Hooked) and isinstance(part.where, InCorner)
    }
    for found in _IN_CORNERS.finditer(in_figures(sentence.words)) if worked else ():
        if int(found[1]) not in worked and all(isinstance(each, int) for each in worked):
            said = " ".join(sentence.words[found.start() : found.end()].split())
            yield Finding(
                f"`{said}` stands here, and the edging works "
                f"{' or '.join(sorted(map(str, worked)))} in a corner",
                sentence.place(found),
                beside=(at.step.span,),
            )


def _ratio(context: Context, at: At, sentence: Sentence) -> Iterator[Finding]:
    """So many stitches for so many rows, where no side has such a part of the rows of the piece."""
    written = at.step.step
    heights = [each.height for each in at.step.before]
    sides = getattr(written, "sides", None) or ()
    counts = [context.plan.measures.amount(side).rounded for side in sides]
    ratios = sorted({n / h for each in counts for n, h in zip(each, heights, strict=True) if h})
    for found in _FOR_ROWS.finditer(in_figures(sentence.words)) if ratios else ():
        told = int(found[1]) / max(int(found[2]), 1)
        if int(found[2]) > 1 and all(abs(told / each - 1) > _OFF for each in ratios if each):
            near = min(ratios, key=lambda each: abs(each - told))
            said = " ".join(sentence.words[found.start() : found.end()].split())
            yield Finding(
                f"`{said}` stands here, and the sides have {near * int(found[2]):.1f} stitches "
                f"for {found[2]} rows",
                sentence.place(found),
            )
