"""The signs of rows in words, for a reader who listens: voices pass over brackets and stars."""

import re

_BRACKETS = r"\[([^\[\]]*)\](?=\s(?:\d|once\b|twice\b|to\b))"
_INTO_ONE = r"\(([^()]*)\)\sin\snext\sstitch\b"
_FROM_STAR = r"\brepeat\sfrom\s\*"
_CROSSING = r"\b(\d+)/(\d+) (?=[A-Z]{2,4}\b)"


def signs_in_words(text: str) -> str:
    """``text`` with the brackets and stars of repeats, and the slash of a crossing, in words.

    ``[k1, p1] 3 times``, ``(k1, yo, k1) in next stitch``, ``*k2; repeat from *``, ``2/2 RC``.
    """
    if "[" in text:
        left = ""
        while left != text:
            left = text
            text = re.sub(_BRACKETS, r"start of repeat, \1, end of repeat, work it", text)
    if "(" in text:
        text = re.sub(_INTO_ONE, r"start of group, \1, end of group, all in next stitch", text)
    if "*" in text and re.search(_FROM_STAR, text):
        text = re.sub(_FROM_STAR, "repeat from star", re.sub(r"\*(?=\w)", "star, ", text))
    return re.sub(_CROSSING, r"\1 over \2 ", text) if "/" in text else text
