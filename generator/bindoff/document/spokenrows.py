"""The signs of rows in words, for a reader who listens: voices pass over brackets and stars."""

from collections.abc import Callable

from bindoff import regex as re

_BRACKETS = r"\[([^\[\]]*)\](?=\s(?:\d|once\b|twice\b|to\b))"
_INTO_ONE = r"\(([^()]*)\)\sin\snext\sstitch\b"
_FROM_STAR = r"\brepeat\sfrom\s\*"
_SENTENCE_CAPITAL = r"[A-Z][a-z]|[KP](?:\d| to\b)"
_CROSSING_OF_THREE = r"\b(\d+)/(\d+)/(\d+) (?=[A-Z]{2,4}\b)"
_CROSSING = r"\b(\d+)/(\d+) (?=[A-Z]{2,4}\b)"


def signs_in_words(text: str) -> str:
    """``text`` with the brackets and stars of repeats, and the slash of a crossing, in words.

    ``[k1, p1] 3 times``, ``(k1, yo, k1) in next stitch``, ``*k2; repeat from *``, ``2/2 RC``.
    """
    if "[" in text:
        left = ""
        while left != text:
            left = text
            text = re.sub(_BRACKETS, _opened("start of repeat, ", ", end of repeat, work it"), text)
    if "(" in text:
        text = re.sub(
            _INTO_ONE, _opened("start of group, ", ", end of group, all in next stitch"), text
        )
    if "*" in text and re.search(_FROM_STAR, text):
        text = re.sub(r"\*(\w+(?: to\b)?)", _opened("star, ", ""), text)
        text = re.sub(_FROM_STAR, "repeat from star", text)
    if "/" in text:
        text = re.sub(_CROSSING_OF_THREE, r"\1 over \3 around \2 ", text)
        text = re.sub(_CROSSING, r"\1 over \2 ", text)
    return text


def _opened(lead: str, end: str) -> Callable[[re.Match[str]], str]:
    """What stands for a sign that opens: the capital of a sentence's start moves to its words.

    A capital that belongs to an abbreviation, such as that of M1, stays.
    """

    def said(found: re.Match[str]) -> str:
        inside = found[1]
        if not re.match(_SENTENCE_CAPITAL, inside):
            return f"{lead}{inside}{end}"
        return f"{lead[0].upper()}{lead[1:]}{inside[0].lower()}{inside[1:]}{end}"

    return said
