"""Balls of yarn, and sizes by their names and places."""

from collections.abc import Iterator

from bindoff import regex as re
from bindoff.checks.queries.sentence import Doubt, Told
from bindoff.checks.texts.told.truths import phrase

BALLS = phrase(
    r"\b(\d+) (?:(?:more|full|whole|\d+ g) )?(balls?|skeins?|hanks?|cones?)\b(?: of ([A-Z]\w+))?"
)
_BALL_OF = re.compile(r"\b(?:balls?|skeins?|hanks?|cones?) of ([A-Z][a-z]\w+)")
_AGE = phrase(r"\b(\d+)(?:(?:,? (?:and|to|or) | ?[–-] ?)(\d+))? (months|years)\b")
_LISTED = phrase(r"\b(?:sizes?|figures?|those|numbers?|parenthes[ei]s|brackets|first|second)\b")
_AMONG = phrase(r"\b(?:parenthes[ei]s|brackets|first|second|then)\b")


def balls_doubted(told: Told) -> Iterator[Doubt]:
    """Each number of balls that no yarn takes in any size, and balls of no yarn."""
    totals = told.context.plan.yarn
    names = {yarn.name for yarn in told.context.pattern.yarns.values()}
    for found in BALLS.finditer(told.words) if not told.sentence.supposes else ():
        known = {
            need.balls
            for total in totals
            if found[3] not in names or told.context.pattern.yarns[total.yarn].name == found[3]
            for need in total.needs
        }
        if known and int(found[1]) not in known:
            yield Doubt(*found.span(), "the yarn comes to another number of balls")
    for found in _BALL_OF.finditer(told.words):
        if not any(name.startswith(found[1]) for name in names):
            yield Doubt(*found.span(1), "no yarn is called that")


def ages_doubted(told: Told) -> Iterator[Doubt]:
    """Each age in a list of sizes that no size is for."""
    names = " ".join(told.context.source.sizes)
    unit = next((each for each in ("months", "years") if each in names), None)
    if unit is None or not _LISTED.search(told.words):
        return
    known = set(re.findall(r"\d+", names))
    for found in _AGE.finditer(told.words):
        if found[3].lower() == unit and {found[1], found[2] or found[1]} - known:
            yield Doubt(*found.span(), "no size is for that age")


def size_order_doubted(told: Told) -> Iterator[Doubt]:
    """Sizes that are named in another order than the source's, where a sentence puts them in one;
    and a claim that is made of one size alone."""
    names = told.context.source.sizes
    if told.scene.plan is not None or len(names) < 2 or told.sentence.supposes:
        return
    words = told.raw(0, len(told.words))
    at = [(found.start(), i) for i, name in enumerate(names) if (found := _named(name, words))]
    if len(at) < 2:
        return
    order = [index for _, index in sorted(at)]
    counted = _AMONG.search(words) or re.search(r"\d", told.words)
    if order != sorted(order) or not counted:
        yield Doubt(min(at)[0], max(at)[0] + len(names[max(at)[1]]), "nothing says it of this size")


def _named(name: str, words: str) -> "re.Match[str] | None":
    """Where a size goes by its name: a short one only where it is called a size."""
    last = re.escape(name)
    sized = rf"\bsizes? {last}(?![\w’'])"
    if len(name) <= 3 or name.isdigit():
        return re.search(sized, words)
    return re.search(rf"(?i)\b{last}\b(?! \w+ing)", words)
