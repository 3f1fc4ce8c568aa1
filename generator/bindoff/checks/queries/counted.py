"""Numbers of things that the source lists: sizes, yarns, pieces, sections, notions, tools."""

from collections.abc import Iterator, Sequence

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.queries.sentence import Doubt, Told
from bindoff.checks.sentencesof import TOLD
from bindoff.checks.texts.told.numbers import in_figures
from bindoff.checks.texts.told.things import markers_there
from bindoff.source.steps.section import SectionStep

_YARNS = ("yarn", "colour", "color", "shade")
_LEAST = 3
"""Letters of a noun that may name a thing in a list."""
_LISTED = re.compile(
    r"^\s*(?:a set of )?(\d+)\s(?:[a-z][\w-]*\s){0,3}?(?!(?:cm|mm|m|in|g|lengths?)\b)([a-z]+?)"
    r"(?=,|;|\.|$|\s(?:for|of|in|to|about|with|that|one))"
)


def are_listed(told: Told, numbers: Sequence[int], end: int) -> bool:
    """Whether the source has so many of what one of the next words names."""
    words = re.findall(r"[a-z]+", " ".join(told.words[end:].split()[:3]).lower())
    nouns = [word.removesuffix("s") for word in words[:3]]
    return any(numbers[0] in _counts(told.context, noun) for noun in nouns)


def _counts(context: Context, noun: str) -> Iterator[int]:
    pattern = context.pattern
    made = sum(piece.make for piece in pattern.pieces.values())
    if noun == "size":
        yield len(pattern.sizes)
    elif noun in _YARNS:
        yield len(pattern.yarns)
    elif noun == "piece":
        yield from (len(pattern.pieces), made)
    if len(noun) < _LEAST:
        return
    word = re.compile(rf"\b{noun}s?\b", re.IGNORECASE)
    named = [piece for piece in pattern.pieces.values() if word.search(piece.title)]
    yield from (piece.make for piece in named)
    yield sum(piece.make for piece in named) or sum(
        isinstance(step, SectionStep) and word.search(step.section) is not None
        for piece in pattern.pieces.values()
        for step in piece.steps
    )
    for listed in (*pattern.notions, *(tool.name for tool in pattern.tools)):
        found = re.search(rf"(?i)\b(\d+)\b.*\b{noun}", listed)
        if found is not None:
            yield int(found[1])


def notions_doubted(told: Told) -> Iterator[Doubt]:
    """The number of a thing in the list of notions, where no sentence tells of so many."""
    found = _LISTED.search(told.words)
    if found is None:
        return
    number, noun = int(found[1]), found[2].removesuffix("s")
    if noun == "marker":
        there = markers_there(told.context, told.scene)
        sizes = len(told.context.source.sizes)
        # One more may show where the round begins.
        known = there is None or any(there.sizes_of([n] * sizes) for n in (number, number - 1))
    else:
        said = _said(told.context, noun)
        known = number in said or not said
    if not known:
        yield Doubt(*found.span(), f"no sentence tells of {number} of these")


def _said(context: Context, noun: str) -> set[int]:
    """The numbers that sentences give a thing."""
    text = " ".join(in_figures(prose.text) for prose in context.prose if prose.kind in TOLD)
    told = rf"(?i)(?<![\d.])(\d+)(?:\s[\w-]+){{0,2}}\s{noun}(?:s|es)?\b"
    return {int(each) for each in re.findall(told, text)}
