"""The sentences of a text, and what in one makes it no plain statement."""

from collections.abc import Iterator
from functools import lru_cache

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.prose import Prose
from bindoff.diagnostics import Span
from bindoff.records import Record
from bindoff.source.denials import left_off
from bindoff.source.model import TextUse

TOLD = (TextUse.HEAD, TextUse.STEP, TextUse.TEXT)
"""The texts that speak in sentences."""

# A point between figures, or of an initial, ends none.
_SENTENCE = re.compile(r"(?:[^.!?]|\.(?=\d)|(?<=[\s(][A-Z])(?<![°º\d] [A-Z])\.(?= [A-Z]))+[.!?]?")
_SUPPOSED = re.compile(
    r"\b(?:if|unless|would|could|might|were to|instead|rather than|prefer|lest|whether|or else)\b",
    re.IGNORECASE,
)


class Sentence(Record):
    """A sentence of a text: its words, and where in the text it begins."""

    prose: Prose
    words: str
    start: int

    @property
    def supposes(self) -> bool:
        """Whether it tells what may be, or what else may be done."""
        return _SUPPOSED.search(self.words) is not None

    def supposes_before(self, found: "re.Match[str]") -> bool:
        """Whether it supposes something up to the end of what was found in it."""
        return _SUPPOSED.search(self.words, 0, found.end()) is not None

    def place(self, found: "re.Match[str]") -> Span:
        """The place of what was found in its words."""
        return self.prose.place(self.start + found.start(), self.start + found.end())

    def said(self, pattern: "re.Pattern[str]") -> Iterator["re.Match[str]"]:
        """What it says of ``pattern`` without leaving it off."""
        for found in pattern.finditer(self.words):
            if not left_off(self.words[: found.start()], self.words[found.end() :]):
                yield found


def sentences(context: Context, *kinds: TextUse) -> Iterator[Sentence]:
    """Every sentence of the texts of these kinds, or of all that speak in sentences; of a pattern
    in English alone."""
    if not context.in_english:
        return
    for prose in context.prose:
        if prose.kind in (kinds or TOLD):
            yield from sentences_of(prose)


def sentences_of(prose: Prose) -> Iterator[Sentence]:
    """Every sentence of a text."""
    for words, start in _parted(prose.text):
        yield Sentence(prose, words, start)


@lru_cache(maxsize=512)
def _parted(text: str) -> tuple[tuple[str, int], ...]:
    """The sentences of a text and where each begins; many checks ask for those of one pattern."""
    found = _SENTENCE.finditer(text)
    return tuple((each[0], each.start()) for each in found if each[0].strip())
