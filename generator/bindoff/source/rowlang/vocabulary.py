"""What a word of a row can mean: a stitch with its number, or a yarn; and words it may have meant.

``RESERVED`` are the row language's own words, which no stitch or yarn may be called.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from difflib import get_close_matches

from bindoff.craft.book import Stitch, StitchBook

# fmt: off
RESERVED = frozenset(
    {
        "across", "all", "and", "around", "before", "below", "bind", "bo", "cast", "chain", "chains",
        "co", "corner", "corners", "each", "end", "ends", "fasten", "first", "from", "hold",
        "in", "into", "knitwise", "kwise", "last", "m", "marker", "mk", "more", "next", "of",
        "off", "on", "once", "one", "pick", "place", "pm", "purlwise", "pwise", "remove", "rep",
        "repeat", "rm", "rnd", "round", "row", "same", "sm", "st", "stitch", "stitches", "sts",
        "tbl", "the", "time", "times", "to", "turn", "twice", "up", "w&t", "with", "wrap",
        "wyib", "wyif",
    }
)
# fmt: on

PHRASES = {
    "bind": "bind off",
    "cast": "cast on",
    "fasten": "fasten off",
    "pick": "pick up and knit",
    "place": "place marker",
    "remove": "remove marker",
    "wrap": "w&t",
}
"""Sayings of several words by their first."""

_GLUED = re.compile(r"([a-z][a-z_]*?)(\d*)(tbl|wyib|wyif)?")


@dataclass(frozen=True, slots=True)
class Said:
    """A stitch as one word names it: ``k2`` is the stitch k with the number 2."""

    stitch: Stitch
    number: int | None = None
    how: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Vocabulary:
    """The words of one pattern's rows; ``yarns`` maps a yarn in lower case to its id."""

    book: StitchBook
    yarns: Mapping[str, str]

    def stitch(self, word: str) -> Said | None:
        """The stitch that the lower-case ``word`` names, or ``None``."""
        if whole := self.book.find(word):
            if not whole.base:
                return Said(whole)
            base = self.book[whole.base]  # ktbl is k1 tbl, p2togtbl is p2tog tbl
            return Said(base, 1 if base.counted else None, whole.how)
        if foreign := self.book.foreign(word):
            return Said(foreign)
        if not (parts := _GLUED.fullmatch(word)):
            return None
        letters, digits, how = parts.groups()
        base = self.book.find(letters)
        if base is None or not base.counted:
            return None
        number = int(digits) if digits else None
        return Said(base, 1 if number is None and how else number, (how,) if how else ())

    def knows(self, word: str) -> bool:
        """Whether the lower-case ``word`` is a stitch or a yarn."""
        return word in self.yarns or self.stitch(word) is not None

    def nearest(self, word: str) -> str | None:
        """The known word most like ``word``, its number kept, or ``None`` if nothing is near."""
        if word in PHRASES:
            return PHRASES[word]
        letters = word.rstrip("0123456789")
        digits = word[len(letters) :]
        if digits and letters in self.book.by_name:
            return f"{letters} {digits} times"
        names = [*self.book.by_name, *sorted(RESERVED), *self.yarns]
        if near := get_close_matches(word, names, n=1, cutoff=0.66):
            return self.yarns.get(near[0], near[0])
        counted = [name for name, stitch in self.book.by_name.items() if stitch.counted]
        if digits and (near := get_close_matches(letters, counted, n=1, cutoff=0.6)):
            return near[0] + digits
        return None
