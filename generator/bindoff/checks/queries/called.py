"""What a pattern calls itself: what is made, how it fits, and whose terms it speaks."""

from collections.abc import Iterator, Mapping

from bindoff import regex as re
from bindoff.checks.queries.compared import eased
from bindoff.checks.queries.sentence import Doubt, Told
from bindoff.checks.texts.named.world import world_of
from bindoff.checks.texts.told.truths import phrase

# Words for one and the same thing; common practice, no source.
_MADE: tuple[str, ...] = (
    r"pullover|sweater|jumper|gansey|guernsey",
    r"cardigan|jacket",
    r"hat|cap|beanie|toque|bonnet|tam|beret",
    r"mittens?|mitts?",
    r"gloves?",
    r"socks?|stockings?",
    r"slippers?|bootees?|booties",
    r"scarf|scarves|stole|wrap",
    r"shawl|kerchief",
    r"cowl|snood",
    r"blanket|throw|afghan",
    r"cushion|pillow",
    r"vest|waistcoat|slipover",
)
_IS = phrase(
    r"(?:^|\b(?:is|are)) (?:an?|the|these|this) (?:[\w-]+ ){0,4}?$|^(?:an?|the) (?:[\w-]+ ){0,4}?$"
)
_FITS: Mapping[str, int] = {
    r"room(?:y|ier)|generous(?:ly)?|loose(?:ly)?(?: |-)fitting|oversized?|relaxed": 1,
    r"close(?:ly)?[- ]fitting|snug(?:ly)?|tight(?:ly)?[- ]fitting|figure[- ]hugging": -1,
}
_FIT = {phrase(rf"\b(?:{words})\b"): sign for words, sign in _FITS.items()}
_TERMS = phrase(
    r"\b(US|UK|British|American|English)\b(?: \w+)? (?:terms?|names|words|abbreviations)\b"
)
_CLOSE_MM = 25.0
"""What is larger than the body by less may be called either."""


def kinds_doubted(told: Told) -> Iterator[Doubt]:
    """A thing that the summary says is made, and nothing else calls so."""
    if told.scene.prose.path[:1] != ("summary",):
        return
    names = " ".join(world_of(told.context).names)
    for words in _MADE:
        for found in re.finditer(rf"(?i)\b(?:{words})s?\b", told.words):
            if _IS.search(told.words[: found.start()]) and _others_named(names, words):
                yield Doubt(*found.span(), "the titles call it otherwise")


def _others_named(names: str, words: str) -> bool:
    """Whether the titles name things, and none of these."""
    named = [each for each in _MADE if re.search(rf"(?i)\b(?:{each})s?\b", names)]
    return bool(named) and words not in named


def fits_doubted(told: Told) -> Iterator[Doubt]:
    """What is called roomy and is not larger than the body, or snug and is much larger."""
    fits = eased(told.context)
    if told.scene.plan is not None or not fits or told.sentence.supposes:
        return
    for pattern, sign in _FIT.items():
        for found in pattern.finditer(told.words):
            if not any(all(mm * sign > -_CLOSE_MM * (sign < 0) for mm in f.mm) for f in fits):
                yield Doubt(*found.span(), "the finished sizes don't say so")


def terms_doubted(told: Told) -> Iterator[Doubt]:
    """Terms of a country that are not those of the pattern."""
    for found in _TERMS.finditer(told.words):
        country = "US" if found[1] in ("US", "American") else "UK"
        if country != told.context.pattern.terms and not told.sentence.supposes:
            yield Doubt(*found.span(), f"the pattern's terms are {told.context.pattern.terms}")
