"""What stays in or about a child's finished piece because no text undoes it: markers that were hung
into the fabric, and an edge bound off so tight that a head does not pass through it."""

from collections.abc import Iterator

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.engine import Finding
from bindoff.checks.sentencesof import quoted, sentences
from bindoff.diagnostics import Span
from bindoff.source.model import TextUse
from bindoff.source.steps.section import SectionStep

_HUNG = re.compile(
    r"\b(?:hang|clip|pin|fix|fasten|attach|hook)(?:s|ing)?\b[^.;:]{0,40}?\b(?:markers?|safety pins?"
    r"|scraps? of (?:yarn|wool))\b(?=[^.;:]{0,60}?\b(?:in|into|to|at|on|through) (?:the|each"
    r"|every|this"
    r"|that|both|either)\b)(?![^.;:]{0,30}\bneedle)",
    re.IGNORECASE,
)
_OF_ROUND = re.compile(
    r"\b(?:round|row)s? (?:starts?|begins?|ends?)|\b(?:start|beginning|end) of (?:the |each "
    r"|every )?"
    r"(?:round|row)",
    re.IGNORECASE,
)
"""A marker on the needle falls off it."""
_THING = r"(?:markers?|pins?|scraps?)"
_TAKEN = re.compile(
    rf"\b(?:tak(?:e|es|en|ing)|remov(?:e|es|ed|ing)|unhook|unclip|unpin|pull\w*|undo|slip\w*)\b"
    rf"[^.;:]{{0,40}}?\b{_THING}\b"
    rf"|\b{_THING}\b[^.;:]{{0,40}}?\b(?:comes? (?:out|off)|taken|removed)\b"
    r"|\b(?:take|pull|slip|lift) (?:them|it|each|all) (?:out|off|away)\b|\bremove (?:them|it|each"
    r"|all)\b",
    re.IGNORECASE,
)
_TIGHT = re.compile(
    r"(?<!not )(?<!not too )(?<!too )(?<!nor )(?<!or )\b(?:firm(?:ly)?|tight(?:ly)?|snug(?:ly)?"
    r"|as tight as|close(?:ly)?)\b(?! edge)",
    re.IGNORECASE,
)
_LOOSE = re.compile(r"\b(?:loose\w*|not|never|stretch\w*|elastic|easily)\b", re.IGNORECASE)
_OVER_HEAD = re.compile(
    r"\b(?:neck\w*|collar|cowl|snood|polo|turtleneck|bonnet|hood)\b", re.IGNORECASE
)
_STAYS_OPEN = re.compile(r"\b(?:bonnets?|hoods?|capelets?|bibs?|shawls?)\b", re.IGNORECASE)
"""What is open in front, so that no head passes through its edge where it is worked flat."""


def left_in(context: Context) -> Iterator[Finding]:
    """Markers and pins that are hung into the work, and that no text takes out again."""
    texts = list(sentences(context))
    hung = [
        (sentence, found)
        for sentence in texts
        for found in sentence.said(_HUNG)
        if not _OF_ROUND.search(sentence.words)
    ]
    if not hung or any(_TAKEN.search(sentence.words) for sentence in texts):
        return
    sentence, found = hung[0]
    yield Finding(
        f"`{quoted(found)}`, and no text takes them out again: what stays in is swallowed",
        sentence.place(found),
        "Say where they are taken out",
        beside=tuple(_ends(context, sentence.prose.piece)),
    )


def _ends(context: Context, piece: str | None) -> Iterator[Span]:
    """The texts where they may be taken out: the last of the piece, and the finishing."""
    last = [prose for prose in context.prose if prose.piece == piece and piece is not None]
    finishing = [prose for prose in context.prose if prose.path[:1] == ("finishing",)]
    yield from (prose.span for prose in (*last[-2:], *finishing))


def tight_edges(context: Context) -> Iterator[Finding]:
    """A neck that is said to be bound off tight."""
    for prose in context.prose if context.in_english else ():
        if prose.kind is not TextUse.STEP or prose.path[-1] != "how" or prose.piece is None:
            continue
        piece = context.pattern.pieces[prose.piece]
        before = reversed(piece.steps[: int(prose.path[3])])
        heading = next((step.section for step in before if isinstance(step, SectionStep)), "")
        named = f"{piece.title} {heading}"
        if piece.worked == "flat" and _STAYS_OPEN.search(f"{named} {context.pattern.title}"):
            continue
        if not _OVER_HEAD.search(named) or _LOOSE.search(prose.text):
            continue
        for found, place in prose.found(_TIGHT):
            yield Finding(
                f"`{found[0]}` at an edge that a child's head passes through: what needs force "
                f"hurts "
                "ears and neck",
                place,
                "Bind off loosely, or with a larger needle",
            )
            break
