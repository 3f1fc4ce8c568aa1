"""Numbers as sentences write them, in figures and words."""

import re

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

NUMBER = rf"(?:\d+|(?:{'|'.join(TENS)})(?:[-\s](?:{'|'.join(ONES)}))?|(?:{'|'.join(ONES)}))"
"""Matches a whole number; letter case is to be ignored."""

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
