"""What is said to be larger, longer or tighter than something else, and colours by their names."""

from collections.abc import Iterator

from bindoff.checks.context import Context
from bindoff.checks.keys.sizes import bodies
from bindoff.checks.queries.sentence import Doubt, Told
from bindoff.checks.queries.tools import NEEDLE
from bindoff.checks.texts.facts import may_be_called
from bindoff.checks.texts.told.truths import phrase
from bindoff.plan.fit import Fitted, fitted
from bindoff.remembered import once_each

_MORE = phrase(
    r"\b(?:larger|smaller|longer|shorter|wider|narrower|tighter|looser|deeper|shallower|higher"
    r"|thicker|thinner|darker|lighter|bigger|tallest|widest|narrowest)\b"
)
_COLOURS = phrase(
    r"\b(?:light(?= (?:colou?rs?|stripes?|bands?|ones?|columns?|yarn|and dark)\b)|dark|pale|red"
    r"|white|black|yellow|blue|green|gr[ae]y|brown|orange|pink)(?! (?:in|after|on|and warm))\b"
)
_COLOURED = phrase(r"^ (?!(?:and|or|in|on|at|to|for|like|with|of)\b)[a-z]+")
_BOTH = tuple(
    (phrase(rf"\b{one}\b"), phrase(rf"\b{other}\b"))
    for one, other in (("longer", "shorter"), ("larger", "smaller"), ("wider", "narrower"))
)
_FREE = phrase(r"\b(?:no|any|much|made|be|little) $")
_SIZES = phrase(r"^ (?:sizes?|ones?|figures)\b")
_WEARER = phrase(
    r"\b(?:head|foot|feet|hand|chest|bust|wrist|calf|leg|ankle|neck|hips?|waist|body|wearer)s?\b"
)
_ROOM = ("larger", "looser", "wider", "bigger")
_TIGHT = ("smaller", "tighter", "narrower")


def comparisons_doubted(told: Told) -> Iterator[Doubt]:
    """Each comparison that is not one of needles at a step, or of two ways to choose from."""
    words = told.words
    if told.sentence.supposes or any(a.search(words) and b.search(words) for a, b in _BOTH):
        return
    needles = [each.span() for each in NEEDLE.finditer(words)] if told.scene.plan else []
    for found in _MORE.finditer(words):
        at_needles = any(start <= found.start() < end for start, end in needles)
        free = _FREE.search(words[: found.start()]) or _SIZES.search(words[found.end() :])
        if not at_needles and not free and not _is_ease(told, found[0].lower()):
            yield Doubt(*found.span(), "nothing compares the two")


def _is_ease(told: Told, more: str) -> bool:
    """Whether something is said to be larger or smaller than the wearer, as it is in all sizes."""
    if more not in (*_ROOM, *_TIGHT) or not _WEARER.search(told.words):
        return False
    fits = eased(told.context)
    return bool(fits) and all((mm > 0) is (more in _ROOM) for fit in fits for mm in fit.mm)


@once_each
def eased(context: Context) -> tuple[Fitted, ...]:
    """What is finished around the bodies of the sizes."""
    return tuple(fitted(context.plan.measures.finished, dict(bodies(context))))


def colours_doubted(told: Told) -> Iterator[Doubt]:
    """Each colour that no yarn has, and all where a sentence gives several to several things."""
    every = list(_COLOURS.finditer(told.words))
    things = [found for found in every if _COLOURED.search(told.words[found.end() :])]
    yarns = [yarn.colour for yarn in told.context.pattern.yarns.values()]
    for found in every:
        known = any(may_be_called(found[0].lower(), colour) for colour in yarns)
        if not known or len(things) > 1:
            yield Doubt(*found.span(), f"nothing says what is {found[0].lower()}")
