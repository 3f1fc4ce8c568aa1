"""Whether a pattern's texts sew edges together with yarn: the source has no key for seams."""

from bindoff import regex as re
from bindoff.remembered import once_each
from bindoff.source.denials import left_off
from bindoff.source.model import TextUse
from bindoff.source.pattern import Pattern
from bindoff.source.texts import texts

_TOLD_IN = frozenset({TextUse.TEXT, TextUse.STEP})

# What is put on, and not joined edge to edge.
_PUT_ON = (
    r"(?![^.;:!?]{0,40}\b(?:buttons?|beads?|bells?|eyes?|labels?|zips?|zippers?|snaps?|hooks?"
    r"|pom-?pom|tassels?|ribbons?|elastic|ends?|tails?|soles?)\b)"
)
_PARTS = (
    r"(?:together|to each other|closed|shut|up|into place|in place|all a?round|sides?"
    r"|shoulders?|sleeves?|caps?|edges?|underarms?|crotch|panels?|squares|strips|blocks|halves|pieces|fronts?"
    r"|backs?|collar|hood|pockets?|bands?|gusset|crown|toe|cuffs?|flaps?)"
)
_SEWS = re.compile(
    r"\bmattress[- ]stitch|\bback[- ]?stitch\w*|\bwhip[- ]?stitch\w*|\boversew\w*|\bovercast\w*"
    r"|\b(?:sew|join|close|work|finish|stitch)\w*\b[^.;:!?]{0,60}\bseams?\b"
    r"|\bseam (?:the|up|both|each|it|them|side|sleeves?|shoulders?|together|all)\b"
    rf"|\bsew(?:ing|n)?\b{_PUT_ON}[^.;:!?]{{0,60}}\b{_PARTS}\b",
    re.IGNORECASE,
)
_BY_THREAD = re.compile(
    r"\b(?:with|in) (?:\w+ )?(?:sewing )?(?:thread|cotton|machine)\b|\bby machine\b"
)
_SENTENCE = re.compile(r"[^.;!?]+")


@once_each
def sews_seams(pattern: Pattern) -> bool:
    """Whether a step or a text of the pattern has edges sewn together, and not with thread."""
    return any(
        _sewn(sentence[0])
        for text in texts(pattern)
        if text.use in _TOLD_IN
        for sentence in _SENTENCE.finditer(text.place.text)
    )


def _sewn(sentence: str) -> bool:
    found = _SEWS.search(sentence)
    if found is None or _BY_THREAD.search(sentence):
        return False
    return not left_off(sentence[: found.start()], sentence[found.end() :])
