"""What texts say of picking up: how many stitches for how many rows, after which seams."""

from collections.abc import Iterator

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.engine import Finding
from bindoff.checks.sentencesof import Sentence, sentences_of
from bindoff.checks.texts.told.numbers import NUMBER, in_figures, number_of
from bindoff.checks.texts.told.truths import phrase
from bindoff.plan.steps.pick_up_along import PickedUp
from bindoff.plan.worked import PiecePlan

_RATIO = phrase(
    rf"(?<![\w.(/])({NUMBER}) (?:stitch(?:es)?|sts?|loops?) (?:for|in|from|over|to|along|out of)"
    rf" (?:every|each) ({NUMBER}) (?:row|round|rnd)(?:s| ends?)?\b"
    rf"|\b(?:for|in|along|over) (?:every|each) ({NUMBER}) rows?(?: ends?)?,? (?:pick up|take up)"
    rf"(?: and knit)?(?: about)? ({NUMBER})(?: (?:stitch(?:es)?|sts?))?\b"
)
_OFF = 0.2
"""Such a ratio is told in small whole numbers."""


def picked_up(context: Context) -> Iterator[Finding]:
    """Everything that some text says of picking up and that is not so."""
    if not context.in_english:
        return
    for plan in context.plan.pieces:
        parts = [
            each
            for step in plan.steps
            if isinstance(step.detail, PickedUp)
            for part in step.detail.parts
            for each in part.skips
            if each.rows and each.stitches
        ]
        if not parts:
            continue
        ratios = sorted({each.stitches / each.rows for each in parts})
        for prose in context.prose:
            if prose.piece != plan.key:
                continue
            for sentence in sentences_of(prose, in_figures(prose.text)):
                yield from _ratio(sentence, ratios)
        yield from _seams(context, plan)


def _ratio(sentence: Sentence, ratios: list[float]) -> Iterator[Finding]:
    """So many stitches for so many rows, where the edges have another part of them."""
    for found in _RATIO.finditer(sentence.words) if not sentence.supposes else ():
        stitches = number_of(found[1] or found[4])
        rows = number_of(found[2] or found[3])
        if rows > 1 and all(abs(stitches / rows / each - 1) > _OFF for each in ratios):
            near = min(ratios, key=lambda each: abs(each - stitches / rows))
            yield Finding(
                f"`{' '.join(found[0].split())}` stands here, and along its edges are picked up "
                f"{near * rows:.1f} stitches for {rows} rows",
                sentence.place(found),
            )


_SEWN = phrase(r"\b(?:sew|seam|join|close|graft)\w*\b[^.;]{0,40}?\b(?:side|sleeve) seams?\b")
_SHOULDERS = phrase(
    r"\b(?:shoulders?|raglan|all (?:the |four )?seams|yoke|armhole|pieces together)\b"
)
_NECK = re.compile(r"\bneck|\bcollar|\bback\b", re.IGNORECASE)


def _seams(context: Context, plan: PiecePlan) -> Iterator[Finding]:
    """Stitches picked up around a neck of several pieces after other seams than the shoulders'."""
    edges = [
        prose
        for prose in context.prose
        if prose.piece == plan.key and prose.path[-1:] in (("edge",), ("held",))
    ]
    of = {
        str(prose.raw)
        for prose in context.prose
        if prose.piece == plan.key and prose.path[-1:] == ("of",)
    }
    if len(edges) < 3 and len(of) < 2:
        return
    if not any(_NECK.search(prose.raw) for prose in edges):
        return
    texts = [prose for prose in context.prose if prose.piece == plan.key]
    if any(_SHOULDERS.search(prose.text) for prose in texts):
        return
    for prose in texts:
        for found, place in prose.found(_SEWN):
            yield Finding(
                f"`{' '.join(found[0].split())}` stands here, and stitches around the neck are "
                "picked up across the shoulders",
                place,
                "Say that the shoulder seams are sewn first",
            )
