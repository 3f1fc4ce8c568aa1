"""Numbers as sentences write them, in figures and words."""

from bindoff import regex as re
from bindoff.records import Record

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

_BELOW_100 = rf"(?:(?:{'|'.join(TENS)})(?:[-\s](?:{'|'.join(ONES)}))?|(?:{'|'.join(ONES)}))"
IN_WORDS = rf"(?:(?:(?:an?|{'|'.join(ONES)})\s+hundred(?:\s+and\s+{_BELOW_100})?)|{_BELOW_100})"
"""Matches a whole number in words; letter case is to be ignored."""

_WRITTEN = re.compile(rf"\b{IN_WORDS}\b", re.IGNORECASE)


def in_figures(text: str) -> str:
    """A text with its numbers in words as figures, after spaces that keep its length."""
    return _WRITTEN.sub(lambda found: str(number_of(found[0])).rjust(len(found[0])), text)


_LISTED = re.compile(r"(?<![\d.,/–-])(\d+) ?\(\s{0,12}(\d+(?:,\s{0,12}\d+)*)\)")


class Listed(Record):
    """A list of figures, one for each size, from ``start`` to ``end`` of a text."""

    start: int
    end: int
    figures: tuple[int, ...]


class Lists(Record):
    """A text in which each list of figures for the sizes, as 80 (88, 96), is one number: its first,
    after spaces that keep the length. ``lists`` are those lists."""

    text: str
    lists: tuple[Listed, ...]

    def between(self, start: int, end: int) -> Listed | None:
        """The one list that ends there; none where there are more."""
        found = [each for each in self.lists if start < each.end <= end]
        return found[0] if len(found) == 1 else None


def lists_as_numbers(text: str, sizes: int) -> Lists:
    """A text with its lists of as many figures as there are ``sizes`` as single numbers."""
    lists: list[Listed] = []

    def one(found: "re.Match[str]") -> str:
        each = (int(found[1]), *map(int, found[2].split(",")))
        if len(each) != sizes:
            return found[0]
        lists.append(Listed(*found.span(), each))
        return found[1].rjust(len(found[0]))

    return Lists(_LISTED.sub(one, text) if sizes > 1 else text, tuple(lists))


ORDINAL = rf"(?:\d+(?:st|nd|rd|th)|{'|'.join(_ORDINALS)})"
"""Matches ``4th`` or ``fourth``, and ``other`` as in ``every other row``."""

TIMES = rf"(?:once|twice|thrice|{NUMBER}(?:\s+more)?\s+times)"
"""Matches ``twice``, ``6 times`` and ``six more times``."""


def number_of(written: str) -> int:
    """``24`` or ``twenty-four`` as a number; 0 where it is none."""
    if written.isdigit():
        return int(written)
    words = written.lower().replace("-", " ").split()
    over = words.index("hundred") + 1 if "hundred" in words else 0
    hundreds = max(ONES.get(words[0], 1), 1) if over else 0
    return 100 * hundreds + sum(TENS.get(word, ONES.get(word, 0)) for word in words[over:])


def ordinal_of(written: str) -> int:
    """``4th`` or ``fourth`` as a number."""
    found = re.match(r"\d+", written)
    return int(found[0]) if found else _ORDINALS[written.lower()]


def times_of(written: str) -> int:
    """``twice``, ``6 times`` or ``six more times`` as a number."""
    words = written.lower().split()
    once = {"once": 1, "twice": 2, "thrice": 3}
    return once.get(words[0]) or number_of(" ".join(w for w in words if w not in ("more", "times")))
