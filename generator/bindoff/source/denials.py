"""Sentences that name a thing only to leave it off."""

from bindoff import regex as re

_BEFORE = re.compile(
    r"\b(?:no|nothing|not|never|without|avoid|avoids|instead of|omit|omits|omitting|skip|leave off"
    r"|leave out"
    r"|leaves? (?:off|out)|rather than|free (?:of|from)|neither|nor|don['’]t|do not|replaces?"
    r"|replaced)\b(?:(?!(?:,\s(?:and\s|then\s|but\s)?|\s(?:and|then|but)\s)(?:sew|stitch|knot|tie"
    r"|add|hang|attach|work|make|put|thread"
    r"|crochet|knit|fix|fasten)\b)[^.;:!?]){0,40}$",
    re.IGNORECASE,
)
# A warning at the head of its clause reaches as far as the clause does.
_WARNED = re.compile(
    r"(?:^|[.;:!?] |, (?:and |but )?|\b(?:please|so|and|but) )(?:please )?(?:do not|don['’]t|never)"
    r"(?: be tempted to| try to| ever)? (?:join|use|add|sew|tie|hang|connect|thread|attach|fasten"
    r"|fit|put|make|work|knit|crochet"
    r"|give|run|replace|leave|let|be)\b(?:(?!,\s(?:and|then|but)\s|\s(?:then|but"
    r"|instead)\s)[^.;:!?]){0,120}$",
    re.IGNORECASE,
)
# What a thing does to a child is said to warn of it.
_HARMS = re.compile(
    r"^ (?:[^.;:!?,]{0,30} )?(?:(?:can|could|may|might|will|would) (?:easily )?)?(?:strangles?"
    r"|chokes?|be (?:bitten|swallowed|pulled) |"
    r"catch(?:es)? (?:on|in|around)|close(?:s)? around)",
    re.IGNORECASE,
)
_AFTER = re.compile(
    r"^(?:(?!\bso\b)[^.;:!?]){0,40}\b(?:(?:is|are|be) (?:left (?:off|out)|omitted|not)|isn['’]t"
    r"|aren['’]t|(?:must|should|may|can) not|(?:must|should)n['’]t|can['’]t|cannot"
    r"|have no place)\b",
    re.IGNORECASE,
)

# ``no beads, unless you like their look`` leaves them to whoever reads it.
_ALLOWED = re.compile(r"^[^.;:!?]{0,80}\b(?:unless|except (?:if|when|where))\b", re.IGNORECASE)


def left_off(before: str, after: str) -> bool:
    """Whether words ``before`` or ``after`` a thing, in its sentence, leave it off."""
    if _ALLOWED.search(after):
        return False
    denied = _BEFORE.search(before) or _WARNED.search(before)
    return bool(denied or _AFTER.search(after) or _HARMS.search(after))


_NEXT = re.compile(
    r"\s{0,3}(?:but )?(?:(?:we|i|you|please) )?(?:leave|left|omit|omitted|skip)"
    r" (?:them|it|those|these)(?: off| out|\b(?=[.,;:]))",
    re.IGNORECASE,
)


def left_off_next(text: str, end: int) -> bool:
    """Whether the sentence behind ``end`` leaves off what the one before it names."""
    return _NEXT.match(text, end) is not None
