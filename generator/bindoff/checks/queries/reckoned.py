"""Numbers that words reckon with: shares on needles, so many of so many, sums, rows to a length."""

from collections.abc import Sequence
from itertools import combinations

from bindoff import regex as re
from bindoff.checks.queries.retold import (
    is_chain_for_row,
    is_retold,
    is_row_in_words,
    on_chain,
)
from bindoff.checks.queries.sentence import Told, are_among, steps_near
from bindoff.checks.texts.told import truths
from bindoff.checks.texts.told.claimed import collected
from bindoff.checks.texts.told.truths import phrase
from bindoff.checks.walk import millimetres
from bindoff.plan.picture import piece_gauges

_OVER = phrase(r"\b(\d+) (?:needles|tips)[^.;]*$")
_ON_EACH = phrase(r"^(?: stitches)?,? (?:on|for) each(?: of (\d+))?\b")
_NEEDLES = phrase(r"^ needles\b[^.;]*? (\d+) on each")
_EACH_OF = phrase(r"\bon each of $")
_OF = phrase(r"^(?: \w+){0,2} (?:of|times) (?:the )?(\d+)(?: and (\d+) more)?")
_LABEL = phrase(r"\b(?:rows?|rounds?|rnds?) (?:\d+(?:,| (?:to|and|or)) )*$")
_MAKES = phrase(
    r"^ (stitches|sts|rows|rounds|ridges) (?:to|make|are|=|over|in) (\d+(?:\.\d+)?) ?(cm|in)"
)
_WHOLE = re.compile(r"(?<![\w.,/])\d+(?![\d.,/]*\d|[\w%°])")
_THAN = phrase(r"^(?: (?:stitches|sts))? (?:more|fewer|less) than\b")
_CLOSE = 0.04


def is_reckoned(told: Told, start: int, end: int) -> bool:
    """Whether what a sentence reckons with a number comes to a fact that is near."""
    if _LABEL.search(told.words[:start]):
        number = int(told.words[start:end])
        return _has_row(told, number) or is_row_in_words(told, number)
    return (
        _makes_length(told, start, end)
        or _is_share(told, start, end)
        or _is_product(told, start, end)
        or told.figures(start, end) in on_chain(told)
        or is_retold(told, start, end)
        or is_chain_for_row(told, start, end)
        or _is_sum(told, start, end)
        or _is_difference(told, start, end)
    )


def _has_row(told: Told, number: int) -> bool:
    """Whether a list or a chart near has so many rows."""
    steps = steps_near(told)
    rows = [len(step.rows) for step in steps]
    rows += [chart.grid.rows for step in steps for chart in step.charts]
    return number <= max(rows, default=0)


def _makes_length(told: Told, start: int, end: int) -> bool:
    """Whether so many stitches or rows come to the length that is told of them."""
    found = _MAKES.search(told.words[end:])
    if found is None:
        return False
    mm = millimetres(float(found[2]), found[3])
    number = int(told.words[start:end]) * (2 if found[1].lower() == "ridges" else 1)
    gauges = [
        gauge
        for piece in told.context.pattern.pieces.values()
        for gauge in piece_gauges(told.context.plan.measures, piece)
    ]
    wide = found[1].lower().startswith("st")
    return any(
        abs((gauge.width_of(number) if wide else gauge.height_of(number)) - mm) <= _CLOSE * mm
        for gauge in gauges
    )


def _is_share(told: Told, start: int, end: int) -> bool:
    """Whether so many stitches on each of some needles, or needles with so many each, are all."""
    left, right = told.words[:start], told.words[end:]
    if needles := _NEEDLES.search(right):
        one = told.figures(end + needles.start(1), end + needles.end(1))
        return _is_count(told, [n * int(told.words[start:end]) for n in one])
    over, each = _OVER.search(left), _ON_EACH.search(right)
    shares = (each and each[1]) or (over and each and over[1])
    if shares:
        return _is_count(told, [n * int(shares) for n in told.figures(start, end)])
    return _EACH_OF.search(left) is not None and right.startswith(" needles")


def _is_product(told: Told, start: int, end: int) -> bool:
    """Whether so many of so many, as in `17 repeats of 8`, come to a count that is near."""
    found = _OF.search(told.words[end:])
    if found is None:
        return False
    each, more = told.figures(end + found.start(1), end + found.end(1)), int(found[2] or 0)
    pairs = zip(told.figures(start, end), each, strict=True)
    return _is_count(told, [n * k + more for n, k in pairs])


def _is_sum(told: Told, start: int, end: int) -> bool:
    """Whether three or more numbers of a sentence, this one among them, come to a count that is
    near: the groups on the needles, the sections of a round; or two to one that it tells."""
    spans = [each.span() for each in _WHOLE.finditer(told.words)]
    figures = [told.figures(*span) for span in spans]
    if (start, end) not in spans:
        return False
    at = spans.index((start, end))
    for first in range(at + 1):
        for last in range(max(at + 1, first + 2), len(spans) + 1):
            total = [sum(each) for each in zip(*figures[first:last], strict=True)]
            if (last - first > 2 and _is_count(told, total)) or tuple(total) in figures:
                return True
    return False


def _is_difference(told: Told, start: int, end: int) -> bool:
    """Whether so many more, or fewer, lie between two counts of the piece."""
    plan = told.scene.plan
    if plan is None or not _THAN.search(told.words[end:]):
        return False
    counts = {
        tuple(each.stitches for each in progress)
        for step in plan.steps
        for progress in (step.before, step.after)
    }
    numbers = told.figures(start, end)
    return any(
        tuple(abs(a - b) for a, b in zip(one, other, strict=True)) == numbers
        for one, other in combinations(counts, 2)
    )


def _is_count(told: Told, numbers: Sequence[int]) -> bool:
    steps = tuple(steps_near(told))
    facts = [
        each for kind in ("stitches", "rows") for each in collected(told.context, kind, *steps)
    ]
    facts += [each for step in steps for each in truths.leaves(step, rows=True)]
    return are_among(numbers, facts)
