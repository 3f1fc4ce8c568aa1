"""Multiples, and so many stitches in so many rows."""

from collections.abc import Iterator

from bindoff.checks.queries.sentence import Doubt, Told, steps_near
from bindoff.checks.texts.told.truths import phrase
from bindoff.plan.picture import piece_gauges

_MULTIPLE = phrase(
    r"\bmultiples? of (\d+)\b(?: stitches| sts)?(?:,? (?:and|plus) (\d+)\b(?! (?:rows|rounds)))?"
)
RATE = phrase(
    r"\b(\d+)(?: (?:stitch(?:es)?|sts?))?(?: \w+)? (?:in|for|along|to|per|from)(?: every)? (\d+)"
    r" (?:rows|rounds)\b"
)
_CLOSE = 0.15
"""Three in four and four in five pass for each other, two in three and three in four do not."""


def multiples_doubted(told: Told) -> Iterator[Doubt]:
    """Each multiple that no count near is."""
    counts = {
        tuple(each.stitches for each in progress)
        for step in steps_near(told)
        for progress in (step.before, step.after)
        if any(each.stitches for each in progress)
    }
    for found in _MULTIPLE.finditer(told.words):
        number, more = int(found[1]), int(found[2] or 0)
        fits = any(all(n > more and (n - more) % number == 0 for n in each if n) for each in counts)
        if number and not fits:
            yield Doubt(*found.span(), "no count here is such a multiple")


def rates_doubted(told: Told) -> Iterator[Doubt]:
    """Each rate at which stitches are taken up in rows that no gauge of the pieces comes to."""
    pieces = told.context.pattern.pieces.values()
    rates = {
        gauge.stitches_per() / gauge.rounds_per()
        for piece in pieces
        for gauge in piece_gauges(told.context.plan.measures, piece)
    }
    for found in RATE.finditer(told.words):
        stitches, rows = int(found[1]), int(found[2])
        known = rows and any(abs(stitches / rows - rate) <= _CLOSE * rate for rate in rates)
        if not known and not told.is_proved(*found.span()):
            yield Doubt(*found.span(), "no gauge here comes to that")
