"""Sentences that name a thing only to leave it off."""

import re

_BEFORE = re.compile(
    r"\b(?:no|nothing|not|never|without|avoid|avoids|instead of|omit|omits|omitting|skip|leave off"
    r"|leave out"
    r"|leaves? (?:off|out)|rather than|free (?:of|from)|neither|nor|don['’]t|do not|replaces?"
    r"|replaced)\b(?:(?!(?:,\s(?:and\s|then\s|but\s)?|\s(?:and|then|but)\s)(?:sew|stitch|knot|tie|add|hang|attach|work|make|put|thread"
    r"|crochet|knit|fix|fasten)\b)[^.;:!?]){0,40}$",
    re.IGNORECASE,
)
_AFTER = re.compile(
    r"^[^.;:!?]{0,40}\b(?:(?:is|are|be) (?:left (?:off|out)|omitted|not)|isn['’]t|aren['’]t"
    r"|(?:must|should|may|can) not|(?:must|should)n['’]t|can['’]t|cannot|have no place)\b",
    re.IGNORECASE,
)


def left_off(before: str, after: str) -> bool:
    """Whether words ``before`` or ``after`` a thing, in its sentence, leave it off."""
    return _BEFORE.search(before) is not None or _AFTER.search(after) is not None
