"""Parts of pieces and things added to them, as texts name them."""

from collections.abc import Iterator

from bindoff import regex as re
from bindoff.checks.engine import Finding
from bindoff.checks.sentencesof import Sentence
from bindoff.checks.texts.named.nouns import any_noun, noun_of
from bindoff.checks.texts.named.world import World
from bindoff.english import an

_DEFINITE = re.compile(
    r"\b(?:the|each|both|its|every|this|two)(?: (?:[a-z-]+ ){0,2})?$", re.IGNORECASE
)
_LIKE = re.compile(
    r"\b(?:like|as (?:if|though|for|in|on|with)|similar|such as|than)\b[^.;,]*$", re.IGNORECASE
)


def compared(before: str) -> bool:
    """Whether the words before a name only set something beside it: `as for the thumb`."""
    return _LIKE.search(before) is not None


def parts_named(world: World, sentence: Sentence) -> Iterator[Finding]:
    """Every part or thing that nothing else knows of."""
    for found in sentence.said(any_noun()) if not sentence.supposes else ():
        noun = noun_of(found[1])
        before = sentence.words[: found.start()]
        told = (noun.added and not world.warned) or (world.kinds and _DEFINITE.search(before))
        if told and not compared(before) and not world.has(noun):
            yield Finding(
                f"`{found[0]}` stands here, and nothing else in the pattern knows of "
                f"{an(noun.word)}",
                sentence.place(found),
            )
