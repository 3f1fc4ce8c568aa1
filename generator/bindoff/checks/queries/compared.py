"""What is said to be larger, longer or tighter than something else, and colours by their names."""

from collections.abc import Iterator

from bindoff.checks.queries.sentence import Doubt, Told
from bindoff.checks.queries.tools import NEEDLE
from bindoff.checks.texts.told.truths import phrase

_MORE = phrase(
    r"\b(?:larger|smaller|longer|shorter|wider|narrower|tighter|looser|deeper|shallower|higher"
    r"|thicker|thinner|darker|lighter|bigger|tallest|widest|narrowest)\b"
)
_COLOURS = phrase(
    r"\b(?:light|dark|pale|red|white|black|yellow|blue|green|gr[ae]y|brown|orange|pink)"
    r"(?! (?:in|after|on|and warm))\b"
)
_BOTH = tuple(
    (phrase(rf"\b{one}\b"), phrase(rf"\b{other}\b"))
    for one, other in (("longer", "shorter"), ("larger", "smaller"), ("wider", "narrower"))
)
_FREE = phrase(r"\b(?:no|any|much|made|be|little) $")
_SIZES = phrase(r"^ (?:sizes?|ones?|figures)\b")


def comparisons_doubted(told: Told) -> Iterator[Doubt]:
    """Each comparison that is not one of needles at a step, or of two ways to choose from."""
    words = told.words
    if told.sentence.supposes or any(a.search(words) and b.search(words) for a, b in _BOTH):
        return
    needles = [each.span() for each in NEEDLE.finditer(words)] if told.scene.plan else []
    for found in _MORE.finditer(words):
        at_needles = any(start <= found.start() < end for start, end in needles)
        free = _FREE.search(words[: found.start()]) or _SIZES.search(words[found.end() :])
        if not at_needles and not free:
            yield Doubt(*found.span(), "nothing compares the two")


def colours_doubted(told: Told) -> Iterator[Doubt]:
    """Each colour that goes by no yarn's name."""
    for found in _COLOURS.finditer(told.words):
        yield Doubt(*found.span(), f"nothing says what is {found[0].lower()}")
