"""Numbers as sentences write them, in figures and words."""

from bindoff import regex as re

TENS = {
    word: 10 * tens
    for tens, word in enumerate(
        ["twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"], 2
    )
}
ONES = {
    word: count
    for count, word in enumerate(
        [
            "one",
            "two",
            "three",
            "four",
            "five",
            "six",
            "seven",
            "eight",
            "nine",
            "ten",
            "eleven",
            "twelve",
            "thirteen",
            "fourteen",
            "fifteen",
            "sixteen",
            "seventeen",
            "eighteen",
            "nineteen",
        ],
        1,
    )
}
_ORDINALS = {
    word: count
    for count, word in enumerate(
        [
            "first",
            "second",
            "third",
            "fourth",
            "fifth",
            "sixth",
            "seventh",
            "eighth",
            "ninth",
            "tenth",
            "eleventh",
            "twelfth",
        ],
        1,
    )
} | {"other": 2, "alternate": 2}

NUMBER = r"\d+"
"""Matches a whole number of a text whose numbers are ``in_figures``."""

IN_WORDS = rf"(?:(?:{'|'.join(TENS)})(?:[-\s](?:{'|'.join(ONES)}))?|(?:{'|'.join(ONES)}))"
"""Matches a whole number in words; letter case is to be ignored."""

_WRITTEN = re.compile(rf"\b{IN_WORDS}\b", re.IGNORECASE)


def in_figures(text: str) -> str:
    """A text with its numbers in words as figures, after spaces that keep its length."""
    return _WRITTEN.sub(lambda found: str(number_of(found[0])).rjust(len(found[0])), text)


ORDINAL = rf"(?:\d+(?:st|nd|rd|th)|{'|'.join(_ORDINALS)})"
"""Matches ``4th`` or ``fourth``, and ``other`` as in ``every other row``."""

TIMES = rf"(?:once|twice|thrice|{NUMBER}(?:\s+more)?\s+times)"
"""Matches ``twice``, ``6 times`` and ``six more times``."""


def number_of(written: str) -> int:
    """``24`` or ``twenty-four`` as a number; 0 where it is none."""
    if written.isdigit():
        return int(written)
    words = written.lower().replace("-", " ").split()
    return sum(TENS.get(word, ONES.get(word, 0)) for word in words)


def ordinal_of(written: str) -> int:
    """``4th`` or ``fourth`` as a number."""
    found = re.match(r"\d+", written)
    return int(found[0]) if found else _ORDINALS[written.lower()]


def times_of(written: str) -> int:
    """``twice``, ``6 times`` or ``six more times`` as a number."""
    words = written.lower().split()
    once = {"once": 1, "twice": 2, "thrice": 3}
    return once.get(words[0]) or number_of(" ".join(w for w in words if w not in ("more", "times")))
