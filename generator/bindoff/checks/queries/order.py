"""What is done before or after something else, and what is done with what is finished."""

from collections.abc import Iterator

from bindoff import regex as re
from bindoff.checks.queries.sentence import Doubt, Told
from bindoff.checks.texts.told.truths import phrase

_ORDER = phrase(
    r"\b(?:before|after|when|once|until|as soon as)\b(?=[^.;,]*\b(?:closed|sewn|joined|stuffed"
    r"|seamed|grafted|finished|fastened|drawn|tight|turned|embroidered|blocked|washed)\b)"
    r"|\b(?:before|after) (?:you )?(?:sew|join|clos|stuff|seam|graft|fasten|embroider)(?:e|ing)?\b"
)
_JOINED = phrase(
    r"\b(?:sew|join|close|seam|graft|set in)\b([^.;:]*?)\b(first|last)\b"
    r"(?=[.,;:]|$| (?:as|and|then|with|at)\b)"
)
_JOINS = phrase(r"\b(?:sew|join|close|seam|graft|set in)\b[^.;:]*")
_SIZES = re.compile(r"(?i)\bsizes?\b[^.;(]{0,20}?\s(\S+)\s\(([^()]+)\)")
_CARE = phrase(r"\b(?:boil|hang(?:s|ing)?(?: \w+)? up|hang to dry|tumble|iron|bleach)\b")
_NOT = phrase(r"\b(?:not|never|no|don['’]t|without)\b")
_HOT = re.compile(r"(?<!\d)[5-9]\d\s?(?:°|degrees)")


def order_doubted(told: Told) -> Iterator[Doubt]:
    """Each doing that is put before or after what only words tell of."""
    for found in _ORDER.finditer(told.words):
        yield Doubt(*found.span(), "no step says in which order")


def joined_doubted(told: Told) -> Iterator[Doubt]:
    """What is sewn or joined first, or last, and is not by the order of the finishing."""
    for found in _JOINED.finditer(told.words) if not told.sentence.supposes else ():
        joins = [each[0] for each in _JOINS.finditer(told.context.pattern.finishing or "")]
        at = joins[0 if found[2].lower() == "first" else -1] if joins else ""
        words = [each[:6] for each in re.findall(r"[a-z]{4,}", found[1].lower())]
        if not any(word in at.lower() for word in words):
            yield Doubt(*found.span(), "the finishing tells another order, or none")


def care_doubted(told: Told) -> Iterator[Doubt]:
    """Harsh ways to wash and dry."""
    for pattern in (_CARE, _HOT) if not _NOT.search(told.words) else ():
        for found in pattern.finditer(told.words):
            yield Doubt(*found.span(), "nothing says that the yarn bears it")


def sizes_doubted(told: Told) -> Iterator[Doubt]:
    """A list of sizes that is not that of the source."""
    names = list(map(_one_line, told.context.source.sizes))
    for found in _SIZES.finditer(told.raw(0, len(told.words))):
        listed = list(map(_one_line, (found[1], *found[2].split(","))))
        if set(listed) & set(names) and listed != names:
            yield Doubt(*found.span(), "these are not the sizes of the source")


def _one_line(name: str) -> str:
    return " ".join(name.split())
