"""Headings and names in quotation marks that texts send the reader to."""

from collections.abc import Iterator

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.engine import Finding
from bindoff.checks.named.world import World
from bindoff.checks.sentencesof import Sentence
from bindoff.document.tree import Heading, plain

_QUOTED = re.compile(
    r"\b(?:see|under|in|to|from|at|of|as for|like|section|heading|part|chart|and|called)"
    r"(?: (?:the|section|heading|part|chart|notes? (?:on|about)))*"
    r" [“\"‘']([A-Z][\w’' -]{2,40})[”\"’']"
    r"|\b[Ss]ee (?:also )?(?:the )?(?:section |notes? (?:on|about) )?"
    r"([A-Z][a-z]{3,}(?: [a-z]+){0,2})(?=[.,;)]|$)"
)


def _headings(context: Context) -> Iterator[str]:
    for block in context.document.blocks:
        if isinstance(block, Heading):
            yield plain(block.children).lower()


def headings_named(world: World, sentence: Sentence) -> Iterator[Finding]:
    """Every heading, chart or technique that there is none of."""
    for found in _QUOTED.finditer(sentence.words):
        name = found[found.lastindex or 0]
        words = re.findall(r"[a-z]{3,}", name.lower())
        there = f"{world.called} | {' | '.join(_headings(world.context))}"
        if words and not all(re.search(rf"\b{word[:5]}", there) for word in words):
            yield Finding(f"there is nothing called `{name}`", sentence.place(found))
