"""Needles as texts compare them, and whether the work goes on them."""

from collections.abc import Iterator

from bindoff import regex as re
from bindoff.checks.engine import Finding
from bindoff.checks.named.world import World
from bindoff.checks.sentencesof import Sentence, quoted
from bindoff.checks.told.numbers import NUMBER
from bindoff.checks.tools import knits

_MM = re.compile(r"(?<![\d.])(\d{1,2}(?:\.\d{1,2})?) ?mm")
_COMPARED = re.compile(
    rf"\bneedles?\b[^.;,]{{0,30}}? (?:(?:{NUMBER}|half an?|\d+(?:\.\d+)?) ?(?:mm"
    r"|milli?met(?:er|re)s?|sizes?) )?"
    r"(?:(thicker|larger|bigger)|thinner|smaller|finer) than (?:the (?:rest|others?|body|main)"
    r"|everything else|all else)",
    re.IGNORECASE,
)


def needles_compared(world: World, sentence: Sentence) -> Iterator[Finding]:
    """A needle that is said to be thicker or thinner than the rest, and is the other.

    It is the one whose `use:` has a word of the sentence.
    """
    for found in sentence.said(_COMPARED) if not sentence.supposes else ():
        uses = {
            float(size[1]): (tool.use or "").lower()
            for tool in world.context.pattern.tools
            if knits(tool.name) and (size := _MM.search(tool.name))
        }
        before = sentence.words[: found.start()].lower()
        named = [mm for mm, use in uses.items() if _is_told(use, before)]
        others = [mm for mm in uses if mm not in named]
        if len(named) != 1 or not others:
            continue
        if all((mm < named[0]) is not (found[1] is not None) for mm in others):
            there = " and ".join(f"{mm:g}" for mm in sorted(others))
            yield Finding(
                f"`{quoted(found)}` stands here, and it is {named[0]:g} mm beside {there} mm",
                sentence.place(found),
            )


def _is_told(use: str, words: str) -> bool:
    return any(
        re.search(rf"\b{re.escape(word.removesuffix('s'))}", words)
        for word in re.findall(r"[a-z]{3,}", use)
    )
