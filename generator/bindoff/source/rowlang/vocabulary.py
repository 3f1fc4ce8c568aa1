"""What a word of a row can mean: a stitch with its number, or a yarn; and what is near it."""

from collections.abc import Mapping
from difflib import get_close_matches

from bindoff import regex as re
from bindoff.craft.book import Stitch, StitchBook
from bindoff.records import Record
from bindoff.source.rowlang.sayings import RESERVED

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

_ALIKE = 0.66  # of 1, how alike two spellings are, at least
_ALIKE_WORD = 0.75
_LEAST_LETTERS = 4  # shorter words look like too many others
_MOST_NEAR = 3

_GLUED = re.compile(r"([a-z][a-z_]*?)(\d*)(tbl|wyib|wyif)?")


class NamedStitch(Record):
    """A stitch as one word names it: ``k2`` is the stitch k with the number 2."""

    stitch: Stitch
    number: int | None = None
    how: tuple[str, ...] = ()


class PatternNames(Record):
    """What rows may call the stitch patterns and the charts of a pattern.

    Both map a name in lower case to the key.
    """

    stitch: Mapping[str, str] = {}
    chart: Mapping[str, str] = {}

    def __bool__(self) -> bool:
        return bool(self.stitch or self.chart)


NO_NAMES = PatternNames()


class Vocabulary(Record):
    """The words of one pattern's rows; ``yarns`` maps a yarn in lower case to its id."""

    book: StitchBook
    yarns: Mapping[str, str]
    patterns: PatternNames = NO_NAMES

    def stitch(self, word: str) -> NamedStitch | None:
        """The stitch that the lower-case ``word`` names, or ``None``."""
        if whole := self.book.find(word):
            if not whole.base:
                return NamedStitch(whole)
            base = self.book[whole.base]  # ktbl is k1 tbl, p2togtbl is p2tog tbl
            return NamedStitch(base, 1 if base.counted else None, whole.how)
        foreign = self.book.foreign(word)
        if foreign is not None:
            return NamedStitch(foreign)
        if not (parts := _GLUED.fullmatch(word)):
            return None
        letters, digits, how = parts.groups()
        counted = self.book.find(letters)
        if counted is None or not counted.counted:
            return None
        number = int(digits) if digits else None
        return NamedStitch(counted, 1 if number is None and how else number, (how,) if how else ())

    def knows(self, word: str) -> bool:
        """Whether the lower-case ``word`` is a stitch or a yarn."""
        named = word in self.patterns.stitch or word in self.patterns.chart
        return named or word in self.yarns or self.stitch(word) is not None

    def exactly(self, word: str) -> str | None:
        """What says the same as the unknown lower-case ``word`` beyond doubt, or ``None``."""
        if word in PHRASES:
            return PHRASES[word]
        letters = word.rstrip("0123456789")
        digits = word[len(letters) :]
        if digits and letters in self.book.by_name:
            return f"{letters} {digits} times"
        return None

    def near(self, word: str) -> tuple[str, ...]:
        """Known words that look like ``word``, likeliest first: stitches with what they do.

        None of them is a reading of it: one letter can change the fabric.
        """
        stitches = near_stitches(self.book, word)
        others = {name: name for name in RESERVED if len(name) >= _LEAST_LETTERS}
        others |= self.yarns
        matches = get_close_matches(word, others, n=1, cutoff=_ALIKE_WORD)
        return (*stitches, *(f"`{others[match]}`" for match in matches))


def near_stitches(book: StitchBook, word: str) -> tuple[str, ...]:
    """Stitches spelled much like the lower-case ``word``, each with what it does."""
    letters = word.rstrip("0123456789")
    digits = word[len(letters) :]
    names = get_close_matches(word, book.by_name, n=_MOST_NEAR, cutoff=_ALIKE)
    found = {book.by_name[name].id: (name, book.by_name[name]) for name in reversed(names)}
    if digits and not found:
        counted = [name for name, stitch in book.by_name.items() if stitch.counted]
        for name in get_close_matches(letters, counted, n=1, cutoff=0.6):
            found[name] = (name + digits, book.by_name[name])
    return tuple(
        f"`{name}` ({stitch.wording(book.terms).name}, {change(stitch)})"
        for name, stitch in reversed(found.values())
    )


def change(stitch: Stitch) -> str:
    """``uses 2 stitches and makes 1``."""
    uses = f"uses {stitch.consumes} stitch{'' if stitch.consumes == 1 else 'es'}"
    if stitch.produces < 0:
        return f"lifts {-stitch.produces} over"
    return f"{uses} and makes {stitch.produces}"
