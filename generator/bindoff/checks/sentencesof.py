"""The sentences of a text, and what in one makes it no plain statement."""

from collections.abc import Iterable, Iterator
from functools import lru_cache
from itertools import pairwise

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.prose import HOLE, Prose, matches
from bindoff.diagnostics import Span
from bindoff.records import Record
from bindoff.source.denials import left_off
from bindoff.source.model import TextUse

TOLD = (TextUse.HEAD, TextUse.STEP, TextUse.TEXT)
"""The texts that speak in sentences."""

# A statement ends at a full stop or a semicolon; the point of an initial ends none. A figure behind
# its name on a line of its own is one too.
_END = re.compile(
    r"(?<=[.;!?])(?<![\s(][A-Z]\.)\s+(?=[A-Z“\"'(\d" + HOLE + r"a-z])|(?<=[°º\d] [CF]\.)\s+"
    r"|(?<=\w)\n(?=\w[^\n:.;!?]{0,60}: [^\n]{0,60}\d)"
)
_LONGEST = 1500
"""Characters of a sentence: what is longer is none, and is read in parts, so that a text takes a
time that grows as its length does."""
_SUPPOSED = re.compile(
    r"\b(?:(?<!as )if|unless|would|could|might|may|were to|instead|rather than|prefer|lest|whether"
    r"|or else)\b",
    re.IGNORECASE,
)
_WARNED = re.compile(
    r"\b(?:never|not|no|nor|nothing|without|avoid|unsuitable|unsafe|keep [^.;:]{0,30}away|danger\w*"
    r"|swallow\w*|choke\w*|would|(?:should|must) be sewn|cannot|lest)\b|n['’]t\b",
    re.IGNORECASE,
)


_GOES_ON = re.compile(
    r"(?:[,:] (?:so|but|and) |: )(?=if|unless|should you|would you|you (?:could|might|may))|; ",
    re.IGNORECASE,
)


_CHOICE = ("or", "if", "unless", "instead", "may", "might", "could", "would", "perhaps", "maybe")


def supposing(*more: str) -> "re.Pattern[str]":
    """Words beside which a thing is one of several, or only might be; ``more`` are those that make
    it so of what one check is about."""
    words = "|".join((*_CHOICE, "try", "prefer", *more))
    return re.compile(rf"\b(?:{words})\b", re.IGNORECASE)


class Sentence(Record):
    """A sentence of a text: its words, and where in the text it begins."""

    prose: Prose
    words: str
    start: int

    @property
    def supposes(self) -> bool:
        """Whether it tells what may be, or what else may be done."""
        return _SUPPOSED.search(self.words) is not None

    @property
    def warns(self) -> bool:
        """Whether it speaks against something, or tells the harm of it."""
        return _WARNED.search(self.words) is not None

    @property
    def plainly(self) -> "Sentence | None":
        """The part that states something before it goes on to suppose, as in `it takes 12, so if
        you want more`; all of a sentence that supposes nothing, and nothing where none is sure."""
        if not self.supposes:
            return self
        found = _GOES_ON.search(self.words)
        if found is None or _SUPPOSED.search(self.words, 0, found.start()):
            return None
        return Sentence(self.prose, self.words[: found.start()], self.start)

    def supposes_before(self, found: "re.Match[str]") -> bool:
        """Whether it supposes something up to the end of what was found in it."""
        return _SUPPOSED.search(self.words, 0, found.end()) is not None

    def place(self, found: "re.Match[str]") -> Span:
        """The place of what was found in its words."""
        return self.part(*found.span())

    def part(self, begin: int, end: int) -> Span:
        """The place of some of its words."""
        return self.prose.place(self.start + begin, self.start + end)

    def said(self, pattern: "re.Pattern[str]") -> Iterator["re.Match[str]"]:
        """What it says of ``pattern`` without leaving it off."""
        for found in matches(pattern, self.words):
            if not left_off(self.words[: found.start()], self.words[found.end() :]):
                yield found


def any_of(wordings: Iterable[str]) -> "re.Pattern[str]":
    """Any of some wordings in whole words; ``lastindex`` of what is found says which, from 1."""
    said = "|".join(f"({each})" for each in wordings)
    return re.compile(rf"(?<![\w-])(?:{said})(?![\w-])", re.IGNORECASE)


def quoted(found: "re.Match[str]") -> str:
    """What was found in a text, on one line."""
    return " ".join(found[0].split())


def sentences(context: Context, *kinds: TextUse) -> Iterator[Sentence]:
    """Every sentence of the texts of these kinds, or of all that speak in sentences; of a pattern
    in English alone."""
    if not context.in_english:
        return
    for prose in context.prose:
        if prose.kind in (kinds or TOLD):
            yield from sentences_of(prose)


def sentences_of(prose: Prose, text: str = "") -> Iterator[Sentence]:
    """Every sentence of a text, up to a full stop or a semicolon; of ``text`` for its words, where
    they are written otherwise at the same places."""
    for words, start in _parted(text or prose.text):
        yield Sentence(prose, words, start)


@lru_cache(maxsize=512)
def _parted(text: str) -> tuple[tuple[str, int], ...]:
    """The sentences of a text and where each begins; many checks ask for those of one pattern."""
    ends = [0, *(found.end() for found in _END.finditer(text)), len(text)]
    parts = ((text[start:end].rstrip(), start) for start, end in pairwise(_within(text, ends)))
    return tuple(part for part in parts if part[0])


def _within(text: str, ends: Iterable[int]) -> Iterator[int]:
    """The ``ends`` of sentences, and between those too far apart ends of words."""
    last = 0
    for end in ends:
        while end - last > _LONGEST:
            last = text.rfind(" ", last + 1, last + _LONGEST) + 1 or last + _LONGEST
            yield last
        yield (last := end)
