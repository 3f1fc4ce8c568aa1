"""The order of work that texts tell, against the order of sections, pieces and steps."""

from collections.abc import Iterator

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.engine import Finding, check
from bindoff.checks.sentencesof import Sentence, sentences
from bindoff.checks.texts.named.judges import IN_TURN, judged
from bindoff.diagnostics import Severity
from bindoff.source.steps.edging import EdgingStep


@check(
    id="prose.order",
    title="Work is done in the order in which it is told",
    looks_at="sections said to come first or last, `from the cuff to the toe`, toe-up and the "
    "like, against the order of sections; stuffing after what closes a piece; sewing before and "
    "after an edging along all pieces",
    why="a knitter who follows the words finds the hole closed before it is filled, or the work "
    "begun at the wrong end",
    severity=Severity.WARNING,
    remedy="Tell it in the order of the steps, or put the steps in the order that is told",
)
def order_told(context: Context) -> Iterator[Finding]:
    """One finding for each sentence."""
    for sentence in sentences(context):
        yield from _filled(sentence)
        yield from _edged(context, sentence)
    yield from judged(context, IN_TURN)


def _plainly(sentence: Sentence, pattern: "re.Pattern[str]") -> Iterator["re.Match[str]"]:
    """What a sentence says without supposing it."""
    return (each for each in sentence.said(pattern) if not sentence.supposes_before(each))


_CLOSED = (
    r"(?:the last (?:round|row|stitches)|(?:it|they|(?:all )?the \w+(?: \w+)?) (?:is|are|has been"
    r"|have "
    r"been) (?:all )?"
    r"(?:closed|sewn (?:up|shut|together)|gathered|drawn (?:up|shut|together|closed)|grafted)"
    r"|(?:closing|gathering|sewing up|sewing shut|fastening off|drawing (?:up|it) )(?: \w+){0,3})"
)
_FILLED_AFTER = re.compile(
    rf"\b(?:stuff|fill|line)\b(?: \w+){{1,4}}? (?:only )?(?:after|once|when) {_CLOSED}"
    rf"|\b(?:after|once|when) {_CLOSED},? (?:stuff|fill|line)\b",
    re.IGNORECASE,
)
_INSIDE_AFTER = re.compile(
    r"\b(?:weave|darn|sew|work|run|hide|thread) (?:in )?(?:all )?(?:the |your )?(?:loose )?"
    r"(?:yarn )?(?:ends|tails)\b[^.;]{0,20}?\b(?:inside|wrong side)\b[^.;]{0,40}?"
    r"\b(?:after|once|when)"
    r" (?:you (?:have |'ve )?|it (?:is|has been) |both (?:ends )?(?:are|have been) |the (?:tube|toy"
    r"|ends?|bag|ball|scarf|piece) (?:is|are|has been|have been) )?(?:all )?"
    r"(?:closed|closing|sewn (?:up|shut)|grafted|gathered|stuffed)\b",
    re.IGNORECASE,
)
_RUNS = re.compile(
    r"\b(?:pull|take|remove|unravel|unpick|undo|cut|draw|rip)\w*(?: out| off)?[^.;,]{0,25}?"
    r"\b(?:waste|scrap) yarn\b[^.;,]{0,20}? before [^.;]{0,40}?\b(?:graft\w*|gather\w*|sewn?"
    r"|clos\w+|bound|secured?|joined|finished|caught)\b",
    re.IGNORECASE,
)
_CAUGHT = re.compile(
    r"\b(?:needles?|holders?|thread(?:ed)?|slip|put|place|pick|catch|caught|lifeline|hook)\b",
    re.IGNORECASE,
)
_STILL_OPEN = re.compile(
    r"\b(?:opening|gap|through|almost|nearly|all but|half|hole in|leave|left open"
    r"|except|partly"
    r")\b",
    re.IGNORECASE,
)


def _filled(sentence: Sentence) -> Iterator[Finding]:
    """What is filled when there is no way in any more."""
    for found in _plainly(sentence, _FILLED_AFTER):
        if not _STILL_OPEN.search(sentence.words):
            yield Finding(
                f"`{found[0].strip()}`: what is closed can't be filled", sentence.place(found)
            )
            return
    for found in _plainly(sentence, _INSIDE_AFTER):
        if not _STILL_OPEN.search(sentence.words):
            yield Finding(
                f"`{found[0].strip()}`: nobody reaches the inside of what is closed",
                sentence.place(found),
            )
            return
    for found in _plainly(sentence, _RUNS):
        if not _CAUGHT.search(sentence.words):
            yield Finding(
                f"`{found[0].strip()}`: open loops run as soon as the waste yarn is out",
                sentence.place(found),
                "Take it out when the loops are held otherwise",
            )
            return


_SEWN_AFTER = re.compile(
    r"\b(?:sew|join|seam|graft|piece)\b[^.;]{0,40}?\b(?:squares?|pieces|blocks?|motifs?|strips?"
    r"|panels?)\b"
    r"[^.;]{0,30}?\b(?:after|once|when|as soon as) (?:the |all )?(border|edging|edge)\b[^.;,]{0,25}"
    r"|\b(?:after|once|when|as soon as) (?:the |all )?(border|edging|edge)\b[^.;]{0,25}?,? (?:sew"
    r"|join|seam|graft|piece)\b"
    r"[^.;]{0,40}?\b(?:squares?|pieces|blocks?|motifs?|strips?|panels?)\b",
    re.IGNORECASE,
)
_OF_EACH = re.compile(r"\b(?:each|every|single)\b", re.IGNORECASE)


def _edged(context: Context, sentence: Sentence) -> Iterator[Finding]:
    """Pieces that are sewn together after the edging that goes around all of them."""
    many = any(piece.make > 2 for piece in context.pattern.pieces.values())
    around = any(
        piece.make == 1 and isinstance(step, EdgingStep)
        for piece in context.pattern.pieces.values()
        for step in piece.steps
    )
    for found in _plainly(sentence, _SEWN_AFTER) if many and around else ():
        if not _OF_EACH.search(found[0]):
            yield Finding(
                f"`{found[0].strip()}`, and the {found[1] or found[2]} goes around all of them",
                sentence.place(found),
            )


CHECKS = (order_told,)
